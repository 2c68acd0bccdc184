"""The Rack on the screen."""

from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager

import pytest
from textual.pilot import Pilot

from stockroom.screens.card import CardScreen
from stockroom.screens.rack import RackScreen
from stockroom.screens.widgets.line_list import LineList
from tests.screens.seeing import same_screen, scan, screen_text, settle, type_in
from tests.screens.shop import Shop


@asynccontextmanager
async def at_rack(shop: Shop, size: tuple[int, int] = (80, 24)) -> AsyncIterator[Pilot[None]]:
    """The Rack of the shop."""
    async with shop.app().run_test(size=size) as pilot:
        await pilot.press("f3")
        await settle(pilot)
        yield pilot


def shown(pilot: Pilot[None]) -> list[str]:
    """The codes of the pieces in the list."""
    return [row.key for row in pilot.app.screen.query_one(LineList).rows]


def presses(pilot: Pilot[None]) -> Callable[..., Awaitable[list[str]]]:
    """Press keys, and tell which pieces are shown then."""

    async def press(*keys: str) -> list[str]:
        for key in keys:
            if key in ("enter", "escape", "end", "f2", "f3"):
                await pilot.press(key)
            else:
                type_in(pilot.app, key)
        await settle(pilot)
        return shown(pilot)

    return press


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_rack(shop: Shop, size: tuple[int, int]) -> None:
    """By film, and of each film the piece first that asks for most, then the oldest."""
    async with at_rack(shop, size) as pilot:
        await pilot.press("down")
        await settle(pilot)

        assert same_screen(pilot.app)


async def test_what_is_typed_finds_as_it_is_typed(shop: Shop) -> None:
    """Each letter narrows the list; Enter keeps it so, Esc shows every piece again."""
    codes = shop.codes
    async with at_rack(shop) as pilot:
        press = presses(pilot)
        assert len(await press("/cas")) == 2
        assert await press("t shelter") == [codes.printed]
        assert await press("enter") == [codes.printed]
        assert "“cast shelter”" in screen_text(pilot.app)
        assert len(await press("escape")) == 8

        assert len(await press("/zz")) == 0
        assert "No piece is like that" in screen_text(pilot.app)
        assert len(await press("escape")) == 8


async def test_a_code_typed_opens_the_card_and_the_rack_is_whole_again_behind_it(
    shop: Shop,
) -> None:
    """Typing a code is as good as scanning it."""
    async with at_rack(shop) as pilot:
        type_in(pilot.app, f"/{shop.codes.box.lower()}\r")
        await settle(pilot)
        assert isinstance(pilot.app.screen, CardScreen)

        await pilot.press("escape")
        await settle(pilot)
        assert isinstance(pilot.app.screen, RackScreen)
        assert len(shown(pilot)) == 8


async def test_one_key_leads_through_the_verdicts(shop: Shop) -> None:
    """The worst first; the last press shows every piece again."""
    codes = shop.codes
    async with at_rack(shop) as pilot:
        press = presses(pilot)
        assert await press("v") == [codes.stopped, codes.held]
        assert await press("v") == [codes.tested, codes.printed]
        assert await press("v") == [codes.old_roll]
        assert await press("v") == []
        assert len(await press("v")) == 3
        assert len(await press("v")) == 8


async def test_material_and_place_of_the_cursor_can_be_kept_to(shop: Shop) -> None:
    """The same key lets go again."""
    codes = shop.codes
    async with at_rack(shop) as pilot:
        press = presses(pilot)
        assert await press("m") == [codes.old_roll, codes.offcut, codes.new_roll]
        assert await press("p") == [codes.old_roll]
        assert await press("m") == [codes.old_roll]
        assert len(await press("p")) == 8

        scan(pilot.app, f"{codes.place}\r")
        assert len(await press()) == 4


async def test_another_act_is_seen_when_one_comes_back(shop: Shop) -> None:
    """The rack is read again whenever it comes to the front; the cursor stays on its piece."""
    async with at_rack(shop) as pilot:
        press = presses(pilot)
        await press("end")
        key = pilot.app.screen.query_one(LineList).key
        await press("f2")
        shop.hand().finish(shop.codes.old_roll)
        assert shop.codes.old_roll not in await press("f3")
        assert pilot.app.screen.query_one(LineList).key == key
