"""Where the headings of a table stand, and what each column holds.

    find_heading(sheets, lists, told)   Headed: the sheet, which list it is, its columns
    Told                                what a person says of the columns: "their heading=ours"

The heading is the line, or two lines that belong together, that names the most of what is looked for. Titles
above it are passed over, and a line of units below it belongs to it.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from itertools import islice

from stockroom.errors import Code, Refusal, clean_text
from stockroom.feeds.columns import (
    MATERIALS,
    PLACES,
    STOCK,
    Column,
    Field,
    are_units,
    as_column,
    column_of,
    unit_of,
)
from stockroom.feeds.headings import plain
from stockroom.feeds.sheet import Line, Sheet

LOOKED_AT = 60
LISTS: Mapping[str, tuple[Field, ...]] = {
    "places": PLACES,
    "stock": STOCK,
    "materials": MATERIALS,
}
"""What a list can be of; of two that explain a heading alike the first."""

_FILLS = frozenset({"length", "count", "rolls"})
"""Without one of these a list is none of a stock."""

_NEEDED = {"places": "name", "stock": "material", "materials": "name"}
_SAID = -1
_LEAST = 2
_MOST_NAMED = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What a person says of a file: which list it is, and what columns hold by their headings."""

    of: str | None = None
    columns: Mapping[str, str] = field(default_factory=dict[str, str])


@dataclass(frozen=True, slots=True, kw_only=True)
class Headed:
    """A table whose columns are understood; `lines` are those below its heading."""

    sheet: Sheet
    of: str
    heading_line: int
    columns: tuple[Column, ...]
    passed_over: tuple[str, ...]
    lines: Sequence[Line]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Heading:
    """One line, or two, as a heading: so many lines from a place on, and the names of the columns."""

    at: int
    lines: int
    names: Sequence[str]
    columns: tuple[Column, ...]


def find_heading(sheets: Sequence[Sheet], told: Told) -> Headed:
    """The table with the most columns that are understood, of all ways to read the file."""
    wanted = [told.of] if told.of else list(LISTS)
    _refuse_unknown(told, wanted)
    found = [
        (sheet, of, best)
        for sheet in sheets
        for of in wanted
        if (best := _best(sheet, of, told)) is not None
    ]
    if not found:
        raise _no_heading(sheets, wanted)
    sheet, of, best = max(found, key=lambda one: len(one[2].columns))
    used = {column.place for column in best.columns}
    last = best.at + best.lines
    passed = (name for place, name in enumerate(best.names) if name and place not in used)
    return Headed(
        sheet=sheet,
        of=of,
        heading_line=sheet.lines[last - 1][0],
        columns=best.columns,
        passed_over=tuple(passed),
        lines=sheet.lines[last:],
    )


def _best(sheet: Sheet, of: str, told: Told) -> _Heading | None:
    """The heading that names the most, one line before two; None where what is needed is not named."""
    found = [
        one
        for one in _headings(sheet, LISTS[of], told)
        if _is_a_list(of, {column.field.name for column in one.columns})
    ]
    best = max(found, key=lambda one: (len(one.columns), -one.lines), default=None)
    return None if best is None else _with_units(sheet, best)


def _is_a_list(of: str, named: set[str]) -> bool:
    if _NEEDED[of] not in named or len(named) < _LEAST:
        return False
    return of != "stock" or bool(named & _FILLS)


def _headings(sheet: Sheet, fields: Sequence[Field], told: Told) -> Iterator[_Heading]:
    lines = list(islice(sheet.lines, LOOKED_AT))
    for at, (_, cells) in enumerate(lines):
        names = list(cells)
        yield _Heading(at=at, lines=1, names=names, columns=_columns(names, fields, told))
        if at + 1 < len(lines):
            both = _joined(cells, lines[at + 1][1])
            yield _Heading(at=at, lines=2, names=both, columns=_columns(both, fields, told))


