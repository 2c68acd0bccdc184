"""A roll in cross-section, shaded by what its wraps remember, and what is said beside it.

picture(past, rows)    rows of runs: film that may be used, is near the limit, or curls tighter
LEGEND                 its signs
beside(past, system)   what outer and inner wrap curl to, what is tighter, what the adhesive holds
strip(past, shop)      the air it was in, a block for so many days, and what the blocks mean
kept(past, shop)       the same two in plain lines; past_values for a script

It is not to scale: film is drawn thicker than it is, or nothing of it would be seen. Every shade has
a sign of its own, so that it is read without colour.
"""

from collections.abc import Iterator
from enum import StrEnum
from itertools import groupby
from math import floor, hypot
from typing import NamedTuple

from stockroom.books.values import Shop
from stockroom.film import roll
from stockroom.film.limits import Air
from stockroom.film.verdict import FEWEST_TRIALS, Curl, TimeFactor
from stockroom.lines import words
from stockroom.lines.curl import lies_flat
from stockroom.units import MM, UM, M, System
from stockroom.units.shown import show_length, show_temperature, show_width
from stockroom.work.past import Holding, Installed, Past
from stockroom.work.windings import Wraps


class Shade(StrEnum):
    """What a part of the picture is."""

    NOTHING = "nothing"
    CORE = "core"
    FINE = "fine"
    NEAR = "near"
    TIGHT = "tight"


_SIGNS = {Shade.NOTHING: " ", Shade.CORE: "·", Shade.FINE: "█", Shade.NEAR: "▓", Shade.TIGHT: "▚"}
LEGEND = "█ fine  ▓ near the limit  ▚ tighter; not to scale"
_HOLE, _CORE = 0.26, 0.42
"""How much of its radius the picture leaves to the hole, and to hole and core."""
_NEAR = 1.2
"""A circle is near its limit below so many times of it: common practice, no source."""
_COLDEST, _HOTTEST, _BETWEEN, _NOT_MEASURED = "▁", "█", "▂▃▄▅▆▇", words.UNKNOWN
_LEAD = "air     "
_MANY = 100
_ORDER = tuple(Shade)


class Run(NamedTuple):
    """Characters of one shade."""

    text: str
    shade: Shade


Row = tuple[Run, ...]


def picture(past: Past, rows: int) -> tuple[Row, ...]:
    """The roll in so many rows, twice as many cells wide; nothing of what is not wound, or not known."""
    curl, wraps = past.curl, past.wraps
    if curl is None or wraps is None:
        return ()
    tight = _tight_share(curl, wraps)
    return tuple(
        tuple(
            Run("".join(sign for sign, _ in run), shade)
            for shade, run in _grouped(_cells(row, rows, curl, tight))
        )
        for row in range(rows)
    )


def _grouped(
    cells: Iterator[tuple[str, Shade]],
) -> Iterator[tuple[Shade, list[tuple[str, Shade]]]]:
    for shade, run in groupby(cells, key=lambda cell: cell[1]):
        yield shade, list(run)


def _cells(row: int, rows: int, curl: Curl, tight: float) -> Iterator[tuple[str, Shade]]:
    """The cells of one row: each is two dots high, and says what the worse one is."""
    for column in range(2 * rows):
        upper, lower = (
            _shade(column - rows + 0.5, 2 * row + half - rows + 0.5, rows, curl, tight)
            for half in (0, 1)
        )
        if upper is lower:
            yield _SIGNS[upper], upper
        elif {upper, lower} == {Shade.FINE, Shade.NOTHING}:
            yield ("▀" if upper is Shade.FINE else "▄"), Shade.FINE
        else:
            worse = max(upper, lower, key=_ORDER.index)
            yield _SIGNS[worse], worse


