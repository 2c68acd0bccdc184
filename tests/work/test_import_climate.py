"""A logger's file: what the zone's sensor said, once; what the file leaves open is asked first."""

from typing import Any

import pytest

from stockroom.books.opening import Book
from stockroom.books.readings import raw_readings
from stockroom.books.values import Reading, Shop
from stockroom.errors import Code
from stockroom.feeds.days import Order
from stockroom.feeds.headings import Scale
from stockroom.feeds.reading import Wrong
from stockroom.work.import_climate import (
    READ_OUT_HOURS,
    ImportClimate,
    Imported,
    Looked,
    keep,
    look_into,
)
from stockroom.work.sensors import sensors
from tests.builders import ON_ONE_ENGINE, dump, is_sound, refused
from tests.weather import NOW_S, Weather

FILE = (
    "at;temperature_c;rh_pct\n"
    "2026-11-25 09:00;21,5;45\n"
    "2026-11-25 09:10;-127;45\n"
    "2026-11-25 09:20;22;\n"
)
READ = [Reading(NOW_S, 21.5, 45), Reading(NOW_S + 1_200, 22)]


class Logger(Weather):
    """Somebody who reads loggers out, ten days later."""

    def look(
        self, text: str = FILE, zone: str = "north", **given: Any
    ) -> tuple[ImportClimate, Looked]:
        """Look into a file."""
        facts: dict[str, Any] = {"raw": text.encode(), "zone": zone}
        request = ImportClimate(**self.asked(**facts | given))
        return request, look_into(request, book=self.book, shop=Shop(), now=self.now)

    def imports(self, text: str = FILE, **given: Any) -> Imported:
        """Look into a file, and keep what it says."""
        return keep(*self.look(text, **given), book=self.book, now=self.now)

    def kept(self, number: int = 1) -> list[Reading]:
        """The readings of the first sensor, or another one."""
        with self.book.reading() as connection:
            found = raw_readings(connection, number, 0, 2**40)
            return [reading for part in found for reading in part]


@pytest.fixture
def logger(book: Book) -> Logger:
    """Somebody at an empty book."""
    logger = Logger(book)
    logger.wait(days=10)
    return logger


def test_the_readings_of_a_file_are_those_of_the_zones_sensor(logger: Logger) -> None:
    """Good lines are kept, and the same file again adds nothing."""
    logger.sensor("door", "North")

    done = logger.imports()
    before = dump(logger.book)
    again = logger.imports()

    assert (done.sensor, done.written, done.known, list(done.findings)) == ("door", 2, 0, [])
    assert (again.written, again.known, list(again.findings)) == (0, 2, [])
    assert logger.kept() == READ
    assert dump(logger.book) == before
    assert is_sound(logger.book)


def test_looking_writes_nothing(logger: Logger) -> None:
    """It says what is understood, which lines are wrong, and whose readings they are."""
    before = dump(logger.book)

    _, looked = logger.look()

    assert (looked.zone, looked.sensor) == ("north", "north")
    assert (looked.is_new_zone, looked.is_new_sensor) == (True, True)
    assert [(one.first_line, one.wrong) for one in looked.log.findings] == [(3, Wrong.ERROR_CODE)]
    assert dump(logger.book) == before


def test_a_zone_that_never_had_a_sensor_gets_one_of_its_name(logger: Logger) -> None:
    """It speaks for the zone from the beginning, and may be silent until it is read out again."""
    logger.place("A1", zone="North")

    done = logger.imports(zone="NORTH")
    named = logger.imports(zone="south", sensor="window")

    made = sensors(logger.book, now=logger.now)
    assert (done.sensor, done.written) == ("North", 2)
    assert (named.sensor, named.written) == ("window", 2)
    assert [(one.name, one.zone, one.since, one.silent_hours) for one in made] == [
        ("North", "North", None, READ_OUT_HOURS),
        ("window", "south", None, READ_OUT_HOURS),
    ]


