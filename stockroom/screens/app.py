"""The full-screen program: its modes and the keys that work everywhere, nothing else."""

from collections.abc import Callable, Iterable, Mapping
from functools import partial
from pathlib import Path
from typing import Any, ClassVar

from textual.app import SystemCommand
from textual.binding import BindingType
from textual.screen import Screen
from textual.widgets import HelpPanel

from stockroom.screens.keys import IN_THE_PALETTE, Where, bindings
from stockroom.screens.scanning import Listening
from stockroom.screens.themes import DEFAULT_THEME, THEMES


class StockroomApp(Listening):
    """One mode for each screen of the main row, made when a person first goes there."""

    TITLE = "stockroom"
    CSS_PATH = Path(__file__).parent / "styles" / "app.tcss"
    DEFAULT_MODE = "today"
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.EVERYWHERE)]

    def __init__(
        self, modes: Mapping[str, Callable[[], Screen[Any]]], *, theme: str = DEFAULT_THEME
    ) -> None:
        super().__init__()
        for name, make in modes.items():
            self.add_mode(name, make)
        not_ours = set(self.available_themes)
        for look in THEMES:
            self.register_theme(look)
        self.theme = theme
        for name in not_ours:
            self.unregister_theme(name)

    def action_help(self) -> None:
        """Show what the screen is for and its keys, or put that away again."""
        if self.screen.query(HelpPanel):
            self.action_hide_help_panel()
        else:
            self.action_show_help_panel()

    def action_look(self, theme: str) -> None:
        """Change to one of the themes."""
        self.theme = theme

    def get_system_commands(self, screen: Screen[Any]) -> Iterable[SystemCommand]:
        """What the palette offers: each action to be had now, by the words of its key, and the looks."""
        for namespace, binding, enabled, tooltip in screen.active_bindings.values():
            if enabled and binding.id in IN_THE_PALETTE:
                act = partial(self.run_action, binding.action, namespace)
                yield SystemCommand(binding.description, tooltip, act)
        for look in THEMES:
            words = f"Look: {look.name}"
            yield SystemCommand(
                words, "Colours of the screens", partial(self.action_look, look.name)
            )
