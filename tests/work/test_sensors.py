"""Sensors: where they stand from when on, and what is added to what they say."""

from datetime import timedelta
from typing import Any

import pytest

from stockroom.books.opening import Book
from stockroom.books.values import Reading
from stockroom.errors import Code
from stockroom.work.sensors import sensors
from tests.builders import ON_ONE_ENGINE, is_sound, refused
from tests.conftest import NOW
from tests.weather import HOUR_S, NOW_S, Weather


@pytest.fixture
def weather(book: Book) -> Weather:
    """Somebody who looks after sensors, at an empty book."""
    return Weather(book)


def test_the_first_sensor_of_a_zone_spoke_for_it_from_the_beginning(weather: Weather) -> None:
    """The second one takes its place from now on, and the first one hangs nowhere."""
    first = weather.sensor("door", "North hall", silent_hours=24)
    weather.wait(days=1)
    second = weather.sensor("window", "north  HALL", offset_c=-0.4, offset_rh_pct=2)

    known = sensors(weather.book, now=weather.now)

    assert (first.sensor.zone, first.sensor.since, first.replaced) == ("North hall", None, None)
    assert (second.sensor.since, second.replaced) == (weather.now, "door")
    assert [(one.name, one.zone, one.silent_hours) for one in known] == [
        ("door", "", 24),
        ("window", "North hall", 3),
    ]
    assert (known[1].offset_c, known[1].offset_rh_pct) == (-0.4, 2)
    assert is_sound(weather.book)


def test_a_sensor_moves_from_an_instant_on_and_keeps_what_is_not_named(weather: Weather) -> None:
    """It may have happened a while ago."""
    weather.sensor("door", "north", offset_c=0.5)
    weather.wait(days=2)
    moved = weather.move(zone="south", at=NOW + timedelta(days=1))
    weather.wait(days=1)
    away = weather.move(zone="", note="battery")

    assert (moved.sensor.zone, moved.sensor.offset_c) == ("south", 0.5)
    assert moved.sensor.since == NOW + timedelta(days=1)
    assert (away.sensor.zone, away.sensor.offset_c, away.sensor.is_silent) == ("", 0.5, False)
    assert [one.zone for one in sensors(weather.book, now=NOW)] == ["north"]


def test_what_changes_nothing_is_not_written_again(weather: Weather) -> None:
    """Asked twice, it is there once."""
    weather.sensor()
    weather.move(offset_c=0.3)

    with refused(weather.book, Code.NO_SENSOR):
        weather.move("dor")
    before = sensors(weather.book, now=weather.now)
    weather.wait(hours=1)
    weather.move(offset_c=0.3)

    assert sensors(weather.book, now=weather.now) == before


def test_a_sensor_without_a_place_is_not_put_back_by_calibrating_it(weather: Weather) -> None:
    """Another one speaks for the zone since."""
    weather.sensor("door")
    weather.wait(days=1)
    weather.sensor("window")
    weather.wait(days=1)

    assert weather.move("door", offset_c=1).sensor.zone == ""
    assert weather.move("door", zone="north").replaced == "window"


def test_a_sensor_is_silent_when_it_said_nothing_for_too_long(weather: Weather) -> None:
    """Or never; its last words are as it said them."""
    added = weather.sensor(silent_hours=2, offset_c=1)
    weather.wait(hours=3)
    weather.read((0, 21.5, 48), (HOUR_S, 22))
    heard = sensors(weather.book, now=weather.now)[0]
    weather.wait(seconds=1)
    late = sensors(weather.book, now=weather.now)[0]

    assert added.sensor.is_silent
    assert heard.latest == Reading(NOW_S + HOUR_S, 22, None)
    assert (heard.is_silent, late.is_silent) == (False, True)


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({"name": ""}, Code.BAD_NAME),
        ({"zone": ""}, Code.BAD_NAME),
        ({"name": "Door"}, Code.ALREADY_THERE),
        ({"name": "x", "offset_c": 21}, Code.BAD_NUMBER),
        ({"name": "x", "offset_c": float("nan")}, Code.BAD_NUMBER),
        ({"name": "x", "offset_rh_pct": -51}, Code.BAD_NUMBER),
        ({"name": "x", "silent_hours": 0}, Code.BAD_SPAN),
        ({"name": "x", "silent_hours": 9_601}, Code.BAD_SPAN),
        ({"name": "x", "at": NOW + timedelta(seconds=1)}, Code.FUTURE),
    ],
)
def test_refuses_a_sensor_that_cannot_be(
    weather: Weather, given: dict[str, Any], code: Code
) -> None:
    """Nothing is written."""
    weather.sensor()

    with refused(weather.book, code):
        weather.sensor(**{"name": "door", "zone": "north"} | given)


def test_a_zone_is_assumed_to_be_as_warm_as_was_said_last(weather: Weather) -> None:
    """A zone nothing was ever put in is a slip of the pen."""
    weather.place("A1", "North hall")

    assert weather.assume("north hall", 24.5) == "North hall"
    with refused(weather.book, Code.NO_ZONE, "there are North hall"):
        weather.assume("nroth hall", 24)
    with refused(weather.book, Code.BAD_NUMBER):
        weather.assume("north hall", 101)
    with refused(weather.book, Code.FUTURE):
        weather.assume("north hall", 20, at=NOW + timedelta(days=1))
