"""Exporting what a shop set up: its materials, jobs and places.

The headings of materials are words that an import of materials reads again.
"""

from collections.abc import Callable, Mapping
from datetime import datetime
from functools import partial
from pathlib import Path

from stockroom.books.catalog import ALWAYS, jobs, materials, places, shop
from stockroom.books.opening import Book
from stockroom.books.pieces import standings
from stockroom.books.use import lines
from stockroom.books.values import Job, Material
from stockroom.film.roll import Layer
from stockroom.plan.terms import TERMS, terms_of
from stockroom.units import MM, UM
from stockroom.units.money import show_money
from stockroom.work.spreadsheet import Exported, Table, a_day, exact, heads_of, write_table
from stockroom.work.use import NOTHING, TAKING, Amounts, taken


def export_materials(book: Book, target: Path, *, now: datetime) -> Exported:
    """Every material by name, with what is in force of it."""
    with book.reading() as connection:
        currency = shop(connection, now).currency
        reads: Mapping[str, Callable[[Material], object]] = {
            **_MATERIAL,
            "breaks": partial(_breaks, currency=currency),
        }
        rows = [
            [read(one) for read in reads.values()] for one in materials(connection, now).values()
        ]
    return write_table(target, Table(heads_of(_MATERIAL, currency), rows))


def export_jobs(book: Book, target: Path, *, now: datetime) -> Exported:
    """Every job, with what was taken for it: areas of film, and the cost of all."""
    with book.reading() as connection:
        currency = shop(connection, now).currency
        known = jobs(connection).values()
        film: dict[str, Amounts] = {}
        cost: dict[str, int] = {}
        for line, amounts in taken(lines(connection, TAKING, since=ALWAYS, until=now)):
            if line.job is not None:
                cost[line.job] = cost.get(line.job, 0) + amounts.cost_minor
                if line.form != "box":
                    film[line.job] = film.get(line.job, NOTHING) + amounts
    rows: list[list[object]] = []
    for one in known:
        used = film.get(one.code, NOTHING)
        money = cost.get(one.code, 0)
        rows.append([*(read(one) for read in _JOB.values()), used.used, used.wasted, money])
    heads = (*_JOB, "used_area_mm2", "wasted_area_mm2", "cost_minor")
    return write_table(target, Table(heads_of(heads, currency), rows))


def export_places(book: Book, target: Path, *, now: datetime) -> Exported:
    """Every place by name, with its zone and how many pieces stand there."""
    with book.reading() as connection:
        known = places(connection, now)
        stand: dict[int, int] = {}
        for one in standings(connection, now):
            if one.place is not None:
                stand[one.place.id] = stand.get(one.place.id, 0) + 1
    rows = [[one.code, one.name, one.zone or None, stand.get(one.id, 0)] for one in known.values()]
    return write_table(target, Table(("code", "name", "zone", "pieces"), rows))


def _figure(name: str) -> Callable[[Material], object]:
    return lambda one: one.facts[name].value if name in one.facts else None


def _limit(name: str) -> Callable[[Material], object]:
    return lambda one: str(one.limits[name].span) if name in one.limits else None


def _term(name: str) -> Callable[[Material], object]:
    return lambda one: _number_or_text(one.terms.get(name))


def _number_or_text(kept: str | None) -> int | str | None:
    return int(kept) if kept is not None and kept.isdecimal() else kept


def _breaks(one: Material, currency: str) -> str | None:
    """Prices by number as a person types them: 10:460.00 20:440.00."""
    money = (
        (found.least, show_money(int(found.price), currency).removesuffix(currency).strip())
        for found in terms_of(one.terms).breaks
    )
    return " ".join(f"{least:g}:{price}" for least, price in money) or None


def _layer(layer: Layer) -> str:
    return f"{layer.thickness_um:g}um:{layer.density_kg_m3:g}"


_MATERIAL: Mapping[str, Callable[[Material], object]] = {
    "name": lambda one: one.name,
    "kind": lambda one: one.kind.value,
    "width_mm": lambda one: exact(one.width_nm, MM),
    "thickness_um": lambda one: exact(one.thickness_nm, UM),
    "applied_um": lambda one: exact(one.applied_nm, UM),
    "core_mm": lambda one: exact(one.core_inside_nm, MM),
    "wall_mm": lambda one: exact(one.core_wall_nm, MM),
    "layers": lambda one: " + ".join(map(_layer, one.layers)) or None,
    "shelf": _limit("shelf"),
    "counted_from": lambda one: one.counted_from,
    "wound": _limit("wound"),
    "opened": _limit("opened"),
    "energy_kj_mol": _figure("energy"),
    "curl_mm": _figure("curl"),
    "bond_j_m2": _figure("bond"),
    "modulus_gpa": _figure("modulus"),
    "cost_minor": lambda one: one.cost_minor,
    "finish": lambda one: one.finish,
    **{term: _term(term) for term in TERMS},
    "note": lambda one: one.note or None,
}
_JOB: Mapping[str, Callable[[Job], object]] = {
    "code": lambda one: one.code,
    "name": lambda one: one.name,
    "site": lambda one: one.site or None,
    "on": lambda one: a_day(one.on_day),
    "kind": lambda one: one.kind or None,
    "is_closed": lambda one: one.is_closed,
    "glass": lambda one: one.glass,
    "note": lambda one: one.note or None,
}
