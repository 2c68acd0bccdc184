"""What is said of a zone on the Climate screen: a reading, a sensor that moves, a place that lies there."""

from typing import Any

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from stockroom.books.opening import create_book
from stockroom.errors import Code, Refusal
from stockroom.screens.forms import air
from stockroom.work.look import places
from stockroom.work.readings import ReadingsWritten, WriteReadings, write_readings
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
        assert "✓ DONE  door: 21.7 °C, 2026-11-25 14:00" in seen
        assert "SILENT" not in seen
        assert "21.7 °C         ?  2026-11-25 14:00  door" in seen


async def test_a_reading_of_yesterday_is_written_at_its_time(shop: Shop) -> None:
    """With its humidity; the newest stays what it was."""
    measured(shop)
    async with at_climate(shop) as pilot:
        await press(pilot, "r")
        seen = await types(pilot, "72 F", "down", "48 %", "down", "yesterday 16:30", "enter")
        assert "✓ DONE  door: 22.2 °C, 2026-11-24 16:30" in seen
        assert "2026-11-25 09:00  door" in seen


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (("warm",), "“warm” is not a temperature of a store"),
        (("",), "Say how warm it is."),
        (("21", "down", "140"), "“140” is not a humidity; write a number from 0 to 100 %."),
        (("21",), "door has another reading of 2026-11-25 09:00, which stays."),
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
        assert "next: the temperature; it never said anything before" in screen_text(pilot.app)
        assert "window in South: 20 °C; it never said" in await types(pilot, "20")
        assert "DONE  window: 20 °C, 2026-11-25 09:00" in await types(pilot, "enter")
        assert "19.6 °C" in screen_text(pilot.app)


async def test_a_reading_lands_in_no_other_zone_than_the_form_names(shop: Shop) -> None:
    """The sensor was moved at another station while the form lay open."""
    weather = measured(shop)
    shop.wait(hours=1)
    weather.wait(hours=1)
    async with at_climate(shop) as pilot:
        await press(pilot, "r")
        weather.move("door", zone="South")
        assert "door stands in South by now." in await types(pilot, "21", "enter")


async def test_what_is_asked_again_after_no_answer_came_is_the_same_reading(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It was written, and the answer was lost."""
    measured(shop)
    shop.wait(hours=1)
    given: list[object] = []

    def lost(request: WriteReadings, **where: Any) -> ReadingsWritten:
        given.append(request.readings)
        done = write_readings(request, **where)
        if len(given) == 1:
            shop.wait(seconds=20)
            raise Refusal(Code.BOOK_UNREACHABLE, "The server went away.")
        return done

    monkeypatch.setattr(air, "write_readings", lost)
    async with at_climate(shop) as pilot:
        await press(pilot, "r")
        assert "The server went away." in await types(pilot, "21", "enter")
        assert "door said so before." in await types(pilot, "enter")
    assert given[0] == given[1]


async def test_what_was_refused_is_asked_again_of_the_moment_it_is_asked(shop: Shop) -> None:
    """Nobody is stuck at a second of which there is a reading already."""
    measured(shop)
    async with at_climate(shop) as pilot:
        await press(pilot, "r")
        assert "door has another reading of 2026-11-25 09:00" in await types(pilot, "21", "enter")
        shop.wait(minutes=1)
        assert "DONE  door: 21 °C, 2026-11-25 09:01" in await types(pilot, "enter")


async def test_a_form_is_of_the_zone_under_the_cursor_however_fast_the_keys(shop: Shop) -> None:
    """Though the screen still shows the one before."""
    measured(shop)
    async with at_climate(shop) as pilot:
        await pilot.press("down", "p")
        await settle(pilot)
        assert pilot.app.screen.query_one("#field-zone", Input).value == "South"


@pytest.mark.parametrize(
    ("typed", "said", "field"),
    [
        (("x", "down", "down", "30"), "write a number from -20 to 20", "offset K"),
        (("x", "down", "down", "down", "60"), "write a number from -50 to 50", "offset RH"),
        (("J000 186X",), "That is a code, and no name of a sensor.", "sensor"),
    ],
)
async def test_a_sensor_that_cannot_be_leads_to_the_field_to_mend(
    shop: Shop, typed: tuple[str, ...], said: str, field: str
) -> None:
    """Nothing is written, and what was typed stays."""
    measured(shop)
    before = sensors(shop.book, now=shop.now)
    async with at_climate(shop) as pilot:
        await press(pilot, "s")
        assert said in " ".join((await types(pilot, *typed, "enter")).split())
        focused = pilot.app.focused
        assert focused is not None
        assert focused.id == f"field-{field.replace(' ', '-')}"
    assert sensors(shop.book, now=shop.now) == before


async def test_what_calibration_adds_may_be_written_as_it_is_shown(shop: Shop) -> None:
    """With its plus; a zone is written as it is known."""
    measured(shop)
    async with at_climate(shop) as pilot:
        await press(pilot, "s")
        seen = await types(pilot, "door", "down", "north", "down", "+0.4", "enter")
        assert "door speaks for North, with +0.4 K added" in seen


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
        assert f"{first.name} lies in Loft, for which no sensor ever spoke" in seen
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
