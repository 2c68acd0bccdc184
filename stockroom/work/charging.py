"""What film costs the one who uses it: areas and money that add up to the roll.

Areas are differences of the area left, and charges differences of the value left, so that all
parts of a roll together are the roll, to the square millimetre and to the cent.
"""

from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate, pairwise

from stockroom.books.fold import State
from stockroom.units import MM


def area_mm2(across_nm: int, along_nm: int) -> int:
    """The area of a rectangle, to the nearest square millimetre."""
    return round(Fraction(across_nm * along_nm, MM * MM))


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


def shares(total: int, areas: Sequence[int]) -> tuple[int, ...]:
    """Money divided by area into parts that add up to it again."""
    whole = sum(areas)
    if not whole:
        return tuple(0 for _ in areas)
    marks = [0, *(_part(total, reached, whole) for reached in accumulate(areas))]
    return tuple(after - before for before, after in pairwise(marks))


def _part(total: int, part: int, whole: int) -> int:
    return round(Fraction(total * part, whole))
