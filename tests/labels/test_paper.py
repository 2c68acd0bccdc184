"""Sheets of labels: the grid, the first free label, and where each picture begins."""

import pytest

from stockroom.errors import Code, Refusal
from stockroom.labels.paper import A4, LETTER, Grid, Paper, read_grid, read_paper
from stockroom.labels.size import LabelSize
from stockroom.units import MM
from tests.labels.builders import USUAL


def a_grid(text: str = "3x8", paper: Paper = A4) -> Grid:
    """A sheet of 24 labels that share a whole A4 sheet."""
    return read_grid(text, paper)


# Common practice, no source, from memory; to a tenth of a millimetre.
@pytest.mark.parametrize(
    ("paper", "grid", "label"),
    [
        (A4, "3x8", (70.0, 37.1)),
        (A4, "2x4", (105.0, 74.2)),
        (A4, "2x7", (99.1, 38.1)),
        (A4, "3x7", (63.5, 38.1)),
        (LETTER, "2x5", (101.6, 50.8)),
        (LETTER, "3x10", (66.7, 25.4)),
    ],
)
def test_the_usual_grids_have_the_labels_that_are_sold(
    paper: Paper, grid: str, label: tuple[float, float]
) -> None:
    """Margin and pitch need not be typed for them."""
    across, along = a_grid(grid, paper).label_nm

    assert (across / MM, along / MM) == pytest.approx(label, abs=0.06)


def test_a_margin_and_a_pitch_say_how_large_a_label_is() -> None:
    """What the two margins and the pitches leave of the sheet."""
    grid = read_grid(
        "2 \N{MULTIPLICATION SIGN} 3", A4, margin_nm=(10 * MM, 20 * MM), pitch_nm=(96 * MM, 90 * MM)
    )

    assert grid.positions == 6
    assert grid.label_nm == (94 * MM, 77 * MM)


def test_a_sheet_may_have_a_wider_margin_at_its_foot() -> None:
    """Then labels are as high as their pitch, and the rest of the sheet is left."""
    grid = read_grid("3x6", A4, margin_nm=(0, 10 * MM), pitch_nm=(70 * MM, 40 * MM))

    assert grid.label_nm == (70 * MM, 40 * MM)


# By hand: labels of 70 x 37.125 mm, so that 62x29 leaves 4 mm at the side and 4.0625 above.
@pytest.mark.parametrize(
    ("position", "corner_mm"),
    [(0, (4, 4.0625)), (2, (144, 4.0625)), (3, (4, 41.1875)), (23, (144, 263.9375))],
)
def test_a_picture_stands_in_the_middle_of_its_label(
    position: int, corner_mm: tuple[float, float]
) -> None:
    """Row by row, from the top left."""
    x, y = a_grid().corner_nm(position, USUAL)

    assert (x / MM, y / MM) == corner_mm


@pytest.mark.parametrize("start", [0, -1, 25, 10**9])
def test_a_start_beyond_the_end_of_a_sheet_is_refused(start: int) -> None:
    """The sentence says which positions there are."""
    with pytest.raises(Refusal, match=f"has the positions 1 to 24, not {start}") as refused:
        a_grid().checked_start(start)

    assert refused.value.code is Code.BAD_LABEL
    assert [a_grid().checked_start(one) for one in (1, 24)] == [1, 24]


@pytest.mark.parametrize("size", [LabelSize(71, 30), LabelSize(62, 38), LabelSize(100, 150)])
def test_a_picture_larger_than_the_labels_is_refused(size: LabelSize) -> None:
    """A label cut in two is read by nobody."""
    with pytest.raises(Refusal, match=r"does not fit on labels of 70 x 37\.12 mm"):
        a_grid().checked_size(size)


@pytest.mark.parametrize(
    ("text", "margin_mm", "pitch_mm"),
    [
        ("3x8", (4, 10), (101, 34)),
        ("3x8", (110, 10), None),
        ("3x8", (1, 1), (0, 0)),
    ],
)
def test_a_grid_that_does_not_fill_the_sheet_is_refused(
    text: str, margin_mm: tuple[int, int] | None, pitch_mm: tuple[int, int] | None
) -> None:
    """Labels outside the paper, or of no size."""
    margin, pitch = (one and (one[0] * MM, one[1] * MM) for one in (margin_mm, pitch_mm))
    with pytest.raises(Refusal, match="measure the sheet again") as refused:
        read_grid(text, A4, margin_nm=margin, pitch_nm=pitch)

    assert refused.value.code is Code.BAD_LABEL


@pytest.mark.parametrize(
    "text", ["", "3", "3x", "x8", "0x8", "3x0", "3x100", "nan", "3x8x2", "[/]\x1b"]
)
def test_what_is_no_grid_is_refused_with_an_example(text: str) -> None:
    """One sentence, without control characters."""
    with pytest.raises(Refusal, match="like 3x8, not '") as refused:
        read_grid(text, A4)

    assert "\x1b" not in refused.value.sentence


def test_paper_is_named_in_any_case_and_nothing_else_is_known() -> None:
    """Two kinds of paper are in the shops of the world."""
    assert [read_paper(text) for text in ("a4", " A4 ", "Letter")] == [A4, A4, LETTER]
    with pytest.raises(Refusal, match="one of a4, letter, not 'a5'"):
        read_paper("a5")
