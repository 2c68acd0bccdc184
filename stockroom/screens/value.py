"""Value: what the room is worth, in a plot of a year and in tables."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import partial
from typing import ClassVar

from textual import getters, on
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Rule, Static

from stockroom.lines import value as lines
from stockroom.lines.plot import steps
from stockroom.screens.frame import Frame
from stockroom.screens.keys import Where, bindings
from stockroom.screens.marks import marked
from stockroom.screens.station import Station
from stockroom.screens.widgets.plot import Plot
from stockroom.screens.widgets.title import Title
from stockroom.work.value import Value, value

_MARGINS = 2


@dataclass
class ValueRead(Message):
    """What the room is worth was added up."""

    found: Value


class ValueScreen(Frame):
    """What is ours and what it is worth; without money where the station hides it."""

    HELP = """\
## Value

What all that is ours is worth at cost, this year week by week, and by verdict, age and lot; of what
nothing was taken for long; what was taken, discarded and missed, and how often the room is used up in a
year; what share of the film for jobs was waste. `+ ?` stands for pieces without a price.

The arrows and PgUp, PgDn move the page. Where the station hides money, pieces are counted instead.
"""
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.VALUE)]

    title_line = getters.query_one(Title)
    plot = getters.query_one(Plot)
    page = getters.query_one("#worth", Static)
    scroll = getters.query_one(VerticalScroll)

    def __init__(self, station: Station) -> None:
        super().__init__()
        self.station = station
        self._found: Value | None = None

    def body(self) -> Iterable[Widget]:
        yield Title("Value")
        yield Rule()
        yield Plot()
        with VerticalScroll():
            yield Static("Reading the book …", id="worth", markup=False)

    def on_mount(self) -> None:
        self.plot.display = self.station.shows_money
        self.set_focus(self.scroll)

    def on_screen_resume(self) -> None:
        self.reading(lambda: ValueRead(value(self.station.book, now=self.station.now())))

    def on_resize(self) -> None:
        self._draw()

    @on(ValueRead)
    def _read(self, message: ValueRead) -> None:
        self._found = message.found
        self._draw()

    def _draw(self) -> None:
        found = self._found
        if found is None:
            return
        shows_money, width = self.station.shows_money, self.size.width - _MARGINS
        shop = found.view.shop
        self.title_line.show("Value", lines.all_of_it(found.total, shop, shows_money=shows_money))
        self.plot.show([lines.panel(found, steps(width))], partial(lines.ticks, found))
        tables = lines.tables(found, width, shows_money=shows_money)
        said = tables[1:] if shows_money else [lines.HIDDEN, *tables]
        self.page.update(marked("\n".join(said)))

    def action_leave(self) -> None:
        """Back to what to buy."""
        self.dismiss()
