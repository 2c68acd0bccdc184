"""A zone thinned out for a plot, and what it comes to: as its readings, looked at one by one, tell."""

from datetime import timedelta

import pytest

from stockroom.books.opening import Book
from stockroom.errors import Code
from stockroom.work.climate import climate_of
from stockroom.work.zone_plot import Level, ZonePlot, plot_of
from tests.builders import refused
from tests.weather import HOUR_S, Weather

DAY = timedelta(days=1)


@pytest.fixture
def weather(book: Book) -> Weather:
    """Somebody with one sensor."""
    weather = Weather(book)
    weather.place("A1", "North")
    weather.sensor("door", "North")
    return weather


def plot(weather: Weather, span: timedelta = DAY, steps: int = 24) -> ZonePlot:
    return plot_of(weather.book, "north", now=weather.now, span=span, steps=steps)


def test_a_step_holds_its_lowest_and_highest_reading_with_calibration(weather: Weather) -> None:
    """Four readings an hour in a plot of hours."""
    weather.read(*((-900 * n, 20.0 + n % 4, 50.0 - n % 4) for n in range(96)))
    weather.move("door", offset_c=-1.0, offset_rh_pct=2.0, at=weather.now - 2 * DAY)

    found = plot(weather)

    assert found.warmth[3] == Level(19.0, 20.5, 22.0)
    assert found.damp[3] == Level(49.0, 50.5, 52.0)
    assert all(found.warmth)


def test_between_readings_far_apart_the_line_goes_on_but_not_over_a_gap(weather: Weather) -> None:
    """Six hours apart is known, seven is not; nor is what was before the first."""
    weather.read((-20 * HOUR_S, 10.0), (-14 * HOUR_S, 16.0), (-7 * HOUR_S, 20.0))

    found = plot(weather)

    means = [None if level is None else round(level.mean, 1) for level in found.warmth]
    line = [10.0, 11.0, 12.0, 13.0, 14.0, 15.0, 16.0]
    assert means == [*[None] * 3, *line, *[None] * 6, 20.0, *[None] * 7]
    assert not any(found.damp)


def test_the_line_comes_from_what_was_read_before_and_that_is_not_counted(
    weather: Weather,
) -> None:
    """Nor is it the hottest."""
    weather.read((-26 * HOUR_S, 30.0), (-20 * HOUR_S, 24.0), (-19 * HOUR_S, 24.0))

    found = plot(weather)

    means = [round(level.mean) for level in found.warmth[:6] if level is not None]
    assert means == [27, 26, 25, 24, 24]
    assert found.hottest is not None
    assert found.hottest.temperature_c == 24


def test_what_it_comes_to_is_what_all_readings_come_to(weather: Weather) -> None:
    """The same as a climate told day by day, which looks at each of them."""
    weather.read(
        *((-600 * n, 5.0 + (n * 37) % 390 / 10, 20.0 + (n * 53) % 600 / 10) for n in range(900))
    )
    since = weather.now - 5 * DAY

    found = plot(weather, 5 * DAY, 60)
    told = climate_of(weather.book, "North", now=weather.now, since=since)

    assert told.temperature is not None
    assert told.humidity is not None
    assert found.hot_hours == pytest.approx(told.hot_hours, abs=1e-3)
    assert found.too_hot_hours == pytest.approx(told.too_hot_hours, abs=1e-3)
    assert found.cold_hours + found.hot_hours == pytest.approx(
        told.temperature.hours_outside, abs=1e-3
    )
    assert found.dry_or_damp_hours == pytest.approx(told.humidity.hours_outside, abs=1e-3)
    assert found.mean_kinetic_c == pytest.approx(told.mean_kinetic_c)
    assert (found.hottest, found.coldest) == (told.hottest, told.coldest)


def test_film_that_stands_there_is_counted(weather: Weather) -> None:
    """Not what is out, in another zone, or in a box; and a zone nobody measured is known to be one."""
    north, south = weather.place("A2", "north"), weather.place("B2", "South")
    weather.rolls(pieces=2, place=north)
    weather.roll(place=south)
    weather.box(place=north)
    weather.go_out(weather.roll(place=north))

    assert plot(weather).pieces == 2
    other = plot_of(weather.book, "south", now=weather.now, span=DAY, steps=10)
    assert (other.pieces, other.hottest, other.mean_kinetic_c) == (1, None, None)
    assert other.exposure.coverage == 0


def test_a_sensor_that_takes_anothers_place_goes_on_with_the_curve(weather: Weather) -> None:
    """In the step in which it does, both have spoken."""
    weather.sensor("window", "North", at=weather.now - timedelta(hours=12, minutes=30))
    weather.read(*((-900 * n, 20.0) for n in range(100)))
    weather.read(*((-900 * n, 24.0) for n in range(100)), sensor="window")

    found = plot(weather)

    known = [level for level in found.warmth if level is not None]
    assert len(known) == 24
    assert {(one.lowest, one.highest) for one in known} == {(20, 20), (20, 24), (24, 24)}


def test_a_zone_nothing_was_put_in_is_not_found(weather: Weather) -> None:
    """As everywhere."""
    with refused(weather.book, Code.NO_ZONE):
        plot_of(weather.book, "moon", now=weather.now, span=DAY, steps=10)
