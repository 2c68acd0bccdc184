"""Aged like so many days: what was measured, what is assumed, and what is not known."""

import pytest

from stockroom.film.exposure import History, history
from stockroom.film.heat import ageing_rate, temperature_at_rate_c
from tests.film.histories import DAY_S, HOUR_S


def _patchy(**settings: float) -> History:
    """Two days at 30 °C, three unknown ones, one at 20 °C."""
    at_s = [hour * HOUR_S for hour in (*range(49), *range(120, 145))]
    return history(at_s, [30.0] * 49 + [20.0] * 25, longest_gap_s=HOUR_S, **settings)


def test_what_was_measured_counts_as_it_was_and_the_rest_as_assumed() -> None:
    """At 23 °C a day is a day."""
    found = _patchy().between(0, 6 * DAY_S, assumed_c=23.0)

    measured = 2 * ageing_rate(30.0) + ageing_rate(20.0)
    assert found.like_days_measured == pytest.approx(measured, rel=1e-12)
    assert found.like_days == pytest.approx(measured + 3, rel=1e-12)
    assert (found.calendar_days, found.measured_days, found.coverage) == (6, 3, 0.5)


def test_what_is_unknown_is_said_to_be_unknown() -> None:
    """Without an assumed temperature a gap makes the whole unknown; never a silent zero."""
    found = _patchy().between(0, 6 * DAY_S)

    assert found.like_days is None
    assert found.like_days_measured > 0


def test_a_stretch_measured_throughout_needs_no_assumption() -> None:
    """And is not changed by one."""
    made = _patchy()

    assert made.between(0, DAY_S) == made.between(0, DAY_S, assumed_c=80.0)
    assert made.between(0, DAY_S).coverage == 1


@pytest.mark.parametrize("longest_gap_s", [HOUR_S, None])
def test_no_readings_rest_on_what_is_assumed(longest_gap_s: int | None) -> None:
    """Coverage is none; before the first reading and after the last too."""
    empty = history([], [], longest_gap_s=longest_gap_s)
    for made, start_s in ((empty, 0), (_patchy(), -20 * DAY_S), (_patchy(), 20 * DAY_S)):
        found = made.between(start_s, start_s + 10 * DAY_S, assumed_c=30.0)

        assert found.coverage == 0
        assert found.like_days == pytest.approx(10 * ageing_rate(30.0))
        assert made.between(start_s, start_s + 10 * DAY_S).like_days is None
        assert made.mean_kinetic_c(found) is None


def test_no_time_at_all_ages_nothing_and_lacks_nothing() -> None:
    """Even inside a gap."""
    found = _patchy().between(3 * DAY_S, 3 * DAY_S)

    assert (found.like_days, found.calendar_days, found.coverage) == (0, 0, 1)


def test_the_assumed_temperature_ages_by_the_energy_of_the_history() -> None:
    """A material with another energy is aged differently by the same unknown days."""
    found = _patchy(energy_kj=51.0, reference_c=20.0).between(2 * DAY_S, 5 * DAY_S, 35.0)

    assert found.like_days == pytest.approx(3 * ageing_rate(35.0, 51.0, 20.0))


def test_the_mean_kinetic_temperature_is_that_of_the_measured_part() -> None:
    """Gaps do not pull it anywhere."""
    made = _patchy()

    kinetic_c = made.mean_kinetic_c(made.between(-DAY_S, 9 * DAY_S, assumed_c=50.0))

    mean_rate = (2 * ageing_rate(30.0) + ageing_rate(20.0)) / 3
    assert kinetic_c == pytest.approx(temperature_at_rate_c(mean_rate), abs=1e-9)
