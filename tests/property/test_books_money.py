"""Laws of area and money: whatever is cut, all parts of a roll together are the roll."""

from fractions import Fraction
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from stockroom.books.fold import State
from stockroom.units import MM, M
from stockroom.work.charging import area_left_mm2, area_mm2, cost_between, divide
from tests.strategies import LENGTHS_NM, PARTS, PRICES

WIDTHS_NM = st.sampled_from([1_524 * MM, 1_500 * MM, 1_370 * MM, 76_200_000, 1_234_567_891])


def a_piece(form: str, width_nm: int, length_nm: int, price: int) -> State:
    """A roll or an offcut nobody has cut yet."""
    return State(
        form=form,
        material_id=1,
        balance=length_nm,
        full=length_nm,
        received="2026-11-25",
        width_nm=width_nm,
        cost_minor=price,
    )


@given(WIDTHS_NM, st.integers(1, 60 * M), PRICES, st.lists(PARTS, max_size=20))
def test_the_charges_of_a_roll_add_up_to_its_price(
    width_nm: int, length_nm: int, price: int, cuts: list[Fraction]
) -> None:
    """To the cent, in any order, and so do the areas to the square millimetre."""
    roll = a_piece("roll", width_nm, length_nm, price)
    marks = [length_nm, *sorted((int(length_nm * part) for part in cuts), reverse=True), 0]

    steps = list(pairwise(marks))

    assert sum(cost_between(roll, before, after) for before, after in steps) == price
    areas = [area_left_mm2(roll, before) - area_left_mm2(roll, after) for before, after in steps]
    assert sum(areas) == area_mm2(width_nm, length_nm)


@st.composite
def pieces_and_lengths(draw: st.DrawFn) -> tuple[State, int]:
    """A piece, and a length that can be cut from it."""
    length_nm = draw(LENGTHS_NM)
    full_nm = length_nm + draw(st.just(0) | LENGTHS_NM)
    form = draw(st.sampled_from(["roll", "offcut"]))
    return a_piece(form, draw(WIDTHS_NM), full_nm, draw(PRICES)), length_nm


@given(pieces_and_lengths(), PARTS, st.lists(st.tuples(PARTS, PARTS), max_size=4), st.booleans())
def test_the_parts_of_a_cut_are_the_cut(
    piece_and_length: tuple[State, int],
    waste: Fraction,
    parts: list[tuple[Fraction, Fraction]],
    keeps_rest: bool,  # noqa: FBT001 - drawn
) -> None:
    """Used, wasted and kept are never less than nothing, and together what left the piece."""
    piece, length_nm = piece_and_length
    width_nm, spare_nm = piece.width_nm or 0, piece.balance - length_nm
    waste_nm = int(length_nm * waste)
    offcuts = _that_fit(width_nm, length_nm, waste_nm, parts)
    rest = [(width_nm, spare_nm)] if piece.form == "offcut" and keeps_rest and spare_nm else []

    cut = divide(piece, length_nm=length_nm, waste_nm=waste_nm, offcuts=offcuts, rest=rest)

    after = 0 if piece.form == "offcut" else spare_nm
    left = area_left_mm2(piece) - area_left_mm2(piece, after)
    assert min(cut.used_mm2, cut.wasted_mm2, cut.kept_mm2) >= 0
    assert cut.used_mm2 + cut.wasted_mm2 + cut.kept_mm2 == left
    assert min(cut.paid_minor, *(value or 0 for value in cut.values), 0) == 0
    values = [value for value in cut.values if value is not None]
    assert cut.paid_minor + sum(values) == cost_between(piece, piece.balance, after)
    assert len(values) == len(offcuts) + len(rest)


def _that_fit(
    width_nm: int, length_nm: int, waste_nm: int, parts: list[tuple[Fraction, Fraction]]
) -> list[tuple[int, int]]:
    """Offcuts that lie within a cut, beside its waste."""
    room = width_nm * (length_nm - waste_nm)
    found: list[tuple[int, int]] = []
    for across, along in parts:
        size = max(1, int(width_nm * across)), max(1, int(length_nm * along))
        if size[0] * size[1] <= room:
            room -= size[0] * size[1]
            found.append(size)
    return found
