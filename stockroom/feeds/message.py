"""What a sensor sends: a topic that names it, and a reading as JSON.

    Topic(template)                the topics that are listened to; one level, +, is the sensor's name
      .sensor_of(topic)            the name, or Unread
    read_message(payload)          Sent: a reading and its sequence number; Unread for anything else
    Sequences()                    notices numbers that are missing in a sensor's sequence

A payload is {"at": …, "temperature_c": …, "rh_pct": …, "sequence": …}: the instant as ISO 8601 with
its distance from UTC, or as seconds or milliseconds since 1970; the last two may be left out. Whether a
store can be like that is not looked at here.
"""

import json
from dataclasses import dataclass, field
from datetime import datetime
from math import isfinite
from typing import Any, NamedTuple, NoReturn

from stockroom.errors import Code, Refusal, clean_text
from stockroom.feeds.reading import Reading, Unread, Wrong

_LONGEST = 4_096
_LONGEST_NAME = 120
_MILLISECONDS_FROM = 10**11
_END_OF_9999_S = 253_402_300_799
_MOST_SENSORS = 10_000


class Sent(NamedTuple):
    """What one message says."""

    reading: Reading
    sequence: int | None


@dataclass(frozen=True, slots=True)
class Topic:
    """The topics of all sensors: levels between slashes, of which one is +, the sensor's name."""

    template: str

    def __post_init__(self) -> None:
        levels = self.template.split("/")
        is_plain = self.template.isprintable() and len(self.template) <= _LONGEST_NAME
        if not is_plain or levels.count("+") != 1 or self.template.count("+") != 1:
            self._refuse()
        if "#" in self.template or self.template.startswith("$"):
            self._refuse()

    def _refuse(self) -> NoReturn:
        raise Refusal(
            Code.BAD_SETTING,
            f"“{clean_text(self.template, 40)}” is no topic of sensors: write + where the "
            "sensor's name stands, like shop/zone/+/climate.",
        )

    def sensor_of(self, topic: str) -> str:
        """The name of the sensor that a topic is of."""
        levels, own = self.template.split("/"), topic.split("/")
        place = levels.index("+")
        name = clean_text(own[place], _LONGEST_NAME) if len(own) == len(levels) else ""
        if not name or [*own[:place], "+", *own[place + 1 :]] != levels:
            raise Unread(Wrong.NOT_A_LINE, "its topic names no sensor")
        return name


def read_message(payload: bytes) -> Sent:
    """What a message says."""
    said = _object(payload)
    temperature_c = _number(said, "temperature_c")
    if temperature_c is None:
        raise Unread(Wrong.NO_TEMPERATURE, "it has no temperature_c")
    reading = Reading(_instant(said.get("at")), temperature_c, _number(said, "rh_pct"))
    return Sent(reading, _sequence(said))


def _object(payload: bytes) -> dict[str, Any]:
    if len(payload) > _LONGEST:
        raise Unread(Wrong.NOT_A_LINE, f"it is longer than {_LONGEST} bytes")
    try:
        said = json.loads(payload)
    except (ValueError, RecursionError):  # a UnicodeDecodeError is a ValueError
        said = None
    if not isinstance(said, dict):
        raise Unread(Wrong.NOT_A_LINE, "it is no JSON object")
    return said


def _number(said: dict[str, Any], key: str) -> float | None:
    """The finite number under a key; None where there is none, or null."""
    if said.get(key) is None:
        return None
    found = _finite(said[key])
    if found is None:
        wrong = Wrong.NO_TEMPERATURE if key == "temperature_c" else Wrong.NO_HUMIDITY
        raise Unread(wrong, f"its {key} is no number")
    return found


def _finite(value: object) -> float | None:
    """A value of JSON as a number, where it is one of this world."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    try:
        return float(value) if isfinite(value) else None
    except OverflowError:
        return None


def _instant(value: object) -> int:
    """Whole seconds UTC of an instant in words or as a number."""
    if isinstance(value, str):
        seconds = _spelled(value)
    else:
        seconds = _finite(value)
        if seconds is not None and seconds >= _MILLISECONDS_FROM:
            seconds /= 1_000
    if seconds is None or not 0 <= seconds <= _END_OF_9999_S:
        raise Unread(
            Wrong.NO_INSTANT,
            "its at is no instant: write 2025-03-14T16:30:00Z, or seconds since 1970",
        )
    return int(seconds)


def _spelled(text: str) -> float | None:
    """Seconds since 1970 of an instant in ISO 8601 with its distance from UTC."""
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        return None
    return None if moment.tzinfo is None else moment.timestamp()


def _sequence(said: dict[str, Any]) -> int | None:
    value = said.get("sequence")
    return value if isinstance(value, int) and not isinstance(value, bool) and value >= 0 else None


@dataclass(slots=True)
class Sequences:
    """The last number of each sensor that numbers what it sends."""

    _last: dict[str, int] = field(default_factory=dict[str, int])

    def missing(self, sensor: str, number: int | None, *, is_sent_again: bool) -> int:
        """How many numbers lie between this one and the last; a smaller one begins anew."""
        if number is None:
            return 0
        last = self._last.get(sensor)
        if is_sent_again and last is not None and number <= last:
            return 0
        if last is not None or len(self._last) < _MOST_SENSORS:
            self._last[sensor] = number
        return 0 if last is None else max(number - last - 1, 0)
