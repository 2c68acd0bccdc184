"""The full-screen program: its modes and the keys that work everywhere, nothing else."""

from collections.abc import Callable, Iterable, Mapping
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import Any, ClassVar

from platformdirs import user_data_path
from textual.app import SystemCommand
from textual.binding import BindingType
from textual.screen import Screen

from stockroom.books.opening import create_book
from stockroom.labels.size import read_size
from stockroom.screens.frame import PassedOn, PieceAsked
from stockroom.screens.keys import IN_THE_PALETTE, Where, bindings
from stockroom.screens.main_row import load_all, screen
from stockroom.screens.scanning import Listening, Scanned
from stockroom.screens.station import Station
from stockroom.screens.themes import DEFAULT_THEME, THEMES
from stockroom.settings import Settings


class StockroomApp(Listening):
    """One mode for each screen of the main row, made when a person first goes there."""

    TITLE = "stockroom"
    CSS_PATH = Path(__file__).parent / "styles" / "app.tcss"
    DEFAULT_MODE = "today"
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.EVERYWHERE)]

    def __init__(
        self,
        modes: Mapping[str, Callable[[], Screen[Any]]],
        *,
        card: Callable[[str], Screen[Any]] = Screen,
        theme: str = DEFAULT_THEME,
    ) -> None:
        super().__init__()
        self._card = card
        for name, make in modes.items():
            self.add_mode(name, make)
        not_ours = set(self.available_themes)
        for look in THEMES:
            self.register_theme(look)
        self.theme = theme
        for name in not_ours:
            self.unregister_theme(name)

    def on_ready(self) -> None:
        """Load the other screens while a person reads the first."""
        self.run_worker(load_all, thread=True)

    def action_help(self) -> None:
        """Show what the screen is for and its keys, or put that away again."""
        if self.screen.id == "help":
            self.screen.dismiss()
        else:
            self.push_screen(screen("help", self._screen_in_front()), self._was_read)

    def _was_read(self, scanned: Scanned | None) -> None:
        if scanned is not None:
            self.screen.post_message(Scanned(scanned.text, scanned.by_hand))

    async def action_go(self, mode: str) -> None:
        """Go to a screen of the main row; whatever lay over it is put away."""
        await self.switch_mode(mode)
        while len(self.screen_stack) > 1:
            await self.pop_screen()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer no way to where one is."""
        is_here = action == "go" and parameters == (self.current_mode,)
        return not (is_here and len(self.screen_stack) == 1)

    async def on_passed_on(self, message: PassedOn) -> None:
        """Go to a screen and let it take what was scanned elsewhere."""
        await self.action_go(message.mode)
        self.screen.post_message(Scanned(message.text, by_hand=True))

    async def on_piece_asked(self, message: PieceAsked) -> None:
        """Lay a piece's card over the list it was asked for from."""
        await self.push_screen(self._card(message.code))

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


def app_for(station: Station, theme: str = DEFAULT_THEME) -> StockroomApp:
    """The screens of one station."""
    modes = {
        "today": "today",
        "rack": "rack",
        "bench": "bench",
        "goods": "goods_in",
        "jobs": "jobs",
        "log": "log",
        "climate": "climate",
        "buying": "buying",
    }
    return StockroomApp(
        {name: partial(screen, module, station) for name, module in modes.items()},
        card=partial(screen, "card", station),
        theme=theme,
    )


def run(settings: Settings) -> int:
    """Open the book, or make a missing one, and show the screens until a person leaves them."""
    if not settings.book:
        user_data_path("stockroom").mkdir(parents=True, exist_ok=True)
    book = create_book(settings.book_or_default())
    station = Station(
        book=book,
        operator=settings.operator_or_default(),
        now=lambda: datetime.now(UTC),
        label_size=read_size(settings.label_size),
        dpi=settings.dpi,
        labels=user_data_path("stockroom") / "labels",
        shows_money=settings.money == "shown",
    )
    app = app_for(station, settings.theme)
    try:
        app.run()
    finally:
        book.close()
    return app.return_code or 0
