"""Bench: three inputs with wet hands, a piece, a job and a length; Enter writes."""

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from typing import ClassVar
from uuid import uuid4

from textual import on
from textual.binding import BindingType
from textual.widgets import Input

from stockroom.codes.card import Order, Sign, Typed
from stockroom.errors import Code, Refusal
from stockroom.lines import bench as lines
from stockroom.screens import bench_work as work
from stockroom.screens.bench_filling import Filling
from stockroom.screens.bench_line import BenchLine, Request
from stockroom.screens.form import Form, Misfilled
from stockroom.screens.forms.on_card import OnCard
from stockroom.screens.forms.table import FORMS
from stockroom.screens.keys import Where, bindings
from stockroom.screens.station import Station
from stockroom.screens.widgets.job_step import JobStep
from stockroom.work.cut import Cut
from stockroom.work.look import Card
from stockroom.work.measuring import is_far_above

_TO_MEND = {
    Code.JOB_CLOSED: "job",
    Code.NO_JOB: "job",
    Code.OTHER_JOB: "job",
    Code.OUT: "job",
    Code.STOPPED: "despite",
    Code.TOO_EARLY: "when",
    Code.FUTURE: "when",
}
_LACKS: Mapping[Sign, str] = {
    Order.UNDO: "You have written nothing that could be undone.",
    Order.FINISHED: "Scan the roll or the box first: then it can be finished.",
    Order.BACK: "Scan the piece first: then some of it can come back.",
    Order.OUT: "Scan the piece first: then it can go out.",
    Order.IN: "Scan the piece first: then it can come in.",
}
_ORDERS = frozenset({*_LACKS, Order.SPOILED})


