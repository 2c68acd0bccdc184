"""Today: what needs a hand, seen in the first minute of the morning."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import partial

from textual import getters, on
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Rule, Static

from stockroom.lines import today as lines
from stockroom.screens.frame import Frame, PieceAsked
from stockroom.screens.marks import marked
from stockroom.screens.rereading import FRESH_FOR, Seen, unless_same
from stockroom.screens.station import Station
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.line_list import LineList, Row
from stockroom.screens.widgets.title import Title
from stockroom.work.judging import Judged
from stockroom.work.today import Today, today

_COLUMNS = (
    Column(title="piece", width=9),
    Column(title="film", width=16, grows=True),
    Column(title="left", width=14, right=True),
    Column(title="at", width=4),
    Column(title="what to do", width=26, grows=True),
    Column(title="more of it", width=14, rank=1),
)


@dataclass
class TodayRead(Message):
    """The day was read."""

    today: Today
    seen: Seen


class TodayScreen(Frame):
    """The pieces that need a hand, the worst first, and the jobs of the coming days."""

    HELP = """\
## Today

What needs a hand, at most ten pieces, the worst first: **✕ STOP** nobody may cut it,
**▲ TEST** one trial decides, **◐ USE FIRST** its limit is near, **◷ WAIT** it rests.
Below the list: why, and the jobs of the coming days.

Scan a piece for its card, a job to cut for it, a place to see what stands there.
"""

    title_line = getters.query_one(Title)
    counts = getters.query_one("#counts", Static)
    pieces = getters.query_one(LineList)
    detail = getters.query_one("#detail", Static)
    jobs = getters.query_one("#jobs", Static)

    def __init__(self, station: Station) -> None:
        super().__init__()
        self.station = station
        self._today: Today | None = None
        self._seen: Seen | None = None

    def body(self) -> Iterable[Widget]:
        yield Title("Today")
        yield Rule()
        yield Static(id="counts", markup=False)
        yield Rule()
        yield LineList(_COLUMNS, empty="")
        yield Static(id="detail", markup=False)
        yield Rule()
        yield Static(id="jobs", markup=False)
        yield Static(classes="fill")

    def on_mount(self) -> None:
        self.set_interval(FRESH_FOR.total_seconds(), self._read_anew)

    def on_screen_resume(self) -> None:
        self._show_title()
        self._read()

    def operator_changed(self) -> None:
        self._show_title()

    def _read(self) -> None:
        self.reading(partial(unless_same, self.station, self._seen, self._day))

    def _read_anew(self) -> None:
        self._seen = None
        self._read()

    def _day(self, seen: Seen) -> TodayRead:
        return TodayRead(today(self.station.book, now=seen.at), seen)

    def _show_title(self) -> None:
        if self._today is not None:
            title = lines.title(self._today.view)
            self.title_line.show(title, f"on: {self.station.operator}")

    @on(TodayRead)
    def _show(self, message: TodayRead) -> None:
        found = self._today = message.today
        self._seen = message.seen
        self._show_title()
        self.counts.update(marked(lines.counts(found)))
        self.pieces.empty = lines.empty(found)
        self.pieces.rows = [
            Row(one.code, tuple(map(marked, lines.cells(one, found.view)))) for one in found.pieces
        ]
        self.jobs.update(marked("\n".join(lines.job_lines(found))))
        self._show_detail(found.pieces[0] if found.pieces else None)

    @on(LineList.RowHighlighted)
    def _show_why(self, message: LineList.RowHighlighted) -> None:
        if self._today is not None:
            of_code = {one.code: one for one in self._today.pieces}
            self._show_detail(of_code.get(message.key))

    def _show_detail(self, one: Judged | None) -> None:
        if one is None or self._today is None:
            self.detail.update("")
        else:
            self.detail.update(marked("\n".join(lines.detail(one, self._today.view))))

    @on(LineList.RowChosen)
    def _open(self, message: LineList.RowChosen) -> None:
        self.post_message(PieceAsked(message.key))
