"""Roll geometry and mass against printed worked examples and independent arithmetic."""

import csv
from collections.abc import Callable, Iterator
from math import asinh, pi, sqrt
from pathlib import Path

import pytest

from stockroom.film import roll

_POUND_KG = 0.45359237
_INCH_MM = 25.4
_MIL_UM = 25.4


def _layers(*numbers: float) -> list[roll.Layer]:
    pairs = zip(numbers[::2], numbers[1::2], strict=True)
    return [roll.Layer(thickness, density) for thickness, density in pairs]


def _yield_in2_lb(density_kg_m3: float) -> float:
    """Square inches of film one mil thick in a pound: an inch wide, so many inches long."""
    layer = roll.Layer(_MIL_UM, density_kg_m3)
    return roll.length_from_mass_m(_POUND_KG, 0, _INCH_MM, [layer]) * 1_000 / _INCH_MM


_QUANTITIES: dict[str, Callable[..., float]] = {
    "length_m": roll.length_m,
    "outside_mm": roll.outside_mm,
    "outside_from_round_mm": roll.outside_from_round_mm,
    "wraps": roll.wraps,
    "length_mm_per_mm_outside": roll.length_mm_per_mm_outside,
    "calibrated_thickness_um": roll.calibrated_thickness_um,
    "core_mass_kg": roll.core_mass_kg,
    "yield_in2_lb": _yield_in2_lb,
    "mass_kg": lambda width, length, *layers: roll.mass_kg(width, length, _layers(*layers)),
    "length_from_mass_m": lambda gross, core, width, *layers: roll.length_from_mass_m(
        gross, core, width, _layers(*layers)
    ),
}


def _rows() -> Iterator[object]:
    with (Path(__file__).parent / "roll.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            yield pytest.param(row, id=row["row"])


@pytest.mark.parametrize("row", list(_rows()))
def test_every_row_of_the_vector_file_comes_out(row: dict[str, str]) -> None:
    """Each with its own tolerance; the source stands in the row."""
    arguments = [float(number) for number in row["arguments"].split()]

    result = _QUANTITIES[row["quantity"]](*arguments)

    assert result == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]), rel=0)
    assert row["source"]


def test_a_printed_length_that_is_wrong_by_two_is_not_reproduced() -> None:
    """The web guide of row L8 forgot a factor; agreeing with it would be the mistake."""
    assert 44_178 / roll.length_m(1500, 100, 80) == pytest.approx(2.0, rel=0.01)


def test_the_average_lap_agrees_with_the_printed_one() -> None:
    """Row L1 prints about 99 inches."""
    length, turns = roll.length_m(1295.4, 304.8, 457.2), roll.wraps(1295.4, 304.8, 457.2)

    assert length * 1_000 / turns / _INCH_MM == pytest.approx(99, abs=0.5)


@pytest.mark.parametrize(
    ("outside", "core", "thickness"), [(150, 76.2, 50), (120, 76.2, 88.9), (1500, 100, 80)]
)
def test_circles_differ_from_a_true_spiral_by_less_than_a_millionth(
    outside: float, core: float, thickness: float
) -> None:
    """Arc length of Archimedes' spiral, closed form of the textbooks, from memory."""
    pitch = thickness * 1e-3 / (2 * pi)

    def arc(radius: float) -> float:
        turn = radius / pitch
        return pitch / 2 * (turn * sqrt(1 + turn * turn) + asinh(turn))

    spiral_m = (arc(outside / 2) - arc(core / 2)) / 1_000

    assert roll.length_m(outside, core, thickness) == pytest.approx(spiral_m, rel=1e-6)


def test_the_sum_of_the_circles_is_the_length() -> None:
    """Wrap by wrap at its mid thickness, added up."""
    thickness_mm, wraps = 0.05, 738
    circles = (pi * (76.2 + (2 * wrap + 1) * thickness_mm) for wrap in range(wraps))

    assert roll.length_m(150, 76.2, 50) == pytest.approx(sum(circles) / 1_000, rel=1e-12)
