"""Readings thinned out for a plot: what was lowest, mean and highest in each step of a stretch.

zone_steps(connection, …)   Step by Step, where anything was read
second_at(connection, …)    when the lowest or highest of a step was read

The database does the thinning, so that half a million readings never leave it.
"""

from collections.abc import Iterable
from typing import NamedTuple

from sqlalchemy import BigInteger, Connection, bindparam, func, select, text

from stockroom.books.climate_tables import ReadingRow
from stockroom.books.readings import zone_readings
from stockroom.books.sensors import Stand
from stockroom.books.tables import table_of
from stockroom.film.sums import Quantity

_READING = table_of(ReadingRow)
_KNOWN = {
    Quantity.TEMPERATURE: _READING.c.temperature_c,
    Quantity.HUMIDITY: _READING.c.rh_pct,
}
_STEP = (_READING.c.at_s - bindparam("origin_s", type_=BigInteger)) // bindparam(
    "step_s", type_=BigInteger
)
_STEPS = {
    quantity: select(
        _STEP.label("step"),
        func.min(_READING.c.at_s),
        func.max(_READING.c.at_s),
        func.min(level),
        func.avg(level),
        func.max(level),
    )
    .where(
        _READING.c.sensor_id == bindparam("sensor"),
        _READING.c.at_s >= bindparam("from_s"),
        _READING.c.at_s < bindparam("until_s"),
        level.is_not(None),
    )
    .group_by(text("step"))
    .order_by(text("step"))
    for quantity, level in _KNOWN.items()
}


class Step(NamedTuple):
    """What was read in one step of a stretch: its first and last second, and its levels."""

    number: int
    first_s: int
    last_s: int
    lowest: float
    mean: float
    highest: float


def zone_steps(
    connection: Connection, those: Iterable[Stand], quantity: Quantity, stretch_s: range
) -> list[Step]:
    """The steps of a stretch in which one quantity of a zone was read, with calibration.

    The stretch begins and ends with a second, and its step is as long as one of the plot.
    """
    found: dict[int, Step] = {}
    for stand in those:
        first, end = stand.overlap(stretch_s.start, stretch_s.stop)
        given = {"sensor": stand.sensor_id, "from_s": first, "until_s": end}
        given |= {"origin_s": stretch_s.start, "step_s": stretch_s.step}
        for number, first_s, last_s, *levels in connection.execute(_STEPS[quantity], given):
            step = Step(number, first_s, last_s, *stand.corrected(quantity, levels))
            found[number] = _together(found[number], step) if number in found else step
    return [found[number] for number in sorted(found)]


def _together(one: Step, other: Step) -> Step:
    """One step in which one sensor took the place of another."""
    return Step(
        one.number,
        min(one.first_s, other.first_s),
        max(one.last_s, other.last_s),
        min(one.lowest, other.lowest),
        (one.mean + other.mean) / 2,
        max(one.highest, other.highest),
    )


def second_at(
    connection: Connection, those: Iterable[Stand], step: Step, temperature_c: float
) -> int:
    """The second of a step at which its lowest or highest temperature was read first."""
    # Read to the end: a server's cursor that is left in the middle stays open.
    return min(
        reading.at_s
        for part in zone_readings(connection, those, step.first_s, step.last_s + 1)
        for reading in part
        if reading.temperature_c == temperature_c
    )
