"""Setting a shop up: its settings, its materials with their limits, its places."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from difflib import get_close_matches
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from stockroom.books.catalog import (
    ALWAYS,
    Entry,
    add_material,
    add_place,
    add_setting,
    add_zone,
    change_material,
    material_named,
    place_named,
    setting_entries,
    shop,
)
from stockroom.books.catalog import material as material_of
from stockroom.books.limits import LimitEntry, add_limit
from stockroom.books.opening import Book
from stockroom.books.pen import Pen
from stockroom.books.prices import has_prices
from stockroom.books.values import Asked, Material, Place, Shop
from stockroom.codes.own import Letter
from stockroom.errors import Code, Refusal, clean_text
from stockroom.film.dates import parse_span
from stockroom.film.figures import parse_figure
from stockroom.film.kinds import Kind
from stockroom.film.limits import HOUSE_NAMES, CountedFrom
from stockroom.film.roll import Layer
from stockroom.plan.terms import parse_term
from stockroom.units import System
from stockroom.units.money import DECIMALS, parse_money
from stockroom.work.summing import keep_all, sum_otherwise

_OF_HEAT_AND_AIR = ("climate.", "energy")
SHOP_NAMES = ("name", "units", "currency", "time-zone", "day-start", "labour")


@dataclass(frozen=True, slots=True, kw_only=True)
class SetValue(Asked):
    """A setting of the shop gets a value of its own, for a reason."""

    name: str
    value: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AddMaterial(Asked):
    """A new material; `limits` are the maker's, by rule, as spans people type, `figures` as well."""

    name: str
    kind: Kind
    width_nm: int | None = None
    thickness_nm: int | None = None
    applied_nm: int | None = None
    core_inside_nm: int | None = None
    core_wall_nm: int | None = None
    layers: tuple[Layer, ...] = ()
    counted_from: str = CountedFrom.MADE.value
    cost_minor: int | None = None
    finish: str | None = None
    limits: Mapping[str, str] = field(default_factory=dict[str, str])
    figures: Mapping[str, str] = field(default_factory=dict[str, str])
    terms: Mapping[str, str] = field(default_factory=dict[str, str])


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeMaterial(Asked):
    """Facts of a material that change; limits, figures and terms that are in force from now on.

    An empty text takes one of these away.
    """

    name: str
    changes: Mapping[str, Any] = field(default_factory=dict[str, Any])
    limits: Mapping[str, str] = field(default_factory=dict[str, str])
    figures: Mapping[str, str] = field(default_factory=dict[str, str])
    terms: Mapping[str, str] = field(default_factory=dict[str, str])
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class AddPlace(Asked):
    """A new place, in a zone."""

    name: str
    zone: str = ""


def set_value(request: SetValue, *, book: Book, now: datetime) -> Shop:
    """Put a setting in force from now on; what was in force before stays on record."""
    with book.transaction() as connection:
        known = shop(connection, now)
        entry = Entry(
            name=request.name,
            value=_checked(request.name, request.value, known),
            from_at=request.at or now,
            operator=request.operator,
            why=request.why,
        )
        is_other_money = request.name == "currency" and entry.value != known.currency
        if is_other_money and has_prices(connection):
            raise Refusal(
                Code.ALREADY_THERE,
                f"This book holds prices in {known.currency}: its currency cannot change any more.",
            )
        add_setting(connection, entry, now=now)
        changed = shop(connection, max(now, entry.from_at))
    if request.name.startswith(_OF_HEAT_AND_AIR):
        sum_otherwise(book, now=now)
    return changed


def settings(book: Book, *, now: datetime) -> tuple[Shop, tuple[Entry, ...]]:
    """The shop as it is set up now, and every entry that made it so."""
    with book.reading() as connection:
        return shop(connection, now), setting_entries(connection)


def add_a_material(request: AddMaterial, *, book: Book, now: datetime) -> Material:
    """Enter a material, with its limits in force from the beginning."""
    with book.transaction() as connection:
        added = enter_material(request, Pen(connection, request, now))
    if "energy" in request.figures:
        sum_otherwise(book, now=now)
    return added


def enter_material(request: AddMaterial, pen: Pen) -> Material:
    """Enter a material inside a transaction."""
    if not request.name:
        raise Refusal(Code.BAD_NAME, "A material needs a name people know it by.")
    _refuse_unknown_event(request.counted_from)
    material = Material(
        id=0,
        name=request.name,
        kind=request.kind,
        width_nm=request.width_nm,
        thickness_nm=request.thickness_nm,
        applied_nm=request.applied_nm,
        core_inside_nm=request.core_inside_nm,
        core_wall_nm=request.core_wall_nm,
        layers=request.layers,
        counted_from=request.counted_from,
        cost_minor=request.cost_minor,
        note=request.note,
        finish=request.finish,
        limits={},
        facts={},
    )
    number = add_material(pen.connection, material)
    for entry in _entries(request, request.kind, pen.shop, ALWAYS, "as entered"):
        add_limit(pen.connection, number, entry, now=pen.now)
    return material_of(pen.connection, number, pen.now)


