"""What every screen has in common: the result band, the scan line and the keys at the foot."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import partial
from typing import ClassVar

from textual import getters, on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.widget import Widget

from stockroom.codes.card import Operator, Order, Sign
from stockroom.codes.own import Letter
from stockroom.codes.recognise import Own
from stockroom.errors import Refusal, echoed
from stockroom.screens.form import Form
from stockroom.screens.hearing import Hearing
from stockroom.screens.keys import Where, bindings
from stockroom.screens.people import PersonFound, WhoAsked, person_at, who
from stockroom.screens.station import Station
from stockroom.screens.widgets.band import Band
from stockroom.screens.widgets.foot import Foot
from stockroom.screens.widgets.question import Question
from stockroom.screens.widgets.scan_line import ScanLine


@dataclass
class PieceAsked(Message):
    """Somebody wants to see a piece's card."""

    code: str


@dataclass
class PassedOn(Message):
    """What was scanned or typed here belongs to another screen."""

    mode: str
    text: str


class Frame(Hearing[None]):
    """A screen whose own part is its `body`."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.SCREEN)]
    VERTICAL_BREAKPOINTS = [(0, "-short"), (32, "-tall")]

    station: Station

    band = getters.query_one(Band)
    scan_line = getters.query_one(ScanLine)

    def compose(self) -> ComposeResult:
        yield from self.body()
        yield Band()
        yield ScanLine()
        yield Foot()

    def body(self) -> Iterable[Widget]:
        """The screen's own widgets, from the top."""
        raise NotImplementedError

    def action_type(self) -> None:
        """Type a code instead of scanning it."""
        self.scan_line.begin()

    def begin_anew(self) -> None:
        self.band.clear()

    def misread(self, refusal: Refusal) -> None:
        self.band.refused(refusal.sentence)

    def refused(self, refusal: Refusal) -> None:
        self.band.refused(refusal.sentence)

    def waits(self) -> None:
        self.band.waits()

    def waits_no_more(self) -> None:
        self.band.waits_no_more()

    def heard(self, own: Own) -> None:
        """Show a piece's card, a place on the Rack, a job on the Bench."""
        if own.letter is Letter.JOB:
            self.post_message(PassedOn("bench", own.code))
        elif own.letter is Letter.PLACE:
            self.post_message(PassedOn("rack", own.code))
        else:
            self.post_message(PieceAsked(own.code))

    def heard_order(self, own: Own) -> None:
        """Let Goods in take what is to come of an order."""
        self.post_message(PassedOn("goods", own.code))

    def signed(self, sign: Sign) -> None:
        """Write somebody else down from now on, or say yes; other orders are for the Bench."""
        asked = next((one for one in self.query(Question) if one.is_asked), None)
        if isinstance(sign, Operator):
            self.writing(partial(person_at, self.station, sign.key))
        elif sign is Order.OK and asked is not None:
            asked.action_answer(yes=True)
        else:
            self.band.refused("This code of the wall card means nothing here: it is for the Bench.")

    def action_who(self) -> None:
        """Ask who is at work."""
        self.band.clear()
        self.reading(partial(who, self.station), group="who")

    @on(WhoAsked)
    def _ask_who(self, message: WhoAsked) -> None:
        self.app.push_screen(Form(message.blank), self._stepped_up)

    @on(PersonFound)
    def _was_found(self, message: PersonFound) -> None:
        self._stepped_up(message.name)

    def _stepped_up(self, name: str | None) -> None:
        if name:
            self.station.operator = name
            self.band.done(f"{name} is written down from now on")
            self.operator_changed()

    def operator_changed(self) -> None:
        """Somebody else is at work: a screen that says who, or what they did, shows it."""

    def heard_words(self, text: str, *, by_hand: bool) -> None:
        """Look on the Rack for words typed; a scan that is no code is said to be none."""
        if by_hand:
            self.post_message(PassedOn("rack", text))
        else:
            self.band.refused(f"“{echoed(text)}” is no code of this book.")
