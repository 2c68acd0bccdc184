"""The lines of a logger's file divided into cells, and how a line says when it was.

cells_of(line, mark)   the cells of one line
frame_of(lines)        Frame: what divides the cells, and which of them say when; None without
divided(cell)          the day and the time of day that stand in one cell
"""

import csv
import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum

from stockroom.feeds.days import DAY
from stockroom.feeds.instants import CLOCK, CLOCK_ALONE, SECONDS
from stockroom.feeds.numbers import number_of
from stockroom.feeds.reading import Unread, Wrong

_MARKS = ("\t", ";", ",", "|")
_DAY = re.compile(rf"\s*{DAY}\s*", re.ASCII)
_CLOCK = re.compile(rf"\s*{CLOCK_ALONE}\s*", re.ASCII)
_MOMENT = re.compile(rf"\s*({DAY})(?:(?:T|,?\s+)({CLOCK}))?\s*", re.ASCII)
_MIDNIGHT = "00:00"

Row = tuple[int, list[str]]
"""The number of a line, from 1, and its cells."""


class When(Enum):
    """How a line says when it was."""

    MOMENT = "a day and a time in one column"
    APART = "a day and a time in two columns"
    EPOCH = "seconds since 1970"


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What divides the cells of a line, how many there are, and which of them say when.

    `rows` are the lines it was seen in; `clock` is None where the time is beside the day, and
    `between` is what stands there between the two, empty where that differs.
    """

    mark: str
    when: When
    day: int
    clock: int | None
    cells: int
    between: str
    rows: tuple[Row, ...]

    @property
    def first(self) -> int:
        """The place of the first cell that says when; numbers before it count lines."""
        return self.day if self.clock is None else min(self.day, self.clock)

    def moment(self, cells: Sequence[str]) -> tuple[str, str]:
        """The day and the time of day of a line, the latter empty where it counts seconds."""
        cell = cells[self.day].strip()
        if self.clock is not None:
            return cell, cells[self.clock]
        if self.between:
            day, between, clock = cell.partition(self.between)
            if between:
                return day, clock
        return (cell, "") if self.when is When.EPOCH else divided(cell)


def cells_of(line: str, mark: str) -> list[str]:
    """The cells of one line; a mark inside quotation marks divides nothing."""
    if '"' not in line:
        return line.rstrip("\r\n").split(mark)
    try:
        return next(csv.reader([line], delimiter=mark), [])
    except csv.Error:  # a cell of more than a hundred thousand characters
        return line.split(mark)


def divided(cell: str) -> tuple[str, str]:
    """The day and the time of day in a cell; a day alone is its midnight, as spreadsheets write it."""
    found = _MOMENT.fullmatch(cell)
    if found is None:
        raise Unread(Wrong.NO_INSTANT, "it has no day and time")
    return found[1], found[2] or _MIDNIGHT


def frame_of(lines: Sequence[str]) -> Frame | None:
    """What most of these lines have in common; None where no line has a day, a time and a number."""
    frames = [frame for mark in _MARKS if (frame := _frame(lines, mark)) is not None]
    return max(frames, key=lambda frame: len(frame.rows), default=None)


def _frame(lines: Sequence[str], mark: str) -> Frame | None:
    timed = list(_timed(lines, mark))
    if not timed:
        return None
    (when, day, clock), _ = Counter(found for _, found, _ in timed).most_common(1)[0]
    alike = [(number, cells) for number, found, cells in timed if found == (when, day, clock)]
    number_of_cells, _ = Counter(len(cells) for _, cells in alike).most_common(1)[0]
    rows = tuple(row for row in alike if len(row[1]) == number_of_cells)
    return Frame(
        mark=mark,
        when=when,
        day=day,
        clock=clock,
        cells=number_of_cells,
        between=_between([cells[day].strip() for _, cells in rows]) if when is When.MOMENT else "",
        rows=rows,
    )


def _between(cells: Sequence[str]) -> str:
    """What stands between the day and the time in all of these cells, and nowhere before it."""
    found = {cell: divided(cell) for cell in cells}
    cell, (day, clock) = next(iter(found.items()))
    between = cell[len(day) : len(cell) - len(clock)]
    is_plain = all(cell.partition(between)[::2] == moment for cell, moment in found.items())
    return between if is_plain else ""


def _timed(
    lines: Sequence[str], mark: str
) -> Iterator[tuple[int, tuple[When, int, int | None], list[str]]]:
    """The lines that say when they were and hold a number beside it."""
    for number, line in enumerate(lines, 1):
        cells = cells_of(line, mark)
        when = _when(cells)
        if when is not None and any(
            number_of(cell) for place, cell in enumerate(cells) if place not in when[1:]
        ):
            yield number, when, cells


def _when(cells: Sequence[str]) -> tuple[When, int, int | None] | None:
    """How these cells say when, with the places of the day and the time."""
    for place, cell in enumerate(cells):
        if (found := _MOMENT.fullmatch(cell)) is not None and found[2] is not None:
            return When.MOMENT, place, None
    day = _first(_DAY, cells)
    clock = _first(_CLOCK, cells)
    if day is not None and clock is not None:
        return When.APART, day, clock
    epoch = _first(SECONDS, cells)
    return None if epoch is None else (When.EPOCH, epoch, None)


def _first(pattern: re.Pattern[str], cells: Sequence[str]) -> int | None:
    return next((place for place, cell in enumerate(cells) if pattern.fullmatch(cell)), None)