def _shade(across: float, down: float, radius: int, curl: Curl, tight: float) -> Shade:
    """What lies at a dot, counted from the middle."""
    place = hypot(across, down) / radius
    if place > 1 or place < _HOLE:
        return Shade.NOTHING
    if place < _CORE:
        return Shade.CORE
    outwards = (place - _CORE) / (1 - _CORE)
    ring = 1 / (radius * (1 - _CORE))
    limit_mm = curl.limit.value
    is_outer_tight = curl.outer_mm is not None and curl.outer_mm < limit_mm
    # However short it is, a part that is tighter is seen: it takes a ring at least.
    if (tight and outwards < max(tight, ring)) or (is_outer_tight and outwards > 1 - ring):
        return Shade.TIGHT
    if curl.outer_mm is None or curl.inner_mm is None:
        return Shade.FINE
    circle_mm = curl.inner_mm + (curl.outer_mm - curl.inner_mm) * outwards
    return Shade.NEAR if circle_mm < _NEAR * limit_mm else Shade.FINE


def _tight_share(curl: Curl, wraps: Wraps) -> float:
    """How far outwards, from 0 at its inner end to 1, film curls tighter than the limit."""
    if not curl.tight_m:
        return 0.0
    inside_nm, outside_nm = wraps.inside_nm, wraps.outside_nm
    core_mm, thickness_um = wraps.core_outside_nm / MM, wraps.thickness_nm / UM
    to_m = min(wraps.left_nm / M, wraps.inner_nm / M + curl.tight_m)
    to_nm = roll.outside_mm(to_m, core_mm, thickness_um) * MM
    return 1.0 if outside_nm == inside_nm else (to_nm - inside_nm) / (outside_nm - inside_nm)


def beside(past: Past, system: System) -> tuple[str, ...]:
    """What is read beside the picture."""
    curl = past.curl
    if not past.is_film:
        return ()
    if curl is None:
        return ("core or thickness not known: no curl to be told",)
    lines = [
        f"outer wrap {_curls(curl.outer_mm, system)}",
        f"inner wrap {_curls(curl.inner_mm, system)}",
        f"the last {show_length(round(curl.tight_m * M), system)} curl tighter than the limit"
        if curl.tight_m
        else "no wrap curls tighter than the limit",
        f"limit {_circle(curl.limit.value, system)} ({curl.limit.basis}); {_model(curl.model)}",
    ]
    if curl.model.is_own:
        lines.append(_how_sure(curl.model))
    if past.installed is not None:
        lines.append(_installed(past.installed, system))
    if past.holding is not None:
        lines += _holds(past.holding)
    return tuple(lines)


def _installed(one: Installed, system: System) -> str:
    """What it curls to on the day of the job it is kept for."""
    ends = (one.curl.outer_mm, one.curl.inner_mm)
    outer, inner = (
        "flat" if end is None or lies_flat(end) else _circle(end, system) for end in ends
    )
    return f"on {words.day(one.on)}, for {words.code(one.job)}: outer {outer}, inner {inner}"


def _model(model: TimeFactor) -> str:
    if model.is_own:
        return f"own trials, {model.trials}"
    of = f" of {FEWEST_TRIALS}" if 0 < model.trials < FEWEST_TRIALS else ""
    return f"model: default, {model.trials}{of} trials"


def _how_sure(model: TimeFactor) -> str:
    """How slowly its own trials say it relaxes, and between which ends, in 95 cases of 100."""
    ends = ("?" if end is None else f"{end:.2g}" for end in (model.low, model.high))
    span = " to ".join(ends)
    return f"relaxes {model.factor:.2g} times as slowly as assumed ({span})"


def _curls(circle_mm: float | None, system: System) -> str:
    if circle_mm is None or lies_flat(circle_mm):
        return "lies flat"
    return f"curls to a {_circle(circle_mm, system)} circle"


def _circle(circle_mm: float, system: System) -> str:
    """Rounded to the tighter side, as the rule of memory says it."""
    return show_width(floor(circle_mm) * MM, system)


