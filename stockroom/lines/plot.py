"""A plot in characters: a curve in dots of two by four a cell, between limits that are named.

drawn(panel, width, height)   rows of runs, each with the part of the plot it belongs to
steps(width)                  how many levels a plot of so many cells shows
ticks(marks, width)           the line under a plot: when it was
months(since, until)          the first days of quarters, to be marked there
stretched(levels, steps)      as many levels as a plot has steps

Each level is drawn from its lowest to its highest, and reaches for the next one, so that a curve
has no holes but those of which nothing is known: there it says so.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from itertools import groupby, pairwise
from typing import NamedTuple

from stockroom.work.zone_plot import Level, Levels

LABEL = 11
"""The cells left of a curve, for the names of its limits."""

_ACROSS, _DOWN = 2, 4
_BLANK = 0x2800
_BITS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
_LIMIT = "┄"
_PAD = 0.06
_QUARTERS = (1, 4, 7, 10)
_NOT_KNOWN, _SHORT_NOT_KNOWN = " ? not measured ", "?"


class Part(StrEnum):
    """What a run of a plot is, for those who colour it."""

    PLAIN = "plain"
    CURVE = "curve"
    BEYOND = "beyond"
    FAR = "far"
    LIMIT = "limit"


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A level that should not be passed, to either side, and what a curve beyond it is."""

    at: float
    label: str
    upwards: bool
    beyond: Part = Part.BEYOND
    is_shown: bool = True
    """Whether it has its place even where the curve is far from it."""

    def is_passed(self, level: Level) -> bool:
        """Whether something of a level lies beyond."""
        return level.highest > self.at if self.upwards else level.lowest < self.at


@dataclass(frozen=True, slots=True)
class Panel:
    """What is drawn: levels, the limits around them, and how a level is written."""

    levels: Levels
    limits: tuple[Limit, ...]
    written: tuple[str, str]
    """The lowest and the highest level of all, as people read them."""


class Run(NamedTuple):
    """Characters of one part."""

    text: str
    part: Part


Row = tuple[Run, ...]


def steps(width: int) -> int:
    """How many levels a plot of so many cells shows."""
    return max(1, width - LABEL) * _ACROSS


def drawn(panel: Panel, width: int, height: int) -> tuple[Row, ...]:
    """The rows of a plot, from the top."""
    scale = _scale(panel, height)
    labels = _labels(panel, scale)
    lines = _lines(panel, scale)
    dots = _dots(panel.levels, scale)
    across = max(1, width - LABEL)
    notes = _notes(panel.levels, across, height)
    rows: list[Row] = []
    for row in range(height):
        cells = [(f"{labels.get(row, ''):>{LABEL - 1}} ", Part.PLAIN)]
        for cell in range(across):
            if bits := dots.get((cell, row)):
                cells.append((chr(_BLANK + bits), _part(panel, cell, row, scale)))
            elif (cell, row) in notes:
                cells.append((notes[cell, row], Part.PLAIN))
            else:
                cells.append((_LIMIT, Part.LIMIT) if row in lines else (" ", Part.PLAIN))
        rows.append(tuple(_runs(cells)))
    return tuple(rows)


def ticks(marks: Iterable[tuple[float, str]], width: int) -> str:
    """The line under a plot, with each text at its share of the way; what has no room is left out."""
    across = max(1, width - LABEL)
    line = [" "] * (LABEL + across)
    free = 0
    for share, words in marks:
        cell, text = int(share * across), f"╵{words}"
        if free <= cell <= across - len(text):
            line[LABEL + cell : LABEL + cell + len(text)] = text
            free = cell + len(text) + 1
    return "".join(line)