def test_a_sensor_that_was_replaced_keeps_what_it_said(logger: Logger) -> None:
    """It is named, for another one speaks for the zone by now."""
    logger.sensor("door", "north")
    logger.sensor("window", "north", at=logger.now)

    done = logger.imports(sensor="DOOR")

    assert (done.sensor, done.written) == ("door", 2)
    assert logger.kept() == READ


def test_what_a_sensor_said_before_it_stood_anywhere_is_kept_and_said(logger: Logger) -> None:
    """By the line of the first of these readings."""
    logger.sensor("door", "north")
    logger.sensor("window", "north", at=logger.now)

    done = logger.imports()

    assert (done.sensor, done.written) == ("window", 2)
    assert [(one.first_line, one.wrong) for one in done.findings] == [(2, Wrong.IN_THE_BOOK)]
    assert "stood in no zone" in done.findings[0].text


def test_what_the_book_has_otherwise_stays_and_is_said_by_its_line(logger: Logger) -> None:
    """A logger does not change its mind about the past."""
    logger.imports()

    done = logger.imports(FILE.replace(";22;", ";23;"))

    assert (done.written, done.known) == (0, 1)
    assert [(one.first_line, one.wrong) for one in done.findings] == [(4, Wrong.IN_THE_BOOK)]
    assert logger.kept() == READ


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("given", "code", "says"),
    [
        ({"zone": ""}, Code.BAD_NAME, "in which zone"),
        ({"zone": "away"}, Code.NO_SENSOR, "No sensor stands in away now"),
        ({"sensor": "nobody"}, Code.NO_SENSOR, "No sensor is called “nobody”"),
        ({"sensor": "roof"}, Code.NO_SENSOR, "roof never stood in north"),
        ({"zone": "Roof"}, Code.ALREADY_THERE, "already called"),
        ({"clock": "Atlantis/Centre"}, Code.BAD_SETTING, "no time zone"),
        ({"clock": "../../etc/passwd"}, Code.BAD_SETTING, "no time zone"),
        ({"text": "nothing"}, Code.BAD_FILE, "No line"),
        ({"text": "PK\x03\x04"}, Code.BAD_FILE, "no text"),
        ({"text": "at;temp\n2027-01-01 00:00;21"}, Code.BAD_FILE, "in the future"),
        ({"text": "at;temp\n03/04/2026 09:00;21"}, Code.BAD_DATE, "--date-order"),
        ({"text": "at;temp\n2026-04-03 09:00;72,5"}, Code.BAD_NUMBER, "--scale"),
    ],
)
def test_what_cannot_be_told_is_refused_and_nothing_is_written(
    logger: Logger, given: dict[str, Any], code: Code, says: str
) -> None:
    """Readings are written for good, so that nothing is guessed."""
    logger.sensor("door", "north")
    logger.sensor("roof", "attic")
    logger.sensor("gone", "away")
    logger.move("gone", zone="")

    with refused(logger.book, code, says):
        logger.imports(**given)


@ON_ONE_ENGINE
def test_what_a_file_leaves_open_can_be_told(logger: Logger) -> None:
    """And is then written."""
    text = "at;temp\n03/04/2026 09:00;72,5\n"

    logger.imports(text, order=Order.MDY, scale=Scale.FAHRENHEIT, clock="Europe/Berlin")

    assert [(one.at_s, one.temperature_c) for one in logger.kept()] == [(1_772_611_200, 22.5)]


@ON_ONE_ENGINE
def test_without_a_book_a_file_can_be_looked_into(logger: Logger) -> None:
    """All of it would be new."""
    request, _ = logger.look()

    looked = look_into(request, book=None, shop=Shop(zone="Europe/Berlin"), now=logger.now)

    assert (looked.is_new_zone, looked.is_new_sensor) == (True, True)
    assert looked.log.readings[0].at_s == NOW_S - 3_600
