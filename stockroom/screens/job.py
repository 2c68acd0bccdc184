"""One job: every piece it used, how much of it, and what that cost."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import partial
from typing import ClassVar

from textual import getters, on
from textual.binding import BindingType
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Rule, Static

from stockroom.books.values import Job, Shop
from stockroom.codes.own import Letter
from stockroom.codes.recognise import Own
from stockroom.lines import jobs as lines
from stockroom.screens.frame import PassedOn, PieceAsked
from stockroom.screens.job_acting import JobActing
from stockroom.screens.keys import Where, bindings
from stockroom.screens.marks import marked
from stockroom.screens.station import Station
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.line_list import LineList, Row
from stockroom.screens.widgets.question import Question
from stockroom.screens.widgets.title import Title
from stockroom.work.job_use import JobUse, job_use
from stockroom.work.setup import settings

_COST = Column(title="cost", width=12, right=True)
_COLUMNS = (
    Column(title="piece", width=9),
    Column(title="film", width=18, grows=True),
    Column(title="used", width=9, right=True),
    Column(title="waste", width=9, right=True),
    Column(title="stays", width=18, rank=1),
)


@dataclass
class UseRead(Message):
    """What a job used was read."""

    use: JobUse
    shop: Shop


def read_use(station: Station, code: str) -> UseRead:
    """Read what a job used so far."""
    now = station.now()
    return UseRead(job_use(station.book, code, now=now), settings(station.book, now=now)[0])


class JobScreen(JobActing):
    """A job's pieces, area, waste and cost."""

    HELP = """\
## A job

Every piece the job used: the area on the job, the waste, what stays of the piece; the cost where
this station shows money. Enter opens the piece under the cursor.

`c` takes the job to the Bench, and so does the scan of a piece. `a` shows what was done for it,
`x` closes it, `r` opens it again.
"""
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.A_JOB)]

    title_line = getters.query_one(Title)
    facts = getters.query_one("#facts", Static)
    pieces = getters.query_one(LineList)

    def __init__(self, station: Station, code: str) -> None:
        super().__init__(station)
        self.code = code
        self._job: Job | None = None

    def body(self) -> Iterable[Widget]:
        yield Title("Job")
        yield Rule()
        yield Static(id="facts", markup=False)
        yield Rule()
        columns = (*_COLUMNS, _COST) if self.station.shows_money else _COLUMNS
        yield LineList(columns, empty="Nothing was used for it yet: c takes it to the Bench.")
        yield Question()

    def on_screen_resume(self) -> None:
        self.read_again()

    def read_again(self) -> None:
        """Read the job."""
        self.reading(partial(read_use, self.station, self.code))

    @on(UseRead)
    def _show(self, message: UseRead) -> None:
        use, shop, shows_money = message.use, message.shop, self.station.shows_money
        self._job = use.job
        self.title_line.show(lines.title(use.job), lines.state(use.job))
        said = lines.summary(use, shop, shows_money=shows_money)
        self.facts.update(marked(f"{lines.facts(use.job)}\n{said}"))
        self.pieces.rows = [
            Row(
                one.standing.code,
                tuple(map(marked, lines.piece_cells(one, shop, shows_money=shows_money))),
            )
            for one in use.pieces
        ]

    def job_in_front(self) -> Job | None:
        return self._job

    @on(LineList.RowChosen)
    def _open(self, message: LineList.RowChosen) -> None:
        self.post_message(PieceAsked(message.key))

    def heard(self, own: Own) -> None:
        """Show another job, or take a piece to the Bench for this one."""
        if own.letter is Letter.JOB:
            self.code = own.code
            self.read_again()
        elif own.letter is Letter.PLACE:
            super().heard(own)
        else:
            self.action_cut_for()
            self.post_message(PassedOn("bench", own.code))

    def action_acts(self) -> None:
        """Show what was done for the job."""
        self.post_message(PassedOn("log", self.code))

    def action_leave(self) -> None:
        """Back to the list."""
        self.dismiss()
