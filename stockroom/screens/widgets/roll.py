"""A roll in cross-section: each shade of its wraps has a sign of its own, and a colour."""

from collections.abc import Sequence
from types import MappingProxyType

from textual.content import Content
from textual.widgets import Static

from stockroom.lines.roll import Row, Shade

_COLOURS = MappingProxyType(
    {
        Shade.NOTHING: "",
        Shade.CORE: "$quiet",
        Shade.FINE: "$verdict-use",
        Shade.NEAR: "$verdict-first",
        Shade.TIGHT: "$verdict-test",
    }
)


class RollPicture(Static):
    """As wide as what it shows."""

    DEFAULT_CSS = """
    RollPicture { width: auto; height: auto; padding: 0 2 0 1; }
    """

    def show(self, rows: Sequence[Row]) -> None:
        """Put another roll there; without one there is none."""
        self.display = bool(rows)
        lines = [
            Content.assemble(*((run.text, _COLOURS[run.shade]) for run in row)) for row in rows
        ]
        self.update(Content("\n").join(lines))
