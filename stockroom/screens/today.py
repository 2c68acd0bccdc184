"""Today: what needs a hand, seen in the first minute of the morning."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import partial

from textual import getters, on
from textual.containers import Vertical
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Rule, Static

from stockroom.books.climate import ZoneNow
from stockroom.lines import today as lines
from stockroom.lines.coming import coming as soon
from stockroom.lines.coming import head
from stockroom.screens.frame import Frame, PieceAsked
from stockroom.screens.marks import marked
from stockroom.screens.rereading import FRESH_FOR, Seen, unless_same
from stockroom.screens.station import Station
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.line_list import LineList, Row
from stockroom.screens.widgets.title import Title
from stockroom.work.climate import measured_zones
from stockroom.work.forecast import Forecast, coming
from stockroom.work.judging import Judged
from stockroom.work.today import Today, today

_COLUMNS = (
    Column(title="piece", width=9),
    Column(title="film", width=16, grows=True),
    Column(title="left", width=14, right=True),
    Column(title="at", width=5, grows=True),
    Column(title="what to do", width=25, grows=True),
    Column(title="more of it", width=14, rank=1),
)


_TITLE_GAPS = 5
_OTHER_ROWS = 12
"""The rows of a screen that are neither pieces nor jobs, nor what comes."""
_FEW_JOBS, _MOST_JOBS = 3, 12
_MOST_COMING, _FEW_COMING = 10, 2


@dataclass
class TodayRead(Message):
    """The day was read, and the air of the zones that are measured."""

    today: Today
    zones: tuple[ZoneNow, ...]
    seen: Seen


@dataclass
class ComingRead(Message):
    """What the coming days bring was read; None where so many pieces would take too long."""

    found: Forecast | None


class TodayScreen(Frame):
    """The pieces that need a hand, the worst first, and the jobs of the coming days."""

    HELP = """\
## Today

What needs a hand, at most ten pieces, the worst first: **✕ STOP** nobody may cut it,
**▲ TEST** one trial decides, **◐ USE FIRST** its limit is near, **◷ WAIT** it rests.
Below the list: why, an order that is late, the jobs of the coming days, and what changes *soon*, within 14 days, if storage
goes on as it did. On top: the air of each zone now; `?` and for how long where its sensor is silent.

Scan a piece for its card, a job to cut for it, a place to see what stands there.
"""

    title_line = getters.query_one(Title)
    counts = getters.query_one("#counts", Static)
    pieces = getters.query_one(LineList)
    detail = getters.query_one("#detail", Static)
    jobs = getters.query_one("#jobs", Static)
    soon = getters.query_one("#soon", Vertical)
    coming = getters.query_one("#coming", Static)

    def __init__(self, station: Station) -> None:
        super().__init__()
        self.station = station
        self._today: Today | None = None
        self._zones: tuple[ZoneNow, ...] = ()
        self._ahead: ComingRead | None = None
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
        yield Vertical(Rule(), Static(id="coming", markup=False), id="soon")
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
        book = self.station.book
        return TodayRead(today(book, now=seen.at), measured_zones(book, now=seen.at), seen)

    def _look_ahead(self, pieces: int) -> ComingRead:
        book, now = self.station.book, self.station.now()
        return ComingRead(coming(book, pieces, now=now))

    def _show_title(self) -> None:
        if self._today is not None and self._seen is not None:
            title, who = lines.title(self._today.view), f"on: {self.station.operator}"
            room = self.size.width - len(title) - _TITLE_GAPS
            shop, now = self._today.view.shop, self._seen.at
            self.title_line.show(title, head(self._zones, shop, now, who, room))

    @on(TodayRead)
    def _show(self, message: TodayRead) -> None:
        found = self._today = message.today
        self._zones, self._seen = message.zones, message.seen
        self._show_title()
        self.counts.update(marked(lines.counts(found)))
        self.pieces.empty = lines.empty(found)
        self.pieces.rows = [
            Row(one.code, tuple(map(marked, lines.cells(one, found.view)))) for one in found.pieces
        ]
        self._show_jobs()
        self._show_detail(found.pieces[0] if found.pieces else None)
        self._show_coming()
        pieces = sum(found.counts.values())
        self.reading(partial(self._look_ahead, pieces), group="coming")

    @on(ComingRead)
    def _take_coming(self, message: ComingRead) -> None:
        self._ahead = message
        self._show_coming()

    def on_resize(self) -> None:
        self._show_title()
        self._show_jobs()
        self._show_coming()

    def _show_jobs(self) -> None:
        """The jobs for which there are lines, and how many more there are."""
        if self._today is not None:
            most = _MOST_JOBS if self.has_class("-tall") else _FEW_JOBS
            self.jobs.update(marked("\n".join(lines.some_jobs(self._today, most))))

    def _show_coming(self) -> None:
        """As many lines as the list leaves, a few at least; nothing where nothing comes."""
        if self._today is None:
            return
        taken = len(self._today.pieces) + len(self._today.jobs) + _OTHER_ROWS
        room = min(_MOST_COMING, max(_FEW_COMING, self.size.height - taken))
        said = soon(self._ahead.found, room) if self._ahead else ()
        self.coming.update(marked("\n".join(said)))
        self.soon.display = bool(said)

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
