"""An app that tells scans from typing before any key reaches a widget.

Every key passes `App.on_event` first, in the order in which it came. Keys that may belong to a scan
are held back there, so nothing of a scan leaks into a field, fires a letter key or moves the focus.
What is decided goes on one at a time: a key may move the focus, and the next one has to follow it.
"""

from collections import deque
from dataclasses import dataclass
from typing import Any

from textual import events
from textual.app import App
from textual.message import Message
from textual.message_pump import MessagePump
from textual.screen import Screen, SystemModalScreen
from textual.timer import Timer

from stockroom.codes import burst


@dataclass
class Scanned(Message):
    """A scanner read a text, or a person typed one on the scan line."""

    text: str
    by_hand: bool = False


class Followed(Message):
    """Goes the way of a key or a scan, right behind it: when it arrives, all have seen that one."""


class KeysFellSilent(Message):
    """No key came for as long as a scanner would wait."""


class Listening(App[None]):
    """Posts `Scanned` to the screen in front, and hands what a person typed on to Textual."""

    def __init__(self) -> None:
        super().__init__()
        self._burst = burst.Burst()
        self._decided: deque[burst.Scanned | burst.Stroke] = deque()
        self._is_on_its_way = False
        self._silence: Timer | None = None

    @property
    def holds_keys(self) -> bool:
        """Whether keys wait here: to be told from a scan, or for their turn."""
        return self._burst.is_waiting or bool(self._decided) or self._is_on_its_way

    async def on_event(self, event: events.Event) -> None:
        if not isinstance(event, events.Key) or event.is_forwarded:
            await super().on_event(event)
            return
        self._decided += self._burst.feed(burst.Stroke(event.key, event.character, event.time))
        await self._hand_on()

    async def on_keys_fell_silent(self, message: KeysFellSilent) -> None:
        self._decided += self._burst.silence(message.time)
        # What went to a widget that is gone has no follower; keys must not wait for it.
        self._is_on_its_way = False
        await self._hand_on()

    def on_followed(self) -> None:
        # What the key set going in the app, such as a change of focus, comes before the next one.
        self.call_later(self._arrived)

    async def _arrived(self) -> None:
        self._is_on_its_way = False
        await self._hand_on()

    async def _hand_on(self) -> None:
        if self._decided and not self._is_on_its_way:
            self._is_on_its_way = True
            (await self._send(self._decided.popleft())).post_message(Followed())
        self._await_silence()

    async def _send(self, one: burst.Scanned | burst.Stroke) -> MessagePump:
        """Send a scan or a key on its way, and tell who gets it first."""
        if isinstance(one, burst.Scanned):
            screen = self._screen_in_front()
            screen.post_message(Scanned(one.text))
            return screen
        first = self.focused or self.screen
        key = events.Key(one.key, one.character)
        await super().on_event(key)
        return first if key.is_forwarded else self

    def _screen_in_front(self) -> Screen[Any]:
        """The screen that hears a scan, also while the palette lies over it."""
        stack = reversed(self.screen_stack)
        return next((one for one in stack if not isinstance(one, SystemModalScreen)), self.screen)

    def _await_silence(self) -> None:
        if self._silence is not None:
            self._silence.stop()
            self._silence = None
        if self.holds_keys:
            # Through the queue, so that keys which came before are heard before.
            self._silence = self.set_timer(
                burst.SILENCE_S, lambda: self.post_message(KeysFellSilent())
            )
