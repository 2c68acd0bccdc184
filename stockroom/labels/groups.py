"""The groups of lines that stand beside the QR code, each in one size: code, material, width, table.

At arm's length (0.7 m) the preferred 20 minutes of arc of ISO 9241-3, as quoted in ergonomics
handbooks, are 16 points in this typeface. So: the code at least 16, material and width 12, the rest
7 (the floor of European rules for packages). A long name or size may shrink to 10 before it is cut.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Final, TypeAlias

from stockroom.labels.lettering import Face, balanced, broken, in_lines, shortened
from stockroom.labels.sheet import LEAST_CODE_PT, Sheet

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


_TIGHT: Final = Style(7, LEAST_CODE_PT, 1.0, 0.15, bold=False)
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


def code_group(code: str, style: Style, sheet: Sheet) -> Group:
    """The code, as large as the column and the style allow."""
    sizes = range(style.code_pt, LEAST_CODE_PT - 1, -1)
    face = _largest(code, [sheet.face(points, bold=True) for points in sizes], sheet)
    return Group(((Mark(code, face, sheet.left),),))


def _largest(text: str, faces: Sequence[Face], sheet: Sheet) -> Face:
    return next((face for face in faces if face.fits(text, sheet.column)), faces[-1])


def title_groups(title: str, style: Style, sheet: Sheet) -> Iterator[Group]:
    """The material in the ways it can be set, best first: on one line, on two, smaller, cut."""
    whole = [(1, 15), (1, 14), (1, 13), (1, _MIDDLE_PT), (2, _MIDDLE_PT)]
    if style is _TIGHT:
        whole += [(2, 11), (2, _LONG_PT)]
    for most, points in whole:
        face = sheet.face(points)
        if len(broken(title, face, sheet.column)) <= most:
            yield _stacked(balanced(title, face, sheet.column), face, sheet)
    if style is _TIGHT:
        face = sheet.face(_LONG_PT)
        yield _stacked(in_lines(title, face, sheet.column, 2), face, sheet)


def _stacked(lines: tuple[str, ...], face: Face, sheet: Sheet) -> Group:
    return Group(tuple((Mark(line, face, sheet.left),) for line in lines))


def width_groups(width: str, caution: str, style: Style, sheet: Sheet) -> tuple[Group, ...]:
    """The width of the film, and a caution at the end of its line or, if too long, below it."""
    sizes = range(_MIDDLE_PT, _LONG_PT - 1, -1)
    face = _largest(width, [sheet.face(points) for points in sizes], sheet)
    small = sheet.face(style.small_pt, bold=True)
    mark = Mark(shortened(width, face, sheet.column), face, sheet.left)
    if not caution:
        return (Group(((mark,),)),)
    last = Mark(caution, small, sheet.right - small.ink(caution).width)
    if mark.end + face.dots // 2 <= last.x:
        return (Group(((mark, last),)),)
    below = Mark(shortened(caution, small, sheet.column), small, sheet.left)
    return Group(((mark,),)), Group(((below,),))


def table_group(rows: Pairs, foot: Line, style: Style, sheet: Sheet) -> Group:
    """Names with their values in a second column, the foot on the last line.

    A value too long for the second column begins right after its name.
    """
    name_face = sheet.face(style.small_pt)
    value_face = sheet.face(style.small_pt, bold=style.bold)
    space = name_face.dots // 2
    half = sheet.column // 2
    names = [Mark(shortened(name, name_face, half), name_face, sheet.left) for name, _ in rows]
    second = max(name.end for name in names) + space
    lines: list[Line] = []
    for name, (_, value) in zip(names, rows, strict=True):
        x = second if value_face.fits(value, sheet.right - second) else name.end + space
        lines.append((name, Mark(shortened(value, value_face, sheet.right - x), value_face, x)))
    return Group((*lines[:-1], lines[-1] + foot), style.line)


def foot(row: tuple[str, str], style: Style, sheet: Sheet) -> Line:
    """A name and its value under the QR code; nothing if there is no room."""
    name = Mark(row[0], sheet.face(style.small_pt), sheet.margin)
    space = name.face.dots // 3
    value = Mark(row[1], sheet.face(style.small_pt, bold=style.bold), name.end + space)
    below = sheet.height - sheet.margin - sheet.side
    fits = value.end + space <= sheet.left and Group(((name, value),)).height < below
    return (name, value) if fits else ()
