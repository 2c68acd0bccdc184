"""What a shop sets up: its settings, materials with their limits, places, jobs."""

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import asdict, dataclass, replace
from datetime import UTC, datetime
from functools import lru_cache
from itertools import groupby
from operator import attrgetter
from typing import Any

from sqlalchemy import Connection, and_, bindparam, insert, select, update

from stockroom.books.chain import canonical
from stockroom.books.limits import in_force
from stockroom.books.prepared import Prepared
from stockroom.books.tables import (
    JobRow,
    LimitRow,
    MaterialRow,
    PlaceRow,
    PlaceZoneRow,
    SettingRow,
    table_of,
)
from stockroom.books.values import Job, Material, Place, Shop
from stockroom.errors import Code, Refusal
from stockroom.film.kinds import Kind
from stockroom.film.limits import HOUSE_NAMES, House
from stockroom.film.roll import Layer
from stockroom.units import System

ALWAYS = datetime(1, 1, 2, tzinfo=UTC)
"""In force from the beginning: what was entered when the thing itself was set up."""

_SETTING = table_of(SettingRow)
_MATERIAL = table_of(MaterialRow)
_LIMIT = table_of(LimitRow)
_PLACE = table_of(PlaceRow)
_ZONE = table_of(PlaceZoneRow)
_JOB = table_of(JobRow)

