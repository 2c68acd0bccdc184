"""Looking at a label as a scanner and as an eye does."""

from functools import lru_cache

import pypdfium2
import zxingcpp
from PIL import Image, ImageDraw

from stockroom.labels.layout import Layout
from stockroom.labels.picture import Label, layout_of
from stockroom.labels.size import LabelSize
from stockroom.labels.symbol import MODULES

Box = tuple[int, int, int, int]

_AROUND = 100


def scanned(image: Image.Image) -> list[tuple[bytes, str, str]]:
    """Content, error correction level and version of every code in the picture."""
    found = zxingcpp.read_barcodes(image.convert("L"))
    return [(one.bytes, one.ec_level, _version(one)) for one in found]


def _version(one: zxingcpp.Barcode) -> str:
    assert isinstance(one.extra, dict)
    return str(one.extra["Version"])


def pages(content: bytes, dpi: int) -> list[Image.Image]:
    """The pages of a PDF as a printer of that resolution would see them."""
    with pypdfium2.PdfDocument(content) as document:
        return [page.render(scale=dpi / 72).to_pil().convert("L") for page in document]


def black(image: Image.Image) -> int:
    """How many dots are black."""
    return image.convert("L").histogram()[0]


@lru_cache(maxsize=4)
def _layout(label: Label, size: LabelSize, dpi: int) -> Layout:
    return layout_of(label, size, dpi)


def symbol_boxes(label: Label, size: LabelSize, dpi: int) -> list[Box]:
    """Where the QR codes and their quiet zones are, the largest first."""
    sides = [(spot, MODULES * spot.module) for spot in _layout(label, size, dpi).spots]
    return [(spot.x, spot.y, spot.x + side, spot.y + side) for spot, side in sides]


def texts(label: Label, size: LabelSize, dpi: int) -> list[tuple[str, int, Box]]:
    """Each text of the label, the size of its letters in dots, and the box of its black dots."""
    width, height = size.dots(dpi)
    found: list[tuple[str, int, Box]] = []
    for mark, baseline in _layout(label, size, dpi).marks:
        image = Image.new("1", (width + 2 * _AROUND, height + 2 * _AROUND), 0)
        begins = (mark.x - mark.face.ink(mark.text).left + _AROUND, baseline + _AROUND)
        pen = ImageDraw.Draw(image)
        pen.text(begins, mark.text, font=mark.face.font, fill=1, anchor="ls")
        box = image.getbbox()
        if box:
            left, top, right, bottom = (dots - _AROUND for dots in box)
            found.append((mark.text, mark.face.dots, (left, top, right, bottom)))
    return found


def overlap(one: Box, other: Box) -> bool:
    """Whether two boxes share a dot."""
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def printed(content: bytes) -> list[str]:
    """The words of each page of a PDF, as a reader would copy them."""
    with pypdfium2.PdfDocument(content) as document:
        return [page.get_textpage().get_text_range() for page in document]
