"""What is said of a zone on the Climate screen: a reading, a sensor that moves, a place that lies there."""

import pytest
from textual.pilot import Pilot

from stockroom.books.opening import create_book
from stockroom.work.look import places
from stockroom.work.sensors import sensors
from tests.screens.seeing import same_screen, scan, screen_text, settle, type_in
from tests.screens.shop import Shop
from tests.screens.test_climate import at_climate, measured, press


async def types(pilot: Pilot[None], *keys_or_texts: str) -> str:
    """Type texts, and press the keys among them; the screen afterwards."""
    for one in keys_or_texts:
        if one in ("enter", "down", "up", "escape"):
            await pilot.press(one)
        else:
            type_in(pilot.app, one)
        await settle(pilot)
        await settle(pilot)
    return screen_text(pilot.app)


async def test_a_reading_by_hand_is_three_inputs(shop: Shop) -> None:
    """Key, number, Enter: it is the zone's newest at once, on the list and in the plot."""
    measured(shop)
    shop.wait(hours=5)
    async with at_climate(shop) as pilot:
        assert "door is SILENT" in screen_text(pilot.app)
        await press(pilot, "r")
        assert same_screen(pilot.app)

        seen = await types(pilot, "21,7", "enter")
        assert "A reading of door is kept." in seen
        assert "SILENT" not in seen
        assert "21.7 °C         ?  2026-11-25 14:00  door" in seen


async def test_a_reading_of_yesterday_is_written_at_its_time(shop: Shop) -> None:
    """With its humidity; the newest stays what it was."""
    measured(shop)
    async with at_climate(shop) as pilot:
        await press(pilot, "r")
        seen = await types(pilot, "72 F", "down", "48 %", "down", "yesterday 16:30", "enter")
        assert "A reading of door is kept." in seen
        assert "2026-11-25 09:00  door" in seen


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (("warm",), "“warm” is not a temperature of a store"),
        (("21", "down", "140"), "140"),
        (("21", "down", "down", "15:00"), "15:00 is still to come"),
        (("21", "down", "down", "at noon"), "is no time"),
    ],
)
async def test_what_cannot_be_a_reading_is_said_in_the_form(
    shop: Shop, typed: tuple[str, ...], said: str
) -> None:
    """What was typed stays, and nothing is written."""
    measured(shop)
    before = sensors(shop.book, now=shop.now)
    async with at_climate(shop) as pilot:
        await press(pilot, "r")
        seen = await types(pilot, *typed, "enter")
        assert said in seen
        assert "What door says in North" in seen
    assert sensors(shop.book, now=shop.now) == before


async def test_where_nobody_measures_the_sensor_is_named_first(shop: Shop) -> None:
    """A new one speaks for the zone; the form says so before it is written."""
    measured(shop)
    async with at_climate(shop) as pilot:
        await press(pilot, "down")
        assert "Nobody measures South: s says which one stands where." in await press(pilot, "r")

        await press(pilot, "s")
        assert "next: the name of the sensor" in screen_text(pilot.app)
        seen = await types(pilot, "window")
        assert "window is new and speaks for South" in seen
        assert same_screen(pilot.app)
        seen = await types(pilot, "down", "down", "-0.4", "enter")
        assert "window speaks for South, with -0.4 K added; silent after 3 h." in seen

        await press(pilot, "r")
        assert "A reading of window is kept." in await types(pilot, "20", "enter")
        assert "19.6 °C" in screen_text(pilot.app)


async def test_a_known_sensor_moves_from_now_on(shop: Shop) -> None:
    """And takes the place of the one that stood there."""
    measured(shop).sensor("window", "South")
    async with at_climate(shop) as pilot:
        await press(pilot, "s")
        assert "window moves from South to North, in place of door" in await types(pilot, "window")
        seen = await types(pilot, "enter")
        assert "window speaks for North" in seen
        assert "door spoke for it until then, and hangs nowhere now." in " ".join(seen.split())

        await press(pilot, "s")
        seen = await types(pilot, "door", "down", "Loft")
        assert "door moves from where it was put away to Loft" in seen


async def test_a_place_that_is_scanned_lies_in_the_zone_from_now_on(shop: Shop) -> None:
    """Its name stands in the form; a zone nobody measures is said to be so."""
    measured(shop)
    first = places(shop.book, now=shop.now)[0]
    async with at_climate(shop) as pilot:
        await press(pilot, "p")
        scan(pilot.app, f"{first.code}\r")
        await settle(pilot)
        assert first.name in screen_text(pilot.app)
        seen = await types(pilot, "down", "Loft", "enter")
        assert f"{first.name} lies in Loft, which nobody measures" in seen
    assert places(shop.book, now=shop.now)[0].zone == "Loft"


async def test_a_place_that_is_not_named_is_asked_for(shop: Shop) -> None:
    """And an unknown one is said to be unknown."""
    measured(shop)
    async with at_climate(shop) as pilot:
        await press(pilot, "p")
        assert "Say which place: scan it, or type its name." in await types(pilot, "enter")
        assert "nowhere" in await types(pilot, "nowhere", "enter")


async def test_in_an_empty_book_the_first_sensor_makes_the_first_zone(shop: Shop) -> None:
    """The screen says so; nothing is there to be read until then."""
    shop.book.close()
    shop.book = create_book(str(shop.labels.with_name("new.db")))
    async with at_climate(shop) as pilot:
        assert "No zone is known yet. s names a sensor" in screen_text(pilot.app)
        assert "No sensor is known: s says which one stands where." in await press(pilot, "r")

        await press(pilot, "s")
        assert "next: the zone it stands in" in await types(pilot, "door")
        assert "A sensor needs a name, and the zone it stands in." in await types(pilot, "enter")
        seen = await types(pilot, "down", "North", "enter")
        assert "door speaks for North; silent after 3 h." in seen
        assert "North  ·  the last 7 days" in seen
    shop.book.close()
