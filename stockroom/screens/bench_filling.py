"""How the line of the Bench is filled: by scans in their order, by one key, by typing."""

from collections import deque
from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import partial
from math import inf
from uuid import uuid4

from textual import getters, on
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, Rule

from stockroom.books.values import Shop
from stockroom.codes.own import Letter, grouped
from stockroom.codes.recognise import Own
from stockroom.errors import echoed
from stockroom.lines import bench as lines
from stockroom.screens import bench_work as work
from stockroom.screens.bench_line import BenchLine, Waiting
from stockroom.screens.frame import Frame
from stockroom.screens.scanning import Listening
from stockroom.screens.station import Station
from stockroom.screens.widgets.bench_view import BenchView
from stockroom.screens.widgets.job_step import JobStep
from stockroom.screens.widgets.question import Question
from stockroom.screens.widgets.title import Title
from stockroom.work.look import Card

_SWEEPS_S = 10.0
_ONE_GO_S = 0.25
_MUDDLED_S = 1.0


class Filling(Frame):
    """The line and what waits beside it; what is done with a full line is the Bench's own."""

    AUTO_FOCUS = "#piece"

    app = getters.app(Listening)
    title_line = getters.query_one("#bench-title", Title)
    view = getters.query_one(BenchView)
    question = getters.query_one(Question)

    def __init__(self, station: Station) -> None:
        super().__init__()
        self.station = station
        self._line = BenchLine(request=uuid4().hex)
        self._waiting = Waiting()
        self._beside: work.Surroundings | None = None
        self._to_look_up: deque[str] = deque()
        self._is_busy = self._is_with_line = False
        self._job_pressed_at = self._muddled_at = -inf

    def body(self) -> Iterable[Widget]:
        yield Title("Bench", id="bench-title")
        yield Rule()
        yield BenchView()
        yield Question()

    def on_mount(self) -> None:
        self._put(self._line)
        self.set_interval(_SWEEPS_S, self._sweep)

    def on_screen_resume(self) -> None:
        self.title_line.show("Bench", f"on: {self.station.operator}")
        self._read_surroundings()

    def operator_changed(self) -> None:
        self.on_screen_resume()

    def _read_surroundings(self) -> None:
        self.reading(partial(work.surroundings, self.station), group="surroundings")

    @on(work.SurroundingsRead)
    def _show_surroundings(self, message: work.SurroundingsRead) -> None:
        self._beside = message.found
        self.view.show_choices(message.found)
        self._sweep()
        self.refresh_bindings()

    def _ask(
        self, sentence: str, yes: Callable[[], None], no: Callable[[], None] | None = None
    ) -> None:
        self.band.clear()
        self.question.ask(sentence, yes, no)

    # The line

    def _now(self) -> BenchLine:
        """The line with what is typed in it at this moment."""
        return self._line.with_typed(self.view.typed())

    def _put(self, line: BenchLine) -> None:
        """Put a line there and go to the first thing it needs."""
        self._line = line
        self.view.fill(line, self.station.now())
        self.refresh_bindings()
        self.view.go_to(line.needs)
        if line.job is not None and line.code is not None and not line.is_goods:
            look = partial(work.look_for_plan, self.station, line.job.code, line.code)
            self.reading(look, group="plan")

    @on(work.PlanFound)
    def _found_plan(self, message: work.PlanFound) -> None:
        self._line = replace(self._now(), planned=message.found)
        self.view.show(self._line, self.station.now())

    @on(Input.Changed)
    def _is_typing(self, event: Input.Changed) -> None:
        if event.value and self._pressed_at_s() - self._job_pressed_at < _ONE_GO_S:
            self._be_muddled()
            return
        if event.value:
            self.band.clear()
        self.view.show(self._now(), self.station.now())

    def _pressed_at_s(self) -> float:
        """When the key was pressed that is being handled; a slow machine handles it later."""
        return self.app.pressed_at_s

    def _be_muddled(self) -> None:
        """A number that went on in one go was no choice of a job: a length was typed too early."""
        self._job_pressed_at, self._muddled_at = -inf, self._pressed_at_s()
        self._put(replace(self._now(), job=None, length=""))
        self.band.refused("Is that the job or the length? First the number of the job, alone.")

    def _sweep(self) -> None:
        """Let go of the lines that have waited long enough, and show the others."""
        self._waiting = self._waiting.at(self.station.now())
        self.view.show_waiting(self._waiting, self._beside.shop if self._beside else Shop())

    # One thing at a time: a scan is looked up, or the line is checked and written

    def _do(self, call: Callable[[], Message], *, with_line: bool = False) -> None:
        """Ask the book; nobody types in a line that is being checked or written."""
        self._is_busy, self._is_with_line = True, with_line
        self.view.disabled = with_line
        self.writing(partial(work.or_not, call))

    def _is_done(self) -> None:
        self._is_busy = self._is_with_line = self.view.disabled = False
        if self._to_look_up:
            self._do(partial(work.look_up, self.station, self._to_look_up.popleft()))

    def heard(self, own: Own) -> None:
        """Look a piece or a job up, in the order of the scans."""
        self.question.action_withdraw()
        if own.letter is Letter.PLACE:
            self.band.refused(f"{grouped(own.code)} is a place: scan a piece or a job.")
            return
        self._to_look_up.append(own.code)
        if not self._is_busy:
            self._is_done()

    def heard_words(self, text: str, *, by_hand: bool) -> None:  # noqa: ARG002 - both are no code
        self.band.refused(f"“{echoed(text)}” is no code of this book: a piece or a job is wanted.")

    @on(work.PieceFound)
    def _found_piece(self, message: work.PieceFound) -> None:
        self._is_done()
        if refusal := lines.refused_piece(message.card):
            self.band.refused(refusal.sentence)
        else:
            self._bring(message.card)

    def _bring(self, card: Card) -> None:
        """Bring a piece to the line; what stood there waits."""
        self.question.action_withdraw()
        line = self._now()
        if line.card is None:
            self._put(line.with_piece(card))
        elif line.code == card.judged.code:
            self._put(replace(line, card=card))
        else:
            code, now = card.judged.code, self.station.now()
            again = self._waiting.at(now).of_piece(code) or BenchLine(request=uuid4().hex)
            self._waiting = self._waiting.with_line(line, now).without(code)
            self._put(again.with_piece(card))
        self._sweep()

    @on(work.JobFound)
    def _found_job(self, message: work.JobFound) -> None:
        self._is_done()
        one = message.job
        if one.is_closed:
            reopen = partial(work.reopen, self.station, one)
            self._ask(lines.reopen_question(one), lambda: self._do(reopen))
        else:
            self._put(replace(self._now(), job=one, reason=None))

    @on(JobStep.NumberPressed)
    def _chose_job(self, message: JobStep.NumberPressed) -> None:
        jobs = self._beside.jobs if self._beside else ()
        if self._goes_on():
            return
        if message.number > len(jobs):
            self.band.refused(f"No job has the number {message.number}: scan one.")
        else:
            self._job_pressed_at = self._pressed_at_s()
            self._put(replace(self._now(), job=jobs[message.number - 1], reason=None))

    @on(JobStep.ReasonPressed)
    def _chose_reason(self, message: JobStep.ReasonPressed) -> None:
        if not self._goes_on():
            self._put(replace(self._now(), job=None, reason=message.reason))

    def _goes_on(self) -> bool:
        """Whether a key is the rest of what was typed too early."""
        if self._pressed_at_s() - self._muddled_at >= _MUDDLED_S:
            return False
        self._muddled_at = self._pressed_at_s()
        return True

    @on(JobStep.Kept)
    def _kept_job(self) -> None:
        self._put(self._now())

    def action_next_line(self) -> None:
        """Take up the line that has waited longest."""
        if self._waiting.lines and not self._is_busy:
            self._to_look_up.append(self._waiting.lines[0].code or "")
            self._is_done()

    def action_start_over(self) -> None:
        """Empty the line; what waits goes on waiting."""
        self.question.action_withdraw()
        self.band.clear()
        if not self._is_busy:
            self._put(BenchLine(request=uuid4().hex))
