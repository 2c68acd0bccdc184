"""What a stretch of storage did to film: days at the reference that would have aged it as much.

    History                 readings of one zone, as a course of ageing rates
      .between(start, end)  Exposure of that stretch
    history(at_us, temperatures_c, …)   History
    Exposure
      .like_days            aged like so many days at the reference; None where unknown
      .like_days_measured   what the measured part alone amounts to: at least so many
      .calendar_days, .measured_days, .coverage
    joined(exposures)       one exposure of stretches that follow each other
    mean_kinetic_c          the one temperature that would have aged film as much

The rule: trapezoid on rates between readings, and a straight line between two rates where a stretch
begins or ends between readings. A gap longer than the limit is unknown, and so is the time before
the first reading and after the last: it counts as if it had been at the temperature the zone is
assumed to have. Where none is assumed, the whole is unknown.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from stockroom.film.course import SECOND_US, Course, course
from stockroom.film.heat import (
    DEFAULT_ENERGY_KJ,
    REFERENCE_C,
    ageing_rate,
    temperature_at_rate_c,
)

DAY_S = 86_400
_DAY_US = DAY_S * SECOND_US


@dataclass(frozen=True, slots=True, kw_only=True)
class Exposure:
    """A stretch of storage: how long, how much of it was measured, and what it did."""

    span_us: int
    measured_us: int
    like_days_measured: float
    like_days: float | None

    @property
    def calendar_days(self) -> float:
        """How long it was."""
        return self.span_us / _DAY_US

    @property
    def measured_days(self) -> float:
        """How much of it was measured."""
        return self.measured_us / _DAY_US

    @property
    def coverage(self) -> float:
        """The share of it that was measured; of no time at all, nothing is missing."""
        return self.measured_us / self.span_us if self.span_us else 1.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class History:
    """The ageing rates of one zone through time, for one activation energy."""

    rates: Course
    energy_kj: float
    reference_c: float

    def between(self, start_us: int, end_us: int, assumed_c: float | None = None) -> Exposure:
        """What a stretch did; what was not measured counts at the assumed temperature."""
        measured = self.rates.between(start_us, end_us)
        unknown_us = end_us - start_us - measured.measured_us
        like_days = measured.amount / DAY_S
        return Exposure(
            span_us=end_us - start_us,
            measured_us=measured.measured_us,
            like_days_measured=like_days,
            like_days=self._filled(like_days, unknown_us, assumed_c),
        )

    def _filled(self, like_days: float, unknown_us: int, assumed_c: float | None) -> float | None:
        """The measured part and the unknown one together, or None where nothing is assumed."""
        if not unknown_us:
            return like_days
        if assumed_c is None:
            return None
        rate = ageing_rate(assumed_c, self.energy_kj, self.reference_c)
        return like_days + rate * unknown_us / _DAY_US

    def mean_kinetic_c(self, exposure: Exposure) -> float | None:
        """The one temperature that would have aged film as much as the measured part did."""
        if not exposure.measured_us:
            return None
        rate = exposure.like_days_measured / exposure.measured_days
        return temperature_at_rate_c(rate, self.energy_kj, self.reference_c)


def history(
    at_us: Sequence[int],
    temperatures_c: Sequence[float],
    *,
    energy_kj: float = DEFAULT_ENERGY_KJ,
    reference_c: float = REFERENCE_C,
    longest_gap_us: int | None = None,
) -> History:
    """The history of readings in order of time; without a longest gap, all between them counts."""
    rates = [ageing_rate(one, energy_kj, reference_c) for one in temperatures_c]
    return History(
        rates=course(at_us, rates, longest_gap_us=longest_gap_us),
        energy_kj=energy_kj,
        reference_c=reference_c,
    )


def joined(exposures: Iterable[Exposure]) -> Exposure:
    """One exposure of stretches that follow each other; unknown if one of them is."""
    parts = list(exposures)
    likes = [part.like_days for part in parts if part.like_days is not None]
    return Exposure(
        span_us=sum(part.span_us for part in parts),
        measured_us=sum(part.measured_us for part in parts),
        like_days_measured=sum(part.like_days_measured for part in parts),
        like_days=sum(likes) if len(likes) == len(parts) else None,
    )
