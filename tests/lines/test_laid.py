"""Film with panels on it, drawn."""

from itertools import product

import pytest

from stockroom.lines.laid import Film, Part, fitting, picture
from stockroom.units import MM

FILM = Film(
    width=1_500 * MM,
    length=6_000 * MM,
    laid=(
        ("W1", 0, 0, 900 * MM, 3_000 * MM),
        ("W2", 0, 3_000 * MM, 1_500 * MM, 1_500 * MM),
        ("W1", 0, 4_500 * MM, 900 * MM, 1_500 * MM),
    ),
    kept=((900 * MM, 0, 600 * MM, 3_000 * MM),),
)


def texts(columns: int, *lit: str) -> list[str]:
    """The rows of the film as they look without a colour."""
    return ["".join(run.text for run in row) for row in picture(FILM, columns, frozenset(lit))]


def test_panels_waste_and_what_stays_look_different_without_a_colour() -> None:
    """Waste is hatched, an offcut that stays is empty and says so, what is lit has dots."""
    assert texts(33, "W1") == [
        "┌───────────────┬───────┬───────┐",
        "│·······W1······│       │···W1··│",
        "├───────────────┤   W2  ├───────┤",
        "│     stays     │       │░░░░░░░│",
        "└───────────────┴───────┴───────┘",
    ]


@pytest.mark.parametrize("lit", ["W1", "W2", "none"])
def test_what_is_lit_is_every_panel_of_the_name_and_nothing_else(lit: str) -> None:
    """Its runs have the part, whatever they are drawn with."""
    runs = [run for row in picture(FILM, 60, frozenset({lit})) for run in row]
    shown = "".join(run.text for run in runs if run.part is Part.LIT)

    assert set(shown) - {"·"} == set(lit if lit != "none" else "")
    assert shown.count("W") == (0, 1, 2)[("none", "W2", "W1").index(lit)]


def test_a_picture_takes_no_more_rows_than_it_is_given() -> None:
    """Short film is drawn in fewer columns; at least four rows are drawn of any."""
    for columns, rows in product((20, 58, 76), (5, 7, 12)):
        most = fitting(FILM, columns, rows)
        assert most <= columns
        assert len(picture(FILM, most)) <= rows
        assert most == columns or len(picture(FILM, most + 1)) > rows
