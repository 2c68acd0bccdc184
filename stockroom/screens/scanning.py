"""An app that tells scans from typing before any key acts.

Every key passes `App.on_event` first, in the order in which it came. Keys that may belong to a scan
are held back there, so no scan fires a letter key or moves the focus. A text field shows them at
once all the same, as a person expects; when they turn out to be a scan, the field goes back to what
it was. What is decided goes on one at a time: a key may move the focus, and the next follows it.
"""

import re
from collections import deque
from dataclasses import dataclass
from typing import Any, TypeAlias

from textual import events
from textual.app import App
from textual.message import Message
from textual.message_pump import MessagePump
from textual.screen import Screen, SystemModalScreen
from textual.timer import Timer
from textual.widgets import Input
from textual.widgets.input import Selection

from stockroom.codes import burst
from stockroom.codes.own import looks_like_code

_ENDS = re.compile("[\r\n\t]+")
_MOST_SILENCES = 20
_SHOWN_AT_ONCE = frozenset({"backspace", "delete", "left", "right"})


@dataclass
class Scanned(Message):
    """A scanner read a text, or a person typed one on the scan line."""

    text: str
    by_hand: bool = False


class Followed(Message):
    """Goes the way of a key or a scan, right behind it: when it arrives, all have seen that one."""


class Answered(Message):
    """The book answered a screen; its turn comes between two keys, never in the midst of one."""

    def __init__(self, screen: Screen[Any], answer: Message) -> None:
        super().__init__()
        self.screen = screen
        self.answer = answer


class KeysFellSilent(Message):
    """No key came for as long as a scanner would wait."""


@dataclass(frozen=True, slots=True)
class _Undecided:
    """A key that is held back, which a field may show already; `begins` a row of such keys."""

    stroke: burst.Stroke
    begins: bool


_Turn: TypeAlias = burst.Scanned | burst.Stroke | _Undecided | Answered


class Listening(App[None]):
    """Posts `Scanned` to the screen in front, and hands what a person typed on to Textual.

    `pressed_at_s` is when the key was pressed that the screen is handling, on the clock of messages.
    """

    def __init__(self) -> None:
        super().__init__()
        self._burst = burst.Burst()
        self._turns: deque[_Turn] = deque()
        self._on_its_way: MessagePump | None = None
        self._silences = 0
        self._silence: Timer | None = None
        self.pressed_at_s = 0.0
        self._may_show = False
        self._shown: deque[burst.Stroke] = deque()
        self._fields_before: dict[Input, tuple[str, Selection]] = {}

    @property
    def holds_keys(self) -> bool:
        """Whether keys wait here: to be told from a scan, or for their turn."""
        return self._burst.is_waiting or bool(self._turns) or self._on_its_way is not None

    async def on_event(self, event: events.Event) -> None:
        if isinstance(event, events.Paste) and (texts := self._scanned_in(event.text)):
            self._turns += map(burst.Scanned, texts)
            await self._hand_on()
            return
        if not isinstance(event, events.Key) or event.is_forwarded:
            await super().on_event(event)
            return
        stroke = burst.Stroke(event.key, event.character, event.time)
        was_waiting = self._burst.is_waiting
        decided = self._burst.feed(stroke)
        self._turns += decided
        if self._burst.is_waiting:
            self._turns.append(_Undecided(stroke, begins=bool(decided) or not was_waiting))
        await self._hand_on()

    def _scanned_in(self, pasted: str) -> list[str]:
        """The scans in a text that a terminal hands over whole; what is no code goes to a field."""
        texts = [text for text in _ENDS.split(pasted) if text.strip()]
        is_for_a_field = isinstance(self.focused, Input)
        return [] if is_for_a_field and not all(map(looks_like_code, texts)) else texts

    async def on_keys_fell_silent(self, message: KeysFellSilent) -> None:
        self._turns += self._burst.silence(message.time)
        self._silences += 1
        # What went to a widget that is gone has no follower; keys must not wait for it. A slow one
        # must be waited for: what is taken back before a key reached it would be typed after all.
        first = self._on_its_way
        if first is not None and (not first.is_running or self._silences >= _MOST_SILENCES):
            self._on_its_way = None
        await self._hand_on()

    async def on_answered(self, message: Answered) -> None:
        self._turns.append(message)
        await self._hand_on()

    def on_followed(self) -> None:
        # What the key set going in the app, such as a change of focus, comes before the next one.
        self.call_later(self._arrived)

    async def _arrived(self) -> None:
        self._on_its_way = None
        await self._hand_on()

    async def _hand_on(self) -> None:
        while self._turns and self._on_its_way is None:
            self._on_its_way, self._silences = self, 0
            first = await self._send(self._turns.popleft())
            self._on_its_way = (
                first if first is not None and first.post_message(Followed()) else None
            )
        self._await_silence()

    async def _send(self, one: _Turn) -> MessagePump | None:
        """Send a scan or a key on its way, and tell who gets it first, if anybody does."""
        if isinstance(one, burst.Scanned):
            self._take_back()
            screen = self._screen_in_front()
            screen.post_message(Scanned(one.text))
            return screen
        if isinstance(one, Answered):
            self._take_back()
            return one.screen if one.screen.post_message(one.answer) else None
        if isinstance(one, _Undecided):
            return await self._show(one)
        return None if self._is_shown(one) else await self._deliver(one)

    def _is_shown(self, stroke: burst.Stroke) -> bool:
        """Whether a field shows a key already that was decided just now to be a person's."""
        if not any(one is stroke for one in self._shown):
            return False
        while self._shown.popleft() is not stroke:
            pass
        if not self._shown:
            self._fields_before.clear()
        return True

    async def _deliver(self, stroke: burst.Stroke) -> MessagePump:
        self.pressed_at_s = stroke.at_s
        first = self.focused or self.screen
        key = events.Key(stroke.key, stroke.character)
        await super().on_event(key)
        return first if key.is_forwarded else self

    async def _show(self, one: _Undecided) -> MessagePump | None:
        """Let a field show a key that is not decided yet, unless one before it is still unseen."""
        field, stroke = self.focused, one.stroke
        is_editing = bool(stroke.text) or stroke.key in _SHOWN_AT_ONCE
        self._may_show = isinstance(field, Input) and is_editing and (one.begins or self._may_show)
        if not self._may_show or not isinstance(field, Input):
            return None
        self._fields_before.setdefault(field, (field.value, field.selection))
        self._shown.append(stroke)
        return await self._deliver(stroke)

    def _take_back(self) -> None:
        """Leave the fields as they were before the keys that are not decided yet."""
        self._may_show = False
        for field, (value, selection) in self._fields_before.items():
            field.value = value
            field.selection = selection
        self._fields_before.clear()
        self._shown.clear()

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
