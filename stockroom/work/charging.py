"""What film costs the one who uses it: areas and money that add up to the roll.

Areas are differences of the area left, and charges differences of the value left, so that all
parts of a roll together are the roll, to the square millimetre and to the cent.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise

from stockroom.books.fold import State
from stockroom.units import MM


def area_mm2(across_nm: int, along_nm: int) -> int:
    """The area of a rectangle, to the nearest square millimetre."""
    return _nearest(across_nm * along_nm, MM * MM)


def area_left_mm2(state: State, balance: int | None = None) -> int:
    """The area of what is left, or would be left; boxes have none."""
    if state.width_nm is None:
        return 0
    return area_mm2(state.width_nm, state.balance if balance is None else balance)


def area_between_mm2(state: State, before: int, after: int) -> int:
    """The area that leaves when the balance goes from one figure to another."""
    return area_left_mm2(state, before) - area_left_mm2(state, after)


def cost_between(state: State, before: int, after: int) -> int:
    """The money that leaves with it: round(cost·before/full) - round(cost·after/full)."""
    if state.cost_minor is None or not state.full:
        return 0
    return _part(state.cost_minor, before, state.full) - _part(state.cost_minor, after, state.full)


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """How a cut divides what leaves a piece; `values` are those of the offcuts, in order."""

    leaves_nm: int
    used_mm2: int
    wasted_mm2: int
    kept_mm2: int
    paid_minor: int
    values: tuple[int | None, ...]


def divide(
    state: State,
    *,
    length_nm: int,
    waste_nm: int,
    offcuts: Sequence[tuple[int, int]],
    rest: Sequence[tuple[int, int]],
) -> Parts:
    """Divide a cut into used, wasted and kept; whoever uses the film pays for its waste too.

    A roll loses the length alone. An offcut ends: what is neither used nor kept of it is waste.
    """
    before = max(state.balance, length_nm)
    after = 0 if state.form == "offcut" else before - length_nm
    total = area_between_mm2(state, before, after)
    of_length = area_between_mm2(state, before, before - length_nm)
    of_waste = area_between_mm2(state, before, before - waste_nm)
    sizes = [area_mm2(across, along) for across, along in (*offcuts, *rest)]
    # Each area is rounded by itself, so offcuts that fit exactly can be a millimetre too many.
    cut_out = min(sum(sizes[: len(offcuts)]), of_length - of_waste)
    used = of_length - of_waste - cut_out
    kept = cut_out + sum(sizes[len(offcuts) :])
    paid, *values = _shares(cost_between(state, before, after), [total - kept, *sizes])
    return Parts(
        leaves_nm=before - after,
        used_mm2=used,
        wasted_mm2=total - used - kept,
        kept_mm2=kept,
        paid_minor=paid,
        values=tuple(None if state.cost_minor is None else value for value in values),
    )


def turn_into(
    state: State,
    *,
    length_nm: int,
    waste_nm: int,
    across_nm: int,
    rest: Sequence[tuple[int, int]],
) -> Parts:
    """Divide a length that becomes another piece: all but its waste is kept, at that width."""
    parts = divide(
        state,
        length_nm=length_nm,
        waste_nm=waste_nm,
        offcuts=[(across_nm, length_nm - waste_nm)],
        rest=rest,
    )
    # What is neither kept nor waste lies beside a narrower piece, or is what rounding left over.
    beside_mm2 = 0 if across_nm == state.width_nm else parts.used_mm2
    return replace(
        parts,
        used_mm2=0,
        wasted_mm2=parts.wasted_mm2 + beside_mm2,
        kept_mm2=parts.kept_mm2 + parts.used_mm2 - beside_mm2,
    )


def _shares(total: int, areas: Sequence[int]) -> tuple[int, ...]:
    """Money divided by area into parts that add up to it again; the first pays where there is none."""
    whole = sum(areas)
    if not whole:
        return (total, *(0 for _ in areas[1:]))
    marks = [0, *(_part(total, reached, whole) for reached in accumulate(areas))]
    return tuple(after - before for before, after in pairwise(marks))


def _part(total: int, part: int, whole: int) -> int:
    return _nearest(total * part, whole)


def _nearest(number: int, by: int) -> int:
    """A quotient to the nearest whole number; half of one goes to the even one, as `round` does it."""
    whole, rest = divmod(number, by)
    return whole + (2 * rest > by or (2 * rest == by and whole % 2 == 1))
