"""`stockroom calc lift`: how heavy a roll may be for a lift by two hands; a caution, never a leave."""

from typing import Annotated

import typer

from stockroom.cli.saying import Answer, say
from stockroom.errors import Code, Refusal
from stockroom.film.lifting import (
    LONGEST_HOURS,
    Grip,
    Lift,
    average_per_minute,
    lifting_hours,
)
from stockroom.lines import cautions
from stockroom.lines.lift import lift as said
from stockroom.lines.lift import lift_values
from stockroom.units import KG, MM, System
from stockroom.units.typed import parse_duration, parse_length, parse_mass, parse_number

_CM = 10 * MM
_HOUR_S, _MINUTES = 3_600, 60


def lift(
    mass: Annotated[str, typer.Option(help="Of what is lifted, like 18kg.")],
    horizontal: Annotated[str, typer.Option(help="Hands in front of the ankles, like 25cm.")],
    vertical: Annotated[str, typer.Option(help="Hands above the floor, where it begins.")],
    travel: Annotated[str, typer.Option(help="How far up or down it goes.")],
    angle: Annotated[
        str, typer.Option(metavar="DEGREES", help="Turned from straight ahead.")
    ] = "0",
    per_minute: Annotated[str, typer.Option(metavar="N", help="Lifts a minute.")] = "0.2",
    minutes: Annotated[
        str, typer.Option(metavar="N", help="Minutes of every 15 that are spent lifting.")
    ] = "15",
    hours: Annotated[
        str, typer.Option(metavar="TIME", help="Of lifting, like 45min; default 1h.")
    ] = "",
    spells: Annotated[
        str,
        typer.Option(
            metavar="30/10/45", help="Instead of --hours: minutes of lifting/rest/lifting…"
        ),
    ] = "",
    grip: Annotated[Grip, typer.Option(help="How well the hands hold.")] = Grip.GOOD,
    units: Annotated[System, typer.Option(help="What a bare number means.")] = System.METRIC,
    as_json: Annotated[bool, typer.Option("--json", help="Keys carry their units.")] = False,
) -> None:
    """Say how heavy a roll may be for a lift, by the revised NIOSH equation."""
    one = Lift(
        horizontal_cm=parse_length(horizontal, units, zero=True) / _CM,
        vertical_cm=parse_length(vertical, units, zero=True) / _CM,
        travel_cm=parse_length(travel, units, zero=True) / _CM,
        angle_deg=parse_number(angle, "an angle", (0, 180), "°"),
        per_minute=average_per_minute(
            parse_number(per_minute, "a number of lifts a minute", (0, 60)),
            parse_number(minutes, "a number of minutes of every 15", (0, 15)),
        ),
        hours=_hours(hours, spells),
        grip=grip,
    )
    mass_kg = parse_mass(mass, units) / KG
    caution = cautions.lifting(mass_kg, None)
    say(
        Answer(
            values={**lift_values(mass_kg, one), "caution": cautions.BY_HAND},
            lines=[said(mass_kg, one, units)],
            notes=[cautions.BY_HAND, *([] if caution is None else [caution])],
        ),
        as_json=as_json,
    )


def _hours(hours: str, spells: str) -> float:
    """How many hours of lifting count together."""
    if hours and spells:
        raise Refusal(Code.BAD_USAGE, "Give the time spent lifting once: --hours or --spells.")
    found = _together(spells) if spells else parse_duration(hours or "1h") / _HOUR_S
    if 0 < found <= LONGEST_HOURS:
        return found
    raise Refusal(
        Code.BAD_NUMBER,
        f"The equation is for lifting up to {LONGEST_HOURS:g} h a shift, and more than none.",
    )


def _together(spells: str) -> float:
    """Hours that count together, of minutes of lifting and, between them, of rest."""
    minutes = [
        parse_number(part, "a number of minutes", (0, LONGEST_HOURS * _MINUTES))
        for part in spells.split("/")
    ]
    if len(minutes) % 2 == 0:
        raise Refusal(
            Code.BAD_USAGE, "Spells begin and end with lifting: write lifting/rest/lifting."
        )
    return lifting_hours(minutes[::2], minutes[1::2])