def _holds(holding: Holding) -> tuple[str, str]:
    """What its adhesive holds, against what it takes to hold it flat."""
    bond = f"the bond is {holding.bond.value:g} J/m² ({holding.bond.basis})"
    if holding.flat_j_m2 is None or holding.modulus is None:
        lacks = "--modulus" if holding.modulus is None else "--applied"
        return f"{bond}; to hold it flat takes ?", f"until `material change … {lacks}` says it"
    modulus = f"{holding.modulus.value:g} GPa, {holding.modulus.basis}"
    flat = f"to hold it flat takes {holding.flat_j_m2:.2g} J/m² ({modulus})"
    times = holding.bond.value / holding.flat_j_m2
    if times < 1:
        return flat, f"{bond}: it would lift"
    much = f"over {_MANY} times" if times > _MANY else f"{times:.2g} times"
    return flat, f"{bond}, {much} that"


def strip(past: Past, shop: Shop) -> tuple[str, ...]:
    """The air it was in, and what its blocks mean; nothing where no climate is known at all."""
    air = past.air
    if air is None:
        return ()
    band = shop.house.air
    blocks = "".join(_block(celsius, band) for celsius in air.kinetic_c)
    cold, hot = (show_temperature(one, shop.system) for one in (band.cold_c, band.hot_c))
    each = words.counted(air.block_days, "day")
    means = f"each {each}, {_COLDEST} below {cold}, {_HOTTEST} above {hot}, {_NOT_MEASURED} not measured"
    return (
        f"{_LEAD}{blocks}  since {words.day(air.since)}",
        f"{'':{len(_LEAD)}}{means}",
    )


def _block(celsius: float | None, band: Air) -> str:
    """A block as high as it was warm; above and below of what it should be each has its own."""
    if celsius is None:
        return _NOT_MEASURED
    if celsius < band.cold_c:
        return _COLDEST
    if celsius > band.hot_c:
        return _HOTTEST
    share = (celsius - band.cold_c) / (band.hot_c - band.cold_c)
    return _BETWEEN[min(len(_BETWEEN) - 1, int(share * len(_BETWEEN)))]


def kept(past: Past, shop: Shop) -> list[str]:
    """How a piece was kept, in plain lines; nothing of what is no film."""
    if past.curl is None and past.air is None:
        return []
    return ["", "Kept", *strip(past, shop), *beside(past, shop.system)]


def past_values(past: Past) -> dict[str, object]:
    """How a piece was kept; what is not known, or lies flat, is null."""
    air, curl, holding, installed = past.air, past.curl, past.holding, past.installed
    return {
        "air": air
        and {
            "since": air.since.isoformat(),
            "block_days": air.block_days,
            "mkt_c": [None if one is None else round(one, 6) for one in air.kinetic_c],
        },
        "curl": curl
        and {
            "outer_circle_mm": curl.outer_mm and round(curl.outer_mm, 6),
            "inner_circle_mm": curl.inner_mm and round(curl.inner_mm, 6),
            "tight_mm": round(curl.tight_m * M / MM, 6),
            "limit_mm": curl.limit.value,
            "limit_basis": curl.limit.basis.value,
            "trials": curl.model.trials,
            "model_basis": curl.model.basis.value,
            "times": curl.model.factor,
            "times_low": curl.model.low,
            "times_high": curl.model.high,
        },
        "installed": installed
        and {
            "on": installed.on.isoformat(),
            "job": installed.job,
            "outer_circle_mm": installed.curl.outer_mm and round(installed.curl.outer_mm, 6),
            "inner_circle_mm": installed.curl.inner_mm and round(installed.curl.inner_mm, 6),
            "tight_mm": round(installed.curl.tight_m * M / MM, 6),
        },
        "holding": holding
        and {
            "flat_j_m2": holding.flat_j_m2,
            "bond_j_m2": holding.bond.value,
            "bond_basis": holding.bond.basis.value,
            "modulus_gpa": holding.modulus and holding.modulus.value,
            "modulus_basis": holding.modulus and holding.modulus.basis.value,
        },
    }
