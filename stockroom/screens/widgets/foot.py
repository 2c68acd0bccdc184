"""The keys at the foot of a screen, in one line that a mouse can press, too."""

from itertools import accumulate
from typing import Any, ClassVar, NamedTuple

from textual import events
from textual.content import Content
from textual.screen import Screen
from textual.widget import Widget


class _Key(NamedTuple):
    """A key as it is shown: ` F2 Today`."""

    key: str
    display: str
    words: str
    tooltip: str
    is_on: bool

    @property
    def width(self) -> int:
        """The cells it takes, with the one after it."""
        return len(self.display) + len(self.words) + 2


class Foot(Widget):
    """One widget for all keys: a widget for each would take longer to make than most answers."""

    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {"foot--key", "foot--words", "foot--off"}
    DEFAULT_CSS = """
    Foot {
        dock: bottom;
        height: 1;
        padding: 0;
        text-wrap: nowrap;
        .foot--key { color: $footer-key-foreground; text-style: bold; }
        .foot--words { color: $footer-description-foreground; }
        .foot--off { text-style: dim; }
    }
    """

    def __init__(self) -> None:
        super().__init__()
        self._keys: tuple[_Key, ...] = ()

    def on_mount(self) -> None:
        self.screen.bindings_updated_signal.subscribe(self, self._changed)

    def on_unmount(self) -> None:
        self.screen.bindings_updated_signal.unsubscribe(self)

    def _changed(self, screen: Screen[Any]) -> None:
        """The keys may be other ones now."""
        if self.is_attached and screen is self.screen:
            self.call_after_refresh(self._show)

    def _show(self) -> None:
        if not self.is_attached:  # the screen was left meanwhile
            return
        shown = [one for one in self.screen.active_bindings.values() if one.binding.show]
        of_action = {one.binding.action: one for one in reversed(shown)}  # the first of each
        keys = tuple(
            _Key(
                key=one.binding.key,
                display=self.app.get_key_display(one.binding),
                words=one.binding.description,
                tooltip=one.tooltip,
                is_on=one.enabled,
            )
            for one in shown
            if of_action[one.binding.action] is one
        )
        if keys != self._keys:
            self._keys = keys
            self.refresh()

    def render(self) -> Content:
        """Every key and its words, a cell apart; what has no room is cut off."""
        parts: list[Content] = []
        for one in self._keys:
            off = () if one.is_on else ("foot--off",)
            key = self.get_visual_style("foot--key", *off)
            words = self.get_visual_style("foot--words", *off)
            parts += [Content.styled(one.display, key), Content.styled(f" {one.words} ", words)]
        return Content("").join(parts)

    def on_click(self, event: events.Click) -> None:
        """Press the key under the mouse."""
        pressed = self._under(event.x)
        if pressed is not None and pressed.is_on:
            self.app.simulate_key(pressed.key)

    def on_mouse_move(self, event: events.MouseMove) -> None:
        """Say what the key under the mouse does."""
        under = self._under(event.x)
        self.tooltip = under.tooltip if under else None

    def _under(self, x: int) -> _Key | None:
        """The key at a cell of the line."""
        ends = accumulate(one.width for one in self._keys)
        return next((one for one, end in zip(self._keys, ends, strict=True) if x < end), None)
