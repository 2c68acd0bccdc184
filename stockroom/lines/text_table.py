"""Rows of cells as lines of text that line up, in the columns a terminal has."""

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass

_GAP = "  "
_LEAST_FLEX = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """The heads of a table, which of its columns stand right, and the one that gives way."""

    heads: tuple[str, ...]
    right: frozenset[int] = frozenset()
    flex: int = 0


def table(columns: Columns, rows: Sequence[Sequence[str]], width: int) -> list[str]:
    """A head and one line a row; the flexible column is cut so that a line fits where it can."""
    wide = [
        max(cells(text) for text in column) for column in zip(columns.heads, *rows, strict=True)
    ]
    spare = width - sum(wide) - len(_GAP) * (len(wide) - 1)
    if spare < 0:
        wide[columns.flex] = max(_LEAST_FLEX, wide[columns.flex] + spare)
    return [_line(row, wide, columns) for row in (columns.heads, *rows)]


def pairs(rows: Sequence[tuple[str, str]]) -> list[str]:
    """Names and values, one a line."""
    wide = max((cells(name) for name, _ in rows), default=0)
    return [f"{name}{' ' * (wide - cells(name))}{_GAP}{value}" for name, value in rows]


def cells(text: str) -> int:
    """How many columns of a terminal a text takes."""
    return sum(_cells_of(one) for one in text)


def clipped(text: str, width: int) -> str:
    """The text, or as much of it as fits and the sign that there is more."""
    if cells(text) <= width:
        return text
    kept = ""
    for one in text:
        if cells(kept) + _cells_of(one) >= width:
            break
        kept += one
    return f"{kept.rstrip()}…"


def _cells_of(character: str) -> int:
    if unicodedata.combining(character):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def _line(row: Sequence[str], wide: Sequence[int], columns: Columns) -> str:
    parts = []
    for place, (text, width) in enumerate(zip(row, wide, strict=True)):
        shown = clipped(text, width)
        fill = " " * (width - cells(shown))
        parts.append(fill + shown if place in columns.right else shown + fill)
    return _GAP.join(parts).rstrip()