def months(since: date, until: date) -> Iterator[date]:
    """The first days of quarters from a day to another."""
    year, month = since.year, since.month
    while (day := date(year + (month - 1) // 12, (month - 1) % 12 + 1, 1)) < until:
        if day >= since and day.month in _QUARTERS:
            yield day
        month += 1


def stretched(levels: Levels, steps: int) -> Levels:
    """As many levels as a plot has steps, each as long as the others."""
    return tuple(levels[step * len(levels) // steps] for step in range(steps))


class _Scale(NamedTuple):
    """From where to where a plot goes, and in how many dots."""

    low: float
    high: float
    dots: int

    def dot(self, value: float) -> int:
        """How far down a value lies."""
        share = (self.high - value) / (self.high - self.low)
        return min(self.dots - 1, max(0, round(share * (self.dots - 1))))

    def row(self, value: float) -> int:
        """The row of cells a value lies in."""
        return self.dot(value) // _DOWN


def _scale(panel: Panel, height: int) -> _Scale:
    known = [level for level in panel.levels if level is not None]
    reach = [limit.at for limit in panel.limits if limit.is_shown]
    values = [*(one.lowest for one in known), *(one.highest for one in known), *reach]
    low, high = min(values, default=0.0), max(values, default=1.0)
    pad = max(high - low, 1.0) * _PAD
    return _Scale(low - pad, high + pad, height * _DOWN)


def _lines(panel: Panel, scale: _Scale) -> set[int]:
    return {scale.row(one.at) for one in panel.limits if scale.low <= one.at <= scale.high}


def _labels(panel: Panel, scale: _Scale) -> dict[int, str]:
    """What stands left of each row: limits, and where there is room the ends of the curve."""
    known = [level for level in panel.levels if level is not None]
    labels: dict[int, str] = {}
    if known:
        lowest, highest = panel.written
        labels[scale.row(min(one.lowest for one in known))] = lowest
        labels[scale.row(max(one.highest for one in known))] = highest
    inside = [one for one in panel.limits if scale.low <= one.at <= scale.high]
    return labels | {scale.row(one.at): one.label for one in inside}


def _dots(levels: Levels, scale: _Scale) -> dict[tuple[int, int], int]:
    """The dots of each cell of the curve."""
    dots: dict[tuple[int, int], int] = {}
    for column, (top, bottom) in _columns(levels, scale):
        for dot in range(top, bottom + 1):
            key = (column // _ACROSS, dot // _DOWN)
            dots[key] = dots.get(key, 0) | _BITS[dot % _DOWN][column % _ACROSS]
    return dots


def _columns(levels: Levels, scale: _Scale) -> Iterator[tuple[int, tuple[int, int]]]:
    """From which dot to which each column goes; half of the way to a neighbour it does not meet."""
    spans = [
        None if one is None else (scale.dot(one.highest), scale.dot(one.lowest)) for one in levels
    ]
    reached = [None if span is None else list(span) for span in spans]
    for place, (one, other) in enumerate(pairwise(spans)):
        here, there = reached[place], reached[place + 1]
        if one is None or other is None or here is None or there is None:
            continue
        if other[0] > one[1] + 1:
            here[1] = max(here[1], (one[1] + other[0]) // 2)
            there[0] = min(there[0], here[1] + 1)
        elif one[0] > other[1] + 1:
            here[0] = min(here[0], (one[0] + other[1] + 1) // 2)
            there[1] = max(there[1], here[0] - 1)
    yield from ((place, (span[0], span[1])) for place, span in enumerate(reached) if span)


def _part(panel: Panel, cell: int, row: int, scale: _Scale) -> Part:
    """What the curve is in a cell: beyond a limit, if it passed one there."""
    own = [one for one in panel.levels[cell * _ACROSS : (cell + 1) * _ACROSS] if one is not None]
    found = Part.CURVE
    for limit in panel.limits:
        at = scale.row(limit.at)
        is_there = row <= at if limit.upwards else row >= at
        if is_there and any(limit.is_passed(level) for level in own):
            found = limit.beyond
    return found


def _notes(levels: Levels, across: int, height: int) -> dict[tuple[int, int], str]:
    """What is written where nothing is known."""
    notes: dict[tuple[int, int], str] = {}
    known = [any(levels[cell * _ACROSS : (cell + 1) * _ACROSS]) for cell in range(across)]
    for is_known, cells in groupby(range(across), key=known.__getitem__):
        hole = list(cells)
        if is_known:
            continue
        said = _NOT_KNOWN if len(hole) >= len(_NOT_KNOWN) else _SHORT_NOT_KNOWN
        first = hole[0] + (len(hole) - len(said)) // 2
        notes |= {(first + place, height // 2): one for place, one in enumerate(said)}
    return notes


def _runs(cells: Sequence[tuple[str, Part]]) -> Iterator[Run]:
    """Neighbours of one part together."""
    for part, some in groupby(cells, key=lambda cell: cell[1]):
        yield Run("".join(text for text, _ in some), part)
