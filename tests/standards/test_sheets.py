"""Sheet sizes against their standards, as a second program measures the pages that were written."""

import pypdfium2
import pytest

from stockroom.labels.files import pdf_bytes, sheets_of
from stockroom.labels.hand_sheet import Column, HandSheet, hand_sheet
from stockroom.labels.paper import A4, LETTER, Paper, read_grid
from stockroom.labels.picture import Label, draw
from stockroom.labels.size import LabelSize
from stockroom.labels.wall_card import wall_card
from stockroom.units import INCH, MM

# ISO 216: A4 is 210 x 297 mm, which may be off by 1.5 mm up to 150 mm and 2 mm above. ASME Y14.1:
# size A is 8.5 x 11 in. Ours may be off by half a dot at 203 dots an inch, on sheets of labels.
SIZES_MM = {"a4": (210.0, 297.0), "letter": (8.5 * 25.4, 11 * 25.4)}
HALF_A_DOT_MM = 25.4 / 203 / 2
POINT_MM = 25.4 / 72


def sides_mm(content: bytes) -> list[tuple[float, float]]:
    """How large the pages are."""
    with pypdfium2.PdfDocument(content) as document:
        sizes = [page.get_size() for page in document]
    return [(width * POINT_MM, height * POINT_MM) for width, height in sizes]


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_every_page_has_the_size_of_its_standard(paper: Paper) -> None:
    """Sheets of labels and the wall card stand, sheets to fill by hand lie."""
    across, along = SIZES_MM[paper.name]
    size = LabelSize(50, 25)
    image = draw(Label(code="R0001231", title="clear 50"), size, 203)
    lying = hand_sheet(
        HandSheet(title="", subtitle="", columns=(Column("piece", 1),), row_mm=10), paper
    )

    labels = pdf_bytes(sheets_of([image] * 30, 203, read_grid("2x8", paper), size, 1), 203)

    assert len(sides_mm(labels)) == 2
    for page in sides_mm(labels):
        assert page == pytest.approx((across, along), abs=HALF_A_DOT_MM)
    assert sides_mm(wall_card({}, "", paper)) == [pytest.approx((across, along), abs=0.001)]
    assert sides_mm(lying) == [pytest.approx((along, across), abs=0.001)]


def test_a4_is_what_iso_216_derives() -> None:
    """A0 is a square metre with sides as 1 to the root of 2; each next size is half of it.

    Sides are whole millimetres, halved downwards: 841 x 1189, 594 x 841, 420 x 594, 297 x 420.
    """
    across, along = round(1_000 / 2**0.25), round(1_000 * 2**0.25)
    assert (across, along) == (841, 1189)

    for _ in range(4):
        across, along = along // 2, across

    assert (A4.across_nm, A4.along_nm) == (across * MM, along * MM)


def test_letter_is_half_of_a_ledger_sheet() -> None:
    """ASME Y14.1: size A is 8.5 x 11 in, and two of it, side by side, are size B, 11 x 17 in."""
    assert (2 * LETTER.across_nm, LETTER.along_nm) == (17 * INCH, 11 * INCH)
    assert (LETTER.across_nm / MM, LETTER.along_nm / MM) == (215.9, 279.4)


def test_the_usual_grid_is_that_of_smaller_sheets() -> None:
    """ISO 216: four sheets of A6 (105 x 148 mm) and eight of A7 (74 x 105 mm) are one of A4."""
    a6, a7 = (read_grid(grid, A4).label_nm for grid in ("2x2", "2x4"))

    assert [side // MM for side in a6] == [105, 148]
    assert [side // MM for side in a7] == [105, 74]
