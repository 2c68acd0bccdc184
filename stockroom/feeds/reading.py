"""What a sensor tells, and what is wrong with a line that tells it.

Reading     an instant, degrees, per cent
Finding     lines of a file, and why they were not taken, or not as they stand
Wrong       the kinds of findings
Unread      raised where a text cannot be read; the reader of a file makes a finding of it
checked_…   the same instant or number, if a store can have it; else Unread
"""

from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from stockroom.film.climate import is_humidity, is_temperature

EARLIEST_S = 1_104_537_600
"""2005-01-01: what a logger says before it is a clock that was not set. Common practice, no source."""

AHEAD_S = 300
"""How far a sensor's clock may run before ours, in seconds. Common practice, no source."""

# Values that sensors and loggers give instead of a reading; from memory of their data sheets.
_CODES = frozenset({-127.0, 999.0, 999.9, 9999.0, -999.0, -999.9, -9999.0, 3276.7, 6553.5, 32767.0})


class Reading(NamedTuple):
    """What a sensor read at one second, UTC; the humidity is None where it is not known."""

    at_s: int
    temperature_c: float
    rh_pct: float | None


class Wrong(StrEnum):
    """What is wrong with a line, or with a message."""

    NOT_A_LINE = "not-a-line"
    NO_INSTANT = "no-instant"
    SKIPPED_HOUR = "skipped-hour"
    REPEATED_HOUR = "repeated-hour"
    CLOCK_NOT_SET = "clock-not-set"
    FUTURE = "future"
    NO_TEMPERATURE = "no-temperature"
    ERROR_CODE = "error-code"
    OUT_OF_RANGE = "out-of-range"
    NO_HUMIDITY = "no-humidity"
    OUT_OF_ORDER = "out-of-order"
    SAID_TWICE = "said-twice"
    OTHERWISE = "otherwise"

    @property
    def is_kept(self) -> bool:
        """Whether the reading of such a line is taken all the same."""
        return self in _KEPT


_KEPT = frozenset({Wrong.REPEATED_HOUR, Wrong.NO_HUMIDITY, Wrong.OUT_OF_ORDER})


@dataclass(frozen=True, slots=True)
class Finding:
    """What is wrong with one line, or with several in a row; the text is that of the first."""

    first_line: int
    last_line: int
    wrong: Wrong
    text: str


class Unread(Exception):
    """A text that is no reading, with what is wrong with it."""

    def __init__(self, wrong: Wrong, text: str) -> None:
        super().__init__(text)
        self.wrong = wrong
        self.text = text


def checked_instant(at_s: int, now_s: int) -> int:
    """An instant a reading can have been taken at."""
    if EARLIEST_S <= at_s <= now_s + AHEAD_S:
        return at_s
    if at_s < EARLIEST_S:
        raise Unread(Wrong.CLOCK_NOT_SET, "it is dated before 2005: the clock was not set")
    raise Unread(Wrong.FUTURE, "its time is still to come")


def checked_temperature(degrees: float, *, is_fahrenheit: bool = False) -> float:
    """Degrees Celsius of what a sensor gives; neither an error code nor out of all range."""
    celsius = round((degrees - 32) / 1.8, 6) if is_fahrenheit else degrees
    if degrees in _CODES or celsius in _CODES:
        raise Unread(Wrong.ERROR_CODE, f"{degrees:g} is an error code, no temperature")
    if not is_temperature(celsius):
        raise Unread(Wrong.OUT_OF_RANGE, f"{degrees:g} degrees are out of range for a store")
    return celsius


def checked_humidity(percent: float) -> float:
    """Per cent of relative humidity that air can have."""
    if not is_humidity(percent):
        raise Unread(
            Wrong.NO_HUMIDITY,
            f"{percent:g} % is no humidity: it lies between 0 and 100; taken as not known",
        )
    return percent
