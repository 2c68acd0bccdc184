"""The help: what a screen is for and all its keys, to be read on the smallest terminal."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from stockroom.screens.bench import BenchScreen
from stockroom.screens.form import Form
from stockroom.screens.help import HelpScreen
from stockroom.screens.rack import RackScreen
from tests.screens.seeing import same_screen, scan, screen_text, settle
from tests.screens.shop import Shop


@asynccontextmanager
async def help_of(
    shop: Shop, *keys: str, size: tuple[int, int] = (80, 24)
) -> AsyncIterator[Pilot[None]]:
    """The help of the screen that these keys lead to."""
    async with shop.app().run_test(size=size) as pilot:
        await settle(pilot)
        for key in (*keys, "f1"):
            await press(pilot, key)
        yield pilot


async def press(pilot: Pilot[None], key: str) -> str:
    """Press a key, and wait for a screen that comes or goes; the screen afterwards."""
    await pilot.press(key)
    await settle(pilot)
    await pilot.pause(0.1)
    await settle(pilot)
    return screen_text(pilot.app)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_help_of_the_bench(shop: Shop, size: tuple[int, int]) -> None:
    """Below the text on a small terminal, beside it on a large one, are the keys."""
    async with help_of(shop, "f4", size=size) as pilot:
        assert same_screen(pilot.app)


async def test_the_page_moves_and_its_last_line_can_be_read(shop: Shop) -> None:
    """With the keys a list moves by."""
    async with help_of(shop, "f4") as pilot:
        assert "Everything that was done, newest first" not in screen_text(pilot.app)
        seen = await press(pilot, "end")
        assert "F10  Log        Everything that was done, newest first" in seen
        assert "Quit       Leave the program" in seen

        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, BenchScreen)


@pytest.mark.parametrize("key", ["f2", "f3", "f4", "f5", "f9", "f10", "f12"])
async def test_every_screen_of_the_main_row_has_its_own_keys_in_its_help(
    shop: Shop, key: str
) -> None:
    """And no line of it is wider than the smallest terminal."""
    async with help_of(shop, *(() if key == "f2" else (key,))) as pilot:
        seen = screen_text(pilot.app)

        assert isinstance(pilot.app.screen, HelpScreen)
        assert "…" not in seen.replace("Reading the book …", "")
        assert "F1 or Esc closes it" in seen


async def test_a_scan_puts_the_help_away_and_is_done(shop: Shop) -> None:
    """Nobody has to close it first."""
    async with help_of(shop, "f4") as pilot:
        scan(pilot.app, f"{shop.codes.old_roll}\r")
        await settle(pilot)
        await settle(pilot)

        assert isinstance(pilot.app.screen, BenchScreen)
        assert "6.4 m left" in screen_text(pilot.app)


async def test_the_keys_of_the_main_row_lead_on_from_the_help(shop: Shop) -> None:
    """And it is not there any more when one comes back."""
    async with help_of(shop, "f4") as pilot:
        await press(pilot, "f3")
        assert isinstance(pilot.app.screen, RackScreen)
        await press(pilot, "f4")

        assert isinstance(pilot.app.screen, BenchScreen)


async def test_a_form_has_its_help_too_and_keeps_what_was_typed(shop: Shop) -> None:
    """It lies under the help."""
    async with help_of(shop, "f9", "n", "x") as pilot:
        assert "Fill in one or more lines" in screen_text(pilot.app)
        await press(pilot, "f1")

        assert isinstance(pilot.app.screen, Form)
        assert pilot.app.screen.query_one("#field-name", Input).value == "x"
