"""Shops that are made up, each with a film of known relaxation times and a few noisy curl trials.

    study(cases)      Study: how often the fitted interval holds the truth

A trial is invented as it would be done: a strip of film from some place of some roll, rewound
perhaps, lies free, curls as its times say and as strips scatter, and is read with a ruler.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import exp, log, pi, sin
from random import Random  # noqa: TID251 - seeded
from statistics import median

from stockroom.film.assumed import POLYESTER
from stockroom.film.bending import (
    READING_ERROR_MM,
    circle_mm,
    curl_from_chord_per_m,
    reading_error_per_m,
    sagitta_mm,
)
from stockroom.film.fitting import (
    STRIP_SCATTER,
    CurlTrial,
    error_per_m,
    fit,
)
from stockroom.film.limits import Basis
from stockroom.film.memory import Free, Stage, Wound, memory
from stockroom.film.prony import Prony
from stockroom.film.verdict import FEWEST_TRIALS, TimeFactor

AIM = 0.9
SEED = 2_026
STRIP_MM = 300.0
MOST_TRIALS = 10
WIDEST = log(3)  # times are up to three times as long, or as short, as assumed
CORES_MM = (45.0, 86.2, 96.0, 162.0)
THICKNESSES_UM = (63.5, 88.9, 127.0, 190.0)


@dataclass(frozen=True, slots=True)
class Case:
    """A shop, by how much its film is slower than assumed, and what was fitted to its trials."""

    truth: float
    fitted: TimeFactor

    @property
    def is_held(self) -> bool:
        """Whether the interval holds the truth; an open end is no end."""
        low, high = self.fitted.low or 0.0, self.fitted.high
        return low <= self.truth and (high is None or self.truth <= high)

    @property
    def is_settled(self) -> bool:
        """Whether both ends were found."""
        return self.fitted.basis is Basis.TRIAL


@dataclass(frozen=True, slots=True)
class Study:
    """All cases, and what they say of the fit."""

    cases: tuple[Case, ...]

    @property
    def held(self) -> float:
        """The part of the cases whose interval holds the truth."""
        return sum(case.is_held for case in self.cases) / len(self.cases)

    @property
    def settled(self) -> tuple[Case, ...]:
        """The cases that leave the default."""
        return tuple(case for case in self.cases if case.is_settled)

    def lines(self) -> Iterator[str]:
        """What was found, in plain words."""
        yield f"{len(self.cases)} shops, {FEWEST_TRIALS} to {MOST_TRIALS} curl trials each"
        yield f"the interval holds the true factor in {self.held:.1%} of them; aim {AIM:.0%}"
        yield f"both ends are found in {len(self.settled) / len(self.cases):.1%}"
        ratio = median(exp(abs(log(case.fitted.factor / case.truth))) for case in self.settled)
        yield f"there the factor is off by {ratio - 1:.1%} in the middle"


def study(cases: int, seed: int = SEED) -> Study:
    """Invent so many shops, and fit each by its trials."""
    chance = Random(seed)  # noqa: S311 - no secret
    return Study(tuple(_case(POLYESTER, chance) for _ in range(cases)))


def _case(prony: Prony, chance: Random) -> Case:
    truth = exp(chance.uniform(-WIDEST, WIDEST))
    number = chance.randint(FEWEST_TRIALS, MOST_TRIALS)
    return Case(truth, fit([_trial(prony, truth, chance) for _ in range(number)], prony))


def _trial(prony: Prony, truth: float, chance: Random) -> CurlTrial:
    history = tuple(_history(chance))
    wound = [stage for stage in history if isinstance(stage, Wound)][-1]
    place_m = chance.uniform(0, wound.left_m)
    film = memory(history, prony, slower=truth)
    curl = film.at_per_m(place_m) * chance.gauss(1, STRIP_SCATTER)
    chord_mm, height_mm = _read(curl, chance)
    measured = curl_from_chord_per_m(chord_mm, height_mm) * (1 if curl >= 0 else -1)
    error = error_per_m(measured, reading_error_per_m(chord_mm, height_mm))
    return CurlTrial(history=history, from_core_m=place_m, curl_per_m=measured, error_per_m=error)


def _history(chance: Random) -> Iterator[Stage]:
    """Wound at the maker's, perhaps rewound, face in or out, and let lie for a while."""
    thickness, left_m = chance.choice(THICKNESSES_UM), chance.uniform(10, 40)
    core_mm, days = chance.choice(CORES_MM), exp(chance.uniform(log(20), log(900)))
    yield Wound(days=days, core_outside_mm=core_mm, thickness_um=thickness, left_m=left_m)
    if chance.random() < 1 / 4:
        yield Wound(
            days=exp(chance.uniform(0, log(200))),
            core_outside_mm=chance.choice(CORES_MM),
            thickness_um=thickness,
            left_m=left_m * chance.uniform(0.2, 1),
            face_out=chance.random() < 1 / 2,
        )
    yield Free(chance.uniform(0.02, 2))


def _read(curl_per_m: float, chance: Random) -> tuple[float, float]:
    """Chord and height of the strip as a ruler gives them; of a closed one, only how wide it is."""
    circle = circle_mm(curl_per_m) or 1e9
    half_turn = min(STRIP_MM / circle, pi)
    chord = 0.0 if half_turn == pi else circle * sin(half_turn) + chance.gauss(0, READING_ERROR_MM)
    height = sagitta_mm(curl_per_m, STRIP_MM) + chance.gauss(0, READING_ERROR_MM)
    return max(0.0, chord), max(0.1, height)
