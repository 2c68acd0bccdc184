"""A panel as it is typed on a screen."""

import pytest

from stockroom.errors import Code, Refusal
from stockroom.feeds.panels import read_panel, read_typed
from stockroom.units import MM, System


@pytest.mark.parametrize(
    ("text", "name", "number"),
    [
        ("W1 900x2100 x3", "W1", 3),
        ("W1 900 x 2100 x 3", "W1", 3),
        ("W1 0.9m*2.1m", "W1", 1),
        ("  Box 2 900X2100X12 ", "Box 2", 12),
        ("door, left 900×2100 ×2", "door, left", 2),  # noqa: RUF001 - the sign itself
    ],
)
def test_a_panel_is_read_by_its_name_size_and_number(text: str, name: str, number: int) -> None:
    """The width lies across, the height along; without a number it is one."""
    one = read_panel(text, System.METRIC)

    assert (one.name, one.number) == (name, number)
    assert (one.width_nm, one.height_nm) == (900 * MM, 2_100 * MM)


def test_feet_and_inches_are_read_too() -> None:
    """Without a blank inside a side."""
    one = read_panel("""W1 3'x6'6" x2""", System.US)

    assert (one.width_nm, one.height_nm, one.number) == (914_400_000, 1_981_200_000, 2)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", Code.BAD_USAGE),
        ("W1", Code.BAD_USAGE),
        ("900x2100", Code.BAD_USAGE),
        ("W1 900", Code.BAD_USAGE),
        ("W1 900x2100 x3 x4", Code.BAD_LENGTH),
        ("W1 -900x2100", Code.BAD_USAGE),
        ("W1 0x2100", Code.BAD_LENGTH),
        ("W1 900x2100 x0", Code.BAD_NUMBER),
        ("W1 900x2100 x2001", Code.BAD_NUMBER),
        ("W1 9e5000x2100", Code.BAD_LENGTH),
    ],
)
def test_what_is_no_panel_is_refused_in_one_sentence(text: str, code: Code) -> None:
    """It says what to write."""
    with pytest.raises(Refusal) as refused:
        read_panel(text, System.METRIC)

    assert refused.value.code is code
    assert "\n" not in refused.value.sentence


@pytest.mark.parametrize(
    "text",
    [
        "W1 900x2100 x3\nW2 560x700",
        "W1,900,2100,3\n\nW2,560,700",
        "W1|900|2100|3\nW2|560|700|1",
        "W1;0,9 m;2,1 m;3\nW2;560;700",
        "height,width,name,count\n2100,900,W1,3\n700,560,W2,",
    ],
)
def test_a_list_is_read_typed_or_pasted_with_or_without_a_heading(text: str) -> None:
    """A line each, as a spreadsheet or a person has them."""
    found = read_typed(text, System.METRIC)

    assert [(one.name, one.width_nm // MM, one.height_nm // MM, one.number) for one in found] == [
        ("W1", 900, 2_100, 3),
        ("W2", 560, 700, 1),
    ]


def test_all_columns_of_a_line_without_a_heading_are_read() -> None:
    """In the order of the list that the command reads."""
    (one,) = read_typed("W1,900,2100,2,no,left,frosted,20/20/30/30,yes,40,2", System.METRIC)

    assert (one.turns, one.group, one.material, one.seams, one.layers) == (
        *(False, "left", "frosted", True, 2),
    )
    assert (one.trims_nm, one.overlap_nm) == ((20 * MM, 20 * MM, 30 * MM, 30 * MM), 40 * MM)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("W1 900x2100\nW2 560", "Line 2: “W2 560” is no panel"),
        ("W1,900,2100\nW2,wide,700", "Line 2: "),
        ("W1,900,2100\nW2,560", "Line 2: "),
    ],
)
def test_a_bad_line_is_named(text: str, said: str) -> None:
    """By its number."""
    with pytest.raises(Refusal) as refused:
        read_typed(text, System.METRIC)

    assert refused.value.sentence.startswith(said)
