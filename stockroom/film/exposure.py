"""What a stretch of storage did to film: days at the reference that would have aged it as much.

    History                 readings of one zone, as a course of ageing rates
      .between(start, end)  Exposure of that stretch
    history(at_s, temperatures_c, …)   History
    Exposure
      .like_days            aged like so many days at the reference; None where unknown
      .like_days_measured   what the measured part alone amounts to: at least so many
      .calendar_days, .measured_days, .coverage
    known_rate(celsius, …)  how fast film ages at a temperature, of those asked for again and again
    mean_kinetic_c          the one temperature that would have aged film as much

The rule: trapezoid on rates between readings, and a straight line between two rates where a stretch
begins or ends between readings. A gap longer than the limit is unknown, and so is the time before
the first reading and after the last: it counts as if it had been at the temperature the zone is
assumed to have. Where none is assumed, the whole is unknown.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from stockroom.film.course import Summed, course
from stockroom.film.heat import (
    DEFAULT_ENERGY_KJ,
    REFERENCE_C,
    ageing_rate,
    ageing_rates,
    temperature_at_rate_c,
)

DAY_S = 86_400


class Exposure(NamedTuple):
    """A stretch of storage: how long, how much of it was measured, and what it did.

    Made with names; a tuple, for reports make them by the hundred thousand.
    """

    span_s: int
    measured_s: int
    like_days_measured: float
    like_days: float | None

    @property
    def calendar_days(self) -> float:
        """How long it was."""
        return self.span_s / DAY_S

    @property
    def measured_days(self) -> float:
        """How much of it was measured."""
        return self.measured_s / DAY_S

    @property
    def coverage(self) -> float:
        """The share of it that was measured; of no time at all, nothing is missing."""
        return self.measured_s / self.span_s if self.span_s else 1.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class History:
    """The ageing rates of one zone through time, for one activation energy."""

    rates: Summed
    energy_kj: float
    reference_c: float

    def between(self, start_s: int, end_s: int, assumed_c: float | None = None) -> Exposure:
        """What a stretch did; what was not measured counts at the assumed temperature."""
        measured = self.rates.between(start_s, end_s)
        unknown_s = end_s - start_s - measured.measured_s
        like_days = measured.amount / DAY_S
        return Exposure(
            span_s=end_s - start_s,
            measured_s=measured.measured_s,
            like_days_measured=like_days,
            like_days=self._filled(like_days, unknown_s, assumed_c),
        )

    def _filled(self, like_days: float, unknown_s: int, assumed_c: float | None) -> float | None:
        """The measured part and the unknown one together, or None where nothing is assumed."""
        if not unknown_s:
            return like_days
        if assumed_c is None:
            return None
        rate = known_rate(assumed_c, self.energy_kj, self.reference_c)
        return like_days + rate * unknown_s / DAY_S

    def mean_kinetic_c(self, exposure: Exposure) -> float | None:
        """The one temperature that would have aged film as much as the measured part did."""
        if not exposure.measured_s:
            return None
        rate = exposure.like_days_measured / exposure.measured_days
        return temperature_at_rate_c(rate, self.energy_kj, self.reference_c)


@lru_cache(maxsize=1_000)
def known_rate(temperature_c: float, energy_kj: float, reference_c: float = REFERENCE_C) -> float:
    """The ageing rate at what zones are assumed to be, which are few and asked for often."""
    return ageing_rate(temperature_c, energy_kj, reference_c)


def history(
    at_s: Sequence[int],
    temperatures_c: Sequence[float],
    *,
    energy_kj: float = DEFAULT_ENERGY_KJ,
    reference_c: float = REFERENCE_C,
    longest_gap_s: int | None = None,
) -> History:
    """The history of readings in order of time; without a longest gap, all between them counts."""
    rates = ageing_rates(temperatures_c, energy_kj, reference_c)
    return History(
        rates=course(at_s, rates, longest_gap_s=longest_gap_s),
        energy_kj=energy_kj,
        reference_c=reference_c,
    )
