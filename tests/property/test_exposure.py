"""Laws of heat through time: sums that are kept agree with sums made anew, and with physics."""

from collections.abc import Sequence
from itertools import pairwise
from random import Random  # noqa: TID251 - handed in by hypothesis
from typing import NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.film.course import Course, Measure, above, below, course, outside, under_line
from stockroom.film.exposure import History, history
from stockroom.film.heat import ageing_rate, temperature_at_rate_c
from tests.film.histories import HOUR_S, steps
from tests.film.integrating import directly

GAP_S = HOUR_S
CHANCES = st.randoms(use_true_random=True)
ENERGIES_KJ = st.floats(20, 150)
TEMPERATURES_C = st.floats(-20, 60)
SPELLS = st.lists(st.tuples(st.integers(1_000, 400_000), TEMPERATURES_C), min_size=1, max_size=12)
"""Days, and the temperature they had; so many that a second between two spells is nothing."""


class Logged(NamedTuple):
    """What a logger kept."""

    at_s: list[int]
    temperatures_c: list[float]


def _logged(chance: Random, count: int) -> Logged:
    """Readings of a logger that stops now and then, and wanders between summer and winter."""
    at_s, temperature_c, kept = chance.randrange(2 * 10**9), 15.0, Logged([], [])
    for _ in range(count):
        at_s += chance.choice((300, 300, 300, 301, 600, 3_600, 3_601, 20_000)) + chance.randrange(3)
        temperature_c = 0.9 * temperature_c + 0.1 * chance.uniform(-20, 50)
        kept.at_s.append(at_s)
        kept.temperatures_c.append(temperature_c)
    return kept


def _instants(chance: Random, at_s: Sequence[int], count: int) -> list[int]:
    """Instants in order: any, those of readings, inside gaps, before the first and after the last."""
    around = range(at_s[0] - 10 * HOUR_S, at_s[-1] + 10 * HOUR_S)
    after = [instant + chance.randrange(HOUR_S) for instant in chance.sample(at_s, count)]
    any_of = [*chance.sample(around, count), *chance.sample(at_s, count), *after]
    return sorted(chance.sample(any_of, count))


@pytest.mark.parametrize("longest_gap_s", [GAP_S, None])
@pytest.mark.parametrize("measure", [under_line, above(20.0), below(12.5), outside(12.5, 20.0)])
@given(CHANCES)
def test_any_stretch_is_what_direct_integration_says(
    measure: Measure, longest_gap_s: int | None, chance: Random
) -> None:
    """To a part in 10⁹, wherever it begins and ends."""
    kept = _logged(chance, 130)
    made = course(*kept, measure, longest_gap_s)
    readings = list(zip(*kept, strict=True))
    start_s, soon_s, end_s = _instants(chance, kept.at_s, 3)

    for until_s in (soon_s, end_s):
        amount, measured_s = made.between(start_s, until_s)
        expected, seconds = directly(readings, start_s, until_s, longest_gap_s, measure)

        assert amount == pytest.approx(expected, rel=1e-9, abs=1e-6)
        assert measured_s == seconds


@given(CHANCES, ENERGIES_KJ, TEMPERATURES_C)
def test_ageing_is_what_direct_integration_of_the_rates_says(
    chance: Random, energy_kj: float, assumed_c: float
) -> None:
    """Trapezoid on rates, boundary rates on the line between rates, what is unknown as assumed."""
    kept = _logged(chance, 130)
    made = history(*kept, energy_kj=energy_kj, longest_gap_s=GAP_S)
    rates = [ageing_rate(one, energy_kj) for one in kept.temperatures_c]
    start_s, end_s = _instants(chance, kept.at_s, 2)

    found = made.between(start_s, end_s, assumed_c)

    area, seconds = directly(list(zip(kept.at_s, rates, strict=True)), start_s, end_s, GAP_S)
    unknown_s = end_s - start_s - seconds
    expected_s = area + unknown_s * ageing_rate(assumed_c, energy_kj)
    assert found.like_days == pytest.approx(expected_s / 86_400, rel=1e-9, abs=1e-12)


