"""One act: who did it, when and why, and every piece it touched."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import ClassVar

from textual import getters, on
from textual.binding import BindingType
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Rule, Static

from stockroom.books.values import Act, Place, Shop
from stockroom.lines import log as lines
from stockroom.screens.frame import PieceAsked
from stockroom.screens.keys import Where, bindings
from stockroom.screens.marks import marked
from stockroom.screens.station import Station
from stockroom.screens.undoing import Undoing
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.line_list import LineList, Row
from stockroom.screens.widgets.question import Question
from stockroom.screens.widgets.title import Title
from stockroom.work.look import act_of, places
from stockroom.work.setup import settings

_COLUMNS = (
    Column(title="piece", width=9),
    Column(title="what was done to it", width=34, grows=True),
    Column(title="change", width=10, right=True),
    Column(title="stayed", width=10, right=True),
)


@dataclass
class ActRead(Message):
    """The act was read."""

    act: Act
    shop: Shop
    places: tuple[Place, ...]


class ActScreen(Undoing):
    """All that one act did."""

    HELP = """\
## An act

Everything one act did: each piece it touched, by how much, and what stayed of it then. Enter opens
the piece under the cursor. `u` undoes the whole act, if nothing was done to its pieces since.
"""
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.ACT)]

    title_line = getters.query_one(Title)
    facts = getters.query_one("#facts", Static)
    pieces = getters.query_one(LineList)

    def __init__(self, station: Station, request: str) -> None:
        super().__init__(station)
        self._request = request
        self._read: ActRead | None = None

    def body(self) -> Iterable[Widget]:
        yield Title("Act")
        yield Rule()
        yield Static(id="facts", markup=False)
        yield Rule()
        yield LineList(_COLUMNS, empty="It touched no piece.")
        yield Question()

    def on_screen_resume(self) -> None:
        self.read_again()

    def read_again(self) -> None:
        """Read the act, which may be undone by now."""
        self.reading(self._act)

    def _act(self) -> ActRead:
        book, now = self.station.book, self.station.now()
        found = act_of(book, self._request)
        assert found is not None, "an act that was shown is never deleted"  # noqa: S101
        return ActRead(found, settings(book, now=now)[0], places(book, now=now))

    @on(ActRead)
    def _show(self, message: ActRead) -> None:
        self._read = message
        act, shop = message.act, message.shop
        self.title_line.show(lines.title(act, shop))
        self.facts.update(marked(lines.detail(act, shop)))
        self.pieces.rows = [
            Row(code, tuple(map(marked, cells)))
            for code, cells in lines.touched(act, shop, message.places).items()
        ]

    @on(LineList.RowChosen)
    def _open(self, message: LineList.RowChosen) -> None:
        self.post_message(PieceAsked(message.key))

    def action_undo_act(self) -> None:
        """Ask whether the act is to be reversed."""
        if self._read is not None:
            self.ask_to_undo(self._read.act, self._read.shop, self._read.places)

    def action_leave(self) -> None:
        """Back to where one came from."""
        self.dismiss()
