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
LEAST_CODE_PT: Final = 16


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
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
    def left(self) -> int:
        """Where words begin: half a margin after the quiet zone."""
        return self.side + self.margin // 2

    @property
    def right(self) -> int:
        """Where words must have ended."""
        return self.width - self.margin

    @property
    def column(self) -> int:
        """The width that is left for words beside the QR code."""
        return self.right - self.left

    def face(self, points: float, *, bold: bool = False) -> Face:
        """The typeface at no less than that many points, larger on a larger label."""
        return Face(ceil(points * self.dots_per_point), bold)


def sheet_of(size: LabelSize, dpi: int) -> Sheet:
    """The label with the largest QR code that leaves room beside it for a readable code."""
    width, height = size.dots(dpi)
    scale = max(1, min(size.across_mm / USUAL.across_mm, size.along_mm / USUAL.along_mm))
    largest = int(_TALLEST_SYMBOL * height) // MODULES
    sheets = (
        Sheet(
            width=width,
            height=height,
            margin=round(_MARGIN_MM * dpi / _MM_PER_INCH),
            module=module,
            dots_per_point=scale * dpi / _POINTS_PER_INCH,
        )
        for module in range(largest, 0, -1)
    )
    return next(
        sheet
        for sheet in sheets
        if sheet.face(LEAST_CODE_PT, bold=True).fits(_WIDEST_CODE, sheet.column)
    )
