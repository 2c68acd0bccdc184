"""Log: everything that was done, newest first; any act opens, and the last on a piece can be undone."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import ClassVar

from textual import getters, on
from textual.binding import BindingType
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Rule, Static

from stockroom.books.values import Act, Place, Shop
from stockroom.codes.own import Letter, grouped
from stockroom.codes.recognise import Own
from stockroom.errors import Refusal
from stockroom.lines import log as lines
from stockroom.lines.log import EVERY_ACT, LogWanted
from stockroom.lines.when import is_day, read_instant
from stockroom.screens.act import ActScreen
from stockroom.screens.keys import Where, bindings
from stockroom.screens.marks import marked
from stockroom.screens.station import Station
from stockroom.screens.undoing import Undoing
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.line_list import LineList, Row
from stockroom.screens.widgets.question import Question
from stockroom.screens.widgets.title import Title
from stockroom.work.look import log, places
from stockroom.work.setup import settings

PAGE = 200
_AHEAD = 40
"""So many rows before the last one in sight, the next page is read."""
_COLUMNS = (
    Column(title="when", width=16),
    Column(title="piece", width=12),
    Column(title="what was done", width=32, grows=True),
    Column(title="by", width=10),
    Column(title="act", width=6, right=True, rank=1),
)


@dataclass
class PageRead(Message):
    """Acts were read: from the newest on, or those that follow the ones shown."""

    wanted: LogWanted
    before: int | None
    acts: tuple[Act, ...]
    is_last: bool
    shop: Shop
    places: tuple[Place, ...]


class LogScreen(Undoing):
    """Every act, a page at a time."""

    HELP = """\
## Log

Everything that was done, newest first. Enter opens an act with all it touched; `u` undoes it, if
nothing was done to its pieces since.

