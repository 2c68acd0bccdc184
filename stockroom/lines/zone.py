"""A zone as the Climate screen shows it.

sentence(found, span, shop)   North was above 30 °C for 31 h in the last 30 days; 4 pieces …
panels(found, shop)           what is plotted: its temperature and its humidity, each with its limits
ticks(found, shop, width)     the days or hours under the plot
facts(found, shop)            how much was measured, what it comes to, and who measures
SPANS                         how far one looks back
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from math import floor
from zoneinfo import ZoneInfo

from stockroom.books.climate import ZoneNow
from stockroom.books.values import Shop
from stockroom.lines import heat, plot, words
from stockroom.lines.climate import hours
from stockroom.lines.plot import Limit, Panel, Part
from stockroom.lines.sensors import said
from stockroom.units.shown import show_temperature
from stockroom.work.climate import Extreme
from stockroom.work.zone_plot import ZonePlot

NO_ZONES = (
    "No zone is known yet. s names a sensor and where it stands, p a place and where it lies; a "
    "logger's file makes a zone, too: `stockroom climate import FILE --zone Z`."
)
_HOUR, _DAY = timedelta(hours=1), timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Span:
    """How far one looks back, how that is said, and where on the shop's clock it has a tick."""

    length: timedelta
    said: str
    step: timedelta
    is_tick: Callable[[datetime], bool]
    written: str
    """As strftime reads it."""


SPANS = {
    "day": Span(
        timedelta(hours=24), "the last 24 hours", _HOUR, lambda at: at.hour % 3 == 0, "%H:%M"
    ),
    "week": Span(timedelta(days=7), "the last 7 days", _DAY, lambda _: True, "%a %d"),
    "month": Span(
        timedelta(days=30), "the last 30 days", _DAY, lambda at: at.toordinal() % 5 == 0, "%m-%d"
    ),
    "year": Span(
        timedelta(days=426),
        "the last 14 months",
        _DAY,
        lambda at: at.day == 1 and at.month % 2 == 1,
        "%Y-%m",
    ),
}


def sentence(found: ZonePlot, span: Span, shop: Shop) -> str:
    """What follows from what was measured, or what to do where nothing was."""
    now = found.now
    if now.sensor is None and not any(found.warmth):
        return _nobody(found, shop)
    if not any(found.warmth):
        return _nothing_said(now, span, shop)
    silent = f"{now.sensor.name} is SILENT. " if now.sensor and now.sensor.is_silent else ""
    known = heat.measured(found.exposure)
    return f"{silent}{now.zone} {_air(found, shop)} in {span.said} ({known}); {_film(found)}."


def _nobody(found: ZonePlot, shop: Shop) -> str:
    zone = found.now.zone
    return (
        f"Nobody measures {zone}: its film is taken to age as at {_assumed(found, shop)}. Put a "
        f'sensor there and bring in what it wrote: `stockroom climate import FILE --zone "{zone}"`.'
    )


def _assumed(found: ZonePlot, shop: Shop) -> str:
    known = found.now.assumed_c
    return f"{show_temperature(known.value, shop.system)} ({known.basis})"


def _nothing_said(now: ZoneNow, span: Span, shop: Shop) -> str:
    sensor = now.sensor
    name = sensor.name if sensor else "its sensor"
    last = sensor.corrected if sensor else None
    when = "yet" if last is None else f"in {span.said}; the last time was {said(last, shop)[2]}"
    return (
        f"{name} has said nothing {when}. Look at its battery, or bring in what it wrote: "
        f'`stockroom climate import FILE --zone "{now.zone}"`.'
    )


def _air(found: ZonePlot, shop: Shop) -> str:
    """How long it was too hot or too cold, the worst first; else that it was neither."""
    air, system = found.air, shop.system
    passed = [
        (found.too_hot_hours, f"above {show_temperature(air.too_hot_c, system)}"),
        (found.hot_hours, f"above {show_temperature(air.hot_c, system)}"),
        (found.cold_hours, f"below {show_temperature(air.cold_c, system)}"),
    ]
    told = [f"{where} for {hours(amount)}" for amount, where in passed if amount > 0]
    if told:
        return f"was {' and '.join(told)}"
    band = (show_temperature(one, system) for one in (air.cold_c, air.hot_c))
    return f"stayed within {' to '.join(band)}"


def _film(found: ZonePlot) -> str:
    """How fast film aged there, and how much of it stands there."""
    measured = found.exposure.measured_days
    if not measured:
        return "too little was read to tell how film aged"
    rate = found.exposure.like_days_measured / measured
    pieces = words.counted(found.pieces, "piece") if found.pieces else "film"
    verb = "ages" if found.pieces in (0, 1) else "age"
    there = "there" if found.pieces else "there (none stands there now)"
    return f"{pieces} {verb} {_times(rate)} {there}"


def _times(rate: float) -> str:
    """A rate beside that at 23 °C."""
    match round(rate, 1):
        case 1.0:
            return "as at 23 °C"
        case 2.0:
            return "twice as fast as at 23 °C"
        case tenths if tenths > 1:
            return f"{tenths:g} times as fast as at 23 °C"
        case _:
            return f"at {round(rate * 100)} % of the pace at 23 °C"


