"""How a piece that holds so much is measured: what a tape, a calliper or a scale would show."""

from math import pi
from typing import TypedDict

from stockroom.books.values import Standing
from stockroom.demo.cells import difference
from stockroom.demo.line import Line
from stockroom.film.roll import core_mass_kg, mass_kg, outside_mm
from stockroom.units import KG, MM, UM, M
from stockroom.work.layers import layers_of
from stockroom.work.measuring import CORE_DENSITY_KG_M3


class Measured(TypedDict, total=False):
    """The one measurement of a request."""

    length_nm: int
    outside_nm: int
    round_nm: int
    mass_mg: int
    number: int


def off_the_books(line: Line, one: Standing) -> Measured:
    """What is measured where a piece holds so much more or less than the books say."""
    if line.more["by"] == "number":
        return {"number": one.state.balance + int(line["amount"])}
    return shows(line.more["by"], one, one.state.balance + difference(line["amount"]))


def shows(way: str, one: Standing, length_nm: int) -> Measured:
    """What is measured of a piece of that length: to the millimetre, or to ten grams."""
    match way:
        case "length":
            return {"length_nm": length_nm}
        case "round":
            return {"round_nm": round(pi * _outside_mm(one, length_nm)) * MM}
        case "outside":
            return {"outside_nm": round(_outside_mm(one, length_nm)) * MM}
        case "mass":
            return {"mass_mg": round(_mass_kg(one, length_nm) * 100) * KG // 100}
        case _:
            raise ValueError(f"{way!r} is no way to measure")


def _outside_mm(one: Standing, length_nm: int) -> float:
    inside_mm, wall_mm = _core_mm(one)
    thickness_um = (one.state.thickness_nm or 0) / UM
    return outside_mm(length_nm / M, inside_mm + 2 * wall_mm, thickness_um)


def _mass_kg(one: Standing, length_nm: int) -> float:
    state = one.state
    width_mm = (state.width_nm or 0) / MM
    core_kg = core_mass_kg(*_core_mm(one), width_mm, CORE_DENSITY_KG_M3)
    return core_kg + mass_kg(width_mm, length_nm / M, layers_of(state, one.material))


def _core_mm(one: Standing) -> tuple[float, float]:
    """The inside of the core, and its wall."""
    return (one.state.core_inside_nm or 0) / MM, (one.state.core_wall_nm or 0) / MM
