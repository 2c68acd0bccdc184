"""The values every house begins with, what each counts, and how it is typed and shown.

All of them are common practice, no source, but the activation energy (see heat). The extension periods
are ours: the pattern of an initial period and an extension after inspection is that of ISO 2230
for rubber, its years are not.
"""

import re
from collections.abc import Mapping
from enum import Enum
from types import MappingProxyType

from stockroom.errors import Code, Refusal, clean_text
from stockroom.film.assumed import assumed
from stockroom.film.dates import Span
from stockroom.film.heat import DEFAULT_ENERGY_KJ, parse_energy
from stockroom.film.kinds import Kind
from stockroom.units import MM, M, System
from stockroom.units.shown import show_length, show_temperature
from stockroom.units.typed import parse_length, parse_temperature


class Measure(Enum):
    """What a number of the house counts."""

    HOURS = "h"
    DAYS = "d"
    PERCENT = "%"
    SERVICE = "% of all times that film must last"
    LENGTH_NM = "nm"
    TEMPERATURE = "thousandths of a degree"
    ENERGY = "J/mol"


SPANS: Mapping[str, Span] = MappingProxyType(
    {
        "shelf.window-film": Span(months=24),
        "shelf.protective-film": Span(months=24),
        "shelf.print-vinyl": Span(months=24),
        "shelf.calendered-vinyl": Span(months=12),
        "wound.printed": Span(days=90),
        "wound.tight": Span(days=30),
        "extension.shelf": Span(months=6),
        "extension.wound": Span(days=30),
    }
)
NUMBERS: Mapping[str, tuple[int, Measure]] = MappingProxyType(
    {
        "wound.tight-below": (100 * MM, Measure.LENGTH_NM),
        "rest.solvent": (24, Measure.HOURS),
        "rest.eco-solvent": (24, Measure.HOURS),
        "rest.latex": (0, Measure.HOURS),
        "rest.uv": (0, Measure.HOURS),
        "rest.unknown": (24, Measure.HOURS),
        "near.days": (30, Measure.DAYS),
        "near.percent": (20, Measure.PERCENT),
        "keep.across": (300 * MM, Measure.LENGTH_NM),
        "keep.along": (1 * M, Measure.LENGTH_NM),
        "keep.protective-film-across": (600 * MM, Measure.LENGTH_NM),
        "keep.protective-film-along": (600 * MM, Measure.LENGTH_NM),
        "core.unusable": (500 * MM, Measure.LENGTH_NM),
        "outer.unusable": (300 * MM, Measure.LENGTH_NM),
        "edge.unusable": (5 * MM, Measure.LENGTH_NM),
        "trim.glass": (20 * MM, Measure.LENGTH_NM),
        "trim.vehicle": (50 * MM, Measure.LENGTH_NM),
        "trim.graphic": (10 * MM, Measure.LENGTH_NM),
        "seam.overlap": (10 * MM, Measure.LENGTH_NM),
        "table.length": (3 * M, Measure.LENGTH_NM),
        "plan.extra-waste-percent": (10, Measure.PERCENT),
        "reserve.days": (14, Measure.DAYS),
        "count.tolerance-percent": (3, Measure.PERCENT),
        "buying.lead": (7, Measure.DAYS),
        "buying.lead-spread": (3, Measure.DAYS),
        "buying.review": (1, Measure.DAYS),
        "buying.service-percent": (95, Measure.SERVICE),
        "buying.holding-percent": (
            25,
            Measure.PERCENT,
        ),  # of its price a year: common practice, no source
        "climate.gap": (6, Measure.HOURS),
        "climate.assumed": (21_000, Measure.TEMPERATURE),
        "climate.cold": (10_000, Measure.TEMPERATURE),
        "climate.hot": (30_000, Measure.TEMPERATURE),
        "climate.hot-hours": (48, Measure.HOURS),
        "climate.too-hot": (40_000, Measure.TEMPERATURE),
        "climate.rh-low": (35, Measure.PERCENT),
        "climate.rh-high": (65, Measure.PERCENT),
        "energy": (round(DEFAULT_ENERGY_KJ * 1_000), Measure.ENERGY),
        **{
            f"curl.{kind}": (round(known.limit_circle_mm * MM), Measure.LENGTH_NM)
            for kind in Kind
            if (known := assumed(kind)) is not None
        },
    }
)


def show_number(name: str, number: int, system: System) -> str:
    """A number of the house as a person would type it."""
    match measure := NUMBERS[name][1]:
        case Measure.LENGTH_NM:
            return show_length(number, system)
        case Measure.TEMPERATURE:
            return show_temperature(number / 1_000, system)
        case Measure.ENERGY:
            return f"{number / 1_000:g} kJ/mol"
        case _:
            return f"{number}{_WRITTEN[measure][0][0]}"


_WRITTEN: Mapping[Measure, tuple[tuple[str, ...], range]] = MappingProxyType(
    {
        Measure.HOURS: (("h", "hour", "hours"), range(24 * 90 + 1)),
        Measure.DAYS: (("d", "day", "days"), range(365 + 1)),
        Measure.PERCENT: (("%",), range(100 + 1)),
        Measure.SERVICE: (("%",), range(50, 99 + 1)),  # nobody can promise that film never runs out
    }
)


def parse_number(name: str, text: str, system: System) -> int:
    """A number of the house from what a person typed; it may be none."""
    measure = NUMBERS[name][1]
    if measure is Measure.LENGTH_NM:
        return parse_length(text, system, zero=True)
    if measure is Measure.TEMPERATURE:
        return round(parse_temperature(text, system) * 1_000)
    if measure is Measure.ENERGY:
        return round(parse_energy(text) * 1_000)
    units, within = _WRITTEN[measure]
    written = re.fullmatch(r"\s*(\d{1,4})\s*([a-z%]*)\s*", text.lower(), re.ASCII)
    if written is not None and written[2] in ("", *units) and int(written[1]) in within:
        return int(written[1])
    raise Refusal(
        Code.BAD_SETTING,
        f"'{clean_text(text, 40)}' does not suit {name}: "
        f"write a whole number from {within[0]} to {within[-1]}{units[0]}.",
    )
