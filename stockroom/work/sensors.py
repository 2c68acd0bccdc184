"""Sensors and zones: where each stands or lies, what calibration adds, how warm it is taken to be."""

from dataclasses import dataclass, replace
from datetime import datetime
from math import isfinite

from stockroom.books.catalog import ALWAYS, Entry, add_zone, name_key, place_named
from stockroom.books.climate import SensorNow, sensors_now
from stockroom.books.opening import Book
from stockroom.books.readings import put_in_force
from stockroom.books.sensors import (
    ASSUMED,
    SensorEntry,
    add_sensor,
    add_zone_entry,
    lock_sensors,
    second_of,
    sensor_entries,
    sensor_named,
    stands,
    zone_named,
    zone_names,
    zone_of,
    zones_of_place,
)
from stockroom.books.values import Asked, Place
from stockroom.errors import Code, Refusal
from stockroom.film.climate import is_temperature
from stockroom.work.summing import keep_all

SILENT_HOURS = 3
"""How long a sensor may say nothing before that is said: common practice, no source."""

MOST_OFF_C, MOST_OFF_PCT = 20.0, 50.0
"""What calibration may add: a sensor further off is broken. Common practice, no source."""

_LONGEST_SILENCE = 24 * 400


@dataclass(frozen=True, slots=True, kw_only=True)
class AddSensor(Asked):
    """A new sensor in a zone; the first one a zone ever gets speaks for it from the beginning."""

    name: str
    zone: str
    offset_c: float = 0.0
    offset_rh_pct: float = 0.0
    silent_hours: int = SILENT_HOURS


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceSensor(Asked):
    """A sensor moves, is calibrated, or may be silent for longer; what is None stays as it is.

    The zone "" puts it away.
    """

    sensor: str
    zone: str | None = None
    offset_c: float | None = None
    offset_rh_pct: float | None = None
    silent_hours: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Assume(Asked):
    """How warm a zone is taken to be while nobody measures; None goes back to the house's value."""

    zone: str
    temperature_c: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PutInZone(Asked):
    """A place lies in another zone, as after a wall was built; "" is a zone nobody knows."""

    place: str
    zone: str


@dataclass(frozen=True, slots=True)
class ZonedPlace:
    """A place as it is now, the zones it lay in through time, and the new one if nobody measures it."""

    place: Place
    zones: tuple[tuple[datetime, str], ...]
    unmeasured: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SensorPlaced:
    """A sensor as it is now, and the one whose place it took."""

    sensor: SensorNow
    replaced: str | None


def add_a_sensor(request: AddSensor, *, book: Book, now: datetime) -> SensorPlaced:
    """Enter a sensor and let it speak for a zone."""
    if not request.name or not request.zone:
        raise Refusal(Code.BAD_NAME, "A sensor needs a name, and the zone it stands in.")
    at = _past(request, now)
    with book.transaction() as connection:
        lock_sensors(connection)
        before = sensor_entries(connection)
        is_first = name_key(request.zone) not in stands(before)
        entry = SensorEntry(
            sensor_id=add_sensor(connection, request.name),
            sensor=request.name,
            zone=request.zone,
            offset_c=request.offset_c,
            offset_rh_pct=request.offset_rh_pct,
            silent_hours=request.silent_hours,
            from_at=ALWAYS if is_first and request.at is None else at,
            operator=request.operator,
            why=request.note,
        )
        put_in_force(connection, _checked(entry), now=now)
        placed = sensors_now(connection, now)[entry.sensor_id]
    keep_all(book, now=now)
    return SensorPlaced(sensor=placed, replaced=_replaced(before, entry))


def place_a_sensor(request: PlaceSensor, *, book: Book, now: datetime) -> SensorPlaced:
    """Put something of a sensor in force, from an instant on; before it, all stays as it was."""
    at = _past(request, now)
    with book.transaction() as connection:
        lock_sensors(connection)
        sensor_id, _ = sensor_named(connection, request.sensor)
        before = sensor_entries(connection)
        known = _in_force(before, sensor_id, at)
        names = ("zone", "offset_c", "offset_rh_pct", "silent_hours")
        said = {name: getattr(request, name) for name in names}
        changes = {name: value for name, value in said.items() if value is not None}
        entry = replace(known, **changes)
        if entry != known:
            entry = replace(entry, from_at=at, operator=request.operator, why=request.note)
            put_in_force(connection, _checked(entry), now=now)
        placed = sensors_now(connection, now)[sensor_id]
    keep_all(book, now=now)
    return SensorPlaced(sensor=placed, replaced=_replaced(before, entry))


