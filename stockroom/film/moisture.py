"""Moisture on a cold roll: dew point, what the film's surface meets, how long until it is warm.

    saturation_pressure_pa     what water vapour can press at a temperature
    dew_point_c                where air of a humidity begins to wet what it touches
    humidity_at_surface        the humidity air has where it touches a colder or warmer surface
    Moving, Unwrapping         a roll that goes into other air; what to expect, when to unwrap it
    unwrapping(moving)         Unwrapping
    warm_up_hours              how long a roll takes for a share of the way

Saturation pressure: ASHRAE Handbook, Fundamentals 2017, chapter 1, equations 5 (ice) and 6 (water),
changed over at the triple point; the dew point is its inverse. Humidity is a share, 0.5 for 50 %.

Warm-up: hours = 144.27 (V/A) ln(1/(1-f)), the first-order form of a table for film in closed cans
(Conservation DistList, 6 August 1993): 100 h at half the way, 330 h at nine tenths, for a metre of
volume over surface. It is the roll as a whole; the inside lags the skin. A bare roll is faster, a
boxed or stacked one slower. The margin over the dew point, 3 K, is from memory: a rule of the
coating trade.
"""

from dataclasses import dataclass
from math import exp, log, log1p

from stockroom.film.heat import ZERO_C_K

MARGIN_K = 3.0

_TRIPLE_POINT_C = 0.01
_LEAST_C, _MOST_C = -100.0, 200.0  # where the equations hold
_HOURS_PER_M = 144.27


def saturation_pressure_pa(temperature_c: float) -> float:
    """The pressure of saturated water vapour over ice or water, from -100 to 200 °C."""
    return exp(_log_pressure(temperature_c))


def dew_point_c(air_c: float, humidity: float) -> float:
    """The temperature at which air of a humidity, more than 0 and up to 1, is saturated."""
    if not 0 < humidity <= 1:
        raise ValueError(f"air has no dew point at a humidity of {humidity}")
    wanted = log(humidity) + _log_pressure(air_c)
    low, high = _LEAST_C, air_c
    if _log_pressure(low) > wanted:
        raise ValueError(f"the dew point is below {low} °C")
    while low < (middle := (low + high) / 2) < high:
        low, high = (middle, high) if _log_pressure(middle) < wanted else (low, middle)
    return high


def humidity_at_surface(air_c: float, humidity: float, surface_c: float) -> float:
    """The humidity of air where it touches a surface; 1 and more is wet."""
    return humidity * saturation_pressure_pa(air_c) / saturation_pressure_pa(surface_c)


def warm_up_hours(volume_per_surface_m: float, share: float) -> float:
    """How long a roll takes to come a share of the way, below 1, to the temperature of the air."""
    return _HOURS_PER_M * volume_per_surface_m * -log1p(-share)


def volume_per_surface_m(outside_mm: float, width_mm: float) -> float:
    """Volume over surface of a cylinder, its ends included: r w / (2 (r + w))."""
    radius_m, width_m = outside_mm / 2_000, width_mm / 1_000
    return radius_m * width_m / (2 * (radius_m + width_m))


@dataclass(frozen=True, slots=True, kw_only=True)
class Moving:
    """A roll that comes from one temperature into air of another; humidity is a share."""

    from_c: float
    air_c: float
    humidity: float
    outside_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Unwrapping:
    """What a roll meets in other air, and how long its wrap stays closed.

    wait_hours is none at all where the roll is warm enough now, and None where it never will be:
    the air itself is too near its dew point.
    """

    dew_point_c: float
    humidity_at_film: float
    condenses: bool
    wait_hours: float | None


def unwrapping(moving: Moving) -> Unwrapping:
    """Whether moisture forms on a roll in other air, and when it is warm enough not to."""
    dew_c = dew_point_c(moving.air_c, moving.humidity)
    return Unwrapping(
        dew_point_c=dew_c,
        humidity_at_film=humidity_at_surface(moving.air_c, moving.humidity, moving.from_c),
        condenses=moving.from_c <= dew_c,
        wait_hours=_wait_hours(moving, dew_c + MARGIN_K),
    )


def _wait_hours(moving: Moving, dry_c: float) -> float | None:
    """How long until the roll as a whole has a temperature."""
    if moving.from_c >= dry_c:
        return 0.0
    if moving.air_c <= dry_c:
        return None
    share = (dry_c - moving.from_c) / (moving.air_c - moving.from_c)
    return warm_up_hours(volume_per_surface_m(moving.outside_mm, moving.width_mm), share)


def _log_pressure(temperature_c: float) -> float:
    """The logarithm of the saturation pressure in pascal."""
    if not _LEAST_C <= temperature_c <= _MOST_C:
        raise ValueError(f"{temperature_c} °C is outside of {_LEAST_C} to {_MOST_C} °C")
    kelvin = temperature_c + ZERO_C_K
    if temperature_c <= _TRIPLE_POINT_C:
        return (
            -5.6745359e3 / kelvin
            + 6.3925247
            - 9.677843e-3 * kelvin
            + 6.2215701e-7 * kelvin**2
            + 2.0747825e-9 * kelvin**3
            - 9.484024e-13 * kelvin**4
            + 4.1635019 * log(kelvin)
        )
    return (
        -5.8002206e3 / kelvin
        + 1.3914993
        - 4.8640239e-2 * kelvin
        + 4.1764768e-5 * kelvin**2
        - 1.4452093e-8 * kelvin**3
        + 6.5459673 * log(kelvin)
    )
