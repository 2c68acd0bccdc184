"""What a shop's own curl trials say of its films: by how much each relaxes slower than assumed."""

from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache
from itertools import groupby
from math import sin
from operator import attrgetter

from stockroom.books.trials import Trial
from stockroom.books.values import Material
from stockroom.film.assumed import assumed
from stockroom.film.bending import curl_of_circle_per_m, reading_error_per_m
from stockroom.film.fitting import CurlTrial, error_per_m, fit
from stockroom.film.prony import Prony
from stockroom.film.verdict import TimeFactor
from stockroom.units import MM, M
from stockroom.work.windings import WOUND, Days, Kept, read, stages


def time_factors(
    trials: Sequence[Trial],
    materials: Mapping[int, Material],
    days_of: Callable[[Trial], Days],
) -> Mapping[int, TimeFactor]:
    """The factor on the times of each material that was tried, by its id.

    `days_of` gives the days of the piece of a trial, by the climate as it is known now. A trial
    counts where it is known how the film was wound, and is of one film alone.
    """
    found: dict[int, TimeFactor] = {}
    by_material = attrgetter("material_id")
    for material_id, tried in groupby(sorted(trials, key=by_material), key=by_material):
        film = assumed(materials[material_id].kind)
        if film is None:
            continue
        fitted = (_as_fitted(one, days_of(one)) for one in tried)
        found[material_id] = _fit(tuple(one for one in fitted if one is not None), film.prony)
    return found


@lru_cache(maxsize=1_000)
def _fit(trials: tuple[CurlTrial, ...], prony: Prony) -> TimeFactor:
    """Fitted once for as long as neither trials nor what is known of their climate change."""
    return fit(trials, prony)


def _as_fitted(trial: Trial, days: Days) -> CurlTrial | None:
    """A trial as it is fitted; None where its film is two, or nobody knows how it was wound."""
    facts = trial.facts
    from_core_nm = facts.get("from_core_nm")
    if from_core_nm is None or facts["is_laminated"]:
        return None
    kept = read(facts["stages"])
    history = stages(kept, days)
    if history is None:
        return None
    circle_nm = facts["circle_nm"]
    curl_per_m = curl_of_circle_per_m(circle_nm / MM) if circle_nm is not None else 0.0
    error = error_per_m(curl_per_m, reading_error_per_m(_chord_mm(facts), facts["height_nm"] / MM))
    return CurlTrial(
        history=history,
        from_core_m=from_core_nm / M,
        curl_per_m=-curl_per_m if _is_to_the_back(kept) != facts["other_way"] else curl_per_m,
        error_per_m=error,
    )


def _chord_mm(facts: Mapping[str, int | None]) -> float:
    """The chord as it was measured, or as it follows from the length of the strip."""
    chord_nm, arc_nm, circle_nm = (facts[name] for name in ("chord_nm", "arc_nm", "circle_nm"))
    if chord_nm is not None:
        return chord_nm / MM
    arc_mm = (arc_nm or 0) / MM
    return circle_nm / MM * sin(arc_mm * MM / circle_nm) if circle_nm else arc_mm


def _is_to_the_back(history: Sequence[Kept]) -> bool:
    """Whether film curls away from its face when it curls as it was wound last."""
    return [one.face for one in history if one.how == WOUND][-1] == "out"
