"""The first line of a screen: what it is about on the left, what belongs beside it on the right."""

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import Static


class Title(Horizontal):
    """Two texts at the two ends of one line; neither is markup."""

    DEFAULT_CSS = """
    Title {
        height: 1;
        padding: 0 1;
        Static { width: 1fr; }
        .title--right { width: auto; }
    }
    """

    def __init__(self, left: str = "", *, id: str | None = None) -> None:  # noqa: A002 - Textual's own word
        super().__init__(id=id)
        self._left = Static(left, markup=False, classes="strong")
        self._right = Static(markup=False, classes="title--right")

    def compose(self) -> ComposeResult:
        yield self._left
        yield self._right

    def show(self, left: str, right: str | Content = "") -> None:
        """Put other texts there."""
        self._left.update(left)
        self._right.update(right)
