"""Suppliers: what each sells, how long it takes, and what to order there."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import ClassVar

from textual import getters, on
from textual.binding import BindingType
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Rule, Static

from stockroom.books.values import Shop
from stockroom.lines import sellers as lines
from stockroom.screens.frame import Frame
from stockroom.screens.keys import Where, bindings
from stockroom.screens.station import Station
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.line_list import LineList, Row
from stockroom.screens.widgets.title import Title
from stockroom.work.buying import buying
from stockroom.work.orders import all_orders
from stockroom.work.selling import Seller, sellers

_COLUMNS = (
    Column(title="supplier", width=16, grows=True),
    Column(title="sells", width=5, right=True),
    Column(title="here in", width=30),
    Column(title="to order", width=8, right=True),
    Column(title="coming", width=6, right=True),
)


@dataclass
class SuppliersRead(Message):
    """Every supplier was looked at."""

    sellers: tuple[Seller, ...]
    shop: Shop


class SuppliersScreen(Frame):
    """Everybody who sells; below, what to order of the one under the cursor, and what was agreed."""

    HELP = """\
## Suppliers

What each sells, how long it takes from the order to the shelf and whose word that is: from the third
order on it is that of its own orders. *to order*: rolls or boxes of the plan; *coming*: orders on their
way. Below: what to order there at once, and when nobody delivers. Enter keeps Buying to the supplier.
"""
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.SUPPLIERS)]

    title_line = getters.query_one(Title)
    list_of_suppliers = getters.query_one(LineList)
    detail = getters.query_one("#agreed", Static)

    def __init__(self, station: Station, keep_to: Callable[[str], None]) -> None:
        super().__init__()
        self.station = station
        self._keep_to = keep_to
        self._found: SuppliersRead | None = None

    def body(self) -> Iterable[Widget]:
        yield Title("Suppliers")
        yield Rule()
        yield LineList(_COLUMNS, empty="Reading the book …")
        yield Static(id="agreed", markup=False)

    def on_screen_resume(self) -> None:
        self.reading(self._read)

    def _read(self) -> SuppliersRead:
        book, now = self.station.book, self.station.now()
        found = buying(book, now=now)
        return SuppliersRead(sellers(found, all_orders(book, are_open=True)), found.view.shop)

    @on(SuppliersRead)
    def _show(self, message: SuppliersRead) -> None:
        self._found = message
        self.list_of_suppliers.empty = lines.NOTHING_HERE
        self.list_of_suppliers.rows = [
            Row(one.supplier.name, lines.cells(one)) for one in message.sellers
        ]
        self._show_detail()

    @on(LineList.RowHighlighted)
    def _show_detail(self) -> None:
        found = self._found
        said = ""
        if found is not None and found.sellers:
            one = found.sellers[self.list_of_suppliers.cursor]
            today = found.shop.day_of(self.station.now())
            shows = self.station.shows_money
            said = lines.detail(one, found.shop.currency, today, shows_money=shows)
        self.detail.update(said)

    @on(LineList.RowChosen)
    def _choose(self, message: LineList.RowChosen) -> None:
        self._keep_to(message.key)
        self.dismiss()

    def action_leave(self) -> None:
        """Back to what to buy."""
        self.dismiss()
