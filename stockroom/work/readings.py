"""Readings: what a sensor said is written once for good; what cannot be is said, and left out."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from math import isfinite

from stockroom.books.opening import Book
from stockroom.books.readings import keep_readings
from stockroom.books.sensors import Stand, sensor_entries, sensor_named, stands
from stockroom.books.values import Asked, Reading

COLDEST_C, HOTTEST_C, WETTEST_PCT = -60.0, 85.0, 100.0
"""Outside of these a sensor of a store is broken: common practice, no source."""

_SAID_BY_FAULTS = {
    -127.0: "a probe that is not connected says that",
    85.0: "a probe says that before it has measured",
    999.0: "a sensor says that when it has failed",
}
"""Values some sensors give in place of a temperature: common practice, no source."""

_CLOCKS_APART = timedelta(minutes=5)
_NO_CLOCK_BEFORE = datetime(2001, 1, 1, tzinfo=UTC)


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
    with book.transaction() as connection:
        sensor_id, name = sensor_named(connection, request.sensor, locked=True)
        kept = keep_readings(connection, sensor_id, given)
        spoken_for = stands(sensor_entries(connection))
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
    for index, given in enumerate(request.readings):
        reading = Reading(*given)
        if (text := _impossible(reading, now)) is not None:
            findings[index] = f"{text}: left out"
            continue
        rh_pct = reading.rh_pct
        if rh_pct is not None and not 0 <= rh_pct <= WETTEST_PCT:
            findings[index] = f"{rh_pct:g} % is no humidity: the temperature alone is kept"
            reading = reading._replace(rh_pct=None)
        yield reading, index


def _disorder(sound: Sequence[tuple[Reading, int]]) -> dict[int, str]:
    """Said once, of the first reading that is earlier than the one before it."""
    late = [index for (one, _), (other, index) in pairwise(sound) if other.at_s < one.at_s]
    if not late:
        return {}
    return {late[0]: f"{len(late)} earlier than the one before: all are put in order of time"}


def _impossible(reading: Reading, now: datetime) -> str | None:
    """Why a reading cannot be true."""
    at_s, temperature_c, _ = reading
    if not isfinite(temperature_c):
        return "no temperature"
    if temperature_c in _SAID_BY_FAULTS:
        return f"{temperature_c:g} °C is no temperature, {_SAID_BY_FAULTS[temperature_c]}"
    if not COLDEST_C <= temperature_c <= HOTTEST_C:
        return f"{temperature_c:g} °C is out of range"
    if at_s > (now + _CLOCKS_APART).timestamp():
        return f"{_clock(at_s)} is in the future"
    if at_s < _NO_CLOCK_BEFORE.timestamp():
        return f"{_clock(at_s)} is what a clock says that was not set"
    return None


def _other(reading: Reading, there: Reading, how: str) -> str:
    return f"{_said(reading)} at {_clock(reading.at_s)}: left out, {_said(there)} {how}"


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


def _clock(at_s: int) -> str:
    return f"{datetime.fromtimestamp(at_s, UTC):%Y-%m-%d %H:%M:%S} UTC"
