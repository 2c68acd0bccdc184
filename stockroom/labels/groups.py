"""The groups of lines of a label, each in one size: code, title, width, warning, table.

At arm's length (0.7 m) the preferred 20 minutes of arc of ISO 9241-3, as quoted in ergonomics
handbooks, are 16 points in this typeface, and the least, 16 minutes, are 13. So: the code at least
16, on the smallest label 15; material and width 12, the rest 7 (the floor of European rules for
packages). A long name or size may shrink to 10 before it is cut.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Final, TypeAlias

from stockroom.labels.blank import LEAST_CODE_PT, Blank, Column
from stockroom.labels.lettering import Face, balanced, broken, in_lines, shortened

Pairs: TypeAlias = tuple[tuple[str, str], ...]

_MIDDLE_PT: Final = 12
_LONG_PT: Final = 10


@dataclass(frozen=True, slots=True)
class Style:
    """How generously a label is set.

    Points of the small print and, at most, of the code; from line to line and between two groups,
    in sizes of the small print; whether its values are bold.
    """

    small_pt: int
    code_pt: int
    line: float
    gap: float
    bold: bool


_TIGHT: Final = Style(7, 16, 1.0, 0.15, bold=False)
STYLES: Final = (
    Style(9, 22, 1.25, 0.6, bold=True),
    Style(8, 18, 1.1, 0.3, bold=True),
    _TIGHT,
)


@dataclass(frozen=True, slots=True)
class Mark:
    """A piece of text on a line; x is where its ink begins."""

    text: str
    face: Face
    x: int

    @property
    def end(self) -> int:
        """Where its ink ends."""
        return self.x + self.face.ink(self.text).width


Line: TypeAlias = tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class Group:
    """Lines of one kind, one below the other, measured by their ink."""

    lines: tuple[Line, ...]
    spacing: float = 1.0

    @property
    def baselines(self) -> tuple[int, ...]:
        """How far each baseline is below the top; no line's ink reaches into another's."""
        steps = (
            max(_drop(above) + _rise(below), round(self.spacing * below[0].face.dots))
            for above, below in pairwise(self.lines)
        )
        return tuple(accumulate(steps, initial=_rise(self.lines[0])))

    @property
    def height(self) -> int:
        """From the top to the bottom of the ink."""
        return self.baselines[-1] + _drop(self.lines[-1])


def _rise(line: Line) -> int:
    return max(mark.face.ink(mark.text).rise for mark in line)


def _drop(line: Line) -> int:
    return max(mark.face.ink(mark.text).drop for mark in line)


def code_group(code: str, style: Style, column: Column) -> Group:
    """The code, as large as the column and the style allow."""
    sizes = range(style.code_pt, LEAST_CODE_PT - 1, -1)
    face = _largest(code, [column.face(points, bold=True) for points in sizes], column)
    return Group(((Mark(code, face, column.left),),))


def _largest(text: str, faces: Sequence[Face], column: Column) -> Face:
    return next((face for face in faces if face.fits(text, column.width)), faces[-1])


def title_groups(title: str, style: Style, column: Column, *, whole: bool) -> Iterator[Group]:
    """The title in the ways it can be set, best first: on one line, on two, smaller, cut."""
    sizes = [(1, 15), (1, 14), (1, 13), (1, _MIDDLE_PT), (2, _MIDDLE_PT)]
    if style is _TIGHT:
        sizes += [(1, 11), (2, 11), (1, _LONG_PT), (2, _LONG_PT)]
    for most, points in sizes:
        yield from stacked(title, column.face(points), column, most)
    if style is _TIGHT and not whole:
        face = column.face(_LONG_PT)
        yield stack(in_lines(title, face, column.width, 2), face, column)


def stacked(text: str, face: Face, column: Column, most: int) -> Iterator[Group]:
    """The text on lines of even width; nothing if it takes more of them."""
    if len(broken(text, face, column.width)) <= most:
        yield stack(balanced(text, face, column.width), face, column)


def stack(lines: tuple[str, ...], face: Face, column: Column) -> Group:
    """Lines one below the other, all beginning at the left."""
    return Group(tuple((Mark(line, face, column.left),) for line in lines))


def warning_groups(warning: str, style: Style, column: Column) -> Iterator[Group]:
    """The warning in bold, never cut; nothing where there is none."""
    if warning:
        yield from stacked(warning, column.face(style.small_pt, bold=True), column, len(warning))


def detail_groups(detail: str, caution: str, style: Style, column: Column) -> Iterator[Group]:
    """The width of the film, and a caution at the end of its line or, if too long, below it."""
    small = column.face(style.small_pt, bold=True)
    short = shortened(caution, small, column.width)
    if not detail:
        yield from stacked(short, small, column, 1) if caution else ()
        return
    faces = [column.face(points) for points in range(_MIDDLE_PT, _LONG_PT - 1, -1)]
    last = Mark(short, small, column.right - small.ink(short).width)
    marks = [
        Mark(detail, face, column.left) for face in faces[: len(faces) if style is _TIGHT else 1]
    ]
    beside = (mark for mark in marks if caution and mark.end + mark.face.dots // 2 <= last.x)
    if mark := next(beside, None):
        yield Group(((mark, last),))
        return
    face = _largest(detail, faces, column)
    yield Group(((Mark(shortened(detail, face, column.width), face, column.left),),))
    if caution:
        yield Group(((Mark(short, small, column.left),),))


def site_groups(site: str, column: Column) -> Iterator[Group]:
    """Where a job is, on at most two lines; nothing where there is no site."""
    if site:
        face = column.face(_LONG_PT)
        yield stack(in_lines(site, face, column.width, 2), face, column)


def table_group(rows: Pairs, foot: Line, style: Style, column: Column) -> Group:
    """Names with their values in a second column, the foot on the last line.

    A value too long for the second column begins right after its name.
    """
    name_face = column.face(style.small_pt)
    value_face = column.face(style.small_pt, bold=style.bold)
    space = name_face.dots // 2
    half = column.width // 2
    names = [Mark(shortened(name, name_face, half), name_face, column.left) for name, _ in rows]
    second = max(name.end for name in names) + space
    lines: list[Line] = []
    for name, (_, value) in zip(names, rows, strict=True):
        x = second if value_face.fits(value, column.right - second) else name.end + space
        lines.append((name, Mark(shortened(value, value_face, column.right - x), value_face, x)))
    return Group((*lines[:-1], lines[-1] + foot), style.line)


def foot(row: tuple[str, str], style: Style, blank: Blank) -> Line:
    """A name and its value under the QR code; nothing if there is no room."""
    name = Mark(row[0], blank.beside.face(style.small_pt), blank.margin)
    space = name.face.dots // 3
    value = Mark(row[1], blank.beside.face(style.small_pt, bold=style.bold), name.end + space)
    below = blank.height - blank.margin - blank.side
    fits = value.end + space <= blank.beside.left and Group(((name, value),)).height < below
    return (name, value) if fits else ()
