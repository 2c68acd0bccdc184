"""Mean kinetic temperature, Arrhenius and Q10 against printed tables and independent arithmetic."""

import csv
from collections.abc import Callable, Iterator, Sequence
from math import ceil
from pathlib import Path

import pytest

from stockroom.film.climate import Band, climate
from stockroom.film.course import course
from stockroom.film.exposure import Exposure, History, history
from stockroom.film.heat import REFERENCE_C, ageing_rate, energy_from_q10
from tests.film.histories import ramp, steps

_TIMES = 1_000

Readings = tuple[list[int], list[float]]


def _all_of(
    readings: Readings, energy_kj: float, reference_c: float = REFERENCE_C
) -> tuple[History, Exposure]:
    """The history of readings, and what the whole of it did."""
    made = history(*readings, energy_kj=energy_kj, reference_c=reference_c)
    return made, made.between(readings[0][0], readings[0][-1])


def _mean_kinetic_c(readings: Readings, energy_kj: float) -> float | None:
    made, exposure = _all_of(readings, energy_kj)
    return made.mean_kinetic_c(exposure)


def _spells(numbers: Sequence[float]) -> Readings:
    """A thousand times as long, for the second between two spells to be nothing."""
    days = (number * _TIMES for number in numbers[::2])
    return steps(zip(days, numbers[1::2], strict=True))


def _steps_mean_c(_: float, *spells: float) -> float | None:
    at_s, temperatures_c = _spells(spells)
    found = climate(course(at_s, temperatures_c), at_s[0], at_s[-1], Band())
    return None if found is None else found.mean


def _steps_like_days(energy_kj: float, reference_c: float, *spells: float) -> float | None:
    _, exposure = _all_of(_spells(spells), energy_kj, reference_c)
    return None if exposure.like_days is None else exposure.like_days / _TIMES


def _q10_factor(q10: float, room_c: float, oven_c: float) -> float:
    """How much faster film ages in an oven, by the energy that a Q10 between the two stands for."""
    return ageing_rate(oven_c, energy_from_q10(q10, room_c, oven_c), room_c)


def _q10_oven_days(q10: float, room_c: float, oven_c: float, days: float) -> float:
    return days / _q10_factor(q10, room_c, oven_c)


_QUANTITIES: dict[str, Callable[..., float | None]] = {
    "rate": ageing_rate,
    "energy_from_q10": energy_from_q10,
    "q10_factor": _q10_factor,
    "q10_oven_days": _q10_oven_days,
    "q10_oven_days_up": lambda *numbers: ceil(_q10_oven_days(*numbers)),
    "steps_mkt_c": lambda energy, *spells: _mean_kinetic_c(_spells(spells), energy),
    "steps_mean_c": _steps_mean_c,
    "steps_like_days": _steps_like_days,
    "ramp_mkt_c": lambda energy, first, last, count: _mean_kinetic_c(
        ramp(first, last, int(count)), energy
    ),
}


def _rows() -> Iterator[object]:
    with (Path(__file__).parent / "heat.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            yield pytest.param(row, id=row["row"])


@pytest.mark.parametrize("row", list(_rows()))
def test_every_row_of_the_vector_file_comes_out(row: dict[str, str]) -> None:
    """Each with its own tolerance; where 10 000 K is meant, the energy is 83.14462618 kJ/mol."""
    arguments = [float(number) for number in row["arguments"].split()]

    result = _QUANTITIES[row["quantity"]](*arguments)

    assert result == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]), rel=0)
    assert row["source"]
