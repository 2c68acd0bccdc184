"""The empty label in printer dots: its margin, its QR code's place and the column for the words."""

from dataclasses import dataclass
from math import ceil
from typing import Final

from stockroom.labels.lettering import Face
from stockroom.labels.size import USUAL, LabelSize
from stockroom.labels.symbol import MODULES

_POINTS_PER_INCH: Final = 72
_MM_PER_INCH: Final = 25.4
_MARGIN_MM: Final = 1.0
_TALLEST_SYMBOL: Final = 0.86
_WIDEST_CODE: Final = "R000 000N"
LEAST_CODE_PT: Final = 15


@dataclass(frozen=True, slots=True)
class Column:
    """Where words begin, where they must have ended, and how large a point is; in dots."""

    left: int
    right: int
    dots_per_point: float

    @property
    def width(self) -> int:
        """The width that is left for words."""
        return self.right - self.left

    def face(self, points: float, *, bold: bool = False) -> Face:
        """The typeface at no less than that many points, larger on a larger label."""
        return Face(ceil(points * self.dots_per_point), bold)


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """What is fixed before a word is set; everything in dots."""

    width: int
    height: int
    margin: int
    module: int
    dots_per_point: float

    @property
    def side(self) -> int:
        """The QR code with its quiet zone."""
        return MODULES * self.module

    @property
    def beside(self) -> Column:
        """The words beside the QR code; they begin half a margin after the quiet zone."""
        left = self.side + self.margin // 2
        return Column(left, self.width - self.margin, self.dots_per_point)


def blank_of(size: LabelSize, dpi: int) -> Blank:
    """The label with the largest QR code that leaves room beside it for a readable code."""
    width, height = size.dots(dpi)
    scale = max(1, min(size.across_mm / USUAL.across_mm, size.along_mm / USUAL.along_mm))
    largest = int(_TALLEST_SYMBOL * height) // MODULES
    blanks = (
        Blank(
            width=width,
            height=height,
            margin=round(_MARGIN_MM * dpi / _MM_PER_INCH),
            module=module,
            dots_per_point=scale * dpi / _POINTS_PER_INCH,
        )
        for module in range(largest, 0, -1)
    )
    return next(
        blank
        for blank in blanks
        if blank.beside.face(LEAST_CODE_PT, bold=True).fits(_WIDEST_CODE, blank.beside.width)
    )
