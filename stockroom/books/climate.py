"""What is known of the climate at an instant: each zone, its sensor, and what that said last."""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from sqlalchemy import Connection

from stockroom.books.catalog import ALWAYS, name_key, shop
from stockroom.books.readings import latest_reading
from stockroom.books.sensors import (
    ASSUMED,
    SensorEntry,
    Stand,
    second_of,
    sensor_entries,
    stands,
    zone_names,
    zone_of,
    zone_values,
)
from stockroom.books.values import Reading
from stockroom.film.limits import Basis, Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class SensorNow:
    """A sensor as it is at an instant, with what it said last."""

    name: str
    zone: str
    """Empty where it speaks for none: put away, or another one took its place."""
    offset_c: float
    offset_rh_pct: float
    silent_hours: int
    since: datetime | None
    """None where it speaks for no zone, or has from the beginning."""
    latest: Reading | None
    """As it said it."""
    corrected: Reading | None
    """The same with what calibration adds to it."""
    is_silent: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneNow:
    """A zone, the sensor that speaks for it, and how warm it is taken to be while nobody measures."""

    zone: str
    sensor: SensorNow | None
    assumed_c: Figure


def zones_now(connection: Connection, now: datetime) -> dict[str, ZoneNow]:
    """Every zone a place or a sensor was ever put in, by its key."""
    speaking = {name_key(one.zone): one for one in sensors_now(connection, now).values()}
    assumed = zone_values(connection, ASSUMED, now)
    house = shop(connection, now).house
    usual = Figure(house.air.assumed_c, house.basis("climate.assumed"))
    return {
        key: ZoneNow(
            zone=name,
            sensor=speaking.get(key),
            assumed_c=Figure(float(assumed[key]), Basis.HOUSE) if assumed.get(key) else usual,
        )
        for key, name in zone_names(connection).items()
    }


def sensors_now(connection: Connection, now: datetime) -> dict[int, SensorNow]:
    """Every sensor as it is at an instant, by its id."""
    entries = [entry for entry in sensor_entries(connection) if entry.from_at <= now]
    newest = {entry.sensor_id: entry for entry in entries}
    names = zone_names(connection)
    spoken_for = stands(entries)
    found: dict[int, SensorNow] = {}
    for sensor_id, entry in newest.items():
        there = zone_of(spoken_for, sensor_id, second_of(now))
        latest = latest_reading(connection, sensor_id)
        found[sensor_id] = SensorNow(
            name=entry.sensor,
            zone=names[there[0]] if there else "",
            offset_c=entry.offset_c,
            offset_rh_pct=entry.offset_rh_pct,
            silent_hours=entry.silent_hours,
            since=_since(there[1]) if there else None,
            latest=latest,
            corrected=latest and _corrected(entry, latest),
            is_silent=bool(there) and _is_late(latest, entry.silent_hours, now),
        )
    return found


def _corrected(entry: SensorEntry, reading: Reading) -> Reading:
    stand = Stand(entry.sensor_id, entry.offset_c, entry.offset_rh_pct, reading.at_s)
    return stand.calibrated(reading)


def _since(stand: Stand) -> datetime | None:
    if stand.from_s == second_of(ALWAYS):
        return None
    return datetime.fromtimestamp(stand.from_s, UTC)


def _is_late(latest: Reading | None, hours: int, now: datetime) -> bool:
    if latest is None:
        return True
    return now - datetime.fromtimestamp(latest.at_s, UTC) > timedelta(hours=hours)
