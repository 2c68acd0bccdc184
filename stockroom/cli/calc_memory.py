"""`stockroom calc memory` and `calc curl`: what wound film curls to, and what a strip tells of it."""

import json
from collections.abc import Iterator, Mapping
from typing import Annotated

import typer

from stockroom.errors import Code, Refusal
from stockroom.film import memory
from stockroom.film.assumed import POLYESTER
from stockroom.film.bending import (
    curl_from_arc_per_m,
    curl_from_chord_per_m,
    sagitta_mm,
    strain,
)
from stockroom.film.dates import parse_span
from stockroom.film.memory import Free, Stage, Wound
from stockroom.film.prony import parse_prony
from stockroom.lines.curl import curl_values, curls
from stockroom.units import MM, UM, System
from stockroom.units.shown import show_width
from stockroom.units.typed import parse_length, parse_thickness

_DAYS_A_MONTH = 365.25 / 12
_NO_TIME = "0d"
_PLACEHOLDER = " The memory is a default, a placeholder without a source: curl trials fit it."

Units = Annotated[System, typer.Option(help="What a bare number means.")]
AsJson = Annotated[bool, typer.Option("--json", help="Keys carry their units.")]


def remember(
    core: Annotated[
        str, typer.Option(help="OUTSIDE diameter of the core, or of the wraps below the film.")
    ],
    thickness: Annotated[str, typer.Option(help="Film, adhesive and liner as wound, like 50um.")],
    wound: Annotated[str, typer.Option(help="How long it was wound, at 23 C, like 180d or 6mo.")],
    reverse: Annotated[str, typer.Option(help="Then wound the other way for so long.")] = "",
    free: Annotated[str, typer.Option(help="Then lying free for so long.")] = "",
    prony: Annotated[
        str,
        typer.Option(
            metavar="WEIGHT:DAYS,…",
            help="How film relaxes; without it, the default of window film, a placeholder.",
        ),
    ] = "",
    strip: Annotated[str, typer.Option(help="Length of the strip that is laid out.")] = "300mm",
    units: Units = System.METRIC,
    as_json: AsJson = False,
) -> None:
    """Say what film curls to after it was wound."""
    film = parse_prony(prony) if prony else POLYESTER
    core_mm = parse_length(core, units) / MM
    thickness_um = parse_thickness(thickness, units) / UM
    strip_mm = parse_length(strip, units) / MM
    winding = Wound(
        days=_days(wound), core_outside_mm=core_mm, thickness_um=thickness_um, left_m=0.0
    )
    curl_per_m = memory.memory(list(_history(winding, reverse, free)), film).innermost_per_m
    share = curl_per_m / winding.imposed_per_m(0)
    height_mm = sagitta_mm(curl_per_m, strip_mm)
    _say(
        f"It {curls(curl_per_m, units)}: {abs(share) * 100:.0f} % of the curve it was wound to. "
        f"A strip of {show_width(round(strip_mm * MM), units)} stands "
        f"{show_width(round(height_mm) * MM, units)} high.{'' if prony else _PLACEHOLDER}",
        {
            "set_fraction": round(share, 9),
            **curl_values(curl_per_m),
            "bending_strain_pct": round(100 * strain(core_mm, thickness_um), 9),
            "sagitta_mm": round(height_mm, 6),
            "prony": str(film),
            "basis": "as typed" if prony else "default",
        },
        as_json=as_json,
    )


def curl(
    height: Annotated[
        str, typer.Option(help="How high the strip stands; of a closed one, how wide it is.")
    ],
    chord: Annotated[str, typer.Option(help="From end to end; 0 where the ends meet.")] = "",
    arc: Annotated[
        str,
        typer.Option(help="Length of the strip: to check the chord; alone, up to half a circle."),
    ] = "",
    units: Units = System.METRIC,
    as_json: AsJson = False,
) -> None:
    """Say what a strip that lies free curls to."""
    height_mm = parse_length(height, units, zero=True) / MM
    arc_mm = parse_length(arc, units) / MM if arc else None
    if chord:
        chord_mm = parse_length(chord, units, zero=True) / MM
        curl_per_m = curl_from_chord_per_m(chord_mm, height_mm, arc_mm)
    elif arc_mm is not None:
        curl_per_m = curl_from_arc_per_m(arc_mm, height_mm)
    else:
        raise Refusal(
            Code.BAD_USAGE, "Give the chord between the ends, --chord, or the length, --arc."
        )
    _say(f"It {curls(curl_per_m, units)}.", curl_values(curl_per_m), as_json=as_json)


def _history(winding: Wound, reverse: str, free: str) -> Iterator[Stage]:
    """Wound, then the other way on the same core, then free."""
    yield winding
    if reverse and reverse != _NO_TIME:
        yield Wound(
            days=_days(reverse),
            core_outside_mm=winding.core_outside_mm,
            thickness_um=winding.thickness_um,
            left_m=0.0,
            face_out=True,
        )
    if free and free != _NO_TIME:
        yield Free(_days(free))


def _days(text: str) -> float:
    """The days of a span that begins on no particular day."""
    span = parse_span(text)
    return span.months * _DAYS_A_MONTH + span.days


def _say(sentence: str, values: Mapping[str, object], *, as_json: bool) -> None:
    typer.echo(json.dumps(values) if as_json else sentence)
