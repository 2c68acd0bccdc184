"""Materials from a list: each line is a material as `material add` would enter it.

material_line(says, …)    AddMaterial, or a refusal
said_otherwise(…)         what a material that is there already has other than the list says
write_materials(…)        the new ones are entered, all or none
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from stockroom.books.catalog import materials, name_key
from stockroom.books.opening import Book
from stockroom.books.pen import Pen
from stockroom.books.values import Asked, Material, Shop
from stockroom.errors import Code, Refusal
from stockroom.film.dates import parse_span
from stockroom.film.figures import parse_figure
from stockroom.film.kinds import parse_finish, parse_kind
from stockroom.film.limits import CountedFrom
from stockroom.film.roll import parse_layer
from stockroom.plan.terms import TERMS, parse_term
from stockroom.units import System
from stockroom.work.list_places import NamesListed
from stockroom.work.setup import AddMaterial, enter_material
from stockroom.work.summing import sum_otherwise

_LIMITS, _FIGURES = ("shelf", "wound", "opened"), ("energy", "curl", "bond", "modulus")
_FACTS = {
    "width": "width_nm",
    "thickness": "thickness_nm",
    "applied": "applied_nm",
    "core": "core_inside_nm",
    "wall": "core_wall_nm",
    "cost": "cost_minor",
    "note": "note",
    "finish": "finish",
    "counted_from": "counted_from",
    "layers": "layers",
}
_LONGEST_NAME, _LONGEST_NOTE = 120, 200
_EXACT = 1e-6


@dataclass(frozen=True, slots=True)
class MaterialLine:
    """A line as a material that would be entered; `given` are the fields it says, `terms` as they are kept."""

    line: int
    add: AddMaterial
    given: frozenset[str]
    terms: Mapping[str, str]


def material_line(line: int, says: Mapping[str, Any], shop: Shop, *, asked: Asked) -> MaterialLine:
    """A line as a material; what cannot be is refused."""
    if "name" not in says:
        raise Refusal(Code.BAD_NAME, "It names no material.")
    if "kind" not in says:
        raise Refusal(Code.BAD_NAME, "kind: it is not said; write one like window-film or blade.")
    _refuse_long(says)
    kind = parse_kind(says["kind"])
    limits = {name: str(parse_span(says[name])) for name in _LIMITS if name in says}
    for name in _FIGURES:
        if name in says:
            parse_figure(name, says[name], shop.system)
    terms = {
        name: parse_term(name, says[name], kind, shop.system, shop.currency)
        for name in TERMS
        if name in says
    }
    facts: dict[str, Any] = {field: says[name] for name, field in _FACTS.items() if name in says}
    add = AddMaterial(
        request=asked.request,
        operator=asked.operator,
        at=asked.at,
        name=says["name"],
        kind=kind,
        limits=limits,
        figures={name: says[name] for name in _FIGURES if name in says},
        terms={name: says[name] for name in terms},
        **facts | _understood(facts, shop.system),
    )
    return MaterialLine(line, add, frozenset(says), terms)


def _refuse_long(says: Mapping[str, Any]) -> None:
    for name, longest in (("name", _LONGEST_NAME), ("note", _LONGEST_NOTE)):
        if len(says.get(name, "")) > longest:
            raise Refusal(
                Code.BAD_NAME, f"{name}: it is too long: write at most {longest} characters."
            )


def _understood(facts: Mapping[str, Any], system: System) -> dict[str, Any]:
    """The facts that are words or lists, as a material has them."""
    found: dict[str, Any] = {}
    if "finish" in facts:
        found["finish"] = parse_finish(facts["finish"]).value
    if "counted_from" in facts:
        found["counted_from"] = _event(facts["counted_from"])
    if "layers" in facts:
        layers = str(facts["layers"]).replace(";", "+").split("+")
        found["layers"] = tuple(parse_layer(layer.strip(), system) for layer in layers)
    return found


def _event(text: str) -> str:
    event = text.strip().lower()
    if event not in tuple(CountedFrom):
        raise Refusal(
            Code.BAD_NAME, f"A shelf age is counted from one of {', '.join(CountedFrom)}."
        )
    return event


def said_otherwise(one: MaterialLine, there: Material, shop: Shop) -> tuple[str, ...]:
    """What the material of that name has other than the list says; a list is no change."""
    wrong = ["kind"] if one.add.kind is not there.kind else []
    wrong += [
        name
        for name, field in _FACTS.items()
        if name in one.given and getattr(one.add, field) != getattr(there, field)
    ]
    for name, span in one.add.limits.items():
        if name not in there.limits or str(there.limits[name].span) != span:
            wrong.append(name)
    for name, text in one.add.figures.items():
        figure = there.facts.get(name)
        if figure is None or abs(figure.value - parse_figure(name, text, shop.system)) > _EXACT:
            wrong.append(name)
    wrong += [name for name, kept in one.terms.items() if there.terms.get(name) != kept]
    return tuple(wrong)


def write_materials(
    lines: Sequence[MaterialLine], *, asked: Asked, book: Book, now: datetime
) -> NamesListed:
    """Enter the materials that are not there yet, all or none."""
    names: list[str] = []
    known: list[int] = []
    with book.transaction() as connection:
        pen = Pen(connection, asked, now)
        there = {name_key(one.name) for one in materials(connection, now).values()}
        for one in lines:
            key = name_key(one.add.name)
            if key in there:
                known.append(one.line)
            else:
                there.add(key)
                names.append(enter_material(one.add, pen).name)
    if any("energy" in one.add.figures for one in lines):
        sum_otherwise(book, now=now)
    return NamesListed("material", tuple(names), tuple(known))
