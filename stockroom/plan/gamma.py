"""The gamma distribution by its mean and variance: how demand over some time is spread.

share_below(x, spread)      the chance of no more than x
quantile(share, spread)     below which it stays with that chance

The incomplete gamma function is a series below its mean and a continued fraction above it (NIST
Digital Library of Mathematical Functions, 8.11.4 and 8.9.2, from memory).
"""

from dataclasses import dataclass
from math import exp, lgamma, log, sqrt
from statistics import NormalDist

from stockroom.film.roots import crossing

_NEAR_ENOUGH = 1e-12
_MOST_TERMS = 10_000
_TINY = 1e-300
_NEARLY_NORMAL = 20_000.0
"""A shape from which Wilson and Hilferty's cube of a normal variable is as good."""


@dataclass(frozen=True, slots=True)
class Spread:
    """An amount that is not certain, above zero; the variance is in the square of its unit."""

    mean: float
    variance: float

    @property
    def shape(self) -> float:
        """The shape of the gamma distribution with this mean and variance."""
        return self.mean * self.mean / self.variance

    @property
    def scale(self) -> float:
        """Its scale."""
        return self.variance / self.mean


def share_below(x: float, spread: Spread) -> float:
    """The chance that an amount is not more than x."""
    if x <= 0:
        return 0.0
    shape, scaled = spread.shape, x / spread.scale
    lead = exp(shape * log(scaled) - scaled - lgamma(shape))
    if scaled < shape + 1:
        return lead * _series(shape, scaled)
    return 1 - lead * _fraction(shape, scaled)


def quantile(share: float, spread: Spread) -> float:
    """The amount that is not passed with a chance between 0 and 1; certain where nothing varies."""
    if spread.mean <= 0 or spread.variance <= 0:
        return max(spread.mean, 0.0)
    if spread.shape > _NEARLY_NORMAL:
        return _cubed(share, spread)
    high = spread.mean + sqrt(spread.variance)
    while share_below(high, spread) < share:
        high *= 2
    return crossing(
        lambda x: share_below(x, spread) - share, 0.0, high, near_enough=high * _NEAR_ENOUGH
    )


def _series(shape: float, x: float) -> float:
    """Of the lower incomplete gamma function over its lead."""
    term = total = 1 / shape
    for number in range(1, _MOST_TERMS):
        term *= x / (shape + number)
        total += term
        if term < total * _NEAR_ENOUGH:
            break
    return total


def _fraction(shape: float, x: float) -> float:
    """Of the upper incomplete gamma function over its lead, from the front (Lentz)."""
    below = x + 1 - shape
    front, back = 1 / _TINY, 1 / below
    value = back
    for number in range(1, _MOST_TERMS):
        above = number * (shape - number)
        below += 2
        back = 1 / (above * back + below or _TINY)
        front = below + above / front or _TINY
        value *= front * back
        if abs(front * back - 1) < _NEAR_ENOUGH:
            break
    return value


def _cubed(share: float, spread: Spread) -> float:
    """Wilson and Hilferty, 1931: its cube root is nearly normal."""
    ninth = 1 / (9 * spread.shape)
    return spread.mean * (1 - ninth + NormalDist().inv_cdf(share) * sqrt(ninth)) ** 3
