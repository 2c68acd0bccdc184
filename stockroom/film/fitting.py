"""The time constant of a material, fitted to its own curl trials.

    CurlTrial                how a strip was kept, and what it was measured to curl to
    error_per_m              how far such a measurement may be off
    fit(trials, prony)       TimeFactor
      .factor                by how much all its relaxation times are longer than assumed
      .low, .high            between which the truth lies in 95 cases of 100; None where open
      .basis                 own trial, or default

One number is fitted, a factor on all times: trials of a shop cannot tell more. Least squares in its
logarithm; the ends are where the sum of squares has risen by 3.84 (profile likelihood, Wilks), or
by more where the trials scatter more than their errors. Fewer than three trials leave the default,
and so do trials that leave an end open.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import exp, hypot, log, sqrt

from stockroom.errors import Code, Refusal
from stockroom.film.limits import Basis
from stockroom.film.memory import Stage, memory
from stockroom.film.prony import Prony
from stockroom.film.roots import crossing
from stockroom.film.verdict import FEWEST_TRIALS, TimeFactor

STRIP_SCATTER = 0.05  # how far strips of one roll differ, of their curl: a guess, no source

_RISE_95 = 3.841_458_820_694_124  # chi-square of one degree of freedom
_WIDEST = log(1_000)  # no factor beyond it is looked for
_STEP = _WIDEST / 28
_GOLDEN = (sqrt(5) - 1) / 2
_NEAR_ENOUGH = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class CurlTrial:
    """A strip, how it was kept up to its measurement, and what was measured."""

    history: tuple[Stage, ...]  # its days lying free before the measurement, too
    from_core_m: float
    curl_per_m: float  # above 0: towards the face
    error_per_m: float  # one standard deviation

    def __post_init__(self) -> None:
        if not self.error_per_m > 0:
            raise Refusal(
                Code.BAD_CURL,
                f"No trial is exact: an error of {self.error_per_m:g} per metre is none.",
            )


def error_per_m(curl_per_m: float, reading_error_per_m: float) -> float:
    """How far a measured curl may be off: its reading, and what strips of one roll differ by."""
    return hypot(reading_error_per_m, STRIP_SCATTER * curl_per_m)


def fit(trials: Sequence[CurlTrial], prony: Prony) -> TimeFactor:
    """The factor on the times of a film that agrees best with its trials."""
    if len(trials) < FEWEST_TRIALS:
        return TimeFactor(trials=len(trials))

    def misfit(log_factor: float) -> float:
        return _misfit(trials, prony, exp(log_factor))

    best = _lowest(misfit)
    least = misfit(best)
    rise = _RISE_95 * max(1.0, least / (len(trials) - 1))
    ends = [_end(lambda at: misfit(at) - least - rise, best, step) for step in (-_STEP, _STEP)]
    low, high = (None if end is None else exp(end) for end in ends)
    if low is None or high is None:
        return TimeFactor(low=low, high=high, trials=len(trials))
    return TimeFactor(factor=exp(best), low=low, high=high, trials=len(trials), basis=Basis.TRIAL)


def _misfit(trials: Sequence[CurlTrial], prony: Prony, factor: float) -> float:
    """The sum of squares by which trials differ from film with all times so many times as long."""
    return sum(
        ((_expected_per_m(one, prony, factor) - one.curl_per_m) / one.error_per_m) ** 2
        for one in trials
    )


def _expected_per_m(trial: CurlTrial, prony: Prony, factor: float) -> float:
    """What the strip should curl to, were all times so many times as long."""
    return memory(trial.history, prony, slower=factor).at_per_m(trial.from_core_m)


def _lowest(misfit: Callable[[float], float]) -> float:
    """Where the misfit is least: the lowest of places all over, then by golden sections."""
    places = [-_WIDEST + number * _STEP for number in range(round(2 * _WIDEST / _STEP) + 1)]
    about = min(places, key=misfit)
    low, high = max(-_WIDEST, about - _STEP), min(_WIDEST, about + _STEP)
    while high - low > _NEAR_ENOUGH:
        third = (high - low) * _GOLDEN
        left, right = high - third, low + third
        low, high = (low, right) if misfit(left) <= misfit(right) else (left, high)
    return (low + high) / 2


def _end(over: Callable[[float], float], best: float, step: float) -> float | None:
    """Where the misfit has risen too far, going from the best to one side; None where it never has."""
    place = best
    while abs(place) <= _WIDEST:
        if over(place + step) > 0:
            return crossing(over, place, place + step, _NEAR_ENOUGH)
        place += step
    return None
