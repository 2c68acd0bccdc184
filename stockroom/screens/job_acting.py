"""A screen from which a job is cut for, closed and opened again."""

from dataclasses import dataclass
from functools import partial

from textual import getters, on
from textual.message import Message

from stockroom.books.values import Job
from stockroom.codes.own import grouped
from stockroom.lines import jobs as lines
from stockroom.screens.frame import Frame, PassedOn
from stockroom.screens.station import Station
from stockroom.screens.widgets.question import Question
from stockroom.work.jobs import CloseJob, close_or_reopen


@dataclass
class JobTurned(Message):
    """A job was closed or opened again."""

    job: Job


class JobActing(Frame):
    """Acts on the job that is in front; its body has a `Question`."""

    question = getters.query_one(Question)

    def __init__(self, station: Station) -> None:
        super().__init__()
        self.station = station

    def job_in_front(self) -> Job | None:
        """The job the keys act on."""
        raise NotImplementedError

    def read_again(self) -> None:
        """Read what is shown, after something was written."""
        raise NotImplementedError

    def action_cut_for(self) -> None:
        """Take the job to the Bench."""
        if one := self.job_in_front():
            self.post_message(PassedOn("bench", one.code))

    def action_close(self) -> None:
        """Ask whether the job is done."""
        one = self.job_in_front()
        if one is not None and self._is_to_be_turned(one, closed=False):
            self.question.ask(lines.close_question(one), partial(self._turn, one))

    def action_reopen(self) -> None:
        """Open the job again; that takes nothing from anybody, so it is not asked about."""
        one = self.job_in_front()
        if one is not None and self._is_to_be_turned(one, closed=True):
            self._turn(one)

    def _is_to_be_turned(self, one: Job, *, closed: bool) -> bool:
        self.question.action_withdraw()
        self.band.clear()
        if one.is_closed != closed:
            self.band.refused(f"{grouped(one.code)} {one.name} is {lines.state(one)} already.")
        return one.is_closed == closed

    def _turn(self, one: Job) -> None:
        station = self.station
        request = CloseJob(**station.asking(), job=one.code, reopen=one.is_closed)
        self.writing(
            lambda: JobTurned(close_or_reopen(request, book=station.book, now=station.now()))
        )

    @on(JobTurned)
    def _was_turned(self, message: JobTurned) -> None:
        one = message.job
        self.band.done(f"{lines.title(one)} is {lines.state(one)}")
        self.read_again()
