"""A piece that comes from cold air into warm: until when moisture would form on it."""

from datetime import UTC, datetime

from stockroom.books.climates import Climates
from stockroom.books.sensors import second_of
from stockroom.books.values import Standing
from stockroom.film.moisture import Moving, unwrapping
from stockroom.film.verdict import WarmUp
from stockroom.units import MM
from stockroom.work.windings import outside_nm

_HOUR_S = 3_600
_LONGEST_S = 72 * _HOUR_S
"""How long after it was moved a roll can still be cold."""


def warm_up(climates: Climates, standing: Standing, moment: datetime) -> WarmUp | None:
    """Until when moisture would form on a piece that was moved lately from cold air to warm."""
    now_s = min(second_of(moment), climates.until_s)
    lately = climates.lately(standing.code)
    if len(lately) < 2 or now_s - lately[-1].since_s > _LONGEST_S:  # noqa: PLR2004
        return None
    before, here = lately
    if before.zone is None or here.zone is None:
        return None
    cold = climates.reading(before.zone, here.since_s)
    air = climates.reading(here.zone, now_s)
    outside, width = outside_nm(standing.state), standing.state.width_nm
    if cold is None or air is None or not air.rh_pct or outside is None or not width:
        return None
    moving = Moving(
        from_c=cold.temperature_c,
        air_c=air.temperature_c,
        humidity=air.rh_pct / 100,
        outside_mm=outside / MM,
        width_mm=width / MM,
    )
    found = unwrapping(moving)
    if not found.condenses or not found.wait_hours:
        return None
    ready = datetime.fromtimestamp(here.since_s + found.wait_hours * _HOUR_S, UTC)
    return WarmUp(ready, cold.temperature_c, found.dew_point_c)
