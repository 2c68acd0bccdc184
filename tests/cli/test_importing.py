"""Lists out of spreadsheets, as they are asked for."""

from pathlib import Path

import pytest

from tests.cli.conftest import BLADES, FILM, Shop


@pytest.fixture
def stock(tmp_path: Path) -> str:
    """A list with one line nobody can read."""
    file = tmp_path / "stock.csv"
    file.write_text(
        f"Film;Lgth;Count;Received;Location\n{FILM};15,24;;45730;A1\n{BLADES};;50;;A1\n{FILM};lots;;;\n"
    )
    return str(file)


def test_a_file_is_shown_as_it_is_understood_before_it_is_written(shop: Shop, stock: str) -> None:
    """Every column, the first lines, and what is wrong with others."""
    before = shop.dump()
    ran = shop.run("import", stock, "--column", "Lgth=length_m", "--dry")

    assert (ran.code, shop.dump()) == (0, before)
    assert ran.out.splitlines() == [
        "file      UTF-8, columns between semicolons, headings on line 1",
        "read as   an opening stock",
        "material  “Film”",
        "length    “Lgth”, in m",
        "count     “Count”",
        "received  “Received”, numbers count days: 45730 is 2025-03-14",
        "place     “Location”",
        "lines     2 can be taken, 2 pieces, 1 cannot",
        f"line 2    {FILM}: 1 roll 1524 × 15240 mm, lot ?, 480.00 EUR",  # noqa: RUF001
        f"line 3    {BLADES}: 1 box of 50, lot ?",
        "Nothing was written.",
    ]
    assert ran.err.startswith("line 4: length: “lots” is not a length")


def test_bad_lines_keep_all_out_and_are_said_to_a_script_too(
    shop: Shop, stock: str, tmp_path: Path
) -> None:
    """Not understood: exit 2; the good ones alone are written when asked for, and only once."""
    before = shop.dump()
    file = ("import", stock, "--column", "Lgth=length_m")

    ran = shop.run(*file, "--json")
    assert (ran.code, shop.dump()) == (2, before)
    assert '"bad_lines": 1' in ran.out
    assert "1 of 3 lines cannot be taken" in ran.err

    labels = tmp_path / "labels.pdf"
    done = shop.lines(*file, "--good-lines-only", "--labels", str(labels))
    assert done[0] == "2 pieces received in 1 act."
    assert done[1].startswith(f"{labels}: 2 labels")
    assert labels.read_bytes().startswith(b"%PDF")
    again = shop.values(*file, "--good-lines-only")
    assert (again["written"], again["known_lines"], again["list"]) == ([], [2, 3], "stock")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--as", "stuff"), "--as is one of stock, materials, places."),
        (("--column", "Lgth"), 'write "their heading=ours"'),
        (("--date-order", "ydm"), "--date-order is one of dmy, mdy, ymd."),
        (("--sheet", "Old"), "A text file has no sheets"),
        (("--as", "materials"), "No line heads the columns name, and kind"),
    ],
)
def test_what_is_asked_wrongly_is_one_sentence(
    shop: Shop, stock: str, words: tuple[str, ...], said: str
) -> None:
    """And nothing is written."""
    ran = shop.run("import", stock, *words)

    assert (ran.code, ran.out, ran.err.count("\n")) == (2, "", 1)
    assert said in ran.err


def test_no_book_is_made_for_a_file_that_cannot_be_taken(empty_shop: Shop, stock: str) -> None:
    """A new shop imports its materials first."""
    ran = empty_shop.run("import", stock, "--column", "Lgth=length_m")

    assert ran.code == 2
    assert "import the materials first" in ran.err
    assert not empty_shop.book.exists()
