"""Orders: what was drafted, what is on its way and what is late."""

from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from typing import ClassVar

from textual import getters, on
from textual.binding import BindingType
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Rule, Static

from stockroom.books.orders import Order
from stockroom.books.values import Material, Shop
from stockroom.labels.files import write
from stockroom.labels.job_sheet import job_sheet
from stockroom.labels.paper import read_paper
from stockroom.lines import order_sheet
from stockroom.lines import orders_open as lines
from stockroom.screens.form import Form
from stockroom.screens.forms.ordering import cancel_blank, send_blank
from stockroom.screens.frame import Frame, PassedOn
from stockroom.screens.keys import Where, bindings
from stockroom.screens.station import Station
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.line_list import LineList, Row
from stockroom.screens.widgets.title import Title
from stockroom.work.look import materials
from stockroom.work.orders import all_orders
from stockroom.work.setup import settings

_COLUMNS = (
    Column(title="order", width=9),
    Column(title="supplier", width=16, grows=True),
    Column(title="state", width=32),
    Column(title="to come", width=7, right=True),
)
_PAPER = "a4"
_COST = Column(title="cost", width=14, right=True, rank=1)


@dataclass
class OrdersRead(Message):
    """The orders of which something may still come."""

    orders: tuple[Order, ...]
    materials: Mapping[int, Material]
    shop: Shop


@dataclass
class Written(Message):
    """An order was written to files."""

    sentence: str


class OrdersScreen(Frame):
    """Open orders; below, what the one under the cursor orders."""

    HELP = """\
## Orders

What was drafted, what is on its way and what is late. A draft is not on its way until `t` says that it
was sent; `t` again says that the supplier named another day. `x` says that nothing more of it comes.

`p` writes it to files, a page to print and a text to mail, without money. Enter takes it to Goods in
when it comes.
"""
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.ORDERS)]

    title_line = getters.query_one(Title)
    list_of_orders = getters.query_one(LineList)
    detail = getters.query_one("#order-lines", Static)

    def __init__(self, station: Station, first: str | None = None, said: str = "") -> None:
        super().__init__()
        self.station = station
        self._found: OrdersRead | None = None
        self._first = first
        self._said = said

    def body(self) -> Iterable[Widget]:
        yield Title("Orders")
        yield Rule()
        columns = (*_COLUMNS, _COST) if self.station.shows_money else _COLUMNS
        yield LineList(columns, empty="Reading the book …")
        yield Static(id="order-lines", markup=False)

    def on_mount(self) -> None:
        if self._said:
            self.band.done(self._said)

    def on_screen_resume(self) -> None:
        self.reading(self._read)

    def _read(self) -> OrdersRead:
        book, now = self.station.book, self.station.now()
        known = {one.id: one for one in materials(book, now=now)}
        return OrdersRead(all_orders(book, are_open=True), known, settings(book, now=now)[0])

    @on(OrdersRead)
    def _show(self, message: OrdersRead) -> None:
        self._found = message
        shop, shows_money = message.shop, self.station.shows_money
        today = shop.day_of(self.station.now())
        self.list_of_orders.empty = lines.NOTHING_HERE
        self.list_of_orders.rows = [
            Row(one.code, lines.cells(one, shop, today, shows_money=shows_money))
            for one in message.orders
        ]
        codes = [one.code for one in message.orders]
        if self._first in codes:
            self.list_of_orders.cursor = codes.index(self._first)
        self._first = None
        self.title_line.show("Orders", lines.said(message.orders, today))
        self._show_lines()

    def _in_front(self) -> Order | None:
        found = self._found
        return found.orders[self.list_of_orders.cursor] if found and found.orders else None

    @on(LineList.RowHighlighted)
    def _show_lines(self) -> None:
        one, found = self._in_front(), self._found
        said = lines.detail(one, found.materials, found.shop.system) if one and found else ""
        self.detail.update(said)

    @on(LineList.RowChosen)
    def _take_in(self, message: LineList.RowChosen) -> None:
        self.post_message(PassedOn("goods", message.key))

    def action_send_order(self) -> None:
        """Say that the order has gone out, or comes another day."""
        if one := self._in_front():
            self.app.push_screen(Form(send_blank(self.station, one)), self._was_written)

    def action_write_order(self) -> None:
        """Write the order to files, to print and to mail."""
        one, found = self._in_front(), self._found
        if one and found:
            self.band.clear()
            self.writing(partial(_write, self.station, one, found))

    @on(Written)
    def _is_written(self, message: Written) -> None:
        self.band.done(message.sentence)

    def action_cancel_order(self) -> None:
        """Say that nothing more of the order is to come."""
        if one := self._in_front():
            self.app.push_screen(Form(cancel_blank(self.station, one)), self._was_written)

    def _was_written(self, sentence: str | None) -> None:
        if sentence:
            self.band.done(sentence)

    def action_leave(self) -> None:
        """Back to what to buy."""
        self.dismiss()


def _write(station: Station, one: Order, found: OrdersRead) -> Written:
    """Write an order to the station's folder, and say where."""
    known, today = found.materials.values(), found.shop.day_of(station.now())
    page, text = (station.labels / f"{one.code}.{ending}" for ending in ("pdf", "txt"))
    with suppress(OSError):  # a folder that cannot be made is found out when a file is written
        station.labels.mkdir(parents=True, exist_ok=True)
    sheet = order_sheet.page(one, known, found.shop, today, money=False)
    write(page, job_sheet(sheet, read_paper(_PAPER)))
    write(text, order_sheet.text(one, known, found.shop, today, money=False).encode())
    return Written(lines.written(one, str(page), text.name))
