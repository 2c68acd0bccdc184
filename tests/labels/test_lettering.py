"""Text in dots: what can be set, broken and shortened."""

import pytest

from stockroom.labels.lettering import Face, balanced, broken, in_lines, settable, shortened

FACE = Face(34)


@pytest.mark.parametrize(
    "text",
    [
        "Fensterfolie, weiß matt",
        "película translúcida",
        "fólie čirá, ořez",
        "плёнка прозрачная",
        "διαφανές φιλμ",
        "թափանցիկ",
        "გამჭვირვალე",
        "màng dán kính, độ dày",
        "35 % · 50 µm · ½ in · 60″",
    ],
)
def test_the_scripts_it_covers_are_set_as_written(text: str) -> None:
    """Latin, Greek, Cyrillic, Armenian and Georgian have a picture for each letter."""
    missing = FACE.font.getmask("\U000e0fff", mode="1")

    assert settable(text) == text
    assert [c for c in text if bytes(FACE.font.getmask(c, mode="1")) == bytes(missing)] == []


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\u05e9\u05dc\u05d5\u05dd 20", "□□□□ 20"),
        ("\u0641\u064a\u0644\u0645", "□□□□"),
        ("a\u0330\u0331b", "a□□b"),
        ("a\u202eb\x1b[31m", "ab[31m"),
        ("e\u0301", "é"),
        ("two\nlines\t and", "two lines and"),
    ],
)
def test_what_would_be_set_wrongly_is_a_box(text: str, shown: str) -> None:
    """A box is seen; a word set backwards is believed."""
    assert settable(text) == shown


def test_a_letter_without_a_picture_is_a_box_and_no_crash() -> None:
    """A name in a script the typeface lacks still leaves black on the label."""
    ink = FACE.ink("\N{CJK UNIFIED IDEOGRAPH-8D34}")

    assert ink.width > 0
    assert ink.rise > 0


def test_lines_are_broken_between_words_and_never_too_wide() -> None:
    """Words stay whole where they fit, and a word that cannot fit is broken inside."""
    lines = broken("cast print white " + "x" * 40, FACE, 200)

    assert lines[0] == "cast print"
    assert "".join(lines).count("x") == 40
    assert all(FACE.fits(line, 200) for line in lines)


def test_no_number_stands_alone_on_the_second_line() -> None:
    """Two lines are made about as wide as each other."""
    text = "urethane clear 200"
    width = FACE.ink("urethane clear").width

    assert broken(text, FACE, width) == ("urethane clear", "200")
    assert balanced(text, FACE, width) == ("urethane", "clear 200")


def test_text_that_is_too_long_ends_in_an_ellipsis() -> None:
    """What was left out is seen to be left out."""
    short = shortened("neutral ceramic 35", FACE, 150)

    assert short.endswith("…")
    assert FACE.fits(short, 150)
    assert shortened("35", FACE, 150) == "35"
    assert shortened("35", FACE, 1) == "…"


def test_the_last_of_the_lines_carries_the_ellipsis() -> None:
    """A long text takes the lines it is given and no more."""
    assert in_lines("clear", FACE, 200, 2) == ("clear",)
    first, last = in_lines("clear film of a very long name", FACE, 200, 2)

    assert first == "clear film of"
    assert last.endswith("…")


def test_nothing_is_one_empty_line() -> None:
    """No words are a line without black."""
    assert broken("", FACE, 100) == ("",)
    assert FACE.ink("").width == 0
