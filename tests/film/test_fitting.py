"""The time constant of a film, fitted to curl trials of known truth."""

from collections.abc import Sequence
from dataclasses import replace
from math import exp, log

import numpy as np
import pytest
from scipy.optimize import least_squares

from scripts.study.curl import AIM, study
from stockroom.errors import Code, Refusal
from stockroom.film.bending import reading_error_per_m
from stockroom.film.fitting import CurlTrial, error_per_m, fit
from stockroom.film.limits import Basis
from stockroom.film.memory import Free, Stage, Wound, memory
from stockroom.film.prony import parse_prony
from stockroom.film.verdict import TimeFactor

FILM = parse_prony("0.2:10,0.2:100,0.2:1000")
ROLL = Wound(days=200, core_outside_mm=86.2, thickness_um=88.9, left_m=20)
OFF = (0.2, -0.3, 0.1, 0.25, -0.15, -0.1)  # how far each trial is off, per metre


def _trials(truth: float, number: int, *, off: float = 0.0) -> list[CurlTrial]:
    """Trials of a film so many times slower than assumed, each at another age and place."""
    made = []
    for count, error in enumerate(OFF[:number]):
        history: tuple[Stage, ...] = (replace(ROLL, days=30 * 2.0**count), Free(1))
        curl = memory(history, FILM, slower=truth).at_per_m(3 * count)
        made.append(
            CurlTrial(
                history=history,
                from_core_m=3 * count,
                curl_per_m=curl + off * error,
                error_per_m=0.2 + 0.05 * count,
            )
        )
    return made


def _residuals(log_factor: float, trials: Sequence[CurlTrial]) -> list[float]:
    return [
        (
            memory(one.history, FILM, slower=exp(log_factor)).at_per_m(one.from_core_m)
            - one.curl_per_m
        )
        / one.error_per_m
        for one in trials
    ]


@pytest.mark.parametrize("number", [0, 1, 2])
def test_fewer_than_three_trials_leave_the_default(number: int) -> None:
    """And say how many there are."""
    assert fit(_trials(2, number), FILM) == TimeFactor(trials=number)
    assert TimeFactor().basis is Basis.DEFAULT
    assert TimeFactor().factor == 1


@pytest.mark.parametrize("truth", [0.01, 0.3, 1.0, 2.5, 40.0])
def test_trials_without_noise_give_the_truth(truth: float) -> None:
    """Between its two ends, and named as the shop's own."""
    found = fit(_trials(truth, 6), FILM)

    assert found.factor == pytest.approx(truth, rel=1e-5)
    assert found.low is not None
    assert found.high is not None
    assert found.low < truth < found.high
    assert (found.trials, found.basis) == (6, Basis.TRIAL)


@pytest.mark.parametrize("truth", [0.4, 1.0, 3.0])
def test_noisy_trials_are_fitted_as_a_library_fits_them(truth: float) -> None:
    """scipy.optimize.least_squares, and its curvature for the width of the interval."""
    trials = _trials(truth, 6, off=1.0)

    found = fit(trials, FILM)
    solved = least_squares(lambda at: np.array(_residuals(at[0], trials)), [0.0], xtol=1e-14)

    assert log(found.factor) == pytest.approx(solved.x[0], abs=1e-5)
    assert found.low is not None
    assert found.high is not None
    half_width = 1.959964 / np.sqrt((solved.jac.T @ solved.jac)[0, 0])
    assert log(found.high / found.low) / 2 == pytest.approx(half_width, rel=0.05)


def test_more_and_surer_trials_narrow_the_interval() -> None:
    """As everybody expects of them."""

    def width(trials: Sequence[CurlTrial]) -> float:
        found = fit(trials, FILM)
        assert found.low is not None
        assert found.high is not None
        return found.high / found.low

    surer = [replace(one, error_per_m=one.error_per_m / 2) for one in _trials(1, 6)]

    assert width(surer) < width(_trials(1, 6)) < width(_trials(1, 3))


def test_trials_that_scatter_more_than_their_errors_widen_the_interval() -> None:
    """What they claim to be sure of is not believed."""
    quiet, loud = fit(_trials(1, 6, off=1), FILM), fit(_trials(1, 6, off=8), FILM)

    for found in (quiet, loud):
        assert found.low is not None
        assert found.high is not None
    assert (loud.high or 0) / (loud.low or 1) > 2 * (quiet.high or 0) / (quiet.low or 1)


def test_trials_that_leave_an_end_open_leave_the_default() -> None:
    """Film without curl may be slow without end; one end is known all the same."""
    straight = [replace(one, curl_per_m=0.0) for one in _trials(1, 4)]

    found = fit(straight, FILM)

    assert (found.factor, found.basis, found.high) == (1.0, Basis.DEFAULT, None)
    assert found.low is not None
    assert found.low > 1
    assert found.trials == 4


def test_trials_right_after_winding_for_ages_say_nothing_of_times() -> None:
    """Film that is set for good looks the same however fast it was."""
    settled = [
        CurlTrial(
            history=(replace(ROLL, days=9e8),),
            from_core_m=0,
            curl_per_m=0.6 * ROLL.imposed_per_m(0),
            error_per_m=1,
        )
    ] * 5

    found = fit(settled, FILM)

    assert (found.factor, found.low, found.high) == (1.0, None, None)
    assert found.basis is Basis.DEFAULT


def test_a_measured_curl_is_off_by_its_reading_and_by_how_strips_differ() -> None:
    """They add as squares: a twentieth of the curl, and a millimetre of each reading."""
    reading = reading_error_per_m(280, 40)

    assert error_per_m(10, 0) == pytest.approx(0.5)
    assert error_per_m(-10, reading) == pytest.approx((0.25 + reading**2) ** 0.5)


@pytest.mark.parametrize("error", [0.0, -1.0, float("nan")])
def test_a_trial_without_an_error_is_refused(error: float) -> None:
    """Nothing measured is exact."""
    with pytest.raises(Refusal) as refused:
        CurlTrial(history=(ROLL,), from_core_m=0, curl_per_m=1, error_per_m=error)

    assert refused.value.code is Code.BAD_CURL


def test_the_interval_of_forty_shops_that_are_made_up_holds_the_truth() -> None:
    """In nine of ten at least, as in the study of 500; always the same forty."""
    found = study(40)

    assert found.held >= AIM
    assert len(found.settled) >= 36
    assert "the interval holds the true factor in" in "\n".join(found.lines())
    assert study(2).cases == found.cases[:2]
