"""What every screen has in common: the result band, the scan line and the keys at the foot."""

from collections.abc import Iterable
from typing import ClassVar

from textual import getters
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Footer

from stockroom.screens.keys import Where, bindings
from stockroom.screens.widgets.band import Band
from stockroom.screens.widgets.scan_line import ScanLine


class Frame(Screen[None]):
    """A screen whose own part is its `body`; it hears of scans as `Scanned` messages."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.SCREEN)]

    band = getters.query_one(Band)
    scan_line = getters.query_one(ScanLine)

    def compose(self) -> ComposeResult:
        yield from self.body()
        yield Band()
        yield ScanLine()
        yield Footer(show_command_palette=False, compact=True)

    def body(self) -> Iterable[Widget]:
        """The screen's own widgets, from the top."""
        raise NotImplementedError

    def action_type(self) -> None:
        """Type a code instead of scanning it."""
        self.scan_line.begin()
