"""What the coming days bring, and the air now, as Today shows them.

coming(found, most)          soon  Sun 2026-12-06  urethane clear 200  ▲ 1 to test  R000 0079
airs(zones, shop, now, room) North 22.4 °C 48 %   South ? 3 h
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
    if found is None or not found.changes:
        return ()
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


def airs(zones: Sequence[ZoneNow], shop: Shop, now: datetime, room: int) -> str:
    """The air of each zone, those first that need a look; where room lacks, without the humidity.

    Where there is still too little, of as many zones as it is enough for.
    """
    known = [one for one in zones if one.sensor is not None]
    known.sort(key=lambda one: not _needs_a_look(one, shop))
    said = [_air(one, shop, now) for one in known]
    if len(_GAP.join(said)) > room:
        said = [_air(one, shop, now, in_short=True) for one in known]
    for left_out in range(len(said)):
        more = [f"+{left_out}"] if left_out else []
        text = _GAP.join([*said[: len(said) - left_out], *more])
        if len(text) <= room:
            return text
    return ""


def _needs_a_look(one: ZoneNow, shop: Shop) -> bool:
    """Whether nothing is known of its air, or it is too warm or too cold."""
    sensor = one.sensor
    if sensor is None or sensor.corrected is None or sensor.is_silent:
        return True
    return bool(_beyond(sensor.corrected.temperature_c, shop))


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
