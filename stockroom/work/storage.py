"""What storage did to pieces: heat, air and the curl of their wraps, from the climates they stood in.

Stored(climates, seen)       for one report, while the connection of its climates is open
  .storage_of(standing)      what the rules read of a piece, with what storage did to it
  .exposure(code, …)         a stretch of its storage in days at 23 °C
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from typing import NamedTuple

from stockroom.books.climates import Climates
from stockroom.books.sensors import second_of
from stockroom.books.trials import Trial
from stockroom.books.values import Material, Standing
from stockroom.film.assumed import assumed
from stockroom.film.curled import CurlOf
from stockroom.film.exposure import Exposure
from stockroom.film.limits import Figure
from stockroom.film.memory import memory
from stockroom.film.prony import Prony
from stockroom.film.rules import wound_age
from stockroom.film.sentences import Age
from stockroom.film.verdict import Air, Curl, Heat, Storage, TimeFactor
from stockroom.work.curl_model import time_factors
from stockroom.work.exposed import Exposures
from stockroom.work.judging import View, shelf_age_of, storage_of
from stockroom.work.warming import warm_up
from stockroom.work.windings import Days, stages_of

_DEFAULT = TimeFactor()


class _Film(NamedTuple):
    """How a material ages and relaxes; without a memory or a limit it is not judged by its curl."""

    energy_kj: float
    limit: Figure | None
    prony: Prony | None
    factor: TimeFactor


@dataclass(slots=True)
class Stored:
    """What a report knows of how pieces were stored; what is the same for many is worked out once."""

    climates: Climates
    seen: View
    _seconds: dict[str | date | None, int] = field(default_factory=dict[str | date | None, int])
    _films: dict[int, _Film] = field(default_factory=dict[int, _Film])
    _fitted: Mapping[int, TimeFactor] | None = None
    _exposures: Exposures = field(init=False)

    def __post_init__(self) -> None:
        self._exposures = Exposures(self.climates, self.seen.shop)

    def storage_of(self, standing: Standing) -> Storage:
        """What the rules read of one piece."""
        state, material = standing.state, standing.material
        if not material.kind.comes_in_rolls:
            return storage_of(state, material)
        age = shelf_age_of(state, material, self.seen.today)
        since = None if age is None else age.anchor
        plain = storage_of(state, material, curl=self._curl(standing, since))
        if not self.climates.is_measured:
            return plain
        return plain._replace(
            shelf_heat=self._heat(standing, since),
            wound_heat=self._wound_heat(standing, plain, age),
            air=self._air(standing, since),
            warm_up=warm_up(self.climates, standing, self.seen.moment),
        )

    def exposure(self, code: str, since_s: int, until_s: int, energy_kj: float) -> Exposure:
        """What a stretch of its storage did to a piece."""
        return self._exposures.of(code, since_s, until_s, energy_kj)

    def _heat(self, standing: Standing, since: date | None) -> Heat | None:
        """What heat made of the days since a shop day, none measured where nobody knows; None without a day."""
        if since is None:
            return None
        since_s, until_s = self._second(since), self._second(None)
        energy_kj = self._film(standing.material).energy_kj
        found = self.exposure(standing.code, since_s, until_s, energy_kj)
        past_s = max(1, min(until_s, self.climates.until_s) - since_s)
        if not found.measured_s or found.like_days is None:
            return Heat(0.0, 0.0)
        return Heat(found.like_days, found.measured_s / past_s)

    def _wound_heat(self, standing: Standing, plain: Storage, age: Age | None) -> Heat | None:
        """The same of the present winding; the days wound before it count as they are."""
        wound = wound_age(plain, age, self.seen.today)
        if wound is None or not wound.grows:
            return None
        before = plain.wound_days_before
        found = self._heat(standing, wound.anchor + timedelta(days=before))
        return None if found is None else Heat(found.like_days + before, found.coverage)

    def _air(self, standing: Standing, since: date | None) -> Air | None:
        """How long its air was outside of what it should be; None where nobody measured."""
        until_s = min(self._second(None), self.climates.until_s)
        return self._exposures.air(
            standing.code, 0 if since is None else self._second(since), until_s
        )

    def _curl(self, standing: Standing, made: date | None) -> Curl | None:
        """What its wraps curl to; None where core or thickness are not known, or it is no such film."""
        film, state = self._film(standing.material), standing.state
        if film.prony is None or film.limit is None or not state.balance:
            return None
        stages = stages_of(state, self._days_since(standing, made, film))
        if stages is None:
            return None
        found = memory(stages, film.prony, slower=film.factor.factor)
        return CurlOf(found, film.limit, film.factor)

    def _days_since(self, standing: Standing, made: date | None, film: _Film) -> Days:
        """Days at 23 °C of a piece, between days or instants; from None is since made, to None is now."""
        first_s = self._second(made)

        def days(since: str | None, until: str | None) -> float:
            since_s = first_s if since is None else self._second(since)
            found = self.exposure(standing.code, since_s, self._second(until), film.energy_kj)
            return found.like_days or 0.0

        return days

    def _second(self, day: str | date | None) -> int:
        """Of an instant, or of the first one of a shop day, as a date or as ISO text; None is the view's."""
        if day not in self._seconds:
            self._seconds[day] = second_of(self._instant(day))
        return self._seconds[day]

    def _instant(self, day: str | date | None) -> datetime:
        if day is None:
            return self.seen.moment
        if isinstance(day, str):
            if len(day) > len("2026-11-25"):
                return datetime.fromisoformat(day).astimezone(UTC)
            day = date.fromisoformat(day)
        return self.seen.shop.begin_of(day)

    def _film(self, material: Material) -> _Film:
        """What is known, or assumed, of how a material ages and relaxes."""
        known = self._films.get(material.id)
        if known is None:
            house = self.seen.shop.house
            default = assumed(material.kind)
            known = self._films[material.id] = _Film(
                energy_kj=self._energy(material),
                limit=material.facts.get("curl") or house.curl(material.kind),
                prony=default.prony if default else None,
                factor=self._factor(material),
            )
        return known

    def _factor(self, material: Material) -> TimeFactor:
        """By how much its film relaxes slower than assumed: as entered, or as its curl trials tell."""
        if entered := material.facts.get("memory"):
            return TimeFactor(factor=entered.value, basis=entered.basis)
        if self._fitted is None:
            trials = self.climates.trials()
            self._fitted = (
                time_factors(trials, self.climates.materials(), self._days_of) if trials else {}
            )
        return self._fitted.get(material.id, _DEFAULT)

    def _days_of(self, trial: Trial) -> Days:
        """The days of the piece of a trial, up to then."""
        standing = self.climates.standing(trial.piece)
        age = shelf_age_of(standing.state, standing.material, self.seen.today)
        energy_kj = self._energy(standing.material)
        film = _Film(energy_kj=energy_kj, limit=None, prony=None, factor=_DEFAULT)
        days = self._days_since(standing, age.anchor if age else None, film)
        at = trial.at.isoformat()
        return lambda since, until: days(since, until or at)

    def _energy(self, material: Material) -> float:
        """How much faster it ages when it is warm, in kJ/mol."""
        return (material.facts.get("energy") or self.seen.shop.house.energy()).value
