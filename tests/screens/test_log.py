"""The Log: what was done, found by piece, job, person and day, and undone from there."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

import pytest
from textual.pilot import Pilot

from stockroom.codes.own import grouped
from stockroom.screens.act import ActScreen
from stockroom.screens.card import CardScreen
from stockroom.screens.log import PAGE
from stockroom.screens.widgets.line_list import LineList
from stockroom.units import M
from tests.builders import Station as Hands
from tests.screens.seeing import same_screen, scan, screen_text, settle, type_in
from tests.screens.shop import Shop


@asynccontextmanager
async def at_log(shop: Shop, size: tuple[int, int] = (80, 24)) -> AsyncIterator[Pilot[None]]:
    """The Log of the shop."""
    async with shop.app().run_test(size=size) as pilot:
        await pilot.press("f10")
        await settle(pilot)
        yield pilot


async def press(pilot: Pilot[None], *keys: str) -> str:
    """Press keys, letters as a person does; the screen afterwards."""
    for key in keys:
        if len(key) == 1 or key.startswith("/"):
            type_in(pilot.app, key)
        else:
            await pilot.press(key)
        await settle(pilot)
    await settle(pilot)
    return screen_text(pilot.app)


def shown(pilot: Pilot[None]) -> int:
    """How many acts are in the list."""
    return len(pilot.app.screen.query_one(LineList).rows)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_log(shop: Shop, size: tuple[int, int]) -> None:
    """Newest first; below the list, what else belongs to the act under the cursor."""
    async with at_log(shop, size) as pilot:
        await pilot.press("down")
        await settle(pilot)

        assert same_screen(pilot.app)


async def test_the_log_keeps_to_a_piece_a_job_a_person_or_a_day(shop: Shop) -> None:
    """By a key for what is under the cursor, by a scan, or by typing; Esc shows all again."""
    codes = shop.codes
    shop.wait(days=1)
    other = Hands(shop.book, shop.now)
    other.cut(codes.old_roll, 1 * M, job=codes.shelter, operator="Tom R.")
    everything = len(shop.acts())
    async with at_log(shop) as pilot:
        assert shown(pilot) == everything
        assert "by Tom R." in await press(pilot, "b")
        assert shown(pilot) == 1
        assert "every act" in await press(pilot, "escape")

        await press(pilot, "d")
        assert shown(pilot) == 1
        await press(pilot, "d")
        assert shown(pilot) == everything

        scan(pilot.app, f"{codes.old_roll}\r{codes.shelter}\r")
        seen = await press(pilot)
        assert f"{grouped(codes.old_roll)}  ·  for {grouped(codes.shelter)}" in seen
        assert shown(pilot) == 1

        await press(pilot, "escape", "/ida\r")
        assert shown(pilot) == everything - 1
        await press(pilot, "escape", "/yesterday\r")
        assert "No act is like that" in screen_text(pilot.app)


async def test_the_log_keeps_to_what_was_done(shop: Shop) -> None:
    """By its kind, or by the word the list begins with; a name is still a name."""
    codes, hand = shop.codes, shop.hand()
    hand.cut(codes.old_roll, 1 * M)
    hand.put(codes.box, codes.place)
    async with at_log(shop) as pilot:
        seen = await press(pilot, "/Cut\r")
        assert "only cut" in seen
        assert shown(pilot) == len([act for act in shop.acts() if act.kind == "cut"]) > 0

        await press(pilot, "escape", "/put\r")
        assert shown(pilot) == 1

        await press(pilot, "escape", "/ida\r")
        assert "by Ida M." in screen_text(pilot.app)


async def test_an_act_shows_all_it_touched_and_leads_to_each_piece(shop: Shop) -> None:
    """A cut that kept an offcut touched two pieces."""
    shop.hand().cut(shop.codes.old_roll, 2 * M, offcuts=((900_000_000, 1 * M),))
    async with at_log(shop) as pilot:
        await press(pilot, "enter")
        assert isinstance(pilot.app.screen, ActScreen)
        assert same_screen(pilot.app)

        await press(pilot, "enter")
        assert isinstance(pilot.app.screen, CardScreen)
        assert pilot.app.screen.code == shop.codes.old_roll


async def test_an_act_is_undone_from_the_log_if_it_is_the_last_on_its_pieces(shop: Shop) -> None:
    """The question names it; an act with a later one is refused and nothing is written."""
    hand, code = shop.hand(), shop.codes.old_roll
    hand.cut(code, 1 * M)
    hand.cut(code, 2 * M)
    before = len(shop.acts())
    async with at_log(shop) as pilot:
        await press(pilot, "down", "u", "y")
        assert "REFUSED" in screen_text(pilot.app)
        assert len(shop.acts()) == before

        seen = await press(pilot, "up", "u")
        assert "undo what Ida M. did" in seen
        seen = await press(pilot, "y")
        assert "✓ DONE  undone: act" in seen
        assert "cut 2 m for sample (undone)" in seen
        assert shop.left_nm(code) == 5_400_000_000

        await press(pilot, "home")
        assert "is an undo" in await press(pilot, "u")
        assert "is for no job" in await press(pilot, "j")


async def test_an_act_without_a_piece_says_where_it_is_taken_back(shop: Shop) -> None:
    """A job that was closed is reopened, not undone; there is no piece to keep to."""
    shop.hand().close(shop.codes.clinic)
    async with at_log(shop) as pilot:
        assert "is closed and reopened on" in await press(pilot, "u")
        assert "touched no piece" in await press(pilot, "p")


async def test_the_log_reads_on_before_the_last_row_is_reached(shop: Shop) -> None:
    """A page at a time, without a gap and without an act that is shown twice."""
    hand = shop.hand()
    for _ in range(PAGE):
        hand.put(shop.codes.box, shop.codes.place)
    async with at_log(shop) as pilot:
        assert shown(pilot) == PAGE
        await press(pilot, "end")

        acts = [row.key for row in pilot.app.screen.query_one(LineList).rows]
        assert acts == [str(act.id) for act in shop.acts()]
