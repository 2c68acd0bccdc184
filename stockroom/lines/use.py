"""What was taken of each material: as plain lines, as values, and as a sheet.

Film is shown as metres of its full width, goods as a number.
"""

from datetime import date
from typing import Any

from stockroom.books.values import Material, Shop
from stockroom.lines import words
from stockroom.lines.sheet import sheet
from stockroom.lines.text_table import Columns, table
from stockroom.units import M, System
from stockroom.units.money import show_money
from stockroom.units.shown import show_area, show_length
from stockroom.work.use import By, Use, UseOf, full_width_m

_HEADS = ("used", "waste", "no job", "discarded", "counts", "cost")
_FIGURES = ("used", "wasted", "without_job", "discarded", "counted")
_ALL = ("for_jobs", *_FIGURES)
_MONEY = ("cost_minor", "without_job_minor", "discarded_minor", "counted_minor")
_NOTHING = "Nothing was taken."
MEANING = (
    "Lengths are of full width. used: for jobs, less what came back; waste: of those cuts; "
    "counts: found, or with - missed."
)


def lines(found: Use, width: int) -> list[str]:
    """A row for each material, or for each of its weeks or months."""
    if not found.rows:
        return [_NOTHING]
    shop = found.view.shop
    first = ("material",) if found.by is None else ("material", found.by.value)
    heads = (*first, *_HEADS)
    right = frozenset(range(len(first), len(heads)))
    rows = [_row(row, found.by, shop) for row in found.rows]
    return table(Columns(heads=heads, right=right), rows, width)


def _row(row: UseOf, by: By | None, shop: Shop) -> tuple[str, ...]:
    period = () if row.begins is None else (_period(row.begins, by),)
    figures = (amount(getattr(row.amounts, name), row.material, shop.system) for name in _FIGURES)
    cost = row.amounts.cost_minor
    return (
        row.material.name,
        *period,
        *figures,
        show_money(cost, shop.currency) if cost else "-",
    )


def _period(begins: date, by: By | None) -> str:
    """A month, or the week by its Monday."""
    return f"{begins:%Y-%m}" if by is By.MONTH else words.day(begins)


def amount(area: int, material: Material, system: System) -> str:
    """An area as a length of full width, or a number of goods; nothing is a dash."""
    if not area:
        return "-"
    if not material.kind.comes_in_rolls:
        return words.count(area)
    length_m = full_width_m(area, material)
    return show_area(area, system) if length_m is None else show_length(round(length_m * M), system)


def values(found: Use) -> dict[str, Any]:
    """The same for a script: areas, lengths of full width, numbers of goods, money."""
    return {
        "day": found.view.today.isoformat(),
        "since": None if found.since is None else found.since.isoformat(),
        "by": None if found.by is None else found.by.value,
        "currency": found.view.shop.currency,
        "rows": [row_values(row) for row in found.rows],
    }


def row_values(row: UseOf) -> dict[str, Any]:
    """One material, in one stretch of time."""
    is_film = row.material.kind.comes_in_rolls
    figures = {name: getattr(row.amounts, name) for name in _ALL}
    return {
        "material": row.material.name,
        "kind": row.material.kind.value,
        "begins": None if row.begins is None else row.begins.isoformat(),
        **{f"{name}_m": _metres(area, row.material) for name, area in figures.items()},
        **{f"{name}_area_mm2": area if is_film else None for name, area in figures.items()},
        **{f"{name}_count": None if is_film else number for name, number in figures.items()},
        **{name: getattr(row.amounts, name) for name in _MONEY},
    }


_COLUMNS = (
    *("material", "kind", "begins"),
    *(f"{name}{unit}" for unit in ("_m", "_area_mm2", "_count") for name in _ALL),
    *_MONEY,
)


def sheet_of(found: Use) -> list[str]:
    """The same rows for a spreadsheet."""
    return sheet(_COLUMNS, [row_values(row) for row in found.rows], found.view.shop.currency)


def _metres(area: int, material: Material) -> float | None:
    length_m = full_width_m(area, material)
    return None if length_m is None else round(length_m, 6)
