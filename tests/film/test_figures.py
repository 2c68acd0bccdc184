"""Figures of a material: typed in their unit, refused where film cannot have them."""

import pytest

from stockroom.errors import Code, Refusal
from stockroom.film.figures import FIGURES, parse_figure, show_figure
from stockroom.units import System


@pytest.mark.parametrize(
    ("name", "text", "value", "shown"),
    [
        ("energy", "60 kJ/mol", 60, "60 kJ/mol"),
        ("energy", "83.144", 83.144, "83.144 kJ/mol"),
        ("curl", "200mm", 200, "200 mm"),
        ("curl", "8in", 203.2, "203.2 mm"),
        ("bond", "0,5 J/m²", 0.5, "0.5 J/m²"),
        ("modulus", "4.5 GPa", 4.5, "4.5 GPa"),
        ("memory", "1.4x", 1.4, "1.4x"),
        ("memory", "2", 2, "2x"),
    ],
)
def test_a_figure_is_typed_and_shown_in_its_unit(
    name: str, text: str, value: float, shown: str
) -> None:
    """And what is shown can be typed again."""
    assert parse_figure(name, text) == pytest.approx(value)
    assert show_figure(name, value) == shown
    assert parse_figure(name, shown) == pytest.approx(value)


def test_a_factor_per_ten_kelvin_is_converted() -> None:
    """Vector E3 of the reference: 2 is 51.2162 kJ/mol between 20 and 30 °C."""
    assert parse_figure("energy", "Q10 2") == pytest.approx(51.2162, abs=1e-4)


def test_a_circle_has_the_unit_of_the_book() -> None:
    """A bare number is millimetres, or inches."""
    assert parse_figure("curl", "8", System.US) == pytest.approx(203.2)
    assert show_figure("curl", 203.2, System.US) == "8 in"


@pytest.mark.parametrize(
    ("name", "text", "code"),
    [
        *(
            (name, text, Code.BAD_NUMBER)
            for name in ("bond", "modulus", "memory")
            for text in ("0", "-1", "nan", "1e9", "9999999", "two", "")
        ),
        ("bond", "5 GPa", Code.BAD_NUMBER),
        ("energy", "0", Code.BAD_NUMBER),
        ("curl", "1mm", Code.BAD_NUMBER),
        ("curl", "0", Code.BAD_LENGTH),
        ("modulos", "4", Code.BAD_NAME),
        ("colour", "4", Code.BAD_NAME),
    ],
)
def test_what_film_cannot_have_is_refused(name: str, text: str, code: Code) -> None:
    """With one line that says what to write."""
    with pytest.raises(Refusal) as caught:
        parse_figure(name, text)

    assert caught.value.code is code
    assert len(caught.value.sentence.splitlines()) == 1


def test_every_figure_is_in_the_table_above() -> None:
    """None is left out of the tests."""
    assert FIGURES == ("energy", "curl", "bond", "modulus", "memory")
