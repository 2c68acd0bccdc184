"""What a zone was like: points for a plot, what they come to, and what was not measured."""

from datetime import timedelta
from itertools import pairwise

import pytest

from stockroom.books.opening import Book
from stockroom.errors import Code
from stockroom.film.heat import ageing_rate, temperature_at_rate_c
from stockroom.film.limits import Basis, Figure
from stockroom.work.climate import climate_of, zones
from tests.builders import refused
from tests.conftest import NOW
from tests.weather import HOUR_S, NOW_S, Weather

DAY_S = 24 * HOUR_S


@pytest.fixture
def weather(book: Book) -> Weather:
    """Somebody with one sensor, a week later than what it says."""
    weather = Weather(book)
    weather.place("A1", "North hall")
    weather.sensor("door", "north hall")
    weather.wait(days=7)
    return weather


def test_a_day_is_told_hour_by_hour(weather: Weather) -> None:
    """Twelve hours at 20, an hour's way up, and eleven at 32; humidity only in the morning."""
    weather.read(
        *(
            (hour * HOUR_S, 20.0 if hour <= 12 else 32.0, 70.0 if hour <= 6 else None)
            for hour in range(25)
        )
    )

    found = climate_of(
        weather.book, "NORTH hall", now=weather.now, since=NOW, until=NOW + timedelta(days=1)
    )

    assert found.now.zone == "North hall"
    assert [point.since for point in found.points] == [
        NOW + timedelta(hours=hour) for hour in range(24)
    ]
    temperatures = [point.temperature for point in found.points]
    assert [one.mean for one in temperatures if one is not None] == [20.0] * 12 + [26.0] + [
        32.0
    ] * 11
    assert found.temperature is not None
    assert found.temperature.mean == pytest.approx((12 * 20 + 26 + 11 * 32) / 24)
    assert (found.temperature.lowest, found.temperature.highest) == (20, 32)
    assert found.hot_hours == pytest.approx(11 + 1 / 6)
    assert found.temperature.hours_outside == pytest.approx(11 + 1 / 6)
    assert found.too_hot_hours == 0
    assert found.humidity is not None
    assert (found.humidity.hours_measured, found.humidity.hours_outside) == (6, 6)
    assert [point.humidity is not None for point in found.points] == [True] * 7 + [False] * 17
    assert (found.hottest, found.coldest) == (
        (NOW + timedelta(hours=13), 32.0),
        (NOW, 20.0),
    )
    rate = (
        12 * ageing_rate(20) + (ageing_rate(20) + ageing_rate(32)) / 2 + 11 * ageing_rate(32)
    ) / 24
    assert found.exposure.like_days == pytest.approx(rate)
    assert found.exposure.coverage == 1
    assert found.mean_kinetic_c == pytest.approx(temperature_at_rate_c(rate))
    assert found.energy == Figure(83.144, Basis.DEFAULT)


def test_a_gap_is_not_measured_and_counts_at_what_the_zone_is_assumed_to_be(
    weather: Weather,
) -> None:
    """It is never taken to have been nothing."""
    weather.read((0, 20.0), (HOUR_S, 20.0), (23 * HOUR_S, 20.0), (24 * HOUR_S, 20.0))
    weather.assume("north hall", 30.0)

    found = climate_of(
        weather.book, "north hall", now=weather.now, since=NOW, until=NOW + timedelta(days=1)
    )

    assert found.exposure.coverage == pytest.approx(2 / 24)
    assert found.exposure.like_days == pytest.approx(
        (2 * ageing_rate(20) + 22 * ageing_rate(30)) / 24
    )
    assert found.mean_kinetic_c == pytest.approx(20)
    assert [point.temperature is not None for point in found.points] == [True, True] + [
        False
    ] * 20 + [True] * 2
    assert found.now.assumed_c == Figure(30.0, Basis.HOUSE)


def test_many_days_are_told_day_by_day(weather: Weather) -> None:
    """From one beginning of a shop day to the next, also where clocks are put back."""
    weather.set_value("time-zone", "Europe/Lisbon")
    weather.read(*((-quarter * DAY_S // 4, 20.0 + quarter % 4) for quarter in range(200, 0, -1)))
    since, until = NOW - timedelta(days=40), NOW - timedelta(days=20)

    found = climate_of(weather.book, "north hall", now=weather.now, since=since, until=until)

    assert len(found.points) == 21
    assert [point.since.hour for point in found.points] == [9] + [4] * 8 + [5] * 12
    assert all(one.until == other.since for one, other in pairwise(found.points))
    assert found.temperature is not None
    assert found.temperature.hours_measured == pytest.approx(20 * 24)
    assert found.temperature.mean == pytest.approx(21.5, abs=0.1)


def test_a_zone_nobody_measured_says_so(weather: Weather) -> None:
    """Nothing is known, and all of it is assumed."""
    found = climate_of(weather.book, "north hall", now=weather.now)

    assert (found.since, found.until) == (weather.now - timedelta(days=7), weather.now)
    assert len(found.points) == 7 * 24
    assert {(point.temperature, point.humidity) for point in found.points} == {(None, None)}
    assert (found.temperature, found.humidity, found.hottest, found.mean_kinetic_c) == (None,) * 4
    assert (found.exposure.coverage, found.hot_hours) == (0, 0)
    assert found.exposure.like_days == pytest.approx(7 * ageing_rate(21))
    assert found.now.assumed_c == Figure(21.0, Basis.DEFAULT)


def test_readings_before_and_after_tell_the_ends(weather: Weather) -> None:
    """What is between two readings is known though neither of them is within."""
    weather.read((-HOUR_S, 20.0), (3 * HOUR_S, 24.0))

    found = climate_of(
        weather.book, "north hall", now=weather.now, since=NOW, until=NOW + timedelta(hours=1)
    )

    assert found.temperature is not None
    assert found.temperature.mean == pytest.approx(21.5)
    assert (found.exposure.coverage, found.hottest) == (1, None)


def test_every_zone_is_listed_with_who_speaks_for_it(weather: Weather) -> None:
    """A place makes a zone, and so does a sensor."""
    weather.place("B1", "Attic")
    weather.read((0, 20.0, 40.0))
    weather.assume("attic", 26)

    known = zones(weather.book, now=weather.now)

    assert [(one.zone, one.sensor and one.sensor.name, one.assumed_c.value) for one in known] == [
        ("Attic", None, 26),
        ("North hall", "door", 21),
    ]
    assert known[1].sensor is not None
    assert known[1].sensor.is_silent


def test_refuses_what_cannot_be_looked_back_on(weather: Weather) -> None:
    """An unknown zone is not found, and nothing to come is told."""
    with refused(weather.book, Code.NO_ZONE):
        climate_of(weather.book, "south hall", now=weather.now)
    with refused(weather.book, Code.FUTURE):
        climate_of(weather.book, "north hall", now=weather.now, since=weather.now)
    with refused(weather.book, Code.BAD_DATE):
        climate_of(weather.book, "north hall", now=weather.now, since=NOW - timedelta(days=5 * 366))


def test_a_reading_told_by_hand_is_one_like_any_other(weather: Weather) -> None:
    """The same seconds, the same sensor."""
    weather.write([(NOW_S, 20.0)])

    assert climate_of(weather.book, "north hall", now=weather.now, since=NOW).hottest == (NOW, 20.0)