def panels(found: ZonePlot, shop: Shop) -> tuple[Panel, ...]:
    """The temperature, and under it the humidity where any was read."""
    warmth = _warmth(found, shop)
    return (warmth, _damp(found)) if any(found.damp) else (warmth,)


def _warmth(found: ZonePlot, shop: Shop) -> Panel:
    """The temperature between cold, hot and too hot."""
    air = found.air

    def shown(celsius: float) -> str:
        return show_temperature(celsius, shop.system)

    limits = (
        Limit(at=air.cold_c, label=f"cold {shown(air.cold_c)}", upwards=False),
        Limit(at=air.hot_c, label=f"hot {shown(air.hot_c)}", upwards=True),
        Limit(
            at=air.too_hot_c,
            label=shown(air.too_hot_c),
            upwards=True,
            beyond=Part.FAR,
            is_shown=False,
        ),
    )
    read = ("", "")
    if found.coldest is not None and found.hottest is not None:
        read = (shown(found.coldest.temperature_c), shown(found.hottest.temperature_c))
    return Panel(found.warmth, limits, read)


def _damp(found: ZonePlot) -> Panel:
    """The humidity between dry and damp."""
    air = found.air
    limits = (
        Limit(at=air.rh_low_pct, label=f"dry {air.rh_low_pct} %", upwards=False),
        Limit(at=air.rh_high_pct, label=f"damp {air.rh_high_pct} %", upwards=True),
    )
    known = [level for level in found.damp if level is not None]
    ends = (min(one.lowest for one in known), max(one.highest for one in known))
    return Panel(found.damp, limits, (f"{ends[0]:.0f} %", f"{ends[1]:.0f} %"))


def ticks(found: ZonePlot, span: Span, shop: Shop, width: int) -> str:
    """The line under a plot: when it was, on the shop's clock."""
    length, zone = found.until - found.since, ZoneInfo(shop.zone)
    marks = (
        ((at - found.since) / length, at.astimezone(zone).strftime(span.written))
        for at in _instants(found, span, shop)
    )
    return plot.ticks(marks, width)


def _instants(found: ZonePlot, span: Span, shop: Shop) -> Iterator[datetime]:
    """The instants of a span that have a tick: full hours, or midnights."""
    zone = ZoneInfo(shop.zone)
    if span.step == _HOUR:
        hour = shop.local(found.since).replace(minute=0, second=0, microsecond=0)
        at = hour.astimezone(UTC) + _HOUR
        while at < found.until:
            if span.is_tick(at.astimezone(zone)):
                yield at
            at += _HOUR
        return
    day = shop.local(found.since).date() + _DAY
    while (midnight := datetime.combine(day, time(), zone).astimezone(UTC)) < found.until:
        if span.is_tick(datetime.combine(day, time())):
            yield midnight
        day += _DAY


def facts(found: ZonePlot, shop: Shop) -> tuple[str, ...]:
    """How much was measured and what it comes to, beside the ends and who measures."""
    left = (
        ("measured", _measured(found, shop)),
        ("kinetic", _kinetic(found, shop)),
        ("outside", _outside(found)),
    )
    right = (
        ("hottest", _extreme(found.hottest, shop)),
        ("coldest", _extreme(found.coldest, shop)),
        ("sensor", _sensor(found.now)),
    )
    return tuple(
        f"{name:<9}{text:<35} {other:<8}{more}".rstrip()
        for (name, text), (other, more) in zip(left, right, strict=True)
    )


def _measured(found: ZonePlot, shop: Shop) -> str:
    coverage = found.exposure.coverage
    if coverage == 1:
        return "all of it"
    if not found.exposure.measured_s:
        return f"nothing: {_assumed(found, shop)} assumed"
    return f"{floor(coverage * 100)} %, else {_assumed(found, shop)} assumed"


def _kinetic(found: ZonePlot, shop: Shop) -> str:
    if found.mean_kinetic_c is None:
        return words.UNKNOWN
    energy = f"{found.energy.value:g} kJ/mol, {found.energy.basis}"
    return f"{show_temperature(found.mean_kinetic_c, shop.system)} ({energy})"


def _outside(found: ZonePlot) -> str:
    """The hours outside of the bands; where nothing was measured, nothing is known of them."""
    known = found.exposure.measured_s
    hot, cold = (
        hours(one) if known else words.UNKNOWN for one in (found.hot_hours, found.cold_hours)
    )
    humid = hours(found.dry_or_damp_hours) if found.humid_hours_measured else words.UNKNOWN
    return f"{hot} hot, {cold} cold, {humid} dry/damp"


def _extreme(found: Extreme | None, shop: Shop) -> str:
    if found is None:
        return words.UNKNOWN
    warm = show_temperature(found.temperature_c, shop.system)
    return f"{warm:<8} {words.moment(found.at, shop)}"


def _sensor(now: ZoneNow) -> str:
    """Who measures, and what calibration adds to it."""
    if now.sensor is None:
        return "none"
    return f"{now.sensor.name}, SILENT" if now.sensor.is_silent else now.sensor.name
