"""Laws of reading and showing quantities."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from stockroom.errors import Refusal
from stockroom.units import FOOT, INCH, MIL, MM, M, System
from stockroom.units.money import parse_money, show_money
from stockroom.units.shown import show_length, show_size, show_thickness, show_width
from stockroom.units.typed import parse_length, parse_size, parse_thickness

lengths_nm = st.integers(INCH // 8, 90_000 * M)
systems = st.sampled_from(System)
EXACT = {"mm": MM, "m": M, "in": INCH, "ft": FOOT, "yd": 3 * FOOT, "mil": MIL, "um": 1000}


@given(st.sampled_from(sorted(EXACT)), st.integers(1, 30_000), st.integers(0, 3))
def test_exact_units_are_read_exactly(unit: str, number: int, places: int) -> None:
    """A decimal number of a unit is that many nanometres, to the nearest."""
    text = f"{Decimal(number).scaleb(-places)} {unit}"

    assert parse_length(text) == round(Fraction(number * EXACT[unit], 10**places))


@given(st.integers(1, 1_000_000))
def test_gauges_sixty_fourths_and_yards_are_exact(number: int) -> None:
    """100 gauge is a mil, 64 sixty-fourths an inch, a yard three feet."""
    assert parse_length(f"{number * 100} ga") == number * MIL
    assert parse_length(f"{number}/64 in") == number * 396_875
    assert parse_length(f"{number % 90_000 + 1} yd") == (number % 90_000 + 1) * 914_400_000


@given(lengths_nm, systems)
@example(999_960_000, System.METRIC)
@example(12 * INCH - 1, System.US)
def test_a_length_that_was_shown_can_be_typed(length_nm: int, system: System) -> None:
    """What is read back differs by no more than was rounded away."""
    back_nm = parse_length(show_length(length_nm, system), system)

    most_nm = INCH // 16 if system is System.US else 5 * MM
    assert abs(back_nm - length_nm) <= most_nm
    assert show_length(back_nm, system) == show_length(length_nm, system)


@given(st.integers(INCH // 8, 10 * M), st.integers(INCH // 8, 100 * M), systems)
def test_a_size_that_was_shown_can_be_typed(across: int, along: int, system: System) -> None:
    """A size read back shows the same, and each side is the width it shows."""
    shown = show_size(across, along, system)

    assert show_size(*parse_size(shown, system), system) == shown
    assert parse_length(show_width(across, system), system) == parse_size(shown, system)[0]


@given(st.integers(200, 10 * MM), systems)
def test_a_thickness_that_was_shown_can_be_typed(thickness_nm: int, system: System) -> None:
    """A thickness read back shows the same."""
    shown = show_thickness(thickness_nm, system)

    assert show_thickness(parse_thickness(shown, system), system) == shown


@given(st.integers(0, 10**12), st.sampled_from(["EUR", "JPY", "KWD", "CLF"]))
def test_an_amount_that_was_shown_can_be_typed(minor: int, currency: str) -> None:
    """No minor unit is lost between showing and typing."""
    assert parse_money(show_money(minor, currency), currency) == minor


@given(st.text(max_size=70) | st.from_regex(r"[-0-9.,'\" /a-z]{1,20}", fullmatch=True), systems)
@example("\u00bd", System.METRIC)
@example("1/0", System.US)
def test_any_text_is_a_length_in_range_or_a_refusal(text: str, system: System) -> None:
    """Nothing a person or a scanner sends breaks the reading, and nothing slips past the limits."""
    try:
        outcome: int | str = parse_length(text, system)
    except Refusal as refused:
        outcome = refused.sentence

    assert outcome.isprintable() if isinstance(outcome, str) else 0 < outcome <= 100_000 * M


@given(st.integers(1, 999), st.integers(0, 999))
def test_a_comma_that_may_divide_thousands_is_never_guessed(high: int, low: int) -> None:
    """One digit group after a comma is refused, for it may be thousands or decimals."""
    with pytest.raises(Refusal, match="in two ways"):
        parse_length(f"{high},{low:03d} mm")