def _columns(names: Sequence[str], fields: Sequence[Field], told: Told) -> tuple[Column, ...]:
    """One column for each field: what a person said, else the best words, else the first."""
    best: dict[str, Column] = {}
    for place, name in enumerate(names):
        column = _column(place, name, fields, told) if name else None
        if column is None:
            continue
        before = best.get(column.field.name)
        if before is None or column.rank < before.rank:
            best[column.field.name] = column
    return tuple(sorted(best.values(), key=lambda column: column.place))


def _column(place: int, name: str, fields: Sequence[Field], told: Told) -> Column | None:
    said = told.columns.get(plain(name))
    if said is None:
        return column_of(place, name, fields)
    if not said:
        return None
    chosen, unit = _named(said, fields)
    if chosen is None:
        return None
    column = as_column(place, name, chosen, _SAID)
    if unit is None:
        return column
    return Column(
        place=place,
        heading=name,
        field=chosen,
        unit=unit,
        currency=column.currency,
        rank=_SAID,
    )


def _named(said: str, fields: Sequence[Field]) -> tuple[Field | None, str | None]:
    """The field a person named, and the unit behind its name: length_m."""
    name, _, unit = said.partition("_")
    for one in fields:
        if one.name == said:
            return one, None
        if one.name == name and unit_of(f"_{unit}", one.reads):
            return one, unit
    return None, None


def _joined(upper: Sequence[str], lower: Sequence[str]) -> list[str]:
    width = max(len(upper), len(lower))
    pairs = zip(_filled(upper, width), _filled(lower, width), strict=True)
    return [" ".join(dict.fromkeys(filter(None, pair))) for pair in pairs]


def _filled(cells: Sequence[str], width: int) -> list[str]:
    return [*cells, *[""] * (width - len(cells))]


def _with_units(sheet: Sheet, found: _Heading) -> _Heading:
    """The same heading with the line of units below it, where there is one."""
    after = found.at + found.lines
    if after >= len(sheet.lines) or not are_units(units := sheet.lines[after][1]):
        return found
    columns = tuple(
        as_column(one.place, f"{one.heading} ({units[one.place]})", one.field, one.rank)
        if one.place < len(units) and units[one.place]
        else one
        for one in found.columns
    )
    return _Heading(at=found.at, lines=found.lines + 1, names=found.names, columns=columns)


def _refuse_unknown(told: Told, wanted: Sequence[str]) -> None:
    """Refuse a column that is said to hold what nothing holds."""
    for heading, said in told.columns.items():
        if said and not any(_named(said, LISTS[of])[0] for of in wanted):
            ours = sorted({one.name for of in wanted for one in LISTS[of]})
            near = get_close_matches(said, ours, n=1)
            hint = f"did you mean {near[0]}?" if near else f"use one of {', '.join(ours)}."
            raise Refusal(
                Code.BAD_USAGE,
                f"--column {clean_text(heading, 40)}={clean_text(said, 40)}: no column holds that: {hint}",
            )


def _no_heading(sheets: Sequence[Sheet], wanted: Sequence[str]) -> Refusal:
    sheet = max(sheets, key=lambda one: max((len(cells) for _, cells in one.lines), default=0))
    if not sheet.lines:
        others = f" The other sheets: {', '.join(sheet.others)}." if sheet.others else ""
        return Refusal(Code.BAD_FILE, f"The table is empty.{others}")
    number, cells = sheet.lines[0]
    named = ", ".join(cell for cell in cells[:_MOST_NAMED] if cell)
    need = {
        "places": "name, and zone, of places",
        "stock": "material, and length or count, of a stock",
        "materials": "name, and kind, of materials",
    }
    return Refusal(
        Code.BAD_FILE,
        f"No line heads the columns {' or '.join(need[of] for of in wanted)}; line {number} has {named}. "
        'Say what a column holds, like --column "Their heading=length_m".',
    )
