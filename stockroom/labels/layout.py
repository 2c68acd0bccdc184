"""Where the words of a label that lies go, in printer dots.

The QR code stands at the left with its quiet zone; beside it, in the order in which an eye should
meet them: the code, the material, the width, then lot and dates as a small table. If there is room,
the first date stands under the QR code, so that a film's two ends (made, maker's shelf date) are
read in one line. What a small label has no room for is left out by rank, dates first; a warning and
what it warns of are never cut.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product
from typing import Final

from stockroom.errors import Code, Refusal
from stockroom.labels.blank import Blank, Column
from stockroom.labels.groups import (
    STYLES,
    Group,
    Mark,
    Pairs,
    Style,
    code_group,
    detail_groups,
    foot,
    site_groups,
    stacked,
    table_group,
    title_groups,
    warning_groups,
)

_ENDS: Final = 2
_WIDEST_GAP: Final = 8
_POSTER_PT: Final = (34, 30, 26, 22, 18)


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """What stands on a label, ready to be set; only `dates` and `mass` may be left out."""

    code: str
    title: str
    detail: str
    facts: Pairs
    dates: Pairs
    mass: str
    caution: str
    warning: str

    @property
    def lifting(self) -> str:
        """What it weighs and who lifts it, in one line."""
        return ", ".join(filter(None, (self.mass, self.caution)))

    @property
    def is_poster(self) -> bool:
        """Whether there is nothing to tell but a name, like that of a place."""
        return not (self.facts or self.dates or self.warning)


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a QR code begins, quiet zone and all, and how many dots its modules have."""

    x: int
    y: int
    module: int


@dataclass(frozen=True, slots=True)
class Layout:
    """Each piece of text with its baseline, and the QR codes."""

    marks: tuple[tuple[Mark, int], ...]
    spots: tuple[Spot, ...]


def lay_out(words: Words, blank: Blank) -> Layout:
    """The roomiest layout in which everything fits, with fewer words if it must be."""
    for fewer, style in product(fewer_and_fewer(words), STYLES):
        for title in _titles(fewer, style, blank):
            layout = _attempt(fewer, style, title, blank)
            if layout:
                return layout
    raise no_room(words)


def no_room(words: Words) -> Refusal:
    """What to say when the words are too many for the label."""
    return Refusal(Code.BAD_LABEL, f"The words of {words.code} do not fit: use a larger label.")


def fewer_and_fewer(words: Words) -> Iterator[Words]:
    """First and last date, the two ends of a film's life, are the last to go, after the mass."""
    yield words
    while len(words.dates) > _ENDS:
        words = replace(words, dates=words.dates[:1] + words.dates[2:])
        yield words
    words = replace(words, mass="")
    yield words
    while words.dates:
        words = replace(words, dates=words.dates[:-1])
        yield words


def _titles(words: Words, style: Style, blank: Blank) -> Iterator[Group]:
    """The title in the ways it can be set, best first; a name alone in the largest letters."""
    column = blank.beside
    if words.is_poster:
        for points in _POSTER_PT:
            yield from stacked(words.title, column.face(points), column, 1)
    yield from title_groups(words.title, style, column, whole=bool(words.warning))


def _details(words: Words, style: Style, column: Column) -> Iterator[Group]:
    if words.is_poster:
        return site_groups(words.detail, column)
    return detail_groups(words.detail, words.lifting, style, column)


def _attempt(words: Words, style: Style, title: Group, blank: Blank) -> Layout | None:
    column, dates = blank.beside, words.dates
    under = foot(dates[0], style, blank) if dates and words.facts else ()
    rows = words.facts + (dates[1:] if under else dates)
    groups = (
        code_group(words.code, style, column),
        title,
        *_details(words, style, column),
        *warning_groups(words.warning, style, column),
        *([table_group(rows, under, style, column)] if rows else []),
    )
    spare = blank.height - 2 * blank.margin - sum(group.height for group in groups)
    if spare < (len(groups) - 1) * style.gap * column.face(style.small_pt).dots:
        return None
    marks = tuple(_placed(groups, spare, blank, reaches_foot=bool(under)))
    below = blank.height - (blank.margin + Group(groups[-1].lines[-1:]).height if under else 0)
    return Layout(marks, (Spot(0, (below - blank.side) // 2, blank.module),))


def _placed(
    groups: tuple[Group, ...], spare: int, blank: Blank, *, reaches_foot: bool
) -> Iterator[tuple[Mark, int]]:
    """Each mark with its baseline; what is spare goes between the groups in equal parts.

    A few groups keep together in the middle, unless the last line goes on under the QR code.
    """
    gaps = len(groups) - 1
    between = spare if reaches_foot else min(spare, gaps * blank.height // _WIDEST_GAP)
    top = blank.margin + (spare - between) // 2
    for number, group in enumerate(groups):
        yield from placed(group, top)
        top += group.height + between * (number + 1) // gaps - between * number // gaps


def placed(group: Group, top: int) -> Iterator[tuple[Mark, int]]:
    """Each mark of a group with its baseline."""
    for line, baseline in zip(group.lines, group.baselines, strict=True):
        for mark in line:
            yield mark, top + baseline
