"""What every screen does with scans, and with questions to the book."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Generic, TypeGuard

from textual import on
from textual.message import Message
from textual.screen import Screen, ScreenResultType
from textual.worker import Worker, get_current_worker

from stockroom.codes.card import Sign, sign_of
from stockroom.codes.own import Letter
from stockroom.codes.recognise import Own, Unknown, recognise
from stockroom.errors import Refusal
from stockroom.screens.scanning import Answered, Scanned

_ONE_SCAN_S = 2.0
_WRITING = "writing"
SILENT_S = 1.0
"""So long the book may take before a person is told that it is still at it."""


@dataclass
class Refused(Message):
    """The book, or a rule, said no; nothing was written."""

    refusal: Refusal


class Hearing(Screen[ScreenResultType], Generic[ScreenResultType]):
    """Hears scans and asks the book in threads, each of which posts one message and touches nothing."""

    _last: Scanned | None = None

    def heard(self, own: Own) -> None:
        """Take a code of the book that was scanned or typed."""
        raise NotImplementedError

    def heard_order(self, own: Own) -> None:
        """Take the code of an order."""
        self.heard(own)

    def signed(self, sign: Sign) -> None:
        """Take a sign of the wall card."""
        raise NotImplementedError

    def heard_words(self, text: str, *, by_hand: bool) -> None:
        """Take a text that is no code."""
        raise NotImplementedError

    def misread(self, refusal: Refusal) -> None:
        """Show that a scan was misread."""
        raise NotImplementedError

    def refused(self, refusal: Refusal) -> None:
        """Show why what was asked of the book was not done."""
        raise NotImplementedError

    def waits(self) -> None:
        """Show that the book has not answered yet."""
        raise NotImplementedError

    def waits_no_more(self) -> None:
        """Show that it has."""
        raise NotImplementedError

    def begin_anew(self) -> None:
        """A scan begins something: what was shown of the last result may go."""

    def reading(self, call: Callable[[], Message], *, group: str = "reading") -> None:
        """Read the book in a thread; of several of one group only the newest answers."""
        work = partial(self._answer, call)
        self.run_worker(work, thread=True, exclusive=True, group=group)

    def writing(self, call: Callable[[], Message]) -> None:
        """Write to the book in a thread; nothing cancels it, for what is written is written."""
        worker = self.run_worker(partial(self._answer, call), thread=True, group=_WRITING)
        self.set_timer(SILENT_S, lambda: None if worker.is_finished else self.waits())

    @on(Worker.StateChanged)
    def _has_written(self, event: Worker.StateChanged) -> None:
        if event.worker.group == _WRITING and event.worker.is_finished:
            self.waits_no_more()

    def _answer(self, call: Callable[[], Message]) -> None:
        try:
            message = call()
        except Refusal as refusal:
            message = Refused(refusal)
        if not get_current_worker().is_cancelled:
            # Through the app, which lets no field hold half a scan while the answer is taken.
            self.app.post_message(Answered(self, message))

    @on(Refused)
    def _was_refused(self, message: Refused) -> None:
        self.refused(message.refusal)

    @on(Scanned)
    def _was_scanned(self, message: Scanned) -> None:
        last, self._last = self._last, message
        if not message.by_hand and last is not None and _is_same_scan(last, message):
            return
        self.begin_anew()
        try:
            what = recognise(message.text)
            sign = sign_of(what.code) if _is_of_the_card(what) else None
        except Refusal as refusal:
            self.misread(refusal)
            return
        if sign is not None:
            self.signed(sign)
        elif isinstance(what, Own) and what.letter is Letter.ORDER:
            self.heard_order(what)
        elif isinstance(what, Own):
            self.heard(what)
        else:
            self.heard_words(what.text, by_hand=message.by_hand)


def _is_of_the_card(what: Own | Unknown) -> TypeGuard[Own]:
    return isinstance(what, Own) and what.letter is Letter.CARD


def _is_same_scan(last: Scanned, message: Scanned) -> bool:
    return last.text == message.text and message.time - last.time < _ONE_SCAN_S
