"""What a sensor tells, and what is wrong with a line that tells it.

Reading     an instant, degrees, per cent
Finding     lines of a file, and why they were not taken, or not as they stand
Wrong       the kinds of findings
Unread      raised where a text cannot be read; the reader of a file makes a finding of it
checked_…   the same instant or number, if a store can have it; else Unread
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from enum import StrEnum
from math import isfinite
from typing import NamedTuple

from stockroom.film.climate import is_humidity, is_temperature

_EARLIEST_S = 978_307_200  # 2001-01-01
"""What a logger says before it is a clock that was not set. Common practice, no source."""

_AHEAD_S = 300
"""How far a sensor's clock may run before ours, in seconds. Common practice, no source."""

_FAULTS = (
    ("a probe that is not connected says that", (-127.0,)),
    (
        "a sensor says that when it has failed",
        (999.0, 999.9, 9999.0, -999.0, -999.9, -9999.0, 3276.7, 6553.5, 32767.0),
    ),
)
_SAID_BY_FAULTS = {value: said for said, values in _FAULTS for value in values}
"""Values that some sensors give in place of a temperature: common practice, no source."""

_SWITCHED_ON_C, _FAR_K = 85.0, 10.0
SWITCHED_ON = "a lone 85 °C is what a probe says before it has measured"
"""Common practice, no source."""


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
    IN_THE_BOOK = "in-the-book"

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
    if _EARLIEST_S <= at_s <= now_s + _AHEAD_S:
        return at_s
    if at_s < _EARLIEST_S:
        raise Unread(Wrong.CLOCK_NOT_SET, f"{instant(at_s)} is what a clock says that was not set")
    raise Unread(Wrong.FUTURE, f"{instant(at_s)} is in the future")


def checked_temperature(degrees: float, *, is_fahrenheit: bool = False) -> float:
    """Degrees Celsius of what a sensor gives; neither a fault nor out of all range."""
    celsius = round((degrees - 32) / 1.8, 6) if is_fahrenheit else degrees
    fault = _SAID_BY_FAULTS.get(degrees) or _SAID_BY_FAULTS.get(celsius)
    unit = "°F" if is_fahrenheit else "°C"
    if fault is not None:
        raise Unread(Wrong.ERROR_CODE, f"{degrees:g} {unit} is no temperature, {fault}")
    if not isfinite(celsius):
        raise Unread(Wrong.NO_TEMPERATURE, "it is no temperature")
    if not is_temperature(celsius):
        raise Unread(Wrong.OUT_OF_RANGE, f"{degrees:g} {unit} is out of range")
    return celsius


def checked_humidity(percent: float) -> float:
    """Per cent of relative humidity that air can have."""
    if not is_humidity(percent):
        raise Unread(
            Wrong.NO_HUMIDITY, f"{percent:g} % is no humidity: the temperature alone is kept"
        )
    return percent


def switched_on(temperatures_c: Sequence[float]) -> list[int]:
    """The places of a lone 85 °C among readings far from it; a store as hot as that says so twice.

    The readings are in order of time.
    """
    if _SWITCHED_ON_C not in temperatures_c:
        return []
    return [
        place
        for place, celsius in enumerate(temperatures_c)
        if celsius == _SWITCHED_ON_C
        and all(
            abs(beside - _SWITCHED_ON_C) > _FAR_K
            for beside in (
                *temperatures_c[max(place - 1, 0) : place],
                *temperatures_c[place + 1 : place + 2],
            )
        )
    ]


def instant(at_s: int) -> str:
    """Seconds UTC as people write them."""
    return f"{datetime.fromtimestamp(at_s, UTC):%Y-%m-%d %H:%M:%S} UTC"
