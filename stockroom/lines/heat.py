"""What heat did to film, as people and programs read it.

kinetic, kinetic_values    the mean kinetic temperature of readings, beside the heat that it hides
aged, aged_values          aged like so many days at a reference
energy, energy_values      the activation energy in force, and what it rests on
measured                   91 % measured; all measured
"""

from stockroom.film.climate import HOUR_S, Climate
from stockroom.film.exposure import Exposure, History
from stockroom.film.sentences import share_measured
from stockroom.units import System
from stockroom.units.shown import show_temperature

_UNKNOWN = "?"
_WHOLE_DAYS_FROM = 100

Values = dict[str, float | str | None]


def kinetic(
    history: History, exposure: Exposure, air: Climate | None, system: System = System.METRIC
) -> str:
    """The mean kinetic temperature, and from where to where the temperature went."""
    kinetic_c = history.mean_kinetic_c(exposure)
    shown = [_shown(one, system) for one in (kinetic_c, *_mean_lowest_highest(air))]
    return (
        f"Mean kinetic temperature {shown[0]}, mean {shown[1]}, from {shown[2]} to {shown[3]}; "
        f"{_days(exposure.calendar_days)}, {measured(exposure)}."
    )


def kinetic_values(history: History, exposure: Exposure, air: Climate | None) -> Values:
    """The same for a script; what no two readings tell is null."""
    mean_c, lowest_c, highest_c = _mean_lowest_highest(air)
    return {
        "mkt_c": _rounded(history.mean_kinetic_c(exposure)),
        "mean_c": _rounded(mean_c),
        "lowest_c": _rounded(lowest_c),
        "highest_c": _rounded(highest_c),
        "hours": _rounded(exposure.span_s / HOUR_S),
        "coverage": _rounded(exposure.coverage),
    }


def aged(history: History, exposure: Exposure, system: System = System.METRIC) -> str:
    """Aged like so many days; where a gap is unknown, at least like what was measured."""
    reference = show_temperature(history.reference_c, system)
    calendar = f"in {_days(exposure.calendar_days)}, {measured(exposure)}"
    if exposure.like_days is not None:
        return f"Aged like {_days(exposure.like_days)} at {reference} {calendar}."
    at_least = _days(exposure.like_days_measured)
    return f"Aged like {_UNKNOWN} days at {reference}, at least {at_least}, {calendar}."


def aged_values(history: History, exposure: Exposure) -> Values:
    """The same for a script; null where a gap is unknown."""
    return {
        "calendar_days": _rounded(exposure.calendar_days),
        "aged_like_days": _rounded(exposure.like_days),
        "measured_aged_like_days": _rounded(exposure.like_days_measured),
        "reference_c": _rounded(history.reference_c),
        "coverage": _rounded(exposure.coverage),
    }


def energy(history: History, basis: str) -> str:
    """The activation energy in force; a default reads as a default."""
    return f"Activation energy {history.energy_kj:.6g} kJ/mol ({basis})."


def energy_values(history: History, basis: str) -> Values:
    """The same for a script."""
    return {"energy_kj_mol": _rounded(history.energy_kj), "basis": basis}


def measured(exposure: Exposure) -> str:
    """How much was measured, in whole per cent and never more than was."""
    return share_measured(exposure.coverage)


def _days(days: float) -> str:
    """Days, to a tenth below a hundred."""
    return f"{days:.0f} days" if days >= _WHOLE_DAYS_FROM else f"{round(days, 1):g} days"


def _mean_lowest_highest(air: Climate | None) -> tuple[float | None, float | None, float | None]:
    return (None, None, None) if air is None else (air.mean, air.lowest, air.highest)


def _shown(temperature_c: float | None, system: System) -> str:
    return _UNKNOWN if temperature_c is None else show_temperature(temperature_c, system)


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 6)
