"""The line at the bottom of every screen on which a scan is awaited and a code is typed by hand."""

from dataclasses import dataclass
from typing import ClassVar

from textual import events, getters, on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, Static

from stockroom.errors import clean_text
from stockroom.screens.keys import Where, bindings
from stockroom.screens.scanning import Scanned

PROMPT = "scan, or / to type"


class ScanLine(Horizontal):
    """What is typed here arrives like a scan; nothing typed and left is kept."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.TYPING)]
    DEFAULT_CSS = """
    ScanLine {
        height: 1;
        padding: 0 1;
        Static { width: auto; }
        Input { width: 1fr; height: 1; border: none; padding: 0 1; display: none; }
        &.-typing Input { display: block; }
    }
    """

    @dataclass
    class Sought(Message):
        """What stands on the line so far, while it is being typed; empty when it was left."""

        text: str

    field = getters.query_one(Input)
    prompt = getters.query_one(Static)

    def __init__(self) -> None:
        super().__init__()
        self._came_from: Widget | None = None

    def compose(self) -> ComposeResult:
        yield Static(PROMPT, markup=False)
        yield Input(placeholder="a code, or words to look for", select_on_focus=False)

    def begin(self) -> None:
        """Take what is typed from now on."""
        self._came_from = self.screen.focused
        self.prompt.update("/")
        self.add_class("-typing")
        self.screen.set_focus(self.field)

    def action_leave(self) -> None:
        """Stop typing, and go back to where one was."""
        self._end()
        self.screen.set_focus(self._came_from)
        self.post_message(self.Sought(""))

    def _end(self) -> None:
        self.field.value = ""
        self.prompt.update(PROMPT)
        self.remove_class("-typing")

    @on(events.DescendantBlur)
    def _left_for_elsewhere(self) -> None:
        # A person who looks at another window for a moment keeps what was typed.
        if self.app.app_focus:
            self._end()

    @on(Input.Changed)
    def _is_typing(self, event: Input.Changed) -> None:
        event.stop()
        if self.has_class("-typing"):
            self.post_message(self.Sought(clean_text(event.value)))

    @on(Input.Submitted)
    def _typed(self, event: Input.Submitted) -> None:
        event.stop()
        text = clean_text(event.value)
        self._end()
        self.screen.set_focus(self._came_from)
        if text:
            self.screen.post_message(Scanned(text, by_hand=True))
