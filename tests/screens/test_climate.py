"""Climate: a zone in a plot, and every zone as it is now."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from math import cos, pi

import pytest
from textual.pilot import Pilot

from stockroom.screens.climate import ClimateScreen
from tests.screens.seeing import same_screen, scan, screen_text, settle
from tests.screens.shop import Shop
from tests.weather import HOUR_S, Weather


def measured(shop: Shop) -> Weather:
    """Twelve warm days in the north; South is measured by nobody."""
    weather = Weather(shop.book, shop.now)
    weather.sensor("door", "North")
    hours = range(-12 * 24, 1)
    weather.read(
        *(
            (
                hour * HOUR_S,
                24 - hour / 60 + 4 * cos(2 * pi * hour / 24),
                50 + 12 * cos(2 * pi * hour / 100),
            )
            for hour in hours
            if not -100 < hour < -80
        )
    )
    return weather


@asynccontextmanager
async def at_climate(shop: Shop, size: tuple[int, int] = (80, 24)) -> AsyncIterator[Pilot[None]]:
    """The screen, as it is first seen."""
    async with shop.app().run_test(size=size) as pilot:
        await settle(pilot)
        await press(pilot, "f12")
        yield pilot


async def press(pilot: Pilot[None], key: str) -> str:
    """Press a key; the screen afterwards."""
    await pilot.press(key)
    await settle(pilot)
    await settle(pilot)
    return screen_text(pilot.app)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_climate(shop: Shop, size: tuple[int, int]) -> None:
    """What follows on top, then the plot between its limits, then what it comes to."""
    measured(shop)
    async with at_climate(shop, size) as pilot:
        assert isinstance(pilot.app.screen, ClimateScreen)
        assert same_screen(pilot.app)


async def test_one_looks_back_further_and_at_another_zone(shop: Shop) -> None:
    """The zone stays when the span changes; one nobody measures says what to do."""
    measured(shop)
    async with at_climate(shop) as pilot:
        assert "North  ·  the last 30 days" in await press(pilot, "m")
        assert "North  ·  the last 24 hours" in await press(pilot, "d")
        seen = await press(pilot, "down")
        assert "South  ·  the last 24 hours" in seen
        assert "Nobody measures South: its film is taken to age as at 21 °C (default)" in seen
        assert 'import FILE --zone "South"' in " ".join(seen.split())
        assert "South  ·  the last 14 months" in await press(pilot, "y")


async def test_what_is_read_meanwhile_is_seen_when_one_comes_back(shop: Shop) -> None:
    """And a sensor that fell silent is."""
    weather = measured(shop)
    async with at_climate(shop) as pilot:
        assert "SILENT" not in screen_text(pilot.app)
        await press(pilot, "f3")
        shop.wait(hours=5)
        assert "door is SILENT. North was above 30 °C" in await press(pilot, "f12")

        weather.wait(hours=5)
        weather.read((5 * HOUR_S, 22.2, 48.0))
        await press(pilot, "f3")
        seen = await press(pilot, "f12")
        assert "22.2 °C" in seen
        assert "SILENT" not in seen


async def test_a_long_scan_that_is_no_code_leaves_the_screen_whole(shop: Shop) -> None:
    """Such as the address in a supplier's own label."""
    measured(shop)
    async with at_climate(shop) as pilot:
        scan(pilot.app, "https://films.example/" + "a0" * 80 + "\r")
        await settle(pilot)
        seen = screen_text(pilot.app)
        assert "… is no code of this book." in " ".join(seen.replace("”", "").split())
        assert "North was above" in seen
        assert "scan, or / to type" in seen
