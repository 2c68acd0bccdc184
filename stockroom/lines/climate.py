"""What a zone is like and was like, as people and programs read it.

zones, zone_values          every zone with what was read of it last; zone_cells: one of them
of_zone, of_zone_values     what a zone was like, and day by day or hour by hour
hours                       31 h, 20 min
assumed                     how warm a zone is taken to be while nobody measures
"""

from collections.abc import Sequence
from datetime import timedelta

from stockroom.books.climate import SensorNow, ZoneNow
from stockroom.books.values import Shop
from stockroom.film.climate import Climate
from stockroom.film.limits import Figure
from stockroom.lines import heat, words
from stockroom.lines.sensors import said, sensor_values
from stockroom.lines.text_table import Columns, pairs, table
from stockroom.units.shown import show_temperature
from stockroom.work.climate import Extreme, Point, ZoneClimate

Values = dict[str, object]

_ZONES = Columns(heads=("zone", "now", "humidity", "read at", "sensor", "unmeasured"), flex=4)
_POINTS = Columns(
    heads=("", "mean", "lowest", "highest", "humidity", "measured"),
    right=frozenset({1, 2, 3, 4, 5}),
)
_A_DAY = timedelta(hours=23)
_NOBODY = "nobody measures"


def zones(known: Sequence[ZoneNow], shared: Shop, width: int) -> list[str]:
    """Every zone, one a line."""
    if not known:
        return ["No zone is known yet: `stockroom place add NAME --zone Z` makes one."]
    return table(_ZONES, [zone_cells(one, shared) for one in known], width)


def zone_cells(one: ZoneNow, shared: Shop) -> tuple[str, ...]:
    """A zone, what was read of it last and when, by which sensor, and what it is else taken to be."""
    return (
        one.zone,
        *said(None if one.sensor is None else one.sensor.corrected, shared),
        _speaker(one.sensor),
        _assumed(one.assumed_c, shared),
    )


def zone_values(one: ZoneNow) -> Values:
    """A zone for a script."""
    return {
        "zone": one.zone,
        "sensor": None if one.sensor is None else sensor_values(one.sensor),
        "assumed_c": one.assumed_c.value,
        "assumed_basis": one.assumed_c.basis.value,
    }


def assumed(one: ZoneNow, shared: Shop) -> str:
    """How warm a zone is taken to be."""
    return f"{one.zone}: {_assumed(one.assumed_c, shared)} while nobody measures."


def of_zone(found: ZoneClimate, shared: Shop, width: int) -> list[str]:
    """What a zone was like, what it came to, and each day or hour of it."""
    system = shared.system
    air = found.air
    low, high, hot, too_hot = (
        show_temperature(one, system) for one in (air.cold_c, air.hot_c, air.hot_c, air.too_hot_c)
    )
    rows = [
        ("from", words.moment(found.since, shared)),
        ("to", words.moment(found.until, shared)),
        ("sensor", _speaker(found.now.sensor)),
        ("measured", heat.measured(found.exposure)),
        ("unmeasured", _assumed(found.now.assumed_c, shared)),
        ("mean", _mean(found.temperature, shared)),
        ("mean kinetic", _kinetic(found, shared)),
        ("hottest", _extreme(found.hottest, shared)),
        ("coldest", _extreme(found.coldest, shared)),
        ("outside", _outside(found.temperature, f"{low} to {high}")),
        ("hot", f"{hours(found.hot_hours)} above {hot}, limit {air.hot_hours} h"),
        ("too hot", f"{hours(found.too_hot_hours)} above {too_hot}"),
        ("humidity", _damp(found.humidity, f"{air.rh_low_pct} to {air.rh_high_pct} %")),
        ("aged like", _aged(found)),
    ]
    lines = [found.now.zone, *pairs(rows)]
    measured = [point for point in found.points if point.temperature is not None]
    if not measured:
        return lines
    shown = [_point(point, shared) for point in measured]
    return [*lines, "", *table(_POINTS, shown, width)]


