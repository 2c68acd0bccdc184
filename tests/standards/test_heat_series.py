"""Ageing and mean kinetic temperature over a year of real air, against scipy.

The air: hourly temperatures of Seattle and San Francisco in 2010, public-domain NOAA data as the
vega_datasets package ships it; in °F, and without the hour that summer time leaves out.
"""

import csv
from datetime import UTC, datetime
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.constants import R
from scipy.integrate import cumulative_trapezoid, simpson, trapezoid

from stockroom.film.climate import Band, climate
from stockroom.film.course import above, course
from stockroom.film.exposure import history
from stockroom.film.heat import GAS_CONSTANT_J_MOL_K
from tests.film.histories import DAY_S, HOUR_S

ENERGIES_KJ = [51.2162, 83.144, 120.0]
Series = tuple[list[int], list[float]]


@pytest.fixture(scope="module", params=["seattle", "sf"])
def air(request: pytest.FixtureRequest) -> Series:
    """Instants in seconds and °C; the package itself is not imported, only its file is read."""
    package = find_spec("vega_datasets")
    assert package is not None
    assert package.origin is not None
    name = f"{request.param}-temps.csv"
    with (Path(package.origin).parent / "_data" / name).open(encoding="utf-8", newline="") as file:
        rows = [
            (datetime.fromisoformat(row["date"].replace("/", "-")), float(row["temp"]))
            for row in csv.DictReader(file)
        ]
    assert len(rows) == 365 * 24 - 1
    at_s = [round(at.replace(tzinfo=UTC).timestamp()) for at, _ in rows]
    return at_s, [(fahrenheit - 32) / 1.8 for _, fahrenheit in rows]


def _days(at_s: list[int]) -> NDArray[np.float64]:
    return np.array([(at - at_s[0]) / DAY_S for at in at_s])


def _rates(
    temperatures_c: list[float] | NDArray[np.float64], energy_kj: float
) -> NDArray[np.float64]:
    """Arrhenius, written once more with the gas constant of scipy."""
    kelvin = np.array(temperatures_c) + 273.15
    return np.array(np.exp(energy_kj * 1e3 / R * (1 / 296.15 - 1 / kelvin)))


def test_the_gas_constant_is_that_of_codata() -> None:
    """By the table that scipy ships."""
    assert pytest.approx(R, rel=1e-9) == GAS_CONSTANT_J_MOL_K


@pytest.mark.parametrize("energy_kj", ENERGIES_KJ)
def test_a_year_of_air_ages_as_the_trapezoid_of_scipy_says(air: Series, energy_kj: float) -> None:
    """The whole year, and the mean kinetic temperature that follows."""
    at_s, temperatures_c = air
    made = history(at_s, temperatures_c, energy_kj=energy_kj)
    found = made.between(at_s[0], at_s[-1])

    days, rates = _days(at_s), _rates(temperatures_c, energy_kj)
    expected = trapezoid(rates, days)
    kelvin = 1 / (1 / 296.15 - np.log(expected / days[-1]) * R / (energy_kj * 1e3))
    assert found.like_days == pytest.approx(expected, rel=1e-9)
    assert made.mean_kinetic_c(found) == pytest.approx(kelvin - 273.15, abs=1e-6)


@pytest.mark.parametrize("energy_kj", ENERGIES_KJ)
def test_any_part_of_the_year_ages_as_the_trapezoid_of_scipy_says(
    air: Series, energy_kj: float
) -> None:
    """Instants at odd seconds; rates there by numpy's interpolation."""
    at_s, temperatures_c = air
    made = history(at_s, temperatures_c, energy_kj=energy_kj)
    days, rates = _days(at_s), _rates(temperatures_c, energy_kj)
    so_far = cumulative_trapezoid(rates, days, initial=0)

    def until(instant_s: int) -> float:
        day = (instant_s - at_s[0]) / DAY_S
        place = int(np.searchsorted(days, day, side="right")) - 1
        rate = np.interp(day, days, rates)
        return float(so_far[place] + (day - days[place]) * (rates[place] + rate) / 2)

    for number in range(1, 40):
        start_s = at_s[0] + number * 7_654
        end_s = at_s[-1] - number * number * 5_432

        assert made.between(start_s, end_s).like_days == pytest.approx(
            until(end_s) - until(start_s), rel=1e-9
        )


def test_a_week_ages_nearly_as_by_the_exact_integral_of_its_temperature(air: Series) -> None:
    """Hourly readings are close enough that the trapezoid on rates is 0.1 % off at most."""
    at_s, temperatures_c = air
    made = history(at_s, temperatures_c)
    days = _days(at_s)

    for first in (30, 200):
        start_s, end_s = at_s[0] + first * DAY_S, at_s[0] + (first + 7) * DAY_S
        minutes = np.linspace(first, first + 7, 7 * 24 * 60 + 1)
        exact = simpson(_rates(np.interp(minutes, days, temperatures_c), 83.144), minutes)

        assert made.between(start_s, end_s).like_days == pytest.approx(exact, rel=1e-3)


def test_the_mean_and_the_hours_above_a_limit_agree_with_scipy(air: Series) -> None:
    """The hours on a grid of ten seconds."""
    at_s, temperatures_c = air
    days = _days(at_s)
    found = climate(course(at_s, temperatures_c), at_s[0], at_s[-1], Band(high=18.0))

    grid = np.arange(0, days[-1], 10 / 86_400)
    hours = np.count_nonzero(np.interp(grid, days, temperatures_c) > 18.0) * 10 / 3_600
    assert found is not None
    assert found.mean == pytest.approx(trapezoid(temperatures_c, days) / days[-1], rel=1e-9)
    assert (found.lowest, found.highest) == (min(temperatures_c), max(temperatures_c))
    assert found.hours_outside == pytest.approx(hours, rel=1e-3)
    counted, _ = course(at_s, temperatures_c, above(18.0)).between(at_s[0], at_s[-1])
    assert counted / 3_600 == pytest.approx(found.hours_outside, rel=1e-9)


def test_the_hour_that_summer_time_leaves_out_is_a_gap(air: Series) -> None:
    """Two hours between two readings: unknown, where an hour is the longest gap."""
    at_s, temperatures_c = air
    made = history(at_s, temperatures_c, longest_gap_s=HOUR_S)

    whole = made.between(at_s[0], at_s[-1], assumed_c=10.0)
    without = made.between(at_s[0], at_s[-1])

    assert whole.span_s - whole.measured_s == 2 * HOUR_S
    assert whole.coverage == pytest.approx(1 - 2 / (365 * 24 - 1))
    assert without.like_days is None
    rate = _rates([10.0], 83.144)[0]
    assert whole.like_days == pytest.approx(whole.like_days_measured + rate * 2 / 24, rel=1e-12)
