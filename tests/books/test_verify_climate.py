"""Verify looks through sensors and readings; and sums the climate again where it is asked to."""

from array import array
from collections import Counter
from datetime import timedelta

import pytest
from sqlalchemy import text

from stockroom.books import course
from stockroom.books.course import Courses
from stockroom.books.opening import Book
from stockroom.film.sums import ageing
from stockroom.work.safekeeping import verify
from stockroom.work.summing import sum_again
from tests.builders import dump
from tests.conftest import NOW
from tests.weather import NOW_S, Weather


@pytest.fixture
def weather(book: Book, monkeypatch: pytest.MonkeyPatch) -> Weather:
    """Somebody with a sensor and a day of readings, summed in small parts."""
    monkeypatch.setattr(course, "PART", 10)
    weather = Weather(book)
    weather.sensor()
    weather.wait(days=1)
    readings = [(NOW_S + 1_800 * place, 20.0 + place % 13, 40 + place) for place in range(47)]
    weather.write(readings)
    return weather


def _says(book: Book, *, sums: bool = False) -> list[str]:
    return [finding.text for finding in verify(book, sums=sums)]


def _sql(book: Book, statement: str, **given: object) -> None:
    with book.transaction() as connection:
        connection.execute(text(statement), given)


def test_what_was_summed_from_the_readings_is_what_is_stored(weather: Weather) -> None:
    """For the energy of the house and the limits of its air, over four full parts."""
    rows = dump(weather.book)["course_part"]

    assert {row["measure"] for row in rows} == {
        "temperature",
        "humidity",
        "age 83.144",
        "above 30.0",
        "above 40.0",
        "outside 35.0 65.0",
    }
    assert {row["part"] for row in rows} == {0, 1, 2, 3}
    assert _says(weather.book, sums=True) == []


def test_what_is_wanted_is_summed_as_soon_as_somebody_wants_it(weather: Weather) -> None:
    """The energy of a film, another limit of the house; a sensor that moves changes two zones."""
    weather.material(figures={"energy": "60"})
    weather.set_value("climate.hot", "28C")
    weather.move(zone="attic", at=NOW + timedelta(hours=13))

    rows = dump(weather.book)["course_part"]
    counts = Counter((row["zone"], row["measure"]) for row in rows)
    wanted = ("age 60.0", "age 83.144", "above 28.0", "temperature", "outside 35.0 65.0")
    assert {counts["north", measure] for measure in wanted} == {2}
    assert {counts["attic", measure] for measure in wanted} == {2}
    assert counts["north", "above 30.0"] == 0
    assert _says(weather.book, sums=True) == []


@pytest.mark.parametrize("measure", ["age 83.144", "above 30.0", "outside 35.0 65.0"])
def test_a_sum_that_was_changed_is_found_only_when_it_is_asked_for(
    weather: Weather, measure: str
) -> None:
    """It is no history: it is summed again, and all is as it was."""
    before = dump(weather.book)
    _sql(
        weather.book,
        "UPDATE course_part SET content = :content WHERE measure = :measure AND part = 2",
        content=array("d", range(1, 12)).tobytes(),
        measure=measure,
    )

    assert _says(weather.book) == []
    assert _says(weather.book, sums=True) == [
        f"what is stored of north ({measure}) is not what its sensors read: run `climate sum-again`"
    ]
    sum_again(weather.book, now=weather.now)
    assert _says(weather.book, sums=True) == []
    assert dump(weather.book) == before


def test_a_reading_nobody_dropped_the_sums_for_is_found(weather: Weather) -> None:
    """Written past the program, behind the back of what is stored."""
    _sql(weather.book, "INSERT INTO reading VALUES (1, :at_s, 35.0, 50.0)", at_s=NOW_S + 30_000)

    assert _says(weather.book) == []
    assert [said[:33] for said in _says(weather.book, sums=True)] == [
        "what is stored of north (temperat",
        "what is stored of north (humidity",
    ]


def test_parts_nobody_would_ask_for_are_passed_over(weather: Weather) -> None:
    """What another version may have summed."""
    _sql(weather.book, "UPDATE course_part SET measure = 'frost 3' WHERE measure = 'above 40.0'")

    assert _says(weather.book, sums=True) == []
    with weather.book.reading() as connection:
        Courses(connection, 21_600).of("north", ageing(83.144)).between(NOW_S, NOW_S + 60)


@pytest.mark.parametrize(
    "values", ["1, 5, 120.0, 50.0", "1, 5, -61.0, NULL", "1, 5, 20.0, 101.0", "1, 5, 20.0, -0.5"]
)
def test_a_reading_that_cannot_be_is_found(weather: Weather, values: str) -> None:
    """Nothing lets it in but a person with a SQL prompt."""
    _sql(weather.book, f"INSERT INTO reading VALUES ({values})")

    assert _says(weather.book) == ["1 readings of door cannot be, the first at 5"]


def test_a_sensor_nothing_was_said_of_is_found(weather: Weather) -> None:
    """It would be silent for ever, and nobody would see it."""
    _sql(weather.book, "INSERT INTO sensor (name, name_key) VALUES ('attic', 'attic')")

    assert _says(weather.book) == ["of the sensor attic nothing says where it stands"]