_SETTINGS = select(_SETTING).order_by(_SETTING.c.from_at, _SETTING.c.id)
_SET_BY = Prepared(
    select(_SETTING.c.name, _SETTING.c.value)
    .where(_SETTING.c.from_at <= bindparam("at"))
    .order_by(_SETTING.c.from_at, _SETTING.c.id)
)
_LIMITED = and_(_LIMIT.c.material_id == _MATERIAL.c.id, _LIMIT.c.from_at <= bindparam("at"))
_MATERIALS = (
    select(_MATERIAL, _LIMIT.c.rule, _LIMIT.c.value, _LIMIT.c.basis)
    .outerjoin(_LIMIT, _LIMITED)
    .order_by(_MATERIAL.c.name_key, _LIMIT.c.from_at, _LIMIT.c.id)
)
_ONE_MATERIAL = Prepared(_MATERIALS.where(_MATERIAL.c.id == bindparam("id")))
_ZONED = and_(_ZONE.c.place_id == _PLACE.c.id, _ZONE.c.from_at <= bindparam("at"))
_PLACES = (
    select(_PLACE, _ZONE.c.zone)
    .outerjoin(_ZONE, _ZONED)
    .order_by(_PLACE.c.name_key, _ZONE.c.from_at, _ZONE.c.id)
)
_ONE_PLACE = Prepared(_PLACES.where(_PLACE.c.id == bindparam("id")))
_JOBS = select(_JOB).order_by(_JOB.c.id)
_ONE_JOB = Prepared(select(_JOB).where(_JOB.c.id == bindparam("id")))


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One line of an append-only list: what is in force from when, who wrote it and why."""

    name: str
    value: str
    from_at: datetime
    operator: str
    why: str


def setting_entries(connection: Connection) -> tuple[Entry, ...]:
    """Every setting ever made, oldest first."""
    rows = connection.execute(_SETTINGS)
    return tuple(
        Entry(
            name=row.name, value=row.value, from_at=row.from_at, operator=row.operator, why=row.why
        )
        for row in rows
    )


def shop(connection: Connection, at: datetime) -> Shop:
    """What the whole shop shares, as in force at an instant."""
    return _shop(tuple(_SET_BY.all(connection, {"at": at})))


@lru_cache(maxsize=8)
def _shop(settings: tuple[tuple[str, str], ...]) -> Shop:
    """The shop these settings make, the older ones first; every act asks, and few change any."""
    found = Shop()
    house = House()
    for name, value in settings:
        if name in HOUSE_NAMES:
            house = house.changed(name, value, found.system)
        else:
            found = _with(found, name, value)
    return replace(found, house=house)


_SHARED: Mapping[str, tuple[str, Callable[[str], object]]] = {
    "units": ("system", System),
    "currency": ("currency", str),
    "time-zone": ("zone", str),
    "day-start": ("day_start_hour", int),
    "labour": ("labour_minor", int),
    "name": ("name", str),
}
"""The field of the shop that a setting is, and how its text is read."""


def _with(found: Shop, name: str, value: str) -> Shop:
    if name not in _SHARED:
        return found
    field, read = _SHARED[name]
    changes: dict[str, Any] = {field: read(value)}
    return replace(found, **changes)


def add_setting(connection: Connection, entry: Entry, *, now: datetime) -> None:
    """Put a setting in force; the older ones stay on record."""
    connection.execute(insert(_SETTING).values(asdict(entry) | {"recorded_at": now}))


def materials(connection: Connection, at: datetime) -> dict[int, Material]:
    """Every material by its id, with the limits in force at an instant."""
    return _materials(connection.execute(_MATERIALS, {"at": at}))


def material(connection: Connection, material_id: int, at: datetime) -> Material:
    """The material of an id, with the limits in force at an instant."""
    return _materials(_ONE_MATERIAL.all(connection, {"at": at, "id": material_id}))[material_id]


def _materials(rows: Iterable[Any]) -> dict[int, Material]:
    """The materials of these rows, which hold one limit each, the older ones first."""
    return {found: _material(tuple(those)) for found, those in groupby(rows, attrgetter("id"))}


@lru_cache(maxsize=1_000)
def _material(rows: tuple[Any, ...]) -> Material:
    """The material these rows make; every act asks, and few change any."""
    row = rows[0]
    entered = in_force(rows)
    return Material(
        id=row.id,
        name=row.name,
        kind=Kind(row.kind),
        layers=tuple(Layer(**layer) for layer in json.loads(row.layers)),
        **entered._asdict(),
        **{name: getattr(row, name) for name in MATERIAL_FACTS},
    )


MATERIAL_FACTS = (
    "width_nm",
    "thickness_nm",
    "applied_nm",
    "core_inside_nm",
    "core_wall_nm",
    "counted_from",
    "cost_minor",
    "note",
    "finish",
)
"""The columns of a material that may be changed one by one."""


def name_key(name: str) -> str:
    """What a name is looked up by: case and spacing do not count."""
    return " ".join(name.casefold().split())


def material_named(connection: Connection, name: str, at: datetime) -> Material:
    """The material of that name; an unknown name is not found."""
    key = name_key(name)
    known = materials(connection, at).values()
    for material in known:
        if name_key(material.name) == key:
            return material
    raise Refusal(Code.NO_MATERIAL, f"No material is called “{name}”: see `material list`.")


def add_material(connection: Connection, material: Material) -> int:
    """Enter a material; a name that is taken is refused."""
    key = name_key(material.name)
    if connection.execute(select(_MATERIAL.c.id).where(_MATERIAL.c.name_key == key)).first():
        raise Refusal(
            Code.ALREADY_THERE,
            f"A material is already called “{material.name}”: change it or choose another name.",
        )
    row = {name: getattr(material, name) for name in MATERIAL_FACTS}
    row |= {"name": material.name, "name_key": key, "kind": material.kind.value}
    row["layers"] = canonical([asdict(layer) for layer in material.layers])
    return int(
        connection.execute(insert(_MATERIAL).values(row).returning(_MATERIAL.c.id)).scalar_one()
    )


def change_material(connection: Connection, material_id: int, changes: Mapping[str, Any]) -> None:
    """Change facts of a material; pieces already received keep what they were received with."""
    changed = dict(changes)
    if "layers" in changed:
        changed["layers"] = canonical([asdict(layer) for layer in changed["layers"]])
    if changed:
        connection.execute(update(_MATERIAL).where(_MATERIAL.c.id == material_id).values(changed))


def places(connection: Connection, at: datetime) -> dict[int, Place]:
    """Every place by its id, with the zone it lies in at an instant."""
    return _places(connection.execute(_PLACES, {"at": at}))


def place(connection: Connection, place_id: int, at: datetime) -> Place:
    """The place of an id, with the zone it lies in at an instant."""
    return _places(_ONE_PLACE.all(connection, {"at": at, "id": place_id}))[place_id]


def _places(rows: Iterable[Any]) -> dict[int, Place]:
    """The places of these rows, which hold one zone each; the newest stands."""
    return {row.id: Place(row.id, row.code, row.name, row.zone or "") for row in rows}


def place_named(connection: Connection, name_or_code: str, at: datetime) -> Place:
    """The place of that name or code; an unknown one is not found."""
    key = name_key(name_or_code)
    for place in places(connection, at).values():
        if key in (name_key(place.name), place.code.casefold()):
            return place
    raise Refusal(Code.NO_PLACE, f"No place is called “{name_or_code}”: see `place list`.")


def add_place(connection: Connection, code: str, name: str) -> int:
    """Enter a place; a name that is taken is refused."""
    key = name_key(name)
    if connection.execute(select(_PLACE.c.id).where(_PLACE.c.name_key == key)).first():
        raise Refusal(Code.ALREADY_THERE, f"A place is already called “{name}”.")
    row = {"code": code, "name": name, "name_key": key}
    return int(connection.execute(insert(_PLACE).values(row).returning(_PLACE.c.id)).scalar_one())


def add_zone(connection: Connection, place_id: int, zone: Entry, *, now: datetime) -> None:
    """Put a place in a zone from an instant on; before it, the place keeps the climate it had."""
    row = {
        "place_id": place_id,
        "zone": zone.value,
        "from_at": zone.from_at,
        "operator": zone.operator,
        "recorded_at": now,
    }
    connection.execute(insert(_ZONE).values(row))


def jobs(connection: Connection) -> dict[int, Job]:
    """Every job by its id."""
    return {row.id: job_from(row) for row in connection.execute(_JOBS)}


def job(connection: Connection, job_id: int) -> Job:
    """The job of an id."""
    return job_from(_ONE_JOB.first(connection, {"id": job_id}))


def job_from(row: Any) -> Job:
    """A job as a value."""
    return Job(
        id=row.id,
        code=row.code,
        name=row.name,
        site=row.site,
        on_day=row.on_day,
        kind=row.kind,
        note=row.note,
        is_closed=row.closed,
        glass=row.glass,
    )


def add_job(connection: Connection, job: Job, *, opened_at: datetime) -> Job:
    """Enter a job and return it with its id."""
    row = asdict(job)
    row["closed"] = row.pop("is_closed")
    del row["id"]
    row["opened_at"] = opened_at
    made = connection.execute(insert(_JOB).values(row).returning(_JOB.c.id)).scalar_one()
    return replace(job, id=int(made))


def close_job(connection: Connection, job_id: int, *, closed: bool) -> None:
    """Cache whether a job is closed, beside the act that says so."""
    connection.execute(update(_JOB).where(_JOB.c.id == job_id).values(closed=closed))
