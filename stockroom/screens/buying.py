"""Buying: what there was, is and will be of each material, and what to order."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import partial
from typing import ClassVar

from textual import getters, on
from textual.binding import BindingType
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Rule, Static

from stockroom.books.orders import Order
from stockroom.lines import orders_open
from stockroom.lines import to_buy as lines
from stockroom.lines.plot import steps
from stockroom.screens.frame import Frame, PassedOn
from stockroom.screens.keys import Where, bindings
from stockroom.screens.orders import OrdersScreen
from stockroom.screens.rereading import Seen, unless_same
from stockroom.screens.station import Asking, Station
from stockroom.screens.suppliers import SuppliersScreen
from stockroom.screens.value import ValueScreen
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.line_list import LineList, Row
from stockroom.screens.widgets.plot import Plot
from stockroom.screens.widgets.title import Title
from stockroom.work.buying import Buying, Planned, buying
from stockroom.work.order_draft import DraftOrder, draft_order
from stockroom.work.order_plan import planned_order
from stockroom.work.stock_plot import StockPlot, stock_plot

_COLUMNS = (
    Column(title="material", width=18, grows=True),
    Column(title="a month", width=10, right=True),
    Column(title="fit", width=8, right=True),
    Column(title="reserved", width=8, right=True, rank=1),
    Column(title="too old", width=8, right=True),
    Column(title="coming", width=8, right=True, rank=1),
    Column(title="below", width=8, right=True),
    Column(title="order", width=5, right=True),
    Column(title="demand", width=12, rank=2),
    Column(title="supplier", width=16, rank=3, grows=True),
)
_MARGINS = 2
_BOTH = 34
"""Rows of a screen from which what is drawn has room below what there is."""


@dataclass
class PlanRead(Message):
    """What to buy was worked out."""

    found: Buying
    seen: Seen


@dataclass
class StockRead(Message):
    """One material was read week by week."""

    plot: StockPlot


@dataclass
class Drafted(Message):
    """What the plan orders of a supplier was written down."""

    order: Order


class BuyingScreen(Frame):
    """One material in a plot, and every material with what to order of it."""

    HELP = """\
## Buying

What to order, and why. The plot is what there was of the material under the cursor, up to *today*, and
from there what will be left of what is fit, not reserved, and on order, between a high and a low
demand (one chance in ten each). Order before it falls to the line `at`: below it, its colour is another.
On a tall screen, below that, what was drawn each week, and what will be on average.

*fit* is blank, not to be tested, in pieces that serve a typical draw; *too old* is what of it grows too
old before it is used; *below*: order when there is less. Enter shows the pieces on the Rack; `s` keeps
to the supplier under the cursor, `d` drafts an order of all the plan says of that supplier, `o` shows the
orders, `w` who sells what, `v` what the room is worth.
"""
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.BUYING)]

    title_line = getters.query_one(Title)
    sentence = getters.query_one("#sentence", Static)
    plot = getters.query_one(Plot)
    facts = getters.query_one("#stock-facts", Static)
    list_of_materials = getters.query_one(LineList)

    def __init__(self, station: Station) -> None:
        super().__init__()
        self.station = station
        self._found: Buying | None = None
        self._seen: Seen | None = None
        self._shown: tuple[Planned, ...] = ()
        self._supplier = ""
        self._plot: StockPlot | None = None

    def body(self) -> Iterable[Widget]:
        yield Title("Buying")
        yield Rule()
        yield Static(id="sentence", markup=False)
        yield Plot()
        yield Static(id="stock-facts", markup=False)
        yield Rule()
        yield LineList(_COLUMNS, empty="Reading the book …")

    def on_screen_resume(self) -> None:
        self.reading(partial(unless_same, self.station, self._seen, self._plan))

    def _plan(self, seen: Seen) -> PlanRead:
        return PlanRead(buying(self.station.book, now=seen.at), seen)

    def on_resize(self) -> None:
        self._draw()

    @on(PlanRead)
    def _read(self, message: PlanRead) -> None:
        self._found, self._seen = message.found, message.seen
        self._show()

    def _show(self) -> None:
        """Show every material, or those of one supplier."""
        found = self._found
        if found is None:
            return
        system = found.view.shop.system
        self._shown = lines.chosen(found, self._supplier)
        self.list_of_materials.empty = lines.NOTHING_HERE
        self.list_of_materials.rows = [
            Row(row.material.name, lines.cells(row, system)) for row in self._shown
        ]
        self.title_line.show("Buying", lines.said(found, self._shown, self._supplier))
        self._look_up()

    def _under_cursor(self) -> Planned | None:
        return self._shown[self.list_of_materials.cursor] if self._shown else None

    @on(LineList.RowHighlighted)
    def _look_up(self) -> None:
        """Say what follows for the material under the cursor, and read what there was of it."""
        one, found = self._under_cursor(), self._found
        if one is None or found is None:
            return
        system = found.view.shop.system
        self.sentence.update(lines.sentence(one, system))
        self.facts.update("\n".join(lines.facts(one, system)))
        read = partial(stock_plot, self.station.book, one, found.view)
        self.reading(lambda: StockRead(read()), group="stock")

    @on(StockRead)
    def _was_read(self, message: StockRead) -> None:
        self._plot = message.plot
        self._draw()

    def _draw(self) -> None:
        if self._plot is None or self._found is None:
            return
        system, size = self._found.view.shop.system, self.size
        panels = lines.panels(self._plot, system, steps(size.width - _MARGINS))
        shown = panels if size.height >= _BOTH else panels[:1]
        self.plot.show(shown, partial(lines.ticks, self._plot))

    @on(LineList.RowChosen)
    def _open(self, message: LineList.RowChosen) -> None:
        self.post_message(PassedOn("rack", message.key))

    def action_draft(self) -> None:
        """Order of the supplier under the cursor what the plan says."""
        one = self._under_cursor()
        self.band.clear()
        if one is None:
            return
        if not one.terms.supplier:
            self.band.refused(lines.NO_SUPPLIER)
            return
        self.writing(partial(_draft, self.station, self.station.asking(), one.terms.supplier))

    @on(Drafted)
    def _was_drafted(self, message: Drafted) -> None:
        order = message.order
        self.app.push_screen(OrdersScreen(self.station, order.code, orders_open.drafted(order)))

    def action_orders(self) -> None:
        """Show what is on order."""
        self.app.push_screen(OrdersScreen(self.station))

    def action_value(self) -> None:
        """Show what the room is worth."""
        self.app.push_screen(ValueScreen(self.station))

    def action_by_supplier(self) -> None:
        """Keep to the supplier under the cursor, or to none."""
        one = self._under_cursor()
        self.band.clear()
        if one is not None and not self._supplier and not one.terms.supplier:
            self.band.refused(lines.NO_SUPPLIER)
            return
        self._keep_to("" if self._supplier or one is None else one.terms.supplier or "")

    def _keep_to(self, supplier: str) -> None:
        self._supplier = supplier
        self._show()

    def action_suppliers(self) -> None:
        """Show who sells what, and what to order there."""
        self.app.push_screen(SuppliersScreen(self.station, self._keep_to))


def _draft(station: Station, asking: Asking, supplier: str) -> Drafted:
    """Write down as an order what the plan says of a supplier."""
    now = station.now()
    name, wanted = planned_order(station.book, supplier, now=now)
    request = DraftOrder(**asking, supplier=name, lines=wanted)
    return Drafted(draft_order(request, book=station.book, now=now))
