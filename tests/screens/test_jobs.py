"""Jobs: what each used, and how it is opened, closed and taken to the Bench."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

import pytest
from textual.pilot import Pilot

from stockroom.codes.own import grouped
from stockroom.screens.bench import BenchScreen
from stockroom.screens.card import CardScreen
from stockroom.screens.job import JobScreen
from stockroom.screens.log import LogScreen
from stockroom.screens.widgets.line_list import LineList
from stockroom.units import M
from stockroom.work.look import jobs
from tests.screens.seeing import same_screen, scan, screen_text, settle, type_in
from tests.screens.shop import Shop


@asynccontextmanager
async def at_jobs(
    shop: Shop, size: tuple[int, int] = (80, 24), *, shows_money: bool = False
) -> AsyncIterator[Pilot[None]]:
    """The jobs of the shop, of which the shelter has used film of two rolls."""
    hand, codes = shop.hand(), shop.codes
    hand.cut(codes.new_roll, 4 * M, job=codes.shelter, waste_nm=500_000_000)
    hand.cut(codes.tested, 1 * M, job=codes.shelter)
    async with shop.app(shows_money=shows_money).run_test(size=size) as pilot:
        await pilot.press("f9")
        await settle(pilot)
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
    await settle(pilot)
    return screen_text(pilot.app)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_jobs(shop: Shop, size: tuple[int, int]) -> None:
    """Open ones by the day they are wanted; below, what the one under the cursor used."""
    async with at_jobs(shop, size) as pilot:
        assert same_screen(pilot.app)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_a_job(shop: Shop, size: tuple[int, int]) -> None:
    """Each piece with the area on the job, the waste, and the cost where the station shows it."""
    async with at_jobs(shop, size, shows_money=True) as pilot:
        await press(pilot, "enter")

        assert same_screen(pilot.app)


async def test_money_is_hidden_unless_the_station_shows_it(shop: Shop) -> None:
    """Neither below the list nor among the pieces."""
    async with at_jobs(shop) as pilot:
        assert "cost" not in screen_text(pilot.app)
        assert "cost" not in await press(pilot, "enter")


async def test_a_job_is_closed_after_a_question_and_reopened_with_one_key(shop: Shop) -> None:
    """Done twice it is refused, and says so."""

    def closed() -> bool:
        known = jobs(shop.book)
        return next(one.is_closed for one in known if one.code == shop.codes.shelter)

    async with at_jobs(shop) as pilot:
        assert "is open already" in await press(pilot, "r")
        assert "Nothing more is charged" in await press(pilot, "x")
        await press(pilot, "n")
        assert not closed()
        assert "is closed" in await press(pilot, "x", "y")
        assert closed()

        scan(pilot.app, f"{shop.codes.shelter}\r")
        await press(pilot)
        assert isinstance(pilot.app.screen, JobScreen)
        assert "is open" in await press(pilot, "r")
        assert not closed()


async def test_a_new_job_is_opened_from_a_form(shop: Shop) -> None:
    """A day that is none is refused and keeps what was typed."""
    async with at_jobs(shop) as pilot:
        await press(pilot, "n", *"pier", "tab", "tab", *"soon", "enter")
        assert "! " in screen_text(pilot.app)
        await press(pilot, *["backspace"] * 4, *"2026-12", "enter")

        assert "✓ DONE  opened J" in screen_text(pilot.app)
        assert (jobs(shop.book)[-1].name, jobs(shop.book)[-1].on_day) == ("pier", "2026-12")


async def test_words_find_a_job_and_one_key_keeps_to_the_open_ones(shop: Shop) -> None:
    """Esc shows every job again."""

    def shown() -> int:
        return len(pilot.app.screen.query_one(LineList).rows)

    async with at_jobs(shop) as pilot:
        assert shown() == 3
        await press(pilot, "o")
        assert shown() == 2
        assert "“mill”" in await press(pilot, "/mill\r")
        assert shown() == 1
        await press(pilot, "escape")
        assert shown() == 3


async def test_a_job_leads_to_the_bench_to_its_pieces_and_to_its_acts(shop: Shop) -> None:
    """A piece scanned there is cut for it."""
    codes = shop.codes
    async with at_jobs(shop) as pilot:
        await press(pilot, "enter", "enter")
        assert isinstance(pilot.app.screen, CardScreen)

        await press(pilot, "escape", "a")
        assert isinstance(pilot.app.screen, LogScreen)
        assert f"for {grouped(codes.shelter)}" in screen_text(pilot.app)

        await press(pilot, "f9", "enter")
        scan(pilot.app, f"{codes.old_roll}\r")
        seen = await press(pilot)
        assert isinstance(pilot.app.screen, BenchScreen)
        assert grouped(codes.old_roll) in seen
        assert "tram shelter 4, Mill Lane" in seen
