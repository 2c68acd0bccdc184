"""What is in force of a material: limits, which are spans, figures, which are numbers, and terms."""

from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from types import MappingProxyType
from typing import Any, NamedTuple

from sqlalchemy import Connection, insert

from stockroom.books.tables import LimitRow, table_of
from stockroom.film.dates import parse_span
from stockroom.film.figures import FIGURES
from stockroom.film.limits import Basis, Figure, Limit
from stockroom.plan.terms import TERMS

_LIMIT = table_of(LimitRow)


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitEntry:
    """A limit, figure or term of a material, in force from an instant on; an empty value takes it away."""

    rule: str
    value: str
    basis: Basis = Basis.MAKER
    from_at: datetime
    operator: str
    why: str = ""


class InForce(NamedTuple):
    """What was entered of a material, by name."""

    limits: Mapping[str, Limit]
    facts: Mapping[str, Figure]
    terms: Mapping[str, str]


def in_force(rows: Iterable[Any]) -> InForce:
    """What these rows put in force, the older ones first."""
    newest = {row.rule: row for row in rows if row.value is not None}
    limits: dict[str, Limit] = {}
    figures: dict[str, Figure] = {}
    terms: dict[str, str] = {}
    for rule, row in newest.items():
        if not row.value:
            continue
        if rule in FIGURES:
            figures[rule] = Figure(float(row.value), Basis(row.basis))
        elif rule in TERMS:
            terms[rule] = row.value
        else:
            limits[rule] = Limit(parse_span(row.value), Basis(row.basis))
    return InForce(MappingProxyType(limits), MappingProxyType(figures), MappingProxyType(terms))


def add_limit(
    connection: Connection, material_id: int, entry: LimitEntry, *, now: datetime
) -> None:
    """Put an entry of a material in force; the older ones stay on record."""
    row = asdict(entry) | {"material_id": material_id, "recorded_at": now}
    connection.execute(insert(_LIMIT).values(row | {"basis": entry.basis.value}))