def of_zone_values(found: ZoneClimate) -> Values:
    """What a zone was like, for a script; what was not measured is null."""
    return {
        **zone_values(found.now),
        "since": found.since.isoformat(),
        "until": found.until.isoformat(),
        "coverage": round(found.exposure.coverage, 6),
        "temperature": _climate_values(found.temperature, "c"),
        "humidity": _climate_values(found.humidity, "pct"),
        "mkt_c": _rounded(found.mean_kinetic_c),
        "hottest": _extreme_values(found.hottest),
        "coldest": _extreme_values(found.coldest),
        "hot_hours": round(found.hot_hours, 6),
        "too_hot_hours": round(found.too_hot_hours, 6),
        "aged_like_days": _rounded(found.exposure.like_days),
        "calendar_days": round(found.exposure.calendar_days, 6),
        "energy_kj_mol": found.energy.value,
        "energy_basis": found.energy.basis.value,
        "points": [_point_values(point) for point in found.points],
    }


def _speaker(sensor: SensorNow | None) -> str:
    if sensor is None:
        return _NOBODY
    return f"{sensor.name}, SILENT" if sensor.is_silent else sensor.name


def _assumed(assumed_c: Figure, shared: Shop) -> str:
    """How warm a zone is taken to be while nobody measures."""
    return f"assumed {show_temperature(assumed_c.value, shared.system)} ({assumed_c.basis})"


def _mean(air: Climate | None, shared: Shop) -> str:
    if air is None or air.mean is None:
        return words.UNKNOWN
    return show_temperature(air.mean, shared.system)


def _kinetic(found: ZoneClimate, shared: Shop) -> str:
    if found.mean_kinetic_c is None:
        return words.UNKNOWN
    energy = f"{found.energy.value:g} kJ/mol, {found.energy.basis}"
    return f"{show_temperature(found.mean_kinetic_c, shared.system)} ({energy})"


def _extreme(found: Extreme | None, shared: Shop) -> str:
    if found is None:
        return words.UNKNOWN
    return f"{show_temperature(found.temperature_c, shared.system)} at {words.moment(found.at, shared)}"


def _outside(air: Climate | None, band: str) -> str:
    """The hours outside of a band; where nothing was measured, nothing is known of it."""
    if air is None:
        return words.UNKNOWN
    return f"{hours(air.hours_outside)} of {hours(air.hours_measured)} measured, {band}"


def _damp(air: Climate | None, band: str) -> str:
    if air is None or air.mean is None:
        return words.UNKNOWN
    ends = f"{air.mean:.0f} %, {air.lowest:.0f} to {air.highest:.0f} %"
    return f"{ends}; outside {band}: {hours(air.hours_outside)} of {hours(air.hours_measured)}"


def _aged(found: ZoneClimate) -> str:
    days = found.exposure.like_days
    calendar = f"in {found.exposure.calendar_days:.1f} days"
    return f"{words.UNKNOWN} {calendar}" if days is None else f"{days:.1f} days at 23 °C {calendar}"


def hours(number: float) -> str:
    """Hours, and under one hour minutes: no heat is said to be none."""
    if 0 < number < 1:
        return f"{max(1, round(number * 60))} min"
    return f"{round(number)} h"


def _point(point: Point, shared: Shop) -> tuple[str, ...]:
    """A day or an hour of a zone."""
    warm, damp = point.temperature, point.humidity
    is_day = point.until - point.since >= _A_DAY
    share = 0.0 if warm is None else warm.hours_measured / _length_h(point)
    shown = [
        words.UNKNOWN if one is None else show_temperature(one, shared.system)
        for one in ((None, None, None) if warm is None else (warm.mean, warm.lowest, warm.highest))
    ]
    return (
        str(shared.day_of(point.since)) if is_day else words.moment(point.since, shared),
        *shown,
        words.UNKNOWN if damp is None or damp.mean is None else f"{damp.mean:.0f} %",
        f"{int(share * 100)} %",
    )


def _point_values(point: Point) -> Values:
    return {
        "since": point.since.isoformat(),
        "until": point.until.isoformat(),
        "temperature": _climate_values(point.temperature, "c"),
        "humidity": _climate_values(point.humidity, "pct"),
    }


def _climate_values(air: Climate | None, unit: str) -> Values | None:
    if air is None:
        return None
    return {
        f"mean_{unit}": _rounded(air.mean),
        f"lowest_{unit}": round(air.lowest, 6),
        f"highest_{unit}": round(air.highest, 6),
        "hours_outside": round(air.hours_outside, 6),
        "hours_measured": round(air.hours_measured, 6),
    }


def _extreme_values(found: Extreme | None) -> Values | None:
    if found is None:
        return None
    return {"at": found.at.isoformat(), "temperature_c": found.temperature_c}


def _length_h(point: Point) -> float:
    return (point.until - point.since) / timedelta(hours=1)


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 6)
