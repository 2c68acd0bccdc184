"""Film with what is laid on it, drawn to scale: the film as the long axis, its waste hatched.

picture(film, columns, lit)       rows of runs, from the outer end, left to right
fitting(film, columns, rows)      the columns in which it takes no more than so many rows

What is lit is filled with dots, whatever its colour; an offcut that stays is empty, and says so.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import StrEnum
from itertools import groupby, pairwise
from typing import NamedTuple

Laid = tuple[str, int, int, int, int]
"""A panel by its name, where it begins across and along the film, its size; in nm."""
Rectangle = tuple[int, int, int, int]

_NORTH, _EAST, _SOUTH, _WEST = 1, 2, 4, 8
_LINES = " ╵╶└╷│┌├╴┘─┴┐┤┬┼"
"""A corner or line by the sides on which it goes on."""
_WASTE, _LIT, _EMPTY = "░", "·", " "
_CELL = 2
"""How much taller than wide a cell of a terminal is."""
_FEWEST_ROWS = 4
_KEPT = "stays"


class Part(StrEnum):
    """What a character belongs to."""

    PLAIN = "plain"
    WASTE = "waste"
    LIT = "lit"
    KEPT = "kept"


class Run(NamedTuple):
    """Characters of one part."""

    text: str
    part: Part


Row = tuple[Run, ...]


@dataclass(frozen=True, slots=True)
class Film:
    """So much film, the panels on it, and the offcuts that stay of it; in nm."""

    width: int
    length: int
    laid: tuple[Laid, ...]
    kept: tuple[Rectangle, ...] = ()


def picture(film: Film, columns: int, lit: frozenset[str] = frozenset()) -> tuple[Row, ...]:
    """The film in so many columns. A panel too small for its name has none."""
    sheet = _Sheet(_rows_of(film, columns), columns)
    for name, x, y, across, along in film.laid:
        part = Part.LIT if name in lit else Part.PLAIN
        sheet.lay(name, part, film, (x, y, across, along))
    for one in film.kept:
        sheet.lay(_KEPT, Part.KEPT, film, one)
    return tuple(sheet.drawn())


def fitting(film: Film, columns: int, rows: int) -> int:
    """The most of these columns in which the picture takes no more than so many rows."""
    most = columns
    while most > 1 and _rows_of(film, most) + 1 > max(rows, _FEWEST_ROWS + 1):
        most -= 1
    return most


def _rows_of(film: Film, columns: int) -> int:
    return max(_FEWEST_ROWS, round(film.width * (columns - 1) / film.length / _CELL))


@dataclass(slots=True)
class _Sheet:
    """Cells: the lines between them, and what fills them."""

    rows: int
    columns: int
    _sides: list[list[int]] = field(init=False)
    _inside: list[list[tuple[str, Part]]] = field(init=False)

    def __post_init__(self) -> None:
        self._sides = [[0] * self.columns for _ in range(self.rows + 1)]
        self._inside = [[(_WASTE, Part.WASTE)] * self.columns for _ in range(self.rows + 1)]
        self._outline((0, self.rows), (0, self.columns - 1))

    def lay(self, name: str, part: Part, film: Film, where: Rectangle) -> None:
        """Outline a rectangle, fill it, and write its name in the middle of it."""
        x, y, across, along = where
        top, bottom = _span(x, across, film.width, self.rows)
        left, right = _span(y, along, film.length, self.columns - 1)
        self._outline((top, bottom), (left, right))
        room, filling = right - left - 1, _LIT if part is Part.LIT else _EMPTY
        shown = name if len(name) <= room else ""
        for row in range(top + 1, bottom):
            is_middle = row == (top + bottom) // 2
            text = (shown if is_middle else "").center(room, filling)
            self._inside[row][left + 1 : right] = [(one, part) for one in text]

    def drawn(self) -> Iterator[Row]:
        """Each row, what is of one part together."""
        for sides, inside in zip(self._sides, self._inside, strict=True):
            cells = (
                (_LINES[side], Part.PLAIN) if side else cell
                for side, cell in zip(sides, inside, strict=True)
            )
            yield tuple(
                Run("".join(text for text, _ in group), part)
                for part, group in groupby(cells, key=lambda cell: cell[1])
            )

    def _outline(self, rows: tuple[int, int], columns: tuple[int, int]) -> None:
        for row in rows:
            for left, right in pairwise(range(columns[0], columns[1] + 1)):
                self._sides[row][left] |= _EAST
                self._sides[row][right] |= _WEST
        for column in columns:
            for above, below in pairwise(range(rows[0], rows[1] + 1)):
                self._sides[above][column] |= _SOUTH
                self._sides[below][column] |= _NORTH


def _span(begins: int, reach: int, whole: int, cells: int) -> tuple[int, int]:
    return round(begins * cells / whole), round((begins + reach) * cells / whole)
