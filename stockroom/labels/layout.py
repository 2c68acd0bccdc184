"""Where the words of a label go, in printer dots.

The QR code stands at the left with its quiet zone; beside it, in the order in which an eye should
meet them: the code, the material, the width, then lot and dates as a small table. If there is room,
the first date stands under the QR code, so that a film's two ends (made, maker's shelf date) are
read in one line. What a small label has no room for is left out by rank, dates first.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from typing import Final

from stockroom.errors import Code, Refusal
from stockroom.labels.groups import (
    STYLES,
    Group,
    Mark,
    Pairs,
    Style,
    code_group,
    foot,
    table_group,
    title_groups,
    width_groups,
)
from stockroom.labels.sheet import Sheet

_ENDS: Final = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """What stands on a label, ready to be set."""

    code: str
    title: str
    width: str
    lot: str
    dates: Pairs
    caution: str


@dataclass(frozen=True, slots=True)
class Layout:
    """Each piece of text with its baseline, and how far down the QR code stands."""

    marks: tuple[tuple[Mark, int], ...]
    symbol_y: int


def lay_out(words: Words, sheet: Sheet) -> Layout:
    """The roomiest layout in which everything fits, with fewer dates if it must be."""
    for dates, style in product(_fewer_and_fewer(words.dates), STYLES):
        for title in title_groups(words.title, style, sheet):
            layout = _attempt(words, dates, style, title, sheet)
            if layout:
                return layout
    raise Refusal(Code.BAD_LABEL, f"The words of {words.code} do not fit: use a larger label.")


def _fewer_and_fewer(dates: Pairs) -> Iterator[Pairs]:
    """First and last date, the two ends of a film's life, are the last to go."""
    while dates:
        yield dates
        dates = dates[:1] + dates[2:] if len(dates) > _ENDS else dates[:-1]
    yield dates


def _attempt(words: Words, dates: Pairs, style: Style, title: Group, sheet: Sheet) -> Layout | None:
    under = foot(dates[0], style, sheet) if dates else ()
    rows = (("lot", words.lot), *(dates[1:] if under else dates))
    table = table_group(rows, under, style, sheet)
    widths = width_groups(words.width, words.caution, style, sheet)
    groups = (code_group(words.code, style, sheet), title, *widths, table)
    gaps = len(groups) - 1
    spare = sheet.height - 2 * sheet.margin - sum(group.height for group in groups)
    if spare < gaps * style.gap * table.lines[0][0].face.dots:
        return None
    marks = tuple(_placed(groups, spare, sheet))
    below = sheet.height - sheet.margin - Group(table.lines[-1:]).height if under else sheet.height
    return Layout(marks, (below - sheet.side) // 2)


def _placed(groups: tuple[Group, ...], spare: int, sheet: Sheet) -> Iterator[tuple[Mark, int]]:
    """Each mark with its baseline; what is spare goes between the groups in equal parts."""
    gaps = len(groups) - 1
    top = sheet.margin
    for number, group in enumerate(groups):
        for line, baseline in zip(group.lines, group.baselines, strict=True):
            for mark in line:
                yield mark, top + baseline
        top += group.height + spare * (number + 1) // gaps - spare * number // gaps
