"""A screen that comes to the front again reads the book again only if it may have changed."""

import pytest
from textual.pilot import Pilot

from stockroom.screens.rack import RackScreen
from stockroom.screens.today import TodayScreen
from stockroom.units import M
from tests.screens.seeing import screen_text, settle
from tests.screens.shop import Shop
from tests.weather import HOUR_S, Weather


async def leave_and_come_back(pilot: Pilot[None], key: str) -> object:
    """Go to the Bench and back; what the screen read."""
    for one in ("f4", key):
        await pilot.press(one)
        await settle(pilot)
        await settle(pilot)
    screen = pilot.app.screen
    if isinstance(screen, RackScreen):
        return screen._shelf
    assert isinstance(screen, TodayScreen)
    return screen._today


@pytest.mark.parametrize("key", ["f2", "f3"], ids=["Today", "Rack"])
async def test_what_was_read_is_kept_until_something_is_written_or_time_goes_by(
    shop: Shop, key: str
) -> None:
    """An act of another station is seen at once, and so is a new day."""
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        first = await leave_and_come_back(pilot, key)
        assert first is not None
        assert await leave_and_come_back(pilot, key) is first

        shop.hand().cut(shop.codes.old_roll, 1 * M)
        second = await leave_and_come_back(pilot, key)
        assert second is not first
        assert "5.4 m" in screen_text(pilot.app)

        shop.wait(minutes=4)
        assert await leave_and_come_back(pilot, key) is second
        shop.wait(minutes=1)
        third = await leave_and_come_back(pilot, key)
        assert third is not second
        shop.wait(days=1)
        assert await leave_and_come_back(pilot, key) is not third


@pytest.mark.parametrize(
    "late_s", [60, -30 * 60, -3 * 86_400 + 60], ids=["new", "between", "days ago"]
)
async def test_what_a_sensor_said_since_is_seen_though_no_act_was_written(
    shop: Shop, late_s: int
) -> None:
    """At the end of what is known of its zone, and in between."""
    weather = Weather(shop.book, shop.now)
    weather.sensor("door", "North")
    weather.read(*((hour * HOUR_S, 22.0) for hour in range(-5 * 24, 1)))
    shop.wait(minutes=2)
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        first = await leave_and_come_back(pilot, "f2")
        assert await leave_and_come_back(pilot, "f2") is first
        weather.wait(minutes=2)
        weather.read((late_s, 45.0))
        assert await leave_and_come_back(pilot, "f2") is not first


async def test_whoever_steps_up_elsewhere_is_named_on_today(shop: Shop) -> None:
    """Though nothing was written."""
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        await pilot.press("f4")
        await settle(pilot)
        station = pilot.app.screen.station  # type: ignore[attr-defined]
        station.operator = "Tomas R."
        await pilot.press("f2")
        await settle(pilot)

        assert "on: Tomas R." in screen_text(pilot.app)
