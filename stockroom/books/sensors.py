"""Sensors and zones: what is in force from when, and which sensor spoke for a zone at what time."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from itertools import takewhile
from math import ceil

from sqlalchemy import Connection, Select, Table, bindparam, func, insert, select

from stockroom.books.catalog import Entry, name_key
from stockroom.books.climate_tables import SensorEntryRow, SensorRow, ZoneEntryRow
from stockroom.books.prepared import Prepared
from stockroom.books.tables import PlaceZoneRow, table_of
from stockroom.books.values import Reading
from stockroom.errors import Code, Refusal
from stockroom.film.sums import Quantity

_SENSOR = table_of(SensorRow)
_ENTRY = table_of(SensorEntryRow)
_ZONE = table_of(ZoneEntryRow)
_PLACE_ZONE = table_of(PlaceZoneRow)

ASSUMED = "assumed"
"""The name of a zone's value that says how warm it was while nobody measured."""

_ENTRIES = Prepared(
    select(
        _ENTRY.c.sensor_id,
        _SENSOR.c.name.label("sensor"),
        *(_ENTRY.c[name] for name in ("zone", "offset_c", "offset_rh_pct", "silent_hours")),
        *(_ENTRY.c[name] for name in ("from_at", "operator", "why")),
    )
    .join(_SENSOR, _SENSOR.c.id == _ENTRY.c.sensor_id)
    .order_by(_ENTRY.c.from_at, _ENTRY.c.id)
)
_BY_KEY = select(_SENSOR.c.id, _SENSOR.c.name).where(_SENSOR.c.name_key == bindparam("key"))
_LOCKED = _BY_KEY.with_for_update(key_share=True)
_ALL_LOCKED = select(_SENSOR.c.id).order_by(_SENSOR.c.id).with_for_update(key_share=True)
_ZONE_ENTRIES = Prepared(
    select(_ZONE).where(_ZONE.c.from_at <= bindparam("at")).order_by(_ZONE.c.from_at, _ZONE.c.id)
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SensorEntry:
    """Where a sensor stands, what is added to its readings and how long it may be silent, from when.

    A sensor without a zone is put away.
    """

    sensor_id: int
    sensor: str
    zone: str
    offset_c: float
    offset_rh_pct: float
    silent_hours: int
    from_at: datetime
    operator: str
    why: str


@dataclass(frozen=True, slots=True)
class Stand:
    """A stretch of seconds in which one sensor spoke for a zone; without an end, it still does."""

    sensor_id: int
    offset_c: float
    offset_rh_pct: float
    from_s: int
    until_s: int | None = None

    @property
    def speaks(self) -> bool:
        """Whether it still does."""
        return self.until_s is None

    def holds(self, at_s: int) -> bool:
        """Whether this sensor spoke at a second."""
        return self.from_s <= at_s and (self.until_s is None or at_s < self.until_s)

    def overlap(self, from_s: int, until_s: int) -> tuple[int, int]:
        """The part of a stretch of seconds in which this sensor spoke; none if it ends where it begins."""
        first = max(from_s, self.from_s)
        end = until_s if self.until_s is None else min(until_s, self.until_s)
        return first, max(first, end)

    @property
    def is_off(self) -> bool:
        """Whether anything is added to what it reads."""
        return bool(self.offset_c or self.offset_rh_pct)

    def calibrated(self, reading: Reading) -> Reading:
        """A reading with what calibration adds to it; no air is drier than dry or wetter than wet."""
        (temperature_c,) = self.corrected(Quantity.TEMPERATURE, [reading.temperature_c])
        known = [] if reading.rh_pct is None else [reading.rh_pct]
        rh_pct = next(iter(self.corrected(Quantity.HUMIDITY, known)), None)
        return Reading(reading.at_s, temperature_c, rh_pct)

    def corrected(self, quantity: Quantity, read: list[float]) -> list[float]:
        """Levels of one quantity with what calibration adds to them."""
        if quantity is Quantity.TEMPERATURE:
            off = self.offset_c
            return [level + off for level in read] if off else read
        off = self.offset_rh_pct
        return [min(max(level + off, 0.0), _WETTEST_PCT) for level in read] if off else read


_WETTEST_PCT = 100.0


def second_of(moment: datetime) -> int:
    """The first whole second of UTC at or after an instant."""
    return ceil(moment.timestamp())


def add_sensor(connection: Connection, name: str) -> int:
    """Enter a sensor; a name that is taken is refused."""
    key = name_key(name)
    if connection.execute(_BY_KEY, {"key": key}).first():
        raise Refusal(
            Code.ALREADY_THERE,
            f"A sensor is already called “{name}”: move it with `climate place-sensor`, "
            "or choose another name.",
        )
    row = {"name": name, "name_key": key}
    return int(connection.execute(insert(_SENSOR).values(row).returning(_SENSOR.c.id)).scalar_one())


def sensor_named(connection: Connection, name: str, *, locked: bool = False) -> tuple[int, str]:
    """The id and the name of a sensor, locked by whoever writes; an unknown one is not found."""
    row = connection.execute(_LOCKED if locked else _BY_KEY, {"key": name_key(name)}).first()
    if row is None:
        raise Refusal(Code.NO_SENSOR, f"No sensor is called “{name}”: see `climate sensors`.")
    return row.id, row.name


def lock_sensors(connection: Connection) -> None:
    """Lock every sensor: from here to the end nobody else writes readings, or moves a sensor."""
    connection.execute(_ALL_LOCKED).all()


def sensor_entries(connection: Connection) -> tuple[SensorEntry, ...]:
    """Every entry of every sensor, in the order in which they take force."""
    rows = _ENTRIES.all(connection)
    return tuple(SensorEntry(**row._asdict()) for row in rows)


def add_sensor_entry(connection: Connection, entry: SensorEntry, *, now: datetime) -> None:
    """Put an entry of a sensor in force; the older ones stay on record."""
    row = asdict(entry)
    del row["sensor"]
    connection.execute(insert(_ENTRY).values(row | {"recorded_at": now}))


def stands(entries: Iterable[SensorEntry]) -> dict[str, tuple[Stand, ...]]:
    """Which sensor spoke for each zone through time, by the zone's key.

    One sensor speaks for a zone: one that is placed there takes the place of the one before, which
    hangs nowhere from then on, until it is placed again.
    """
    found: dict[str, list[Stand]] = defaultdict(list)
    speaking: dict[str, Stand] = {}
    place_of: dict[int, str] = {}

    def leave(zone: str, until_s: int) -> None:
        stand = speaking.pop(zone)
        del place_of[stand.sensor_id]
        if stand.from_s < until_s:
            found[zone].append(_until(stand, until_s))

    for entry in entries:
        from_s = second_of(entry.from_at)
        zone = name_key(entry.zone)
        for left in {place_of.get(entry.sensor_id, ""), zone} & speaking.keys():
            leave(left, from_s)
        if zone:
            speaking[zone] = Stand(entry.sensor_id, entry.offset_c, entry.offset_rh_pct, from_s)
            place_of[entry.sensor_id] = zone
    for zone, stand in speaking.items():
        found[zone].append(stand)
    return {zone: _merged(those) for zone, those in found.items()}


def zone_of(
    spoken_for: Mapping[str, tuple[Stand, ...]], sensor_id: int, at_s: int
) -> tuple[str, Stand] | None:
    """The key of the zone a sensor speaks for at a second, and since when; None where it hangs nowhere."""
    for zone, those in spoken_for.items():
        for stand in those:
            if stand.sensor_id == sensor_id and stand.holds(at_s):
                return zone, stand
    return None


def _until(stand: Stand, until_s: int | None) -> Stand:
    return Stand(stand.sensor_id, stand.offset_c, stand.offset_rh_pct, stand.from_s, until_s)


def _merged(those: Iterable[Stand]) -> tuple[Stand, ...]:
    """The same without ends at which nothing changes."""
    merged: list[Stand] = []
    for stand in those:
        last = merged[-1] if merged else None
        if last is not None and last == Stand(
            stand.sensor_id, stand.offset_c, stand.offset_rh_pct, last.from_s, stand.from_s
        ):
            merged[-1] = _until(last, stand.until_s)
        else:
            merged.append(stand)
    return tuple(merged)


def changed_from(
    before: Mapping[str, tuple[Stand, ...]], after: Mapping[str, tuple[Stand, ...]]
) -> dict[str, int]:
    """The first second from which each zone is spoken for otherwise than before."""
    changed: dict[str, int] = {}
    for zone in before.keys() | after.keys():
        differing = set(before.get(zone, ())) ^ set(after.get(zone, ()))
        if differing:
            changed[zone] = _first_difference(before.get(zone, ()), after.get(zone, ()))
    return changed


def _first_difference(before: tuple[Stand, ...], after: tuple[Stand, ...]) -> int:
    same = takewhile(lambda pair: pair[0] == pair[1], zip(before, after, strict=False))
    count = len(list(same))
    first = (*before[count : count + 1], *after[count : count + 1])
    if len({_until(stand, None) for stand in first}) == len(first):
        return min(stand.from_s for stand in first)
    return min(stand.until_s for stand in first if stand.until_s is not None)


def zone_names(connection: Connection) -> dict[str, str]:
    """Every zone a place, a sensor or a value was ever given to, by its key, as it was first written."""
    tables = (_PLACE_ZONE, _ENTRY, _ZONE)
    rows = (row for table in tables for row in connection.execute(_written(table)).scalars())
    names: dict[str, str] = {}
    for name in rows:
        names.setdefault(name_key(name), name)
    names.pop("", None)
    return names


def _written(table: Table) -> Select[str]:
    return select(table.c.zone).group_by(table.c.zone).order_by(func.min(table.c.id))


def zones_of_place(connection: Connection, place_id: int) -> tuple[tuple[datetime, str], ...]:
    """The zones a place lay in, and from when on each; "" is none that is known."""
    there = select(_PLACE_ZONE.c.from_at, _PLACE_ZONE.c.zone).where(
        _PLACE_ZONE.c.place_id == place_id
    )
    rows = connection.execute(there.order_by(_PLACE_ZONE.c.from_at, _PLACE_ZONE.c.id))
    return tuple((row.from_at, row.zone) for row in rows)


def zone_named(connection: Connection, name: str) -> str:
    """The key of a zone; one that nothing was ever put in is not found."""
    key = name_key(name)
    known = zone_names(connection)
    if key not in known:
        there = f"there are {', '.join(sorted(known.values()))}" if known else "there is none yet"
        raise Refusal(
            Code.NO_ZONE, f"No zone is called “{name}”: {there}; a place or a sensor makes one."
        )
    return key


def zone_values(connection: Connection, name: str, at: datetime) -> dict[str, str]:
    """One value of every zone that has it at an instant, by the zone's key."""
    rows = _ZONE_ENTRIES.all(connection, {"at": at})
    return {name_key(row.zone): row.value for row in rows if row.name == name}


def add_zone_entry(connection: Connection, zone: str, entry: Entry, *, now: datetime) -> None:
    """Put a value of a zone in force; the older ones stay on record."""
    connection.execute(insert(_ZONE).values(asdict(entry) | {"zone": zone, "recorded_at": now}))
