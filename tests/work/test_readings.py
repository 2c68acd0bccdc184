"""Readings: the good ones are kept, once; what cannot be is said."""

from itertools import pairwise

import pytest

from stockroom.books.opening import Book
from stockroom.books.readings import raw_readings
from stockroom.books.values import Reading
from stockroom.errors import Code
from tests.builders import dump, is_sound, refused
from tests.conftest import NOW
from tests.weather import HOUR_S, NOW_S, Weather


@pytest.fixture
def weather(book: Book) -> Weather:
    """Somebody with one sensor, at a time later than what it says."""
    weather = Weather(book)
    weather.sensor()
    weather.wait(days=10)
    return weather


def _kept(weather: Weather) -> list[Reading]:
    with weather.book.reading() as connection:
        found = raw_readings(connection, 1, 0, 2**40)
        return [reading for part in found for reading in part]


def test_readings_are_kept_as_they_were_given(weather: Weather) -> None:
    """To the last bit, in order of time, the humidity unknown where it was not said."""
    done = weather.read((HOUR_S, 0.1 + 0.2), (2 * HOUR_S, -20, 100), (3 * HOUR_S, 22.25, 48.5))

    assert (done.sensor, done.written, done.known, done.findings) == ("door", 3, 0, ())
    assert _kept(weather) == [
        Reading(NOW_S + HOUR_S, 0.1 + 0.2),
        Reading(NOW_S + 2 * HOUR_S, -20, 100),
        Reading(NOW_S + 3 * HOUR_S, 22.25, 48.5),
    ]
    assert is_sound(weather.book)


def test_the_same_again_adds_nothing(weather: Weather) -> None:
    """Also when new ones are among them, and when one is given twice at once."""
    weather.read((0, 21), (60, 22))
    before = dump(weather.book)
    again = weather.read((0, 21), (60, 22), (60, 22))
    assert dump(weather.book) == before
    more = weather.read((0, 21), (30, 21.5), (60, 22), (90, 23))

    assert (again.written, again.known, again.findings) == (0, 3, ())
    assert (more.written, more.known, more.findings) == (2, 2, ())
    assert len(_kept(weather)) == 4


def test_another_value_for_the_same_second_is_said_and_left_out(weather: Weather) -> None:
    """In the book, or in the same batch: what came first stays."""
    weather.read((0, 21, 40))

    done = weather.read((60, 22), (0, 25), (60, 23))

    assert (done.written, done.known) == (1, 0)
    assert done.findings == (
        (1, "25 °C at 2026-11-25 09:00:00 UTC: left out, 21 °C 40 % was written before"),
        (2, "23 °C at 2026-11-25 09:01:00 UTC: left out, 22 °C is given for the same second"),
    )
    assert [reading.temperature_c for reading in _kept(weather)] == [21, 22]


@pytest.mark.parametrize(
    ("temperature_c", "says"),
    [
        (-127, "a probe that is not connected says that"),
        (85, "a lone 85 °C is what a probe says before it has measured"),
        (999, "a sensor says that when it has failed"),
        (-60.1, "-60.1 °C is out of range"),
        (100.1, "100.1 °C is out of range"),
        (1e300, "out of range"),
        (float("nan"), "no temperature"),
        (float("inf"), "no temperature"),
    ],
)
def test_what_no_store_can_be_is_left_out_and_the_rest_is_kept(
    weather: Weather, temperature_c: float, says: str
) -> None:
    """Each with its place in what was given."""
    done = weather.read((0, 21), (60, temperature_c), (120, 22))

    assert done.written == 2
    assert [index for index, _ in done.findings] == [1]
    assert says in done.findings[0][1]
    assert [reading.temperature_c for reading in _kept(weather)] == [21, 22]


@pytest.mark.parametrize("rh_pct", [-0.1, 100.1, 255, float("nan")])
def test_a_humidity_that_cannot_be_leaves_the_temperature(weather: Weather, rh_pct: float) -> None:
    """It is unknown then, and never nothing."""
    done = weather.read((0, 21, rh_pct))

    assert (done.written, _kept(weather)) == (1, [Reading(NOW_S, 21, None)])
    assert "is no humidity: the temperature alone is kept" in done.findings[0][1]
    assert weather.read((0, 21, rh_pct)).known == 1


def test_a_clock_that_is_wrong_is_said(weather: Weather) -> None:
    """In the future, or from before there were such sensors; two clocks may differ a little."""
    ahead = int(weather.now.timestamp()) - NOW_S
    done = weather.read((ahead + 301, 21), (ahead + 300, 21), (-NOW_S, 21))

    assert done.written == 1
    assert [(index, text[19:]) for index, text in done.findings] == [
        (0, " UTC is in the future: left out"),
        (2, " UTC is what a clock says that was not set: left out"),
    ]


def test_readings_out_of_order_are_put_in_order_and_it_is_said_once(weather: Weather) -> None:
    """Some loggers begin with the newest."""
    done = weather.read((180, 23), (120, 22), (60, 21), (240, 24))

    assert done.written == 4
    assert done.findings == ((1, "2 earlier than the one before: all are put in order of time"),)
    assert all(one.at_s < other.at_s for one, other in pairwise(_kept(weather)))


def test_what_was_read_while_the_sensor_stood_in_no_zone_is_kept_and_said(weather: Weather) -> None:
    """It counts as soon as somebody says where it stood."""
    weather.sensor("window", "north")
    late = int(weather.now.timestamp()) - NOW_S

    done = weather.read((late - 60, 21), (late, 22), (late + 60, 23))

    assert done.written == 3
    assert [index for index, _ in done.findings] == [1]
    assert done.findings[0][1].startswith("door stood in no zone when it read this and 1 more: ")


def test_an_unknown_sensor_is_not_found(weather: Weather) -> None:
    """A misspelt name makes no new one."""
    with refused(weather.book, Code.NO_SENSOR, "see `climate sensors`"):
        weather.write([(NOW_S, 21)], sensor="doo")


def test_many_readings_are_written_and_known_again(weather: Weather) -> None:
    """More than are looked at in one go, mixed up."""
    count = 25_000
    given = [(NOW_S + 20 * (place * 7_919 % count), place / 1_000, None) for place in range(count)]

    first = weather.write(given[:20_000])
    second = weather.write(given)

    assert (first.written, second.written, second.known) == (20_000, 5_000, 20_000)
    assert _kept(weather) == sorted(Reading(*one) for one in given)
    assert NOW.timestamp() == NOW_S