def change_a_material(request: ChangeMaterial, *, book: Book, now: datetime) -> Material:
    """Change a material; a new limit is in force from now on and not before."""
    _refuse_unknown_event(request.changes.get("counted_from", CountedFrom.MADE))
    with book.transaction() as connection:
        material = material_named(connection, request.name, now)
        change_material(connection, material.id, request.changes)
        known, from_at = shop(connection, now), request.at or now
        for entry in _entries(request, material.kind, known, from_at, request.why):
            add_limit(connection, material.id, entry, now=now)
        changed = material_named(connection, request.name, now)
    if "energy" in request.figures:
        sum_otherwise(book, now=now)
    return changed


def add_a_place(request: AddPlace, *, book: Book, now: datetime) -> Place:
    """Enter a place and give it a code."""
    with book.transaction() as connection:
        entered = enter_place(request, Pen(connection, request, now))
    keep_all(book, now=now)  # film that is out to a place of that name is there
    return entered


def enter_place(request: AddPlace, pen: Pen) -> Place:
    """Enter a place inside a transaction."""
    if not request.name:
        raise Refusal(Code.BAD_NAME, "A place needs a name people know it by.")
    code = pen.new_code(Letter.PLACE)
    number = add_place(pen.connection, code, request.name)
    zone = Entry(name="zone", value=request.zone, from_at=ALWAYS, operator=request.operator, why="")
    add_zone(pen.connection, number, zone, now=pen.now)
    return place_named(pen.connection, code, pen.now)


def _refuse_unknown_event(counted_from: object) -> None:
    if counted_from not in tuple(CountedFrom):
        raise Refusal(
            Code.BAD_NAME, f"A shelf age is counted from one of {', '.join(CountedFrom)}."
        )


def _entries(
    request: AddMaterial | ChangeMaterial, kind: Kind, known: Shop, from_at: datetime, why: str
) -> Iterator[LimitEntry]:
    """What a request puts in force, as it is kept; what cannot be understood is refused."""
    for span in filter(None, request.limits.values()):
        parse_span(span)
    said = {
        name: repr(parse_figure(name, text, known.system)) if text else ""
        for name, text in request.figures.items()
    }
    terms = {
        name: parse_term(name, text, kind, known.system, known.currency) if text else ""
        for name, text in request.terms.items()
    }
    for rule, value in {**request.limits, **said, **terms}.items():
        yield LimitEntry(
            rule=rule, value=value, from_at=from_at, operator=request.operator, why=why
        )


def _checked(name: str, value: str, known: Shop) -> str:
    """The value as it is kept; a name or a value the shop cannot have is refused."""
    if name in HOUSE_NAMES:
        known.house.changed(name, value, known.system)
        return value
    if name not in SHOP_NAMES:
        near = get_close_matches(name, (*SHOP_NAMES, *HOUSE_NAMES), n=1, cutoff=0.4)
        hint = f"did you mean {near[0]}?" if near else "see `book show` for the names."
        raise Refusal(Code.BAD_SETTING, f"“{name}” is no setting: {hint}")
    if not value:
        raise Refusal(Code.BAD_SETTING, f"{name} cannot be empty.")
    return _of_the_shop(name, value, known)


def _of_the_shop(name: str, value: str, known: Shop) -> str:
    match name:
        case "units":
            return _one_of(name, value, tuple(System))
        case "currency":
            return _currency(value)
        case "time-zone":
            return checked_zone(value)
        case "day-start":
            return _hour(value)
        case "labour":
            return str(parse_money(value, known.currency))
        case _:
            return value


def _one_of(name: str, value: str, known: tuple[str, ...]) -> str:
    if value not in known:
        raise Refusal(Code.BAD_SETTING, f"{name} is one of {', '.join(known)}.")
    return value


_LAST_HOUR = 23


def _currency(value: str) -> str:
    code = value.strip().upper()
    if code not in DECIMALS:
        raise Refusal(
            Code.BAD_SETTING, f"“{value}” is no currency of ISO 4217: write its letters, like EUR."
        )
    return code


def checked_zone(value: str) -> str:
    """The name of a time zone that is one."""
    try:
        ZoneInfo(value)
    except (ZoneInfoNotFoundError, ValueError, OSError) as error:
        raise Refusal(
            Code.BAD_SETTING,
            f"“{clean_text(value, 40)}” is no time zone: write one like Europe/Lisbon.",
        ) from error
    return value


def _hour(value: str) -> str:
    hour = value.strip().removesuffix(":00")
    if not (hour.isascii() and hour.isdigit() and int(hour) <= _LAST_HOUR):
        raise Refusal(Code.BAD_SETTING, "A working day begins at a full hour: write 5 or 05:00.")
    return str(int(hour))
