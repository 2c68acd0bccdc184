"""What every screen has at its foot: the result band, the scan line, the keys."""

from collections.abc import Iterable

import pytest
from textual import events, on
from textual.widget import Widget
from textual.widgets import Input, Static

from stockroom.screens.app import StockroomApp
from stockroom.screens.frame import Frame
from stockroom.screens.scanning import Scanned
from tests.screens.seeing import same_screen, scan, screen_text, settle


class Bare(Frame):
    """A frame around two fields; remembers what it was given."""

    HELP = "Two fields, for a test."

    def __init__(self) -> None:
        super().__init__()
        self.given: list[Scanned] = []

    def body(self) -> Iterable[Widget]:
        yield Static(" Length and waste", classes="strong")
        yield Input(id="length")
        yield Input(id="waste")
        yield Static(classes="fill")

    @on(Scanned)
    def _given(self, message: Scanned) -> None:
        self.given.append(message)

    def heard_words(self, text: str, *, by_hand: bool) -> None:
        """Keep what was typed here."""


class Ringing(StockroomApp):
    """An app that counts its bells."""

    CSS = ".fill { height: 1fr; }"

    def __init__(self, screen: Frame) -> None:
        super().__init__({"today": lambda: screen})
        self.bells = 0

    def bell(self) -> None:
        self.bells += 1


@pytest.fixture
def screen() -> Bare:
    """A frame that is not shown yet."""
    return Bare()


async def test_done_rings_once_and_refused_twice_and_they_look_different(screen: Bare) -> None:
    """Sign, word and edges differ as well as the colour; a later result takes the place of the first."""
    app = Ringing(screen)
    async with app.run_test(size=(80, 24)) as pilot:
        assert not screen.band.display

        screen.band.done("cut 2.8 m · 3.6 m stays")
        await settle(pilot)
        assert "✓ DONE  cut 2.8 m · 3.6 m stays" in screen_text(app)
        assert (app.bells, screen.band.styles.border_top[0]) == (1, "tall")

        screen.band.refused("PET [/] 90% has 1.9 m: cut less, or count it first.")
        await pilot.pause(0.3)
        assert same_screen(app)
        assert (app.bells, screen.band.styles.border_top[0]) == (3, "double")

        screen.band.clear()
        await settle(pilot)
        assert "REFUSED" not in screen_text(app)


async def test_a_code_typed_by_hand_arrives_like_a_scan_and_the_focus_goes_back(
    screen: Bare,
) -> None:
    """Typing begins with a slash, ends with Enter, and says that a hand did it."""
    app = Ringing(screen)
    async with app.run_test(size=(80, 24)) as pilot:
        screen.set_focus(None)
        await pilot.press("/", *"r000-123")
        await settle(pilot)
        assert same_screen(app)
        await pilot.press("enter")
        await settle(pilot)

        assert [(one.text, one.by_hand) for one in screen.given] == [("r000-123", True)]
        assert app.focused is None
        assert "scan, or / to type" in screen_text(app)


async def test_typing_fast_after_the_slash_loses_no_letter(screen: Bare) -> None:
    """Keys held back together still go one after the other, each to where the last one led."""
    app = Ringing(screen)
    async with app.run_test(size=(80, 24)) as pilot:
        screen.set_focus(None)
        scan(app, "/R000-9\r", gap_s=0.09)
        await settle(pilot)

        assert [(one.text, one.by_hand) for one in screen.given] == [("R000-9", True)]


async def test_esc_leaves_the_scan_line_and_keeps_nothing(screen: Bare) -> None:
    """Nothing is sent, the next typing begins empty, and an empty line says nothing."""
    app = Ringing(screen)
    async with app.run_test(size=(80, 24)) as pilot:
        screen.set_focus(None)
        await pilot.press("/", "x", "escape", "/", "enter")
        await settle(pilot)

        assert screen.given == []
        assert not screen.scan_line.field.display


async def test_a_slash_in_a_field_is_a_slash(screen: Bare) -> None:
    """A length like 1/64 in can be typed."""
    app = Ringing(screen)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(*"1/64")
        await settle(pilot)

        assert screen.query_one("#length", Input).value == "1/64"


async def test_looking_at_another_window_keeps_what_was_typed_but_another_field_does_not(
    screen: Bare,
) -> None:
    """Half a code waits for a person who comes back."""
    app = Ringing(screen)
    async with app.run_test(size=(80, 24)) as pilot:
        screen.set_focus(None)
        await pilot.press("/", "x")
        await settle(pilot)
        app.post_message(events.AppBlur())
        await settle(pilot)
        app.post_message(events.AppFocus())
        await settle(pilot)
        assert screen.scan_line.field.value == "x"

        await pilot.click("#waste")
        await settle(pilot)
        assert not screen.scan_line.field.display
        assert app.focused is screen.query_one("#waste")
