"""Readings: written once for good, and read back by the stretch, never all at once."""

from array import array
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from typing import NamedTuple

from sqlalchemy import Connection, bindparam, func, insert, select

from stockroom.books.climate_tables import ReadingRow
from stockroom.books.parts import forget
from stockroom.books.sensors import (
    SensorEntry,
    Stand,
    add_sensor_entry,
    changed_from,
    sensor_entries,
    stands,
)
from stockroom.books.tables import table_of
from stockroom.books.values import Reading
from stockroom.film.sums import Quantity

_READING = table_of(ReadingRow)
_AT_ONCE = 10_000

_THERE = (
    select(_READING.c.at_s, _READING.c.temperature_c, _READING.c.rh_pct)
    .where(
        _READING.c.sensor_id == bindparam("sensor"),
        _READING.c.at_s >= bindparam("from_s"),
        _READING.c.at_s < bindparam("until_s"),
    )
    .order_by(_READING.c.at_s)
)
_KNOWN = {
    Quantity.TEMPERATURE: _READING.c.temperature_c,
    Quantity.HUMIDITY: _READING.c.rh_pct,
}
_LEVELS = {
    quantity: select(_READING.c.at_s, level)
    .where(
        _READING.c.sensor_id == bindparam("sensor"),
        _READING.c.at_s >= bindparam("from_s"),
        _READING.c.at_s < bindparam("until_s"),
        level.is_not(None),
    )
    .order_by(_READING.c.at_s)
    .limit(bindparam("most"))
    for quantity, level in _KNOWN.items()
}
_COUNTS = {
    quantity: select(func.count()).select_from(levels.subquery())
    for quantity, levels in _LEVELS.items()
}
ALL_TIME = range(-(2**40), 2**40)
"""More seconds than any reading can be of."""
_LATEST = (
    select(_READING.c.at_s, _READING.c.temperature_c, _READING.c.rh_pct)
    .where(_READING.c.sensor_id == bindparam("sensor"))
    .order_by(_READING.c.at_s.desc())
    .limit(1)
)


class Kept(NamedTuple):
    """How many readings were written and how many were there before; and where another one was."""

    written: int
    known: int
    clashes: tuple[tuple[Reading, Reading], ...]


def keep_readings(connection: Connection, sensor_id: int, given: Sequence[Reading]) -> Kept:
    """Write the readings of a locked sensor that are not there yet; in order of time, one a second.

    Where another one is at the same second, it stays; each such pair is given back.
    """
    new: list[Reading] = []
    known = 0
    clashes: list[tuple[Reading, Reading]] = []
    for start in range(0, len(given), _AT_ONCE):
        some = given[start : start + _AT_ONCE]
        there = _there(connection, sensor_id, some)
        for reading in some:
            found = there.get(reading.at_s)
            if found is None:
                new.append(reading)
            elif found == reading:
                known += 1
            else:
                clashes.append((reading, found))
    _write(connection, sensor_id, new)
    return Kept(len(new), known, tuple(clashes))


def _there(connection: Connection, sensor_id: int, some: Sequence[Reading]) -> dict[int, Reading]:
    """What is at the seconds of these readings already."""
    wanted = {reading.at_s for reading in some}
    stretch = raw_readings(connection, sensor_id, some[0].at_s, some[-1].at_s + 1)
    return {row.at_s: row for part in stretch for row in part if row.at_s in wanted}


def _write(connection: Connection, sensor_id: int, new: Sequence[Reading]) -> None:
    for start in range(0, len(new), _AT_ONCE):
        some = new[start : start + _AT_ONCE]
        rows = [reading._asdict() | {"sensor_id": sensor_id} for reading in some]
        connection.execute(insert(_READING), rows)
    changed: dict[str, int] = {}
    for zone, those in stands(sensor_entries(connection)).items():
        within = (_first_within(stand, sensor_id, new) for stand in those)
        if firsts := [first for first in within if first is not None]:
            changed[zone] = min(firsts)
    forget(connection, changed)


def _first_within(stand: Stand, sensor_id: int, new: Sequence[Reading]) -> int | None:
    """The second of the first of these readings that counts for the zone a sensor stands in."""
    if stand.sensor_id != sensor_id:
        return None
    place = bisect_left(new, (stand.from_s,))
    if place == len(new) or (stand.until_s is not None and new[place].at_s >= stand.until_s):
        return None
    return new[place].at_s


def put_in_force(connection: Connection, entry: SensorEntry, *, now: datetime) -> None:
    """Write an entry of a sensor, while all are locked; zones are spoken for otherwise from then on."""
    before = stands(sensor_entries(connection))
    add_sensor_entry(connection, entry, now=now)
    forget(connection, changed_from(before, stands(sensor_entries(connection))))


def latest_reading(connection: Connection, sensor_id: int) -> Reading | None:
    """The newest reading of a sensor, as it said it."""
    row = connection.execute(_LATEST, {"sensor": sensor_id}).first()
    return None if row is None else Reading._make(row)


def raw_readings(
    connection: Connection, sensor_id: int, from_s: int, until_s: int
) -> Iterator[Sequence[Reading]]:
    """What a sensor said from a second on, to before another, as it said it; some thousand at a time."""
    given = {"sensor": sensor_id, "from_s": from_s, "until_s": until_s}
    found = connection.execute(_THERE, given, execution_options={"yield_per": _AT_ONCE})
    for rows in found.partitions():
        yield [Reading._make(row) for row in rows]


def zone_levels(
    connection: Connection, those: Iterable[Stand], quantity: Quantity, from_s: int, most: int
) -> tuple["array[int]", "array[float]"]:
    """Seconds and levels of what is known of one quantity of a zone from a second on, with calibration.

    At most so many readings.
    """
    at_s, levels = array("q"), array("d")
    for stand in those:
        first, end = stand.overlap(from_s, ALL_TIME.stop)
        if first == end:
            continue
        given = {"sensor": stand.sensor_id, "from_s": first, "until_s": end}
        given["most"] = most - len(at_s)
        streaming = {"yield_per": _AT_ONCE}
        found = connection.execute(_LEVELS[quantity], given, execution_options=streaming)
        for rows in found.partitions():
            at_s.extend(row[0] for row in rows)
            levels.extend(stand.corrected(quantity, [row[1] for row in rows]))
    return at_s, levels


def count_levels(
    connection: Connection, those: Iterable[Stand], quantity: Quantity, from_s: int, most: int
) -> int:
    """How many levels `zone_levels` would give, without giving them."""
    found = 0
    for stand in those:
        first, end = stand.overlap(from_s, ALL_TIME.stop)
        given = {"sensor": stand.sensor_id, "from_s": first, "until_s": end, "most": most - found}
        found += connection.execute(_COUNTS[quantity], given).scalar_one()
    return found


def zone_readings(
    connection: Connection, those: Iterable[Stand], from_s: int, until_s: int
) -> Iterator[Sequence[Reading]]:
    """What the sensors of a zone said, in order of time, with what calibration adds to it."""
    for stand in those:
        first, end = stand.overlap(from_s, until_s)
        for part in raw_readings(connection, stand.sensor_id, first, end) if first < end else ():
            yield [stand.calibrated(reading) for reading in part] if stand.is_off else part
