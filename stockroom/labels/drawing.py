"""Pages for a wall or a clipboard: text, rules and QR codes in black, measured from the top left."""

from functools import cache
from importlib.resources import files
from io import BytesIO
from typing import Final

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from stockroom.labels.files import blank_pdf, put_picture
from stockroom.labels.lettering import settable
from stockroom.labels.paper import Paper
from stockroom.labels.symbol import symbol
from stockroom.units import MM

_POINTS_PER_MM: Final = 72 / 25.4
_DOTS: Final = 8
_PLAIN, _BOLD = "DejaVuSansCondensed", "DejaVuSansCondensed-Bold"
_MORE: Final = "\N{HORIZONTAL ELLIPSIS}"


class Drawing:
    """A document of pages of one size; every place on a page is in millimetres."""

    def __init__(self, title: str, paper: Paper, *, lies: bool = False) -> None:
        sides = (paper.across_nm / MM, paper.along_nm / MM)
        self.width_mm, self.height_mm = reversed(sides) if lies else sides
        self._content = BytesIO()
        self._canvas = blank_pdf(self._content, settable(title))
        size = self.width_mm * _POINTS_PER_MM, self.height_mm * _POINTS_PER_MM
        self._canvas.setPageSize(size)
        for name in (_PLAIN, _BOLD):
            _know(name)

    def text(
        self, x_mm: float, y_mm: float, words: str, points: float, *, bold: bool = False
    ) -> None:
        """Words on a baseline, cleaned."""
        self._canvas.setFont(_BOLD if bold else _PLAIN, points)
        self._canvas.drawString(
            x_mm * _POINTS_PER_MM, (self.height_mm - y_mm) * _POINTS_PER_MM, settable(words)
        )

    def rule(
        self, x_mm: float, y_mm: float, length_mm: float, *, points: float = 0.4, drop_mm: float = 0
    ) -> None:
        """A fine line, level, or going down so far instead."""
        x, y = x_mm * _POINTS_PER_MM, (self.height_mm - y_mm) * _POINTS_PER_MM
        self._canvas.setLineWidth(points)
        self._canvas.line(x, y, x + length_mm * _POINTS_PER_MM, y - drop_mm * _POINTS_PER_MM)

    def symbol(self, code: str, x_mm: float, y_mm: float, side_mm: float) -> None:
        """A QR code from its top left, with its quiet zone that wide in all."""
        side = side_mm * _POINTS_PER_MM
        x, y = x_mm * _POINTS_PER_MM, (self.height_mm - y_mm) * _POINTS_PER_MM - side
        put_picture(self._canvas, symbol(code, _DOTS), (x, y, side, side))

    def end_page(self) -> None:
        """Go on with the next page."""
        self._canvas.showPage()

    def content(self) -> bytes:
        """The document as a file; the same drawing is always the same bytes."""
        self._canvas.save()
        return self._content.getvalue()


def width_mm(words: str, points: float, *, bold: bool = False) -> float:
    """How wide words are set."""
    _know(_BOLD if bold else _PLAIN)
    name = _BOLD if bold else _PLAIN
    return pdfmetrics.stringWidth(settable(words), name, points) / _POINTS_PER_MM


def fitting(words: str, points: float, most_mm: float, *, bold: bool = False) -> str:
    """The words, cleaned, or as much of their beginning as fits with an ellipsis."""
    words = settable(words)
    if width_mm(words, points, bold=bold) <= most_mm:
        return words
    while words and width_mm(words + _MORE, points, bold=bold) > most_mm:
        words = words[:-1].rstrip()
    return words + _MORE


@cache
def _know(name: str) -> None:
    content = files("stockroom.labels").joinpath("fonts", f"{name}.ttf").read_bytes()
    pdfmetrics.registerFont(TTFont(name, BytesIO(content)))
