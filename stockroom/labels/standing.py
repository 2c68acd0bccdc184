"""Where the words of a label that stands go, in printer dots.

A large QR code for the distance of a rack, the code beside it in letters for the same distance;
below them the title, the width, the warning. At the foot the same code twice more, small, at
opposite ends, with lot and dates between them: where one is torn off or dirty, another is read.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil
from typing import Final

from stockroom.labels.blank import Column
from stockroom.labels.groups import Group, Mark, Pairs, Style, stack, stacked, table_group
from stockroom.labels.layout import Layout, Spot, Words, fewer_and_fewer, no_room, placed
from stockroom.labels.lettering import in_lines
from stockroom.labels.size import LabelSize
from stockroom.labels.symbol import MODULES, QUIET

_POINTS_PER_INCH: Final = 72
_MM_PER_INCH: Final = 25.4
_WIDEST_SYMBOL: Final = 0.58
_SMALL_MODULE_MM: Final = 0.62
_CODE_PT: Final = range(90, 15, -2)
_TITLE_PT: Final = (32, 28, 24, 21, 18, 15, 12)
_POSTER_PT: Final = (72, 60, 50, 42, 36)
_TITLE_LINES: Final = 3
_TABLE_PT: Final = (12, 11, 10, 9, 8, 7)
_DETAIL, _CAUTION = 0.85, 0.65
_LEAST_PT: Final = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """What is fixed before a word is set; everything in dots, and black begins at one edge."""

    width: int
    height: int
    large: int
    small: int
    dots_per_point: float

    @property
    def edge(self) -> int:
        """The margin on every side: the quiet zone of the large QR code."""
        return QUIET * self.large

    @property
    def beside(self) -> Column:
        """The words beside the large QR code."""
        return Column(MODULES * self.large, self.width - self.edge, self.dots_per_point)

    @property
    def below(self) -> Column:
        """The words below it, over the whole width."""
        return Column(self.edge, self.width - self.edge, self.dots_per_point)

    @property
    def between(self) -> Column:
        """The words at the foot, between the small QR codes."""
        taken = self.edge + (MODULES - QUIET) * self.small
        return Column(taken, self.width - taken, self.dots_per_point)

    @property
    def foot(self) -> int:
        """How high the small QR codes are."""
        return (MODULES - 2 * QUIET) * self.small

    def spots(self) -> tuple[Spot, ...]:
        """The QR codes: a large one at the top, two small ones at the foot."""
        near = self.edge - QUIET * self.small
        side = MODULES * self.small
        y = self.height - near - side
        small = (Spot(x, y, self.small) for x in (near, self.width - near - side))
        return Spot(0, 0, self.large), *small


def lay_out_standing(words: Words, size: LabelSize, dpi: int) -> Layout:
    """The layout with the largest letters in which everything fits, with fewer words if it must be."""
    width, height = size.dots(dpi)
    stand = Stand(
        width=width,
        height=height,
        large=int(_WIDEST_SYMBOL * width) // MODULES,
        small=ceil(_SMALL_MODULE_MM * dpi / _MM_PER_INCH),
        dots_per_point=dpi / _POINTS_PER_INCH,
    )
    for fewer in fewer_and_fewer(words):
        table = _table(fewer.facts + fewer.dates, stand)
        foot = max([stand.foot, *(group.height for group in table)])
        room = stand.height - stand.edge - foot - MODULES * stand.large
        for groups in _stacks(fewer, stand):
            gap = groups[0].lines[0][0].face.dots // 2
            if sum(group.height + gap for group in groups) <= room:
                return Layout(tuple(_placed(words.code, groups, table, stand)), stand.spots())
    raise no_room(words)


def _table(rows: Pairs, stand: Stand) -> tuple[Group, ...]:
    """Lot and dates in the largest letters that leave them whole; nothing where there are none."""
    if not rows:
        return ()
    tables = [
        table_group(rows, (), Style(points, 0, 1.2, 0, bold=True), stand.between)
        for points in _TABLE_PT
    ]
    return (next((table for table in tables if _is_whole(table, rows)), tables[-1]),)


def _is_whole(table: Group, rows: Pairs) -> bool:
    return tuple(tuple(mark.text for mark in line) for line in table.lines) == rows


def _stacks(words: Words, stand: Stand) -> Iterator[tuple[Group, ...]]:
    """Title, width, caution and warning in smaller and smaller letters, at last cut."""
    for points in _POSTER_PT if words.is_poster else ():
        yield from _whole(words, points, stand.below, 1)
    for points in _TITLE_PT:
        yield from _whole(words, points, stand.below, _TITLE_LINES)
    if not words.warning:
        face = stand.below.face(_TITLE_PT[-1])
        texts = filter(None, (words.title, words.detail, words.lifting))
        lines = (in_lines(text, face, stand.below.width, 2) for text in texts)
        yield tuple(stack(one, face, stand.below) for one in lines)


def _whole(words: Words, points: int, column: Column, most: int) -> Iterator[tuple[Group, ...]]:
    """The words under a title of so many points; nothing if one of them takes too many lines."""
    detail = column.face(_legible(_DETAIL * points))
    caution = column.face(_legible(_CAUTION * points), bold=True)
    wanted = [
        (words.title, column.face(points), most),
        (words.detail, detail, 2),
        (words.lifting, caution, 2),
        (words.warning, caution, len(words.warning)),
    ]
    said = [one for one in wanted if one[0]]
    groups = [
        group for text, face, at_most in said for group in stacked(text, face, column, at_most)
    ]
    if len(groups) == len(said):
        yield tuple(groups)


def _legible(points: float) -> float:
    """Letters that are never small, and never louder than the code."""
    return max(_LEAST_PT, min(points, _TITLE_PT[0]))


def _placed(
    code: str, groups: tuple[Group, ...], table: tuple[Group, ...], stand: Stand
) -> Iterator[tuple[Mark, int]]:
    """Each mark with its baseline: the code, the words below, and the table at the foot."""
    yield from placed(_code_group(code, stand), stand.edge)
    top = MODULES * stand.large
    for group in groups:
        yield from placed(group, top)
        top += group.height + groups[0].lines[0][0].face.dots // 2
    for group in table:
        yield from placed(group, stand.height - stand.edge - group.height)


def _code_group(code: str, stand: Stand) -> Group:
    """The code in two lines, as large as fits beside the QR code."""
    column = stand.beside
    faces = [column.face(points, bold=True) for points in _CODE_PT]
    sizes = (stack(tuple(code.split()), face, column) for face in faces)
    most = (MODULES - 2 * QUIET) * stand.large
    fitting = (one for one in sizes if _widest(one) <= column.right and one.height <= most)
    return next(fitting)


def _widest(group: Group) -> int:
    return max(mark.end for line in group.lines for mark in line)