`p`, `j`, `b` and `d` keep to the piece, job, person or day under the cursor. Scan a piece or a job
for its acts; `/` takes a name, a day (`yesterday`, `mon`, `2026-11-20`) or what was done (`cut`).
Esc shows all again.
"""
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.LOG)]

    title_line = getters.query_one(Title)
    list_of_acts = getters.query_one(LineList)
    detail = getters.query_one("#detail", Static)

    def __init__(self, station: Station) -> None:
        super().__init__(station)
        self._wanted = EVERY_ACT
        self._acts: Sequence[Act] = ()
        self._is_whole = False
        self._is_reading_on = False
        self._shop = Shop()
        self._places: tuple[Place, ...] = ()

    def body(self) -> Iterable[Widget]:
        yield Title("Log")
        yield Rule()
        yield LineList(_COLUMNS, empty="Reading the book …")
        yield Static(id="detail", markup=False)
        yield Question()

    def on_screen_resume(self) -> None:
        self.read_again()

    def read_again(self) -> None:
        """Read as many acts as are shown now, from the newest on."""
        self._read(self._wanted, limit=max(PAGE, len(self._acts)))

    def _read(self, wanted: LogWanted, *, limit: int = PAGE, before: int | None = None) -> None:
        self._is_reading_on = before is not None
        self.reading(partial(_page, self.station, wanted, limit=limit, before=before))

    @on(PageRead)
    def _show(self, message: PageRead) -> None:
        self._is_reading_on = False
        self._shop, self._places = message.shop, message.places
        self._acts = (*(self._acts if message.before else ()), *message.acts)
        self._is_whole = message.is_last
        is_all = message.wanted == EVERY_ACT
        self.list_of_acts.empty = lines.NOTHING_HERE if is_all else lines.NONE_LIKE_THAT
        self.list_of_acts.rows = [
            Row(str(act.id), tuple(map(marked, lines.cells(act, self._shop, self._places))))
            for act in self._acts
        ]
        self.title_line.show("Log", lines.said(message.wanted))
        self._show_detail()

    def _under_cursor(self) -> Act | None:
        return self._acts[self.list_of_acts.cursor] if self._acts else None

    @on(LineList.RowHighlighted)
    def _show_detail(self) -> None:
        act = self._under_cursor()
        self.detail.update(marked(lines.detail(act, self._shop)) if act else "")
        is_near_the_end = self.list_of_acts.cursor + _AHEAD >= len(self._acts)
        if act and is_near_the_end and not self._is_whole and not self._is_reading_on:
            self._read(self._wanted, before=self._acts[-1].id)

    @on(LineList.RowChosen)
    def _open(self) -> None:
        if act := self._under_cursor():
            self.app.push_screen(ActScreen(self.station, act.request))

    def action_undo_act(self) -> None:
        """Ask whether the act under the cursor is to be reversed."""
        if act := self._under_cursor():
            self.ask_to_undo(act, self._shop, self._places)

    # What is shown

    def _keep_to(self, wanted: LogWanted) -> None:
        self.question.action_withdraw()
        self.band.clear()
        self._wanted = wanted
        self._read(wanted)

    def heard(self, own: Own) -> None:
        """Keep to a piece or a job."""
        if own.letter is Letter.PLACE:
            self.band.refused(f"{grouped(own.code)} is a place: scan a piece or a job.")
        elif own.letter is Letter.JOB:
            self._keep_to(replace(self._wanted, job=own.code))
        else:
            self._keep_to(replace(self._wanted, piece=own.code))

    def heard_words(self, text: str, *, by_hand: bool) -> None:
        """Keep to a day, a kind of act or a person."""
        if not by_hand:
            super().heard_words(text, by_hand=by_hand)
        elif is_day(text):
            self._keep_to_day(text)
        elif kind := lines.kind_called(text, self._acts, self._shop):
            self._keep_to(replace(self._wanted, kind=kind))
        else:
            self._keep_to(replace(self._wanted, operator=self._named(text)))

    def _keep_to_day(self, text: str) -> None:
        try:
            moment = read_instant(text, self._shop, self.station.now())
        except Refusal as refusal:
            self.band.refused(refusal.sentence)
        else:
            self._keep_to(replace(self._wanted, day=self._shop.day_of(moment)))

    def _named(self, text: str) -> str:
        """The name of a person as it stands in the acts that were read, or as it was typed."""
        names = dict.fromkeys(act.operator for act in self._acts)
        return next((name for name in names if text.casefold() in name.casefold()), text)

    def action_by_piece(self) -> None:
        """Keep to the piece under the cursor, or to none."""
        act, kept = self._under_cursor(), self._wanted.piece
        found = act.moves[0].piece if act and act.moves else None
        if act and not kept and not found:
            self.band.refused("The act under the cursor touched no piece.")
        else:
            self._keep_to(replace(self._wanted, piece=None if kept else found))

    def action_by_job(self) -> None:
        """Keep to the job under the cursor, or to none."""
        act, kept = self._under_cursor(), self._wanted.job
        if act and not kept and not act.job:
            self.band.refused("The act under the cursor is for no job.")
        else:
            self._keep_to(replace(self._wanted, job=act.job if act and not kept else None))

    def action_by_person(self) -> None:
        """Keep to the person under the cursor, or to none."""
        act, kept = self._under_cursor(), self._wanted.operator
        self._keep_to(replace(self._wanted, operator=act.operator if act and not kept else None))

    def action_by_day(self) -> None:
        """Keep to the day under the cursor, or to none."""
        act, kept = self._under_cursor(), self._wanted.day
        day = self._shop.day_of(act.at) if act and not kept else None
        self._keep_to(replace(self._wanted, day=day))

    def action_every_act(self) -> None:
        """Show every act again."""
        self._keep_to(EVERY_ACT)


def _page(station: Station, wanted: LogWanted, *, limit: int, before: int | None) -> PageRead:
    """Read one page, and one act more to know whether another follows."""
    book, now = station.book, station.now()
    shop = settings(book, now=now)[0]
    found = log(book, now=now, **wanted.sought(shop) | {"before": before, "limit": limit + 1})
    return PageRead(
        wanted=wanted,
        before=before,
        acts=found[:limit],
        is_last=len(found) <= limit,
        shop=shop,
        places=places(book, now=now),
    )
