"""Readings: what a sensor said is written once for good; what cannot be is said, and left out."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import pairwise

from stockroom.books.opening import Book
from stockroom.books.readings import keep_readings
from stockroom.books.sensors import Stand, sensor_entries, sensor_named, stands
from stockroom.books.values import Asked, Reading
from stockroom.feeds.reading import (
    SWITCHED_ON,
    Unread,
    checked_humidity,
    checked_instant,
    checked_temperature,
    instant,
    switched_on,
)
from stockroom.work.summing import keep_all


@dataclass(frozen=True, slots=True, kw_only=True)
class WriteReadings(Asked):
    """What one sensor said: seconds of UTC since 1970, °C, and % of humidity if it knows.

    Some thousand at a time, in any order. Asked for twice, the second time adds nothing.
    """

    sensor: str
    readings: tuple[tuple[int, float, float | None], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingsWritten:
    """How many readings were written, and how many were known before.

    A finding is the index of a reading as it was given, and what is the matter with it.
    """

    sensor: str
    written: int
    known: int
    findings: tuple[tuple[int, str], ...]


def write_readings(request: WriteReadings, *, book: Book, now: datetime) -> ReadingsWritten:
    """Write the readings that can be true and are not there yet; one sensor has one a second."""
    findings: dict[int, str] = {}
    sound = list(_sound(request, now, findings))
    findings = _disorder(sound) | findings
    given, index_at, twice = _one_a_second(sound, findings)
    with book.transaction() as connection:
        sensor_id, name = sensor_named(connection, request.sensor, locked=True)
        kept = keep_readings(connection, sensor_id, given)
        spoken_for = stands(sensor_entries(connection))
    if kept.written:
        keep_all(book, now=now, sensor=name)
    for reading, there in kept.clashes:
        findings[index_at[reading.at_s]] = _other(reading, there, "was written before")
    homeless = _homeless(given, sensor_id, spoken_for)
    if homeless:
        findings.setdefault(index_at[homeless[0].at_s], _nowhere(homeless, name))
    return ReadingsWritten(
        sensor=name,
        written=kept.written,
        known=kept.known + twice,
        findings=tuple(sorted(findings.items())),
    )


def _sound(
    request: WriteReadings, now: datetime, findings: dict[int, str]
) -> Iterator[tuple[Reading, int]]:
    """The readings that can be true, each with its index; a humidity that cannot is left out."""
    now_s = int(now.timestamp())
    for index, (at_s, temperature_c, rh_pct) in enumerate(request.readings):
        try:
            checked_temperature(temperature_c)
            checked_instant(at_s, now_s)
        except Unread as unread:
            findings[index] = f"{unread.text}: left out"
            continue
        try:
            humidity = None if rh_pct is None else checked_humidity(rh_pct)
        except Unread as unread:
            findings[index] = unread.text
            humidity = None
        yield Reading(at_s, temperature_c, humidity), index


def _disorder(sound: Sequence[tuple[Reading, int]]) -> dict[int, str]:
    """Said once, of the first reading that is earlier than the one before it."""
    late = [index for (one, _), (other, index) in pairwise(sound) if other.at_s < one.at_s]
    if not late:
        return {}
    return {late[0]: f"{len(late)} earlier than the one before: all are put in order of time"}


def _one_a_second(
    sound: Sequence[tuple[Reading, int]], findings: dict[int, str]
) -> tuple[list[Reading], dict[int, int], int]:
    """The readings in order of time, the index of each by its second, and how many were said twice."""
    index_at: dict[int, int] = {}
    given: list[Reading] = []
    twice = 0
    for reading, index in sorted(sound, key=lambda one: (one[0].at_s, one[1])):
        if index_at.setdefault(reading.at_s, index) == index:
            given.append(reading)
        elif given[-1] == reading:
            twice += 1
        else:
            findings[index] = _other(reading, given[-1], "is given for the same second")
    for place in reversed(switched_on([reading.temperature_c for reading in given])):
        findings[index_at[given.pop(place).at_s]] = f"{SWITCHED_ON}: left out"
    return given, index_at, twice


def _other(reading: Reading, there: Reading, how: str) -> str:
    return f"{_said(reading)} at {instant(reading.at_s)}: left out, {_said(there)} {how}"


def _said(reading: Reading) -> str:
    humidity = "" if reading.rh_pct is None else f" {reading.rh_pct:g} %"
    return f"{reading.temperature_c:g} °C{humidity}"


def _homeless(
    given: Sequence[Reading], sensor_id: int, spoken_for: Mapping[str, tuple[Stand, ...]]
) -> list[Reading]:
    """The readings from times when their sensor stood in no zone."""
    stood = [stand for those in spoken_for.values() for stand in those]
    own = [stand for stand in stood if stand.sensor_id == sensor_id]
    return [one for one in given if not any(stand.holds(one.at_s) for stand in own)]


def _nowhere(homeless: Sequence[Reading], sensor: str) -> str:
    more = f" and {len(homeless) - 1} more" if len(homeless) > 1 else ""
    return (
        f"{sensor} stood in no zone when it read this{more}: kept, but no zone has it until "
        "`climate place-sensor --at` says where it stood"
    )
