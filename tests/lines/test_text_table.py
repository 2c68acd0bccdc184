"""Cells that line up."""

from stockroom.lines.text_table import Columns, cells, clipped, pairs, table

COLUMNS = Columns(heads=("name", "left"), right=frozenset({1}))


def test_columns_are_as_wide_as_their_widest_cell() -> None:
    """Numbers stand right, words left, nothing trails."""
    assert table(COLUMNS, [("a", "3 m"), ("frosted", "12 m")], 80) == [
        "name     left",
        "a         3 m",
        "frosted  12 m",
    ]


def test_the_flexible_column_gives_way() -> None:
    """A line fits where it can; what cannot be read whole says so."""
    lines = table(COLUMNS, [("x" * 40, "3 m")], 20)

    assert lines[1] == "xxxxxxxxxxxxx…   3 m"
    assert table(COLUMNS, [("x" * 40, "3 m")], 5)[1] == "xxxxxxx…   3 m"


def test_wide_and_combining_characters_keep_the_columns() -> None:
    """Counted as a terminal counts them."""
    assert cells("窗膜") == 4
    assert cells("e\N{COMBINING ACUTE ACCENT}") == 1
    assert table(COLUMNS, [("窗膜", "1"), ("film", "2")], 80)[1:] == [
        "窗膜     1",
        "film     2",
    ]
    assert clipped("窗膜窗膜", 4) == "窗…"


def test_pairs_line_up_behind_the_longest_name() -> None:
    """One a line; none is no line."""
    assert pairs([("lot", "?"), ("place", "A1")]) == ["lot    ?", "place  A1"]
    assert pairs([]) == []
