"""The revised NIOSH lifting equation against its examples, its tables and worked exercises.

The product has the metric form. In the form in inches and pounds every rule is the same with an
inch of 2.5 cm and an ideal weight of 51 lb for 23 kg, so its examples are checked that way.
"""

import csv
from collections.abc import Callable, Iterator, Sequence
from math import prod
from pathlib import Path

import pytest

from stockroom.film.lifting import (
    Grip,
    Lift,
    average_per_minute,
    lifting_hours,
    lifting_index,
    multipliers,
    recommended_kg,
)

_NOMINAL_INCH_CM = 2.5
_LB_PER_KG = 51 / 23


def _lift(words: Sequence[str], inch: float = 1.0) -> Lift:
    *numbers, grip = words
    horizontal, vertical, travel, angle, per_minute, hours = map(float, numbers)
    return Lift(
        horizontal_cm=horizontal * inch,
        vertical_cm=vertical * inch,
        travel_cm=travel * inch,
        angle_deg=angle,
        per_minute=per_minute,
        hours=hours,
        grip=Grip(grip),
    )


def _rounded_kg(lift: Lift) -> float:
    """The limit as it is printed: every multiplier to two places."""
    return 23 * prod(round(one, 2) for one in multipliers(lift))


def _us(of: Callable[[Lift], float]) -> Callable[[Sequence[str]], float]:
    return lambda words: of(_lift(words, _NOMINAL_INCH_CM)) * _LB_PER_KG


def _hours(words: Sequence[str]) -> float:
    minutes = [float(word) for word in words]
    return lifting_hours(minutes[::2], minutes[1::2])


_QUANTITIES: dict[str, Callable[[Sequence[str]], float | None]] = {
    "recommended_kg": lambda words: recommended_kg(_lift(words)),
    "recommended_lb": _us(recommended_kg),
    "rounded_kg": lambda words: _rounded_kg(_lift(words)),
    "rounded_lb": _us(_rounded_kg),
    "index": lambda words: lifting_index(float(words[0]), _lift(words[1:])),
    "index_lb": lambda words: lifting_index(
        float(words[0]) / _LB_PER_KG, _lift(words[1:], _NOMINAL_INCH_CM)
    ),
    "vertical": lambda words: multipliers(_lift(words)).vertical,
    "travel": lambda words: multipliers(_lift(words)).travel,
    "frequency": lambda words: multipliers(_lift(words)).frequency,
    "grip": lambda words: multipliers(_lift(words)).grip,
    "average_per_minute": lambda words: average_per_minute(*map(float, words)),
    "lifting_hours": _hours,
}


def _rows() -> Iterator[object]:
    with (Path(__file__).parent / "lifting.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            yield pytest.param(row, id=row["row"])


@pytest.mark.parametrize("row", list(_rows()))
def test_every_row_of_the_vector_file_comes_out(row: dict[str, str]) -> None:
    """Each with its own tolerance; the source stands in the row."""
    result = _QUANTITIES[row["quantity"]](row["arguments"].split())

    assert result == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]), rel=0)
    assert row["source"]
