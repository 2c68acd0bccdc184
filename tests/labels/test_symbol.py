"""The QR code: version 1, level H, whole dots, nothing in its quiet zone."""

import pytest
from PIL import Image, ImageChops

from stockroom.labels.picture import draw
from stockroom.labels.size import LabelSize, read_size
from stockroom.labels.symbol import MODULES, QUIET, symbol
from tests.labels.builders import CODE, USUAL, a_label
from tests.labels.seeing import scanned, symbol_boxes

# Whole dots for one module of 0.75 mm or more on a label of 62x29 mm.
DOTS = ((203, 6), (300, 10))
# ISO/IEC 18004: version 1 has 21 modules a side and asks for four free modules around them.
SIDE, FREE = 21, 4


@pytest.mark.parametrize("code", [CODE, "C0001203", "B000120K", "J000122S", "P000124X"])
@pytest.mark.parametrize(("dpi", "dots"), DOTS)
def test_a_scanner_reads_the_code_and_nothing_else(code: str, dpi: int, dots: int) -> None:
    """Every kind of code is read back as eight characters, version 1, level H."""
    image = draw(a_label(code=code), USUAL, dpi)

    assert scanned(image) == [(code.encode(), "H", "1")]


@pytest.mark.parametrize(("dpi", "dots"), DOTS)
def test_every_module_is_a_square_of_whole_dots(dpi: int, dots: int) -> None:
    """A thermal head that cannot print half a dot has nothing to round."""
    label = a_label()
    drawn = draw(label, USUAL, dpi).crop(symbol_boxes(label, USUAL, dpi)[0])

    modules = drawn.resize((SIDE + 2 * FREE,) * 2, Image.Resampling.NEAREST)

    assert drawn.size == ((SIDE + 2 * FREE) * dots,) * 2
    assert _same(modules.resize(drawn.size, Image.Resampling.NEAREST), drawn)


@pytest.mark.parametrize(("dpi", "dots"), DOTS)
def test_the_quiet_zone_is_white_and_the_finders_begin_behind_it(dpi: int, dots: int) -> None:
    """Four modules on each side are free, and the fifth is a finder's corner."""
    label = a_label()
    drawn = draw(label, USUAL, dpi).crop(symbol_boxes(label, USUAL, dpi)[0])

    dark = drawn.convert("L").point([255 - value for value in range(256)]).getbbox()

    assert dark == (FREE * dots, FREE * dots, (FREE + SIDE) * dots, (FREE + SIDE) * dots)


def test_the_symbol_stands_for_what_the_standard_says() -> None:
    """The constants the layout rests on are the standard's."""
    assert (QUIET, MODULES) == (FREE, SIDE + 2 * FREE)
    assert symbol(CODE, 3).size == (87, 87)


@pytest.mark.parametrize("dpi", [203, 300])
@pytest.mark.parametrize(
    "size", [LabelSize(50, 25), USUAL, LabelSize(100, 50), LabelSize(100, 150)]
)
def test_no_module_is_smaller_than_a_camera_reads(size: LabelSize, dpi: int) -> None:
    """At least 0.59 mm and five dots, the smallest that a simulated camera read at once."""
    sides = [box[2] - box[0] for box in symbol_boxes(a_label(), size, dpi)]

    assert min(sides) / MODULES >= 5
    assert min(sides) / MODULES * 25.4 / dpi >= 0.59


# Measured once, and looked at; a change of these is a change of every label on the shelves.
GOLDEN = {
    ("50x25", 203): [(0, 27, 145, 172)],
    ("50x25", 300): [(0, 46, 203, 249)],
    ("62x29", 203): [(0, 16, 174, 190)],
    ("62x29", 300): [(0, 8, 290, 298)],
    ("100x50", 203): [(0, 40, 319, 359)],
    ("100x50", 300): [(0, 24, 493, 517)],
    ("100x150", 203): [(0, 0, 435, 435), (40, 1014, 185, 1159), (614, 1014, 759, 1159)],
    ("100x150", 300): [(0, 0, 667, 667), (60, 1480, 292, 1712), (889, 1480, 1121, 1712)],
}


@pytest.mark.parametrize(("size", "dpi"), GOLDEN)
def test_the_codes_stand_where_they_always_stood(size: str, dpi: int) -> None:
    """Left, top, right and bottom of each quiet zone, in dots."""
    assert symbol_boxes(a_label(), read_size(size), dpi) == GOLDEN[size, dpi]


def _same(one: Image.Image, other: Image.Image) -> bool:
    return ImageChops.difference(one.convert("L"), other.convert("L")).getbbox() is None
