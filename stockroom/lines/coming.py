"""What the coming days bring, and the air now, as Today shows them.

coming(found, most)          soon  Sun 2026-12-06  urethane clear 200  ▲ 1 to test  R000 0079
head(zones, shop, …)         North 22.4 °C 48 %   South ? 3 h   on: Ida M.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import UTC, datetime, timedelta
from itertools import groupby

from stockroom.books.climate import ZoneNow
from stockroom.books.values import Reading, Shop
from stockroom.film.verdict import Verdict
from stockroom.lines import words
from stockroom.units.shown import show_temperature
from stockroom.work.forecast import Coming, Forecast

_COUNTED = {
    Verdict.STOP: "stopped",
    Verdict.TEST: "to test",
    Verdict.USE_FIRST: "to use first",
}
_LEAD, _BELOW = "soon  ", "      "
_GAP = "   "
_TWO_DAYS = timedelta(days=2)


def coming(found: Forecast | None, most: int) -> tuple[str, ...]:
    """At most so many lines, one for a material, the soonest first; none where nothing changes."""
    if found is None:
        return (f"{_LEAD}`stockroom forecast` tells it: of so many pieces that takes a while",)
    of_materials = _by_material(found.changes)
    shown = of_materials if len(of_materials) <= most else of_materials[: most - 1]
    lines = [_line(changes) for changes in shown]
    if len(shown) < len(of_materials):
        more = words.counted(len(of_materials) - len(shown), "more material")
        lines.append(f"{more}: `stockroom forecast` shows every piece")
    return tuple(f"{_BELOW if place else _LEAD}{line}" for place, line in enumerate(lines))


def _by_material(changes: Iterable[Coming]) -> list[list[Coming]]:
    """The changes of each material, those of which one comes first before the others."""
    named = sorted(changes, key=lambda one: (one.then.standing.material.id, one.on))
    groups = [
        list(group) for _, group in groupby(named, key=lambda one: one.then.standing.material.id)
    ]
    return sorted(groups, key=lambda group: group[0].on)


def _line(changes: Sequence[Coming]) -> str:
    """From when on a material needs a hand, and how many of its pieces do, each by its last change."""
    last = {one.then.code: one.then.judgement.verdict for one in changes}
    counts = Counter(last.values())
    said = [
        f"{words.MARKS[verdict]} {counts[verdict]} {what}"
        for verdict, what in _COUNTED.items()
        if counts[verdict]
    ]
    first = changes[0]
    more = f" and {len(last) - 1} more" if len(last) > 1 else ""
    return "  ".join(
        (
            f"{first.on:%a} {words.day(first.on)}",
            first.then.standing.material.name,
            *said,
            f"{words.code(first.then.code)}{more}",
        )
    )


def head(zones: Sequence[ZoneNow], shop: Shop, now: datetime, who: str, room: int) -> str:
    """The air of each zone that has a sensor and who is at work; where room lacks, the air alone."""
    airs = [air for air in _airs(zones, shop, now) if air]
    for said in (*(f"{air}{_GAP}{who}" for air in airs), *airs):
        if len(said) <= room:
            return said
    return _as_many_as_fit(airs[-1], room) if airs else who


def _airs(zones: Sequence[ZoneNow], shop: Shop, now: datetime) -> tuple[str, str]:
    """All zones, those first that need a look; with the humidity, and without it."""
    known = [one for one in zones if one.sensor is not None]
    known.sort(key=lambda one: not _needs_a_look(one, shop))
    whole, short = (
        _GAP.join(_air(one, shop, now, in_short=in_short) for one in known)
        for in_short in (False, True)
    )
    return whole, short


def _as_many_as_fit(air: str, room: int) -> str:
    """The first zones of a text that is too long, and how many are left out."""
    said = air.split(_GAP)
    for left_out in range(1, len(said)):
        text = _GAP.join([*said[:-left_out], f"+{left_out}"])
        if len(text) <= room:
            return text
    return ""


def _needs_a_look(one: ZoneNow, shop: Shop) -> bool:
    """Whether nothing is known of its air, or it is too warm; cold ages nothing."""
    sensor = one.sensor
    if sensor is None or sensor.corrected is None or sensor.is_silent:
        return True
    return sensor.corrected.temperature_c > shop.house.air.hot_c


def _beyond(celsius: float, shop: Shop) -> str:
    band = shop.house.air
    return " HOT" if celsius > band.hot_c else " COLD" if celsius < band.cold_c else ""


def _air(one: ZoneNow, shop: Shop, now: datetime, *, in_short: bool = False) -> str:
    """The air of a zone, or for how long nothing was said of it."""
    sensor = one.sensor
    if sensor is None or sensor.corrected is None:
        return f"{one.zone} {words.UNKNOWN}"
    if sensor.is_silent:
        return f"{one.zone} {words.UNKNOWN} {_silence(sensor.corrected, now)}"
    celsius, humid = sensor.corrected.temperature_c, sensor.corrected.rh_pct
    damp = "" if humid is None or in_short else f" {humid:.0f} %"
    return f"{one.zone} {show_temperature(celsius, shop.system)}{_beyond(celsius, shop)}{damp}"


def _silence(last: Reading, now: datetime) -> str:
    """For how long a sensor has said nothing."""
    silent = now - datetime.fromtimestamp(last.at_s, UTC)
    if silent < _TWO_DAYS:
        return f"{silent // timedelta(hours=1)} h"
    return f"{silent.days} d"