class BenchScreen(Filling):
    """One line that is filled by scans and typing, and written by the person's Enter."""

    HELP = """\
## Bench

1. Scan the piece.
2. Scan the job, or press its number: the job used last is 1.
3. Type the length. Enter writes it; a scanner's Enter never does.

Lengths: `2.8` or `2.8m`, `2800`, `4x1.25` (four times), `=3.6` (what is left is 3.6). Tab leads to
waste (a length), offcuts to keep (`300x1000`, several with `+`), and when it was done if that was
not now (`yesterday 16:00`, `mon 9:15`).

The next cut of the same piece and job asks for the length only. A line you leave for another piece
waits ten minutes: scan its piece again, or press F6.

Film of the piece that is reserved for the job is shown as planned: Enter without a length writes
those cuts, with their offcuts; a length that is typed is cut as ever.

A whole piece goes out to a van or a site with `o`, and comes in with `i`: what is less then was
used. A closed job that is scanned is opened again with one key.

The wall card: digits fill the length (the same digit twice: wait two seconds), OK is your Enter and
your yes, undo, finished, out, in, back and spoiled do what they say, a person's code writes them
down from now on, and so does `^O`.
"""
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.BENCH)]

    def __init__(self, station: Station) -> None:
        super().__init__(station)
        self._request: Request | None = None

    @on(work.NotDone)
    def _was_not_done(self, message: work.NotDone) -> None:
        """Say what is wrong, keep what was typed, and go to the field to mend."""
        refusal, was_with_line = message.refusal, self._is_with_line
        self._is_done()
        if was_with_line and refusal.code is Code.TOO_LONG and self._may_overrun():
            self.view.go_to("length")
            self._ask(
                lines.short(refusal), lambda: self._check(replace(self._now(), is_overrun=True))
            )
            return
        self.band.refused(refusal.sentence)
        if was_with_line:
            self.view.go_to(_TO_MEND.get(refusal.code, "length"))

    def _may_overrun(self) -> bool:
        """Whether more can be cut than the books have: of a roll, and not for a part too large."""
        card, request = self._line.card, self._request
        if card is None or not isinstance(request, Cut):
            return False
        piece, length_nm = card.judged.standing.piece, request.length_nm
        is_short = piece.state.form == "roll" and length_nm > piece.state.balance
        return is_short and not is_far_above(length_nm, piece)

    # Writing

    @on(Input.Submitted)
    def _enter(self) -> None:
        self._check(self._now())

    def _check(self, line: BenchLine) -> None:
        """Look at the piece once more before the line is written."""
        self.question.action_withdraw()
        if self._is_busy:
            return
        self._line = line
        try:
            self._request = line.wanted(self.station.asking(line.request), self.station.now())
        except Misfilled as refusal:
            self.band.refused(refusal.sentence)
            self.view.go_to(refusal.field)
            return
        self._do(partial(work.check, self.station, self._request), with_line=True)

    @on(work.Checked)
    def _checked(self, message: work.Checked) -> None:
        card, older = message.card, message.older
        self._line = replace(self._line, card=card)
        self.view.show(self._line, self.station.now())
        if older is None or self._line.is_this_wanted:
            self._write()
            return
        self._is_done()
        self.view.go_to("length")
        self._ask(
            lines.older(older, card.view.shop),
            lambda: self._do(partial(work.look_up_older, self.station, older.code), with_line=True),
            lambda: self._check(replace(self._now(), is_this_wanted=True)),
        )

    @on(work.OlderFound)
    def _switch(self, message: work.OlderFound) -> None:
        """Put the older piece in the place of the newer one; somebody has to fetch it first."""
        self._is_done()
        self._put(replace(self._now(), card=message.card))

    def _write(self) -> None:
        """Write the line as it was checked."""
        card = self._line.card
        if card is not None and self._request is not None:
            write = partial(work.write, self.station, self._request, card.view.shop)
            self._do(write, with_line=True)

    @on(work.Written)
    def _was_written(self, message: work.Written) -> None:
        card = message.card
        self._is_done()
        self.band.done(message.sentence)
        stays = None if card.judged.standing.state.ended else card
        self._put(self._now().after(uuid4().hex, stays))
        self._ask_whether_it_is_finished()
        self._read_surroundings()

    def _ask_whether_it_is_finished(self) -> None:
        card = self._line.card
        if card is not None and self._line.can_finish and not card.judged.standing.state.balance:
            self.action_finished()

    @on(work.Undone)
    def _was_undone(self, message: work.Undone) -> None:
        self._is_done()
        self.band.done(message.sentence)
        line, card = self._now(), message.card
        if line.code == card.judged.code:
            stays = None if card.judged.standing.state.ended else card
            line = replace(line, card=stays)
        self._put(line)
        self._read_surroundings()

    # The wall card

    def signed(self, sign: Sign) -> None:
        """Do what a code of the wall card says."""
        if self._is_busy:
            self.band.refused("One thing at a time: scan that again.")
        elif sign is Order.OK:
            self._say_ok()
        elif isinstance(sign, Typed) or sign in _ORDERS:
            self.question.action_withdraw()
            self._follow(sign)
        else:
            super().signed(sign)

    def _say_ok(self) -> None:
        """The person's Enter, or their yes to what is asked."""
        if self.question.is_asked:
            self.question.action_answer(yes=True)
        else:
            self._check(self._now())

    def _follow(self, sign: Sign) -> None:
        if isinstance(sign, Typed):
            line = self._now()
            length = line.length + sign.character
            self._put(replace(line, length=length, is_overrun=False))
            self.view.go_to("length")
        elif sign is Order.SPOILED:
            self._put(replace(self._now(), job=None, reason="spoiled"))
        elif sign is Order.UNDO and self._beside and self._beside.acts:
            self.action_undo_mine()
        elif sign is Order.FINISHED and self._line.can_finish:
            self.action_finished()
        elif isinstance(sign, Order) and sign.value in FORMS and self._line.card:
            self._fill_in(sign.value, self._line.card)
        else:
            self.band.refused(_LACKS[sign])

    @on(JobStep.AwayPressed)
    def _goes_or_comes(self, message: JobStep.AwayPressed) -> None:
        if not self._goes_on() and not self._is_busy:
            self._follow(Order(message.way))

    def _fill_in(self, name: str, card: Card) -> None:
        """Ask what a form asks of the piece on the line."""
        beside = self._beside
        lies_open = OnCard(
            station=self.station,
            card=card,
            places=beside.places if beside else (),
            jobs=beside.jobs if beside else (),
            job=self._line.job,
            went_to=lines.went_last(beside.acts) if beside else "",
        )
        try:
            form = Form(FORMS[name](lies_open))
        except Refusal as refusal:
            self.band.refused(refusal.sentence)
        else:
            self.app.push_screen(form, self._filled_in)

    def _filled_in(self, sentence: str | None) -> None:
        if sentence and self._line.code:
            self.band.done(sentence)
            self.reading(partial(work.look_again, self.station, self._line.code), group="again")

    @on(work.SeenAgain)
    def _saw_again(self, message: work.SeenAgain) -> None:
        self._put(self._now().seen_again(message.card, uuid4().hex))
        self._ask_whether_it_is_finished()

    # Other keys

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer only what there is something for."""
        match action:
            case "next_line":
                return bool(self._waiting.lines)
            case "finished":
                return self._line.can_finish
            case "undo_mine":
                return self._beside is not None and bool(self._beside.acts)
            case _:
                return super().check_action(action, parameters)

    def action_finished(self) -> None:
        """Ask whether the core of the roll on the line is bare, or the box empty."""
        card = self._line.card
        if card is None or self._is_busy:
            return
        self._ask(
            lines.bare_core(card),
            lambda: self._do(
                partial(work.finish_roll, self.station, card.judged.code), with_line=True
            ),
        )

    def action_undo_mine(self) -> None:
        """Ask whether the last act this operator wrote is to be reversed."""
        beside = self._beside
        if beside is None or not beside.acts or self._is_busy:
            return
        last = beside.acts[0]
        was = lines.act_said(last, beside.shop, beside.places)
        self._ask(
            f"undo your last: {was}?",
            lambda: self._do(partial(work.undo_act, self.station, last, was), with_line=True),
        )
