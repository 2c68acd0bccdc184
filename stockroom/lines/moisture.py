"""Moisture on a cold roll, as people and programs read it.

dew_point                      Dew point 11.1 °C …
waits, waits_values            whether moisture forms, and how long the wrap stays closed
BEFORE_UNWRAPPING              what the hours rest on
"""

from math import ceil

from stockroom.film.moisture import MARGIN_K, Moving, Unwrapping
from stockroom.units import System
from stockroom.units.shown import show_temperature

BEFORE_UNWRAPPING = (
    "Reckoned for a roll alone in its closed wrap; boxed or stacked it takes longer. "
    f"The {MARGIN_K:g} K above the dew point are a rule of the coating trade, from memory."
)


def dew_point(dew_c: float, system: System = System.METRIC) -> str:
    """Where film begins to get wet."""
    return f"Dew point {show_temperature(dew_c, system)}: film that is not warmer gets wet."


def waits(moving: Moving, found: Unwrapping, system: System = System.METRIC) -> str:
    """Whether moisture forms on a roll, and what to do."""
    film, dew = (show_temperature(one, system) for one in (moving.from_c, found.dew_point_c))
    forms = "Moisture forms" if found.condenses else "No moisture"
    return f"{forms}: the film has {film}, the dew point is {dew}. {_what_to_do(found)}"


def waits_values(found: Unwrapping) -> dict[str, float | bool | None]:
    """The same for a script; the hours are null where it never gets warm enough."""
    return {
        "dew_point_c": round(found.dew_point_c, 6),
        "condenses": found.condenses,
        "humidity_at_film_pct": round(found.humidity_at_film * 100, 6),
        "margin_k": MARGIN_K,
        "hours": None if found.wait_hours is None else round(found.wait_hours, 6),
    }


def _what_to_do(found: Unwrapping) -> str:
    if found.wait_hours is None:
        return "The air is too damp to unwrap it in: dry the air first."
    if not found.wait_hours:
        return "It may be unwrapped now."
    return f"Keep its wrap closed for {_hours(found.wait_hours)}."


def _hours(hours: float) -> str:
    """Rounded up to half an hour: the roll is no clock."""
    halves = ceil(hours * 2)
    return f"{halves / 2:g} h"
