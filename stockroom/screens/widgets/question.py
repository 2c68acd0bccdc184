"""A question that one key answers: y, n, or Esc to take it back."""

from collections.abc import Callable
from typing import ClassVar

from textual import events
from textual.binding import BindingType
from textual.widget import Widget
from textual.widgets import Static

from stockroom.screens.bells import ring_look
from stockroom.screens.keys import Where, bindings

_LEADS_AWAY = frozenset({"tab", "shift+tab"})


class Question(Static, can_focus=True):
    """Shown only while it waits for its answer; the focus goes back to where it was."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.QUESTION)]
    DEFAULT_CSS = """
    Question {
        display: none;
        height: auto;
        padding: 0 1;
        text-style: bold;
        &.-asked { display: block; }
    }
    """

    def __init__(self) -> None:
        super().__init__(markup=False)
        self._yes: Callable[[], None] | None = None
        self._no: Callable[[], None] | None = None
        self._came_from: Widget | None = None

    @property
    def is_asked(self) -> bool:
        """Whether it waits for an answer."""
        return self.has_class("-asked")

    def ask(
        self, sentence: str, yes: Callable[[], None], no: Callable[[], None] | None = None
    ) -> None:
        """Ask, and do one of two things by the answer, or nothing."""
        self._yes, self._no = yes, no
        if not self.is_asked:
            self._came_from = self.screen.focused
        self.update(f"? {sentence}   y yes   n no")
        self.add_class("-asked")
        ring_look(self)
        self.focus()

    def on_key(self, event: events.Key) -> None:
        """Stay in front until it is answered: a y beside it would be typed into a field."""
        if event.key in _LEADS_AWAY:
            event.stop()

    def action_withdraw(self) -> None:
        """Take the question back; neither thing is done."""
        if self.is_asked:
            self.remove_class("-asked")
            if self.has_focus:
                self.screen.set_focus(self._came_from)

    def action_answer(self, yes: bool) -> None:  # noqa: FBT001 - an action gets its words in order
        """Do what the answer says."""
        self.action_withdraw()
        if then := self._yes if yes else self._no:
            then()
