"""Lists of panels as people keep them in spreadsheets: CSV with a heading, in any order of columns.

    read_panels(raw, units)    every line as a PanelLine, or a refusal that names the first bad one
    read_panel(text, units)    one that is typed: W1 900x2100 x3
    read_typed(text, units)    what is typed or pasted: such panels, or lines of a list, with or without a heading

The heading is the first line that has `width` and `height`; titles above it and blank lines are
passed over. `name`, `count`, `turn`, `group`, `material`, `trim`, `seam`, `overlap` and `layers` may be
left out; a trim is one length, or those of the left, right, top and bottom edge: `20mm/20mm/30mm/30mm`.
"""

import csv
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from stockroom.errors import Code, Refusal, clean_text
from stockroom.feeds.decoding import decoded
from stockroom.units import System
from stockroom.units.typed import parse_length, parse_size

_COLUMNS = (
    *("name", "width", "height", "count", "turn", "group"),
    *("material", "trim", "seam", "overlap", "layers"),
)
"""The columns of lines without a heading."""
_NEEDED = frozenset({"width", "height"})
_SEPARATORS = ",;\t|"
_BY = r"\s*[x*\N{MULTIPLICATION SIGN}]\s*"
_TYPED = re.compile(
    rf"(?P<name>.*?\S)\s+(?P<across>\d\S*?){_BY}(?P<along>\d\S*?)(?:{_BY}(?P<count>\d+))?",
    re.IGNORECASE,
)
_YES, _NO = frozenset({"yes", "y", "true", "1"}), frozenset({"no", "n", "false", "0"})
_MOST_ALIKE = 2_000
_EDGES = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelLine:
    """So many panels alike: the width lies across the film, the height along it."""

    line: int
    name: str
    width_nm: int
    height_nm: int
    number: int = 1
    turns: bool | None = None  # None: as for all
    group: str = ""
    material: str = ""
    trims_nm: tuple[int, int, int, int] | None = None
    seams: bool = False
    overlap_nm: int | None = None
    layers: int = 1


def read_panels(raw: bytes, units: System) -> tuple[PanelLine, ...]:
    """Every line of a list. Refuses (BAD_USAGE) a list without a heading or a line, and a bad line."""
    lines = tuple(_panel(number, row, units) for number, row in _rows(decoded(raw).text))
    if not lines:
        raise Refusal(Code.BAD_USAGE, "The list has no panels: write one a line below the heading.")
    return lines


def read_panel(text: str, units: System) -> PanelLine:
    """A panel as it is typed: its name, its size, and how many of it where it is not one."""
    found = _TYPED.fullmatch(text.strip())
    if found is None:
        raise Refusal(
            Code.BAD_USAGE,
            f"“{clean_text(text, 40)}” is no panel: write its name, size and number, "
            "like W1 900x2100 x3.",
        )
    width_nm, height_nm = parse_size(f"{found['across']}x{found['along']}", units)
    return PanelLine(
        line=1,
        name=clean_text(found["name"]),
        width_nm=width_nm,
        height_nm=height_nm,
        number=parse_count(found["count"] or ""),
    )


def read_typed(text: str, units: System) -> tuple[PanelLine, ...]:
    """What is typed or pasted: panels as they are typed, or lines of a list, a line each."""
    lines = [line for line in text.splitlines() if line.strip()] or [""]
    if _has_heading(lines[0]):
        return read_panels(text.encode(), units)
    if len(lines) > 1 or any(one in lines[0] for one in _SEPARATORS):
        rows = (_panel(number, row, units) for number, row in _rows(text, _COLUMNS))
        typed = (_on_line(number, line, units) for number, line in enumerate(lines, start=1))
        return tuple(typed if _TYPED.fullmatch(lines[0].strip()) else rows)
    return (read_panel(lines[0], units),)


def _on_line(number: int, text: str, units: System) -> PanelLine:
    try:
        return replace(read_panel(text, units), line=number)
    except Refusal as refusal:
        raise Refusal(refusal.code, f"Line {number}: {refusal.sentence}") from refusal


def _has_heading(line: str) -> bool:
    cells = _cells(line.casefold(), max(_SEPARATORS, key=line.count))
    return set(cells) >= _NEEDED


def _rows(
    text: str, columns: Sequence[str] | None = None
) -> Iterator[tuple[int, Mapping[str, str]]]:
    """Each line below the heading by its number, its cells by the names of their columns."""
    heading = None if columns is None else list(columns)
    separator = max(_SEPARATORS, key=text.count)
    for number, line in enumerate(text.splitlines(), start=1):
        if heading is None:
            separator = max(_SEPARATORS, key=line.count)
            cells = [cell.casefold() for cell in _cells(line, separator)]
            heading = cells if set(cells) >= _NEEDED else None
        elif cells := _cells(line, separator):
            yield number, dict(zip(heading, cells, strict=False))
    if heading is None:
        raise Refusal(
            Code.BAD_USAGE,
            "The list has no heading: its first line is name,width,height,count,turn,group.",
        )


def _cells(line: str, separator: str) -> list[str]:
    """The cells of a line; none where all are empty."""
    cells = [cell.strip() for cell in next(csv.reader([line], delimiter=separator), [])]
    return cells if any(cells) else []


def _panel(number: int, row: Mapping[str, str], units: System) -> PanelLine:
    try:
        return PanelLine(
            line=number,
            name=clean_text(row.get("name", "")) or f"line {number}",
            width_nm=parse_length(row.get("width", ""), units),
            height_nm=parse_length(row.get("height", ""), units),
            number=parse_count(row.get("count", "")),
            turns=_said("turn", row.get("turn", "")),
            group=clean_text(row.get("group", "")),
            material=clean_text(row.get("material", "")),
            trims_nm=parse_trims(row.get("trim", ""), units),
            seams=_said("seam", row.get("seam", "")) or False,
            overlap_nm=_overlap(row.get("overlap", ""), units),
            layers=_layers(row.get("layers", "")),
        )
    except Refusal as refusal:
        raise Refusal(refusal.code, f"Line {number}: {refusal.sentence}") from refusal


def parse_count(text: str) -> int:
    """How many alike; one for an empty text."""
    if not text:
        return 1
    if text.isdecimal() and 0 < int(text[:9]) <= _MOST_ALIKE:
        return int(text)
    raise Refusal(
        Code.BAD_NUMBER, f"'{clean_text(text, 40)}' is no count: write 1 to {_MOST_ALIKE}."
    )


def parse_trims(text: str, units: System) -> tuple[int, int, int, int] | None:
    """What is cut off on the left, right, top and bottom, in nm; None for an empty text."""
    if not text.strip():
        return None
    edges = [parse_length(edge, units, zero=True) for edge in text.split("/")]
    if len(edges) == 1:
        edges *= 4
    if len(edges) != _EDGES:
        raise Refusal(
            Code.BAD_LENGTH,
            f"'{clean_text(text, 40)}' is no trim: write one length, or left/right/top/bottom.",
        )
    left, right, top, bottom = edges
    return left, right, top, bottom


def _overlap(text: str, units: System) -> int | None:
    return parse_length(text, units, zero=True) if text else None


def _layers(text: str) -> int:
    if text in ("", "1", "2"):
        return int(text or 1)
    raise Refusal(
        Code.BAD_NUMBER, f"'{clean_text(text, 40)}' is no number of layers: write 1 or 2."
    )


def _said(name: str, text: str) -> bool | None:
    said = text.casefold()
    if not said:
        return None
    if said in _YES | _NO:
        return said in _YES
    raise Refusal(Code.BAD_USAGE, f"{name} is yes or no, not '{clean_text(text, 40)}'.")
