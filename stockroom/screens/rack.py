"""Rack: every piece, where it stands, and which of its film to use first."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import ClassVar, overload

from textual import getters, on
from textual.binding import BindingType
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Rule, Static

from stockroom.codes.own import Letter
from stockroom.codes.recognise import Own
from stockroom.lines import rack as lines
from stockroom.lines import today as today_lines
from stockroom.lines.rack import Shelf
from stockroom.screens.frame import Frame, PieceAsked
from stockroom.screens.keys import Where, bindings
from stockroom.screens.marks import marked
from stockroom.screens.rereading import Seen, unless_same
from stockroom.screens.station import Station
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.line_list import LineList, Row
from stockroom.screens.widgets.scan_line import ScanLine
from stockroom.screens.widgets.title import Title
from stockroom.work.judging import Judged
from stockroom.work.look import EVERYTHING, Wanted, rack

# What does not fit goes by rank, the highest first: 80 columns hold those of rank 0.
_COLUMNS = (
    Column(title="piece", width=9),
    Column(title="film", width=18, grows=True),
    Column(title="left", width=13, right=True),
    Column(title="verdict", width=13),
    Column(title="age", width=7, right=True),
    Column(title="at", width=7, grows=True),
    Column(title="more of it", width=16, rank=1),
    Column(title="wound", width=7, right=True, rank=3),
    Column(title="lot", width=14, rank=2),
    Column(title="received", width=10, rank=4),
)


@dataclass
class ShelfRead(Message):
    """The rack was read."""

    shelf: Shelf
    seen: Seen


class _Rows(Sequence[Row]):
    """The pieces that are shown; a row is made when it comes into sight."""

    def __init__(self, shelf: Shelf, chosen: Sequence[int]) -> None:
        self._shelf = shelf
        self._chosen = chosen

    def __len__(self) -> int:
        return len(self._chosen)

    @overload
    def __getitem__(self, at: int) -> Row: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[Row]: ...
    def __getitem__(self, at: int | slice) -> Row | Sequence[Row]:
        if isinstance(at, slice):
            return _Rows(self._shelf, self._chosen[at])
        one = self._shelf.pieces[self._chosen[at]]
        return Row(one.code, tuple(map(marked, lines.cells(one, self._shelf.view))))


class RackScreen(Frame):
    """Every piece on hand, by film, and of each film the one to use first on top."""

    HELP = """\
## Rack

Every piece on hand: by film, and within a film the one that asks for most first, then the oldest.
Ages: `≥` at least so old, `~` assumed from a date known in part.

`/` finds as you type: words, a lot, a code, a place, a job. `v` leads through the verdicts,
`m` and `p` keep to the film or the place under the cursor, Esc shows all again.
"""
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.RACK)]

    title_line = getters.query_one(Title)
    pieces = getters.query_one(LineList)
    detail = getters.query_one("#detail", Static)

    def __init__(self, station: Station) -> None:
        super().__init__()
        self.station = station
        self._shelf: Shelf | None = None
        self._chosen: Sequence[int] = ()
        self._wanted = EVERYTHING
        self._seen: Seen | None = None

    def body(self) -> Iterable[Widget]:
        yield Title("Rack")
        yield Rule()
        yield LineList(_COLUMNS, empty="Reading the book …")
        yield Static(id="detail", markup=False)

    def on_screen_resume(self) -> None:
        self.reading(partial(unless_same, self.station, self._seen, self._everything))

    def _everything(self, seen: Seen) -> ShelfRead:
        found = rack(self.station.book, now=seen.at)
        return ShelfRead(lines.shelf(found), seen)

    @on(ShelfRead)
    def _read(self, message: ShelfRead) -> None:
        self._shelf, self._seen = message.shelf, message.seen
        self._show(self._wanted)

    def _show(self, wanted: Wanted) -> None:
        """Show the pieces that are asked for."""
        self._wanted = wanted
        shelf = self._shelf
        if shelf is None:
            return
        self._chosen = shelf.chosen(wanted)
        self.pieces.empty = lines.NONE_LIKE_THAT if shelf.pieces else lines.NOTHING_HERE
        self.pieces.rows = _Rows(shelf, self._chosen)
        shown = lines.said(shelf, wanted, self._chosen)
        self.title_line.show("Rack", marked(shown))
        self._show_detail()

    def _under_cursor(self) -> Judged | None:
        if self._shelf is None or not self._chosen:
            return None
        return self._shelf.pieces[self._chosen[self.pieces.cursor]]

    @on(LineList.RowHighlighted)
    def _show_detail(self) -> None:
        one = self._under_cursor()
        if one is None or self._shelf is None:
            self.detail.update("")
        else:
            self.detail.update(marked("\n".join(today_lines.detail(one, self._shelf.view))))

    @on(LineList.RowChosen)
    def _open(self, message: LineList.RowChosen) -> None:
        self.post_message(PieceAsked(message.key))

    @on(ScanLine.Sought)
    def _find(self, message: ScanLine.Sought) -> None:
        self._show(replace(self._wanted, find=message.text))

    def heard(self, own: Own) -> None:
        if own.letter is Letter.PLACE:
            self._show(Wanted(place=own.code))
        else:
            self._show(replace(self._wanted, find=""))
            super().heard(own)

    def heard_words(self, text: str, *, by_hand: bool) -> None:
        if by_hand:
            self._show(replace(self._wanted, find=text))
        else:
            super().heard_words(text, by_hand=by_hand)

    def action_by_verdict(self) -> None:
        """Lead on to the next verdict."""
        now = lines.CYCLE.index(self._wanted.verdict)
        self._show(replace(self._wanted, verdict=lines.CYCLE[(now + 1) % len(lines.CYCLE)]))

    def action_by_material(self) -> None:
        """Keep to the film under the cursor, or to none."""
        one = self._under_cursor()
        name = one.standing.material.name if one and not self._wanted.material else ""
        self._show(replace(self._wanted, material=name))

    def action_by_place(self) -> None:
        """Keep to the place under the cursor, or to none."""
        one = self._under_cursor()
        name = lines.place_of(one) if one and not self._wanted.place else ""
        self._show(replace(self._wanted, place=name))

    def action_show_all(self) -> None:
        """Show every piece again."""
        self.band.clear()
        self._show(EVERYTHING)
