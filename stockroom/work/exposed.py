"""What climates did to pieces over stretches of their storage: how film aged, and how the air was.

    Exposures(climates, shop)      for one report, while the connection of its climates is open
      .of(code, since, until, …)   a stretch in days at 23 °C
      .air(code, since, until)     how long its air was outside of what it should be
      .sums(code, since, until, …)   what came together, of either

What nobody measured counts at the temperature its zone is assumed to have. What is still to come is
taken to be like the same weeks of a year ago or, where those were not measured, like the last month.
What is settled is not worked out again: only what came after.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field

from stockroom.books.climates import Climates
from stockroom.books.settled import THE_AIR, Record, Sums
from stockroom.books.values import Shop
from stockroom.film.chain import Chain
from stockroom.film.course import Summed
from stockroom.film.exposure import DAY_S, Exposure, known_rate
from stockroom.film.sums import hotter_than, outside_of
from stockroom.film.verdict import Air
from stockroom.work.stretches import Stretch, stretches

YEAR_S, MONTH_S = 365 * DAY_S, 30 * DAY_S
_ENOUGH = 0.5
"""The share of a stretch that must have been measured for the coming weeks to be taken from it."""
_HOUR_S = 3_600
_NONE = Exposure(span_s=0, measured_s=0, like_days_measured=0.0, like_days=0.0)

_Chains = tuple[Chain, Chain, Chain]
_Asked = tuple[str, int, int, float]
"""A piece, from which second to which, and the activation energy in kJ/mol; or the air instead."""


@dataclass(slots=True)
class Exposures:
    """What a report knows of how pieces were stored; what is the same for many is worked out once."""

    climates: Climates
    shop: Shop
    _exposures: dict[_Asked, Exposure] = field(default_factory=dict[_Asked, Exposure])
    _airs: dict[_Asked, Air | None] = field(default_factory=dict[_Asked, Air | None])
    _rates: dict[tuple[str | None, float], tuple[Summed | None, float]] = field(
        default_factory=dict[tuple[str | None, float], tuple[Summed | None, float]]
    )
    _zones: dict[str, _Chains] = field(default_factory=dict[str, _Chains])
    _after: dict[tuple[str | None, int, float], Sums] = field(
        default_factory=dict[tuple[str | None, int, float], Sums]
    )
    """What came in a zone after what is settled, up to a second."""

    def of(self, code: str, since_s: int, until_s: int, energy_kj: float) -> Exposure:
        """What a stretch of its storage did to a piece."""
        if until_s <= since_s:
            return _NONE
        key = (code, since_s, until_s, energy_kj)
        known = self._exposures.get(key)
        if known is None:
            measured_s, ageing_s, guessed_s, _ = self.sums(*key)
            known = self._exposures[key] = Exposure(
                span_s=until_s - since_s,
                measured_s=int(measured_s),
                like_days_measured=ageing_s / DAY_S,
                like_days=(ageing_s + guessed_s) / DAY_S,
            )
        return known

    def air(self, code: str, since_s: int, until_s: int) -> Air | None:
        """How long the air of a piece was outside of what it should be; None where nobody measured."""
        if until_s <= since_s:
            return None
        key = (code, since_s, until_s, THE_AIR)
        if key not in self._airs:
            measured_s, hot_s, too_hot_s, damp_s = self.sums(*key)
            self._airs[key] = (
                Air(
                    hot_hours=hot_s / _HOUR_S,
                    too_hot_hours=too_hot_s / _HOUR_S,
                    dry_or_damp_hours=damp_s / _HOUR_S,
                    coverage=measured_s / (until_s - since_s),
                )
                if measured_s
                else None
            )
        return self._airs[key]

    def sums(self, code: str, since_s: int, until_s: int, energy_kj: float) -> Sums:
        """What came together over a stretch: what is settled of it, and what came after."""
        settled = self.climates.settled
        end_s = min(until_s, settled.until_s)
        if since_s >= end_s:
            stays = self.climates.stays(code)
            return self._over(stretches(stays, since_s, until_s), energy_kj)
        found = settled.of(code, since_s, end_s, energy_kj)
        if found is not None:
            zone, sums = found
            return sums if end_s == until_s else _both(sums, self._since(zone, until_s, energy_kj))
        stays = self.climates.stays(code)
        sums = self._over(stretches(stays, since_s, end_s), energy_kj)
        if stays and stays[-1].since_s > settled.until_s:  # moved since, as nothing that is settled
            after = self._over(stretches(stays, end_s, until_s), energy_kj)
            return _both(sums, after)
        zone = stays[-1].zone if stays else None
        settled.note(code, Record(since_s, end_s, energy_kj, zone, sums))
        return sums if end_s == until_s else _both(sums, self._since(zone, until_s, energy_kj))

    def _since(self, zone: str | None, until_s: int, energy_kj: float) -> Sums:
        """What came in a zone after what is settled."""
        key = (zone, until_s, energy_kj)
        known = self._after.get(key)
        if known is None:
            stretch = (zone, self.climates.settled.until_s, until_s)
            known = self._after[key] = self._over((stretch,), energy_kj)
        return known

    def _over(self, each: Iterable[Stretch], energy_kj: float) -> Sums:
        return self._air(each) if energy_kj == THE_AIR else self._heat(each, energy_kj)

    def _heat(self, each: Iterable[Stretch], energy_kj: float) -> Sums:
        """The stretches in each zone together; one loop, for a report makes them by the hundred thousand."""
        now_s = self.climates.until_s
        measured_s, ageing_s, guessed_s = 0, 0.0, 0.0
        for zone, first_s, last_s in each:
            known_s = last_s if last_s <= now_s else max(first_s, now_s)
            unknown_s = known_s - first_s
            rates, assumed_rate = self._rates.get((zone, energy_kj)) or self._aged(zone, energy_kj)
            if rates is not None:
                amount, found_s = rates.between(first_s, known_s)
                ageing_s += amount
                measured_s += found_s
                unknown_s -= found_s
            guessed_s += unknown_s * assumed_rate
            if known_s < last_s:
                guessed_s += (last_s - known_s) * self._rate_to_come(
                    zone, known_s, last_s, energy_kj
                )
        return measured_s, ageing_s, guessed_s, 0.0

    def _aged(self, zone: str | None, energy_kj: float) -> tuple[Summed | None, float]:
        """How a zone aged film, and how it is taken to where nobody measured."""
        rates = None if zone is None else self.climates.ageing(zone, energy_kj).rates
        found = rates, known_rate(self._assumed_c(zone), energy_kj)
        self._rates[(zone, energy_kj)] = found
        return found

    def _rate_to_come(
        self, zone: str | None, since_s: int, until_s: int, energy_kj: float
    ) -> float:
        """How fast film will age in weeks that are still to come: nothing of them is measured."""
        if zone is not None:
            history = self.climates.ageing(zone, energy_kj)
            now_s = self.climates.until_s
            for first_s, last_s in (
                (since_s - YEAR_S, min(until_s - YEAR_S, now_s)),
                (now_s - MONTH_S, now_s),
            ):
                like = history.between(first_s, last_s) if first_s < last_s else None
                if like is not None and like.coverage >= _ENOUGH:
                    return like.like_days_measured / like.measured_days
        return known_rate(self._assumed_c(zone), energy_kj)

    def _assumed_c(self, zone: str | None) -> float:
        house_c = self.shop.house.air.assumed_c
        return house_c if zone is None else self.climates.assumed_c.get(zone, house_c)

    def _air(self, each: Iterable[Stretch]) -> Sums:
        """The seconds in which the air was measured, hot, too hot, and dry or damp."""
        measured_s, hot_s, too_hot_s, damp_s = 0, 0.0, 0.0, 0.0
        for zone, first_s, last_s in each:
            if zone is None:
                continue
            hot, too_hot, damp = self._zones.get(zone) or self._zone(zone)
            amount, found_s = hot.between(first_s, last_s)
            measured_s += found_s
            hot_s += amount
            if too_hot.amount:  # most zones never were
                too_hot_s += too_hot.between(first_s, last_s).amount
            if damp.amount:
                damp_s += damp.between(first_s, last_s).amount
        return measured_s, hot_s, too_hot_s, damp_s

    def _zone(self, zone: str) -> _Chains:
        """When a zone was hot, too hot, and dry or damp."""
        house = self.shop.house.air
        hot, too_hot, damp = (
            self.climates.sum(zone, of)
            for of in (
                hotter_than(house.hot_c),
                hotter_than(house.too_hot_c),
                outside_of(house.rh_low_pct, house.rh_high_pct),
            )
        )
        self._zones[zone] = found = hot, too_hot, damp
        return found


def _both(one: Sums, other: Sums) -> Sums:
    a, b, c, d = one
    e, f, g, h = other
    return a + e, b + f, c + g, d + h
