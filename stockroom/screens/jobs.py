"""Jobs: the work that film is charged to, the open ones first."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import ClassVar

from textual import getters, on
from textual.binding import BindingType
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Rule, Static

from stockroom.books.values import Job
from stockroom.codes.own import Letter
from stockroom.codes.recognise import Own
from stockroom.lines import jobs as lines
from stockroom.screens.form import Blank, Field, Form, mending
from stockroom.screens.job import JobScreen
from stockroom.screens.job_acting import JobActing
from stockroom.screens.job_work import UseRead, read_use
from stockroom.screens.keys import Where, bindings
from stockroom.screens.marks import marked
from stockroom.screens.station import Station
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.line_list import LineList, Row
from stockroom.screens.widgets.question import Question
from stockroom.screens.widgets.scan_line import ScanLine
from stockroom.screens.widgets.title import Title
from stockroom.work.jobs import KINDS, OpenJob, open_job
from stockroom.work.look import jobs
from stockroom.work.panels import stages

_COLUMNS = (
    Column(title="job", width=9),
    Column(title="name", width=20, grows=True),
    Column(title="site", width=16, grows=True),
    Column(title="on", width=14),
    Column(title="is", width=9),
    Column(title="work", width=8, rank=1),
)


@dataclass
class JobsRead(Message):
    """Every job was read, and how far those have come whose panels are written down."""

    jobs: tuple[Job, ...]
    stages: Mapping[str, str]


class JobsScreen(JobActing):
    """Every job; below, what the one under the cursor used."""

    HELP = """\
## Jobs

The work that film is charged to: open jobs by the day they are wanted, then the closed ones. A job
whose panels are written down is asked, planned, cut, installed or closed. Enter
opens a job with its pieces. Letter keys act on the job under the cursor: `c` takes it to the Bench,
`x` closes it, `r` opens it again. `n` opens a new one.

`/` finds as you type, `o` keeps to the open ones, Esc shows all. Scan a job to open it.
"""
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.JOBS)]

    title_line = getters.query_one(Title)
    list_of_jobs = getters.query_one(LineList)
    detail = getters.query_one("#detail", Static)

    def __init__(self, station: Station) -> None:
        super().__init__(station)
        self._known: tuple[Job, ...] = ()
        self._stages: Mapping[str, str] = {}
        self._shown: tuple[Job, ...] = ()
        self._find = ""
        self._only_open = False

    def body(self) -> Iterable[Widget]:
        yield Title("Jobs")
        yield Rule()
        yield LineList(_COLUMNS, empty="Reading the book …")
        yield Static(id="detail", markup=False)
        yield Question()

    def on_screen_resume(self) -> None:
        self.read_again()

    def read_again(self) -> None:
        """Read every job."""
        book = self.station.book
        self.reading(lambda: JobsRead(jobs(book), stages(book)))

    @on(JobsRead)
    def _read(self, message: JobsRead) -> None:
        self._known, self._stages = message.jobs, message.stages
        self._show()

    def _show(self) -> None:
        self._shown = lines.ordered(self._known, self._find, only_open=self._only_open)
        self.list_of_jobs.empty = lines.NONE_LIKE_THAT if self._known else lines.NOTHING_HERE
        self.list_of_jobs.rows = [
            Row(one.code, tuple(map(marked, lines.cells(one, self._stages)))) for one in self._shown
        ]
        said = lines.said(len(self._shown), len(self._known), self._find, only_open=self._only_open)
        self.title_line.show("Jobs", said)
        self._look_up_use()

    def job_in_front(self) -> Job | None:
        return self._shown[self.list_of_jobs.cursor] if self._shown else None

    @on(LineList.RowHighlighted)
    def _look_up_use(self) -> None:
        self.detail.update("")
        if one := self.job_in_front():
            self.reading(partial(read_use, self.station, one.code), group="use")

    @on(UseRead)
    def _show_use(self, message: UseRead) -> None:
        shows_money = self.station.shows_money
        said = lines.summary(message.use, message.shop, shows_money=shows_money)
        self.detail.update(marked(f"{lines.facts(message.use.job)}\n{said}"))

    @on(LineList.RowChosen)
    def _open(self, message: LineList.RowChosen) -> None:
        self.app.push_screen(JobScreen(self.station, message.key))

    # What is shown

    def heard(self, own: Own) -> None:
        """Open a job."""
        if own.letter is Letter.JOB:
            self.app.push_screen(JobScreen(self.station, own.code))
        else:
            super().heard(own)

    def heard_words(self, text: str, *, by_hand: bool) -> None:
        if by_hand:
            self._look_for(text)
        else:
            super().heard_words(text, by_hand=by_hand)

    @on(ScanLine.Sought)
    def _sought(self, message: ScanLine.Sought) -> None:
        self._look_for(message.text)

    def _look_for(self, text: str) -> None:
        self._find = text
        self._show()

    def action_only_open(self) -> None:
        """Keep to the open jobs, or to none."""
        self._only_open = not self._only_open
        self._show()

    def action_every_job(self) -> None:
        """Show every job again."""
        self.band.clear()
        self._only_open = False
        self._look_for("")

    # A new one

    def action_new_job(self) -> None:
        """Ask what the new job is called."""
        self.band.clear()
        self.app.push_screen(Form(_new_job(self.station)), self._was_opened)

    def _was_opened(self, sentence: str | None) -> None:
        if sentence:
            self.band.done(sentence)


def _new_job(station: Station) -> Blank:
    asking = station.asking()

    def write(said: Mapping[str, str]) -> str:
        with mending("day" if said["name"] else "name"):
            request = OpenJob(
                **asking,
                name=said["name"],
                site=said["site"],
                on_day=said["day"] or None,
                kind=said["work"] or KINDS[0],
            )
            one = open_job(request, book=station.book, now=station.now())
        return f"opened {lines.title(one)}"

    return Blank(
        title="New job",
        fields=(
            Field(name="name", hint="as people in the shop call it"),
            Field(name="site", hint="where it is"),
            Field(name="day", hint="when it is wanted, like 2026-12-04 or 2026-12"),
            Field(name="work", hint=", ".join(KINDS), value=KINDS[0]),
        ),
        write=write,
    )