@given(CHANCES, st.integers(2, 6))
def test_stretches_join_to_the_whole(chance: Random, count: int) -> None:
    """Two halves are one whole, however it is cut."""
    kept = _logged(chance, 120)
    made = history(*kept, longest_gap_s=GAP_S)
    instants = _instants(chance, kept.at_s, count)

    whole = made.between(instants[0], instants[-1], 28.0)
    parts = [made.between(start, end, 28.0) for start, end in pairwise(instants)]

    days = sum(one.like_days or 0.0 for one in parts)
    assert days == pytest.approx(whole.like_days, rel=1e-9, abs=1e-12)
    assert sum(one.span_s for one in parts) == whole.span_s
    assert sum(one.measured_s for one in parts) == whole.measured_s


@given(CHANCES, st.integers(0, 119))
def test_a_course_repaired_from_a_late_reading_on_is_the_one_made_anew(
    chance: Random, late: int
) -> None:
    """And the one that was there before is not touched."""
    kept = _logged(chance, 120)
    whole = course(*kept, longest_gap_s=GAP_S)
    at_s, temperatures_c = ([*column[:late], *column[late + 1 :]] for column in kept)
    without = course(at_s, temperatures_c, longest_gap_s=GAP_S)
    before = without.at_s[:], without.amounts[:]

    repaired = without.until(kept.at_s[late]).followed_by(
        kept.at_s[late:], kept.temperatures_c[late:]
    )

    assert _same(repaired, whole)
    assert (without.at_s, without.amounts) == before


def _same(one: Course, other: Course) -> bool:
    return (
        one.at_s == other.at_s
        and one.levels == other.levels
        and one.measured_s == other.measured_s
        and list(one.amounts) == pytest.approx(list(other.amounts), rel=1e-12)
    )


def _of(spells: Sequence[tuple[int, float]], energy_kj: float) -> tuple[History, int]:
    readings = steps(spells)
    return history(*readings, energy_kj=energy_kj), readings[0][-1]


@given(SPELLS, ENERGIES_KJ)
def test_the_mean_kinetic_temperature_ages_as_much_as_the_history(
    spells: list[tuple[int, float]], energy_kj: float
) -> None:
    """And is never below the mean weighted by duration, nor outside of what was read."""
    made, end_s = _of(spells, energy_kj)
    found = made.between(0, end_s)

    kinetic_c = made.mean_kinetic_c(found)

    days = sum(days for days, _ in spells)
    mean_c = sum(length * temperature for length, temperature in spells) / days
    assert kinetic_c is not None
    assert found.like_days == pytest.approx(days * ageing_rate(kinetic_c, energy_kj), rel=1e-9)
    assert kinetic_c >= mean_c - 1e-5
    assert min(spells, key=_warmth)[1] - 1e-6 <= kinetic_c <= max(spells, key=_warmth)[1] + 1e-6


def _warmth(spell: tuple[int, float]) -> float:
    return spell[1]


@given(SPELLS, ENERGIES_KJ, CHANCES)
def test_the_order_of_temperatures_does_not_change_what_they_did(
    spells: list[tuple[int, float]], energy_kj: float, chance: Random
) -> None:
    """Only how long it was how warm; that is why a maximum is watched beside it."""
    made, end_s = _of(spells, energy_kj)
    turned, _ = _of(chance.sample(spells, len(spells)), energy_kj)

    assert turned.between(0, end_s).like_days == pytest.approx(
        made.between(0, end_s).like_days, rel=1e-6
    )


@given(TEMPERATURES_C, st.floats(0.1, 20), ENERGIES_KJ, TEMPERATURES_C)
def test_warmer_ages_faster_and_a_rate_has_one_temperature(
    temperature_c: float, warmer_k: float, energy_kj: float, reference_c: float
) -> None:
    """Whatever the reference."""
    rate = ageing_rate(temperature_c, energy_kj, reference_c)

    assert rate < ageing_rate(temperature_c + warmer_k, energy_kj, reference_c)
    assert temperature_at_rate_c(rate, energy_kj, reference_c) == pytest.approx(
        temperature_c, abs=1e-6
    )