def assume(request: Assume, *, book: Book, now: datetime) -> str:
    """Say how warm a zone is taken to be while nobody measures; its name comes back."""
    temperature_c = request.temperature_c
    if temperature_c is not None and not is_temperature(temperature_c):
        raise Refusal(Code.BAD_NUMBER, f"No store is at {temperature_c:g} °C.")
    at = _past(request, now)
    with book.transaction() as connection:
        name = zone_names(connection)[zone_named(connection, request.zone)]
        entry = Entry(
            name=ASSUMED,
            value="" if temperature_c is None else repr(float(temperature_c)),
            from_at=at,
            operator=request.operator,
            why=request.note,
        )
        add_zone_entry(connection, name, entry, now=now)
    keep_all(book, now=now)
    return name


def put_in_zone(request: PutInZone, *, book: Book, now: datetime) -> ZonedPlace:
    """Put a place in a zone from an instant on; until then film in it aged by the zone it lay in."""
    at = _past(request, now)
    with book.transaction() as connection:
        known = place_named(connection, request.place, at)
        key = name_key(request.zone)
        zone = zone_names(connection).get(key, request.zone)
        if name_key(known.zone) != key:
            entry = Entry(name="zone", value=zone, from_at=at, operator=request.operator, why="")
            add_zone(connection, known.id, entry, now=now)
        placed = place_named(connection, known.code, now)
        found = ZonedPlace(
            place=placed,
            zones=zones_of_place(connection, known.id),
            unmeasured="" if key in stands(sensor_entries(connection)) else zone,
        )
    keep_all(book, now=now)
    return found


def sensors(book: Book, *, now: datetime) -> tuple[SensorNow, ...]:
    """Every sensor as it is at an instant, by name."""
    with book.reading() as connection:
        known = sensors_now(connection, now)
    return tuple(sorted(known.values(), key=lambda one: name_key(one.name)))


def _past(request: Asked, now: datetime) -> datetime:
    """The instant from which something is in force: as asked, or now."""
    if request.at is not None and request.at > now:
        raise Refusal(
            Code.FUTURE, "That is in the future: write down where something stands once it does."
        )
    return request.at or now


def _in_force(entries: tuple[SensorEntry, ...], sensor_id: int, at: datetime) -> SensorEntry:
    """The entry of a sensor at an instant; without a zone where another one took its place."""
    own = [entry for entry in entries if entry.sensor_id == sensor_id]
    known = next((entry for entry in reversed(own) if entry.from_at <= at), own[0])
    is_there = zone_of(stands(entries), sensor_id, second_of(at)) is not None
    return known if is_there else replace(known, zone="")


def _checked(entry: SensorEntry) -> SensorEntry:
    for off, most, unit in (
        (entry.offset_c, MOST_OFF_C, "K"),
        (entry.offset_rh_pct, MOST_OFF_PCT, "%"),
    ):
        if not (isfinite(off) and abs(off) <= most):
            raise Refusal(
                Code.BAD_NUMBER,
                f"Calibration adds at most {most:g} {unit}: a sensor further off is broken.",
            )
    if not 0 < entry.silent_hours <= _LONGEST_SILENCE:
        raise Refusal(Code.BAD_SPAN, f"A sensor may be silent for 1 to {_LONGEST_SILENCE} hours.")
    return entry


def _replaced(before: tuple[SensorEntry, ...], entry: SensorEntry) -> str | None:
    """The name of the sensor whose place an entry takes."""
    there = stands(before).get(name_key(entry.zone), ())
    at_s = second_of(entry.from_at)
    ids = {stand.sensor_id for stand in there if stand.holds(at_s)} - {entry.sensor_id}
    return next((one.sensor for one in before if one.sensor_id in ids), None)
