"""Label sizes as they are sold and typed, in printer dots."""

import pytest

from stockroom.errors import Code, Refusal
from stockroom.labels.size import USUAL, LabelSize, read_size


@pytest.mark.parametrize(
    "text", ["62x29", "62 x 29", "62X29mm", " 62\N{MULTIPLICATION SIGN}29 mm "]
)
def test_a_size_is_read_as_people_type_it(text: str) -> None:
    """Width x height, in whole millimetres."""
    assert read_size(text) == USUAL


@pytest.mark.parametrize(
    "text",
    [
        "",
        "62",
        "62x",
        "x29",
        "-62x29",
        "62.5x29",
        "0x29",
        "62x29x3",
        "nan",
        "9" * 99,
        "[/]x\x1b[2J",
    ],
)
def test_what_is_no_size_is_refused_with_an_example(text: str) -> None:
    """One sentence, with a size that would do and no control character."""
    with pytest.raises(Refusal, match="like 62x29, not '") as refused:
        read_size(text)

    assert refused.value.code == Code.BAD_LABEL
    assert "\x1b" not in refused.value.sentence


@pytest.mark.parametrize(
    ("across", "along", "why"),
    [
        (49, 25, "too small"),
        (50, 24, "too small"),
        (161, 100, "too large"),
        (160, 241, "too large"),
        (62, 62, "no shape words fit on"),
        (79, 150, "no shape words fit on"),
        (100, 124, "no shape words fit on"),
    ],
)
def test_a_size_no_label_can_be_read_on_is_refused(across: int, along: int, why: str) -> None:
    """The sentence says what is wrong with it."""
    with pytest.raises(Refusal, match=why):
        LabelSize(across, along)


# Computed by hand: millimetres x dots per inch / 25.4, rounded.
@pytest.mark.parametrize(
    ("size", "dpi", "dots"),
    [
        (LabelSize(62, 29), 203, (496, 232)),
        (LabelSize(62, 29), 300, (732, 343)),
        (LabelSize(50, 25), 203, (400, 200)),
        (LabelSize(50, 25), 300, (591, 295)),
        (LabelSize(100, 50), 203, (799, 400)),
        (LabelSize(100, 150), 203, (799, 1199)),
        (LabelSize(100, 150), 300, (1181, 1772)),
    ],
)
def test_a_label_is_a_whole_number_of_dots(
    size: LabelSize, dpi: int, dots: tuple[int, int]
) -> None:
    """The picture is as large as the printer's raster."""
    assert size.dots(dpi) == dots


def test_a_resolution_nothing_was_tried_for_is_refused() -> None:
    """Two resolutions are sold and tried; another would print an untried label."""
    with pytest.raises(Refusal, match="203 or 300"):
        USUAL.dots(600)
