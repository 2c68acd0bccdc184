"""The rules of how a piece was kept: what heat, air and winding did to it, each a short function.

heat(aged, like)       the limits of shelf and winding, in days at 23 °C
climate(storage, …)    hours above what film should meet; too dry or too damp
memory(storage, …)     the curl of the wrap that is used next, against the limit of curl trials
warm_up(…)             WAIT while a cold piece would draw moisture

A rule answers unknown where nothing was measured, or where core or thickness are not known.
"""

from datetime import date, datetime
from math import ceil, floor
from typing import NamedTuple

from stockroom.film.kinds import Kind
from stockroom.film.limits import House
from stockroom.film.sentences import Age, share_measured
from stockroom.film.verdict import (
    FEWEST_TRIALS,
    Air,
    Curl,
    Heat,
    Reason,
    Storage,
    TimeFactor,
    Verdict,
    WarmUp,
)

HEAT, CLIMATE, MEMORY, WARM_UP = "heat", "climate", "memory", "warm-up"

NOT_MEASURED = Reason(
    rule=HEAT, verdict=None, unit="days", said="nobody measured how warm it was kept"
)
_NOT_KNOWN = Reason(
    rule=MEMORY, verdict=None, unit="mm", said="core or thickness not known: no curl to be told"
)


def warmed(age: Age, heat: Heat) -> Age:
    """An age as heat makes it: the days at 23 °C that would have aged film as much."""
    days, tail = round(heat.like_days), f" at 23 °C ({share_measured(heat.coverage)})"
    return Age(days, age.anchor, lead="aged like ", tail=tail, grows=False)


def climate(kind: Kind, air: Air, house: House) -> Reason:
    """Whether film met more heat than it should; damp and dry air is a note, but counts for print media."""
    band = house.air
    verdict = Verdict.USE
    if air.too_hot_hours > 0:
        verdict = Verdict.TEST
    elif air.hot_hours > band.hot_hours or (
        kind.is_printed_on and air.dry_or_damp_hours > band.hot_hours
    ):
        verdict = Verdict.USE_FIRST
    return Reason(
        rule=CLIMATE,
        verdict=verdict,
        measured=round(air.hot_hours),
        limit=band.hot_hours,
        unit="hours",
        basis=house.basis("climate.hot-hours"),
        said=_air_words(air, house),
    )


def _air_words(air: Air, house: House) -> str:
    band = house.air
    basis = house.basis("climate.hot-hours")
    hot = f"{_hours(air.hot_hours)} above {band.hot_c:g} °C, limit {band.hot_hours} h ({basis})"
    parts = [hot]
    if air.too_hot_hours > 0:
        parts.append(f"{_hours(air.too_hot_hours)} above {band.too_hot_c:g} °C: adhesion trial")
    if air.dry_or_damp_hours >= 1:
        parts.append(
            f"{_hours(air.dry_or_damp_hours)} outside {band.rh_low_pct} to {band.rh_high_pct} % humidity"
        )
    return "; ".join(parts)


def _hours(hours: float) -> str:
    """Hours, and under one hour minutes: no heat is said to be none."""
    return f"{ceil(hours * 60)} min" if 0 < hours < 1 else f"{round(hours)} h"


def memory(storage: Storage, today: date) -> Reason:
    """What the wrap that is used next curls to, against the limit of curl trials."""
    curl = storage.curl
    if curl is None:
        return _NOT_KNOWN
    until = storage.passed.get("wound")
    is_tight = curl.outer_mm is not None and curl.outer_mm < curl.limit.value
    verdict, then = Verdict.USE, ""
    if is_tight and until is not None and today <= until:
        then = f": curl trial passed, good until {until}"
    elif is_tight:
        verdict, then = Verdict.TEST, ": curl trial"
    return Reason(
        rule=MEMORY,
        verdict=verdict,
        measured=None if curl.outer_mm is None else floor(curl.outer_mm),
        limit=round(curl.limit.value),
        unit="mm",
        basis=curl.limit.basis,
        said=CurlSaid(curl, then),
    )


class CurlSaid(NamedTuple):
    """What wraps curl to in words, made when somebody reads it."""

    curl: Curl
    then: str

    def __str__(self) -> str:
        return f"{_curl_words(self.curl)}{self.then}"


def _curl_words(curl: Curl) -> str:
    limit = f"limit {curl.limit.value:.0f} mm ({curl.limit.basis}; {_model(curl.model)})"
    if curl.outer_mm is None:
        return f"lies flat, {limit}"
    said = f"outer wrap curls to a {floor(curl.outer_mm)} mm circle, {limit}"
    if curl.tight_m and curl.outer_mm >= curl.limit.value:
        return f"{said}; the last {curl.tight_m:.1f} m curl tighter"
    return said


def _model(model: TimeFactor) -> str:
    """What stands behind what film is taken to curl to."""
    if model.is_own:
        return f"own trials: {model.trials}"
    if not model.trials:
        return "model: default, no trials"
    if model.trials < FEWEST_TRIALS:
        return f"model: default, {model.trials} of {FEWEST_TRIALS} trials"
    return f"model: default, {model.trials} trials leave it open"


def warm_up(found: WarmUp, moment: datetime) -> Reason:
    """Whether a piece that came in cold is still colder than the dew point of the air."""
    is_waiting = moment < found.ready
    hours = ceil((found.ready - moment).total_seconds() / 3_600) if is_waiting else 0
    left = f": keep it wrapped, {hours} h to go" if is_waiting else ": warm by now"
    return Reason(
        rule=WARM_UP,
        verdict=Verdict.WAIT if is_waiting else Verdict.USE,
        measured=round(found.from_c),
        limit=round(found.dew_point_c),
        unit="°C",
        said=(
            f"came in at {found.from_c:.0f} °C, the dew point here is {found.dew_point_c:.0f} °C{left}"
        ),
    )
