"""The air of the invented shop: loggers in its zones, and what they read every other hour.

furnish(desk, climate, now)    the places that are there for the air in them
measure(desk, climate)         sensors, as they hung through time, and all their readings

The seasons are those of the calendar, so that summer is warm on whatever day the shop is shown. The
week from the 9th of August is a hot one, where a zone says so: the last one that is over.
"""

from collections.abc import Iterator, Mapping
from datetime import UTC, date, datetime, time, timedelta
from itertools import groupby
from math import cos, pi
from typing import Any

from stockroom.demo.desk import Desk
from stockroom.demo.distances import day_of
from stockroom.work.readings import WriteReadings, write_readings
from stockroom.work.sensors import AddSensor, PlaceSensor, add_a_sensor, place_a_sensor
from stockroom.work.setup import AddPlace, add_a_place

Climate = Mapping[str, Any]
Read = tuple[int, float, float | None]

_BY = "Ida M."
_NOON, _DAWN = time(12), time(6)
_STEP = timedelta(hours=2)
_SILENT_HOURS = 48
_WARMEST_DAY, _WARMEST_HOUR = 213, 15
_AUGUST, _HOT_FROM, _HOT_UNTIL = 8, 9, 16
_SPELLS_DAYS = 17.0, 6.1
"""After so many days warm ones come again."""
_DRIER_PCT_PER_K = 1.5
"""By how much warmer hours of a day are drier: the water in the air stays."""


def furnish(desk: Desk, climate: Climate, *, now: datetime) -> None:
    """Enter the places where something is measured, but nothing is kept for long."""
    for one in climate["place"]:
        add_a_place(AddPlace(**desk.asking(_BY), **one), book=desk.book, now=now)


def measure(desk: Desk, climate: Climate) -> None:
    """Hang the loggers up as they hung, and read them out on the morning of the day."""
    for one in climate["sensor"]:
        at = _noon(desk, one["day"])
        request = AddSensor(
            **desk.asking(_BY),
            at=at,
            name=one["name"],
            zone=one["zone"],
            silent_hours=_SILENT_HOURS,
        )
        add_a_sensor(request, book=desk.book, now=at)
    for one in climate["move"]:
        at = _noon(desk, one["day"])
        changes = {name: one[name] for name in ("zone", "offset_c") if name in one}
        moved = PlaceSensor(**desk.asking(_BY, one["note"]), at=at, sensor=one["sensor"], **changes)
        place_a_sensor(moved, book=desk.book, now=at)
    for sensor, reads in groupby(climate["reads"], key=lambda one: str(one["sensor"])):
        readings = tuple(
            reading for one in reads for reading in _readings(desk, one, climate["zone"])
        )
        written = WriteReadings(**desk.asking(_BY), sensor=sensor, readings=readings)
        write_readings(written, book=desk.book, now=_dawn(desk))


def _readings(desk: Desk, one: Climate, zones: Climate) -> Iterator[Read]:
    """What a logger read in a zone, from the noon of a day to another, or to this morning."""
    zone = zones[one["zone"]]
    at = _noon(desk, one["first"])
    until = _dawn(desk) if one["last"] == "0" else _noon(desk, one["last"])
    hot_year = desk.today.year - (desk.today < date(desk.today.year, _AUGUST, _HOT_UNTIL))
    while at <= until:
        is_hot = at.year == hot_year and at.month == _AUGUST and _HOT_FROM <= at.day < _HOT_UNTIL
        yield _reading(zone, at, desk.chance.uniform(-0.3, 0.3), is_hot=is_hot)
        at += _STEP


def _reading(zone: Mapping[str, float], at: datetime, off_c: float, *, is_hot: bool) -> Read:
    """Warm summers, warm afternoons, and warm days among cool ones, by half as much."""
    days = at.timestamp() / 86_400
    summer = cos(2 * pi * (at.timetuple().tm_yday - _WARMEST_DAY) / 365)
    spell = sum(cos(2 * pi * days / length) for length in _SPELLS_DAYS) / 4
    day_c = zone["day_c"] * (cos(2 * pi * (at.hour - _WARMEST_HOUR) / 24) + spell) + off_c
    celsius = zone["mean_c"] + zone["summer_c"] * summer + day_c
    if is_hot:
        celsius += zone.get("hot_week_c", 0.0)
    percent = zone["rh_pct"] + zone["summer_rh_pct"] * summer - _DRIER_PCT_PER_K * day_c
    return int(at.timestamp()), round(celsius, 1), round(percent, 1)


def _noon(desk: Desk, day: str) -> datetime:
    return datetime.combine(day_of(day, desk.today), _NOON, UTC)


def _dawn(desk: Desk) -> datetime:
    """The last reading is of the morning on which the shop is shown."""
    return datetime.combine(desk.today, _DAWN, desk.zone).astimezone(UTC)
