"""How film remembers a curve: parts that relax, each in its own time (a Prony series).

    Prony                     weights, times, and the weight that never relaxes
    parse_prony               0.2:10,0.2:100,0.2:1000; Refusal BAD_MEMORY
    straight(prony)           the state of film that was never bent
    held(prony, state, …)     the state after film was held at a curvature
    free(prony, state, …)     the state after it lay free
    curl_per_m(prony, state)  what it curls to when it is let go

Linear viscoelastic bending: a state holds the curvature each part has settled to. Held at c, a part
goes there as exp(-t / tau). Free, the film has the curl k that needs no moment, the weighted sum of
its state, and each part follows it at (k - q) / tau. All times are aged-like days, so that heat is
counted already.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import exp, inf
from operator import mul

from stockroom.errors import Code, Refusal, clean_text
from stockroom.film.roots import crossing

State = tuple[float, ...]  # 1/m, one for each part

_LEAST_WEIGHT = 1e-6
_LEAST_DAYS, _MOST_DAYS = 1e-6, 1e9
_LEAST_RATIO = 1.01  # of one time to the next
_MOST_PARTS = 64
_A_HAIR = 1e-9  # typed weights are floats


@dataclass(frozen=True, slots=True)
class Prony:
    """The parts of a film's memory: what each weighs, and in how many days it relaxes."""

    weights: tuple[float, ...]
    days: tuple[float, ...]

    def __post_init__(self) -> None:
        if not 0 < len(self.weights) == len(self.days) <= _MOST_PARTS:
            raise _refused(f"A memory has 1 to {_MOST_PARTS} parts, a weight and days for each")
        for weight, days in zip(self.weights, self.days, strict=True):
            if not _LEAST_WEIGHT <= weight <= 1 + _A_HAIR:
                raise _refused(f"A weight cannot be {weight:g}: give more than 0, and at most 1")
            if not _LEAST_DAYS <= days <= _MOST_DAYS:
                raise _refused(f"No part relaxes in {days:g} days: give more than 0, up to 1e9")
        if (whole := sum(self.weights)) > 1 + _A_HAIR:
            raise _refused(
                f"The weights sum to {whole:g}; with what never relaxes they must sum to one"
            )
        for days, after in pairwise(sorted(self.days)):
            if after < days * _LEAST_RATIO:
                raise _refused(f"Parts of {days:g} and {after:g} days are one: add their weights")

    @property
    def lasting(self) -> float:
        """The weight that never relaxes: what brings film back to straight."""
        return max(0.0, 1 - sum(self.weights))

    def __str__(self) -> str:
        parts = zip(self.weights, self.days, strict=True)
        return ",".join(f"{weight:.12g}:{days:.12g}" for weight, days in parts)


def parse_prony(text: str) -> Prony:
    """Weights and days as typed; a last weight without days never relaxes, and completes one."""
    *parts, last = (part.strip() for part in text.split(","))
    if ":" in last:
        parts.append(last)
    pairs = [part.split(":") for part in parts]
    try:
        lasting = None if ":" in last else float(last)
        prony = Prony(
            tuple(float(weight) for weight, _ in pairs), tuple(float(days) for _, days in pairs)
        )
    except ValueError:
        shown = clean_text(text, 40)
        raise Refusal(
            Code.BAD_MEMORY,
            f"'{shown}' is no memory: write weights and days, like 0.2:10,0.2:100,0.2:1000.",
        ) from None
    if lasting is not None and not abs(prony.lasting - lasting) <= _A_HAIR:
        raise _refused(f"The weights sum to {sum(prony.weights) + lasting:g}; they must sum to one")
    return prony


def straight(prony: Prony) -> State:
    """The state of film that was never bent."""
    return (0.0,) * len(prony.weights)


def held(prony: Prony, state: State, curvature_per_m: float, days: float) -> State:
    """The state after film was held at a curvature: wound, or 0 when it is held flat."""
    _refuse_no_time(days)
    return tuple(
        [
            curvature_per_m + (settled - curvature_per_m) * exp(-days / tau)
            for settled, tau in zip(state, prony.days, strict=True)
        ]
    )


def free(prony: Prony, state: State, days: float) -> State:
    """The state after film lay free: exact, by the modes in which it recovers."""
    _refuse_no_time(days)
    modes = _modes(prony)
    left = [
        _dot(reader, state) * exp(-days * rate)
        for reader, rate in zip(modes.readers, modes.rates, strict=True)
    ]
    return tuple([_dot(row, left) for row in modes.rows])


def curl_per_m(prony: Prony, state: State) -> float:
    """What film curls to when it is let go."""
    return _dot(prony.weights, state)


@dataclass(frozen=True, slots=True)
class _Modes:
    """States that only shrink while film lies free, each at its rate per day, with a curl of 1."""

    rates: State
    readers: tuple[State, ...]  # of each mode: how much of it is in a state
    rows: tuple[State, ...]  # of each part: what each mode adds to it


@lru_cache(maxsize=1_000)
def _modes(prony: Prony) -> _Modes:
    """How film recovers.

    The matrix (g_j - delta_ij) / tau_i is similar, by sqrt(g_i tau_i), to a symmetric one, a
    diagonal and one of rank one: its rates r are real, one below each 1 / tau, where
    sum g / (1 - r tau) = 1, and its modes are 1 / (1 - r tau).
    """
    bounds = [0.0, *sorted(1 / days for days in prony.days)]
    rates = tuple(_rate(prony, below, above) for below, above in pairwise(bounds))
    shapes = [tuple(1 / (1 - rate * tau) for tau in prony.days) for rate in rates]
    return _Modes(
        rates, tuple(_reader(prony, shape) for shape in shapes), tuple(zip(*shapes, strict=True))
    )


def _rate(prony: Prony, below: float, above: float) -> float:
    """The one rate of recovery between two rates of relaxing; none where film stays as it is."""
    if not below and not prony.lasting:
        return 0.0
    return crossing(_excess(prony), below, above)


def _reader(prony: Prony, shape: State) -> State:
    """What reads the amount of a mode from a state: it is blind to all other modes."""
    parts = zip(prony.weights, prony.days, shape, strict=True)
    reads = [weight * tau * moved for weight, tau, moved in parts]
    norm = _dot(reads, shape)
    return tuple(read / norm for read in reads)


def _dot(one: Sequence[float], other: Sequence[float]) -> float:
    """The sum of the products."""
    products: Iterator[float] = map(mul, one, other)
    return sum(products)


def _excess(prony: Prony) -> Callable[[float], float]:
    """By how much sum g / (1 - r tau) is more than one; it rises between two relaxing parts."""
    parts = tuple(zip(prony.weights, prony.days, strict=True))
    return lambda rate: sum(weight / (1 - rate * tau) for weight, tau in parts) - 1


def _refuse_no_time(days: float) -> None:
    """Refuse a time that cannot have passed; not-a-number is refused too."""
    if not 0 <= days < inf:
        raise _refused(f"Film is not kept for {days:g} days: give 0 or more")


def _refused(what: str) -> Refusal:
    return Refusal(Code.BAD_MEMORY, f"{what}.")
