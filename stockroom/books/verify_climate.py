"""Looking through sensors and readings; and, on demand, summing every stored part again."""

from collections.abc import Iterable, Iterator
from contextlib import suppress
from itertools import groupby, repeat
from math import isclose

from sqlalchemy import Connection, exists, func, not_, select

from stockroom.books.climate_tables import CoursePartRow, ReadingRow, SensorEntryRow, SensorRow
from stockroom.books.parts import Parts
from stockroom.books.readings import ALL_TIME, zone_levels
from stockroom.books.sensors import Stand, sensor_entries, stands
from stockroom.books.tables import table_of
from stockroom.books.values import Finding
from stockroom.film.climate import COLDEST_C, HOTTEST_C, WETTEST_PCT
from stockroom.film.course import course, measured
from stockroom.film.marked import EACH
from stockroom.film.sums import Quantity, Sum, sum_named

_SENSOR = table_of(SensorRow)
_ENTRY = table_of(SensorEntryRow)
_READING = table_of(ReadingRow)
_PART = table_of(CoursePartRow)
_AS_NEAR = 1e-9

_IMPOSSIBLE = (
    select(_SENSOR.c.name, func.count().label("number"), func.min(_READING.c.at_s).label("at_s"))
    .join(_SENSOR, _SENSOR.c.id == _READING.c.sensor_id)
    .where(
        not_(_READING.c.temperature_c.between(COLDEST_C, HOTTEST_C))
        | not_(_READING.c.rh_pct.between(0, WETTEST_PCT))
    )
    .group_by(_SENSOR.c.name)
    .order_by(_SENSOR.c.name)
)
_HOMELESS = select(_SENSOR.c.name).where(~exists().where(_ENTRY.c.sensor_id == _SENSOR.c.id))


_KEPT = (
    select(_PART.c.zone, _PART.c.gap_s, _PART.c.measure)
    .distinct()
    .order_by(_PART.c.zone, _PART.c.gap_s, _PART.c.measure)
)


def climate_findings(connection: Connection) -> Iterator[Finding]:
    """Sensors nothing was ever said of, and readings that were never let in."""
    for name in connection.execute(_HOMELESS).scalars():
        yield Finding("", f"of the sensor {name} nothing says where it stands")
    for row in connection.execute(_IMPOSSIBLE):
        yield Finding("", f"{row.number} readings of {row.name} cannot be, the first at {row.at_s}")


def wrong_sums(connection: Connection) -> Iterator[Finding]:
    """The stored sums that are not those of the readings: the first one of each zone and measure."""
    spoken_for = stands(sensor_entries(connection))
    kept = connection.execute(_KEPT).all()
    for (zone, gap_s), rows in groupby(kept, key=lambda row: (row.zone, row.gap_s)):
        parts = Parts(connection, zone, gap_s)
        measures = [row.measure for row in rows]
        for quantity in Quantity:
            sums = [of for name in measures if (of := _sum(name)) and of.of is quantity]
            for measure in _wrong(connection, parts, spoken_for.get(zone, ()), quantity, sums):
                yield Finding(
                    "",
                    f"what is stored of {zone} ({measure}) is not what its sensors read: "
                    "run `climate sum-again`",
                )


def _sum(name: str) -> Sum | None:
    """The sum of a name; none for the readings themselves, and for what nobody would ask for."""
    with suppress(ValueError):
        return sum_named(name)
    return None


def _wrong(
    connection: Connection,
    parts: Parts,
    those: tuple[Stand, ...],
    quantity: Quantity,
    sums: Iterable[Sum],
) -> Iterator[str]:
    """The measures of which something is wrong, part by part from the beginning."""
    counts = {of: len(parts.ends(of.name)) for of in sums}
    since_s = ALL_TIME.start
    for part, ends in enumerate(parts.ends(quantity)):
        stored = parts.readings(quantity, part)
        at_s, levels = zone_levels(connection, those, quantity, since_s, len(stored.at_s))
        upto = measured(at_s, parts.gap_s)
        if [list(one) for one in (at_s, levels, upto)] != [list(one) for one in stored]:
            yield quantity
            return
        for of in [of for of, count in counts.items() if part < count]:
            made = course(at_s, of.levels(levels), of.measure, parts.gap_s).amounts
            kept = parts.amounts(of.name, part)
            if not all(map(_is_near, made[::EACH], kept or repeat(0.0))):
                yield of.name
                del counts[of]
        since_s = ends.last_s


def _is_near(one: float, other: float) -> bool:
    return isclose(one, other, rel_tol=_AS_NEAR)
