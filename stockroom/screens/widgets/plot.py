"""A plot of one or two curves, one under the other, over one line of time."""

from collections.abc import Callable, Sequence
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget

from stockroom.lines.plot import Panel, Row, drawn

_LEAST = 3
"""Rows of a panel."""


class Plot(Widget):
    """Draws its panels anew when they, or its size, change; nothing of it is markup.

    Where there is no room for both, only the first is drawn.
    """

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "plot--plain",
        "plot--curve",
        "plot--beyond",
        "plot--far",
        "plot--limit",
    }
    DEFAULT_CSS = """
    Plot { height: 1fr; min-height: 4; padding: 0 1; }
    """

    panels: reactive[Sequence[Panel]] = reactive((), init=False)

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own word
        super().__init__(id=id)
        self._ticks: Callable[[int], str] = " ".ljust
        self._rows: tuple[Row, ...] = ()
        self._foot = ""

    def show(self, panels: Sequence[Panel], ticks: Callable[[int], str]) -> None:
        """Put other curves there, and what stands under them in so many cells."""
        self._ticks = ticks
        self.panels = tuple(panels)

    def watch_panels(self) -> None:
        if self.is_mounted:
            self._fill()

    def on_resize(self) -> None:
        self._fill()

    def _fill(self) -> None:
        width, height = self.content_size
        heights = _shared(height - 1, len(self.panels))
        self._rows = tuple(
            row
            for panel, rows in zip(self.panels, heights, strict=False)
            for row in drawn(panel, width, rows)
        )
        self._foot = self._ticks(width) if self.panels else ""
        self.refresh()

    def render_line(self, y: int) -> Strip:
        width = self.content_size.width
        if y < len(self._rows):
            segments = [Segment(run.text, self._look(run.part)) for run in self._rows[y]]
        else:
            text = self._foot if y == len(self._rows) else ""
            segments = [Segment(text, self._look("plain"))]
        return Strip(segments).adjust_cell_length(width, self.rich_style)

    def _look(self, part: str) -> Style:
        return self.get_component_rich_style(f"plot--{part}")


def _shared(rows: int, panels: int) -> tuple[int, ...]:
    """The rows of each panel that is drawn: the first one has a little more than the second."""
    if panels == 0:
        return ()
    if panels == 1 or rows < 2 * _LEAST:
        return (max(_LEAST, rows),)
    second = max(_LEAST, rows * 2 // 5)
    return max(_LEAST, rows - second), second
