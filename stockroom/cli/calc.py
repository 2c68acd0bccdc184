"""`stockroom calc`: the arithmetic of a roll, without a book.

calc length    what a roll holds, by its outside diameter or a tape laid round it
calc outside   how thick a roll of a length becomes
calc mass      what a length of film weighs, and when to lift it with two
calc layout    panels on film of one width, with little waste: in cli/calc_layout.py
calc memory    what film curls to after it was wound, and
calc curl      what a strip of it tells: in cli/calc_memory.py
calc mkt       the one temperature that would have aged film as much as readings did,
calc age       how many days at 23 °C would have,
calc dewpoint  where film gets wet, and
calc warmup    when a cold roll may be unwrapped: in cli/calc_air.py
calc lift      how heavy a roll may be for a lift: in cli/calc_lift.py
calc reorder   below what length to order film, and how many rolls,
calc eoq       how much at once costs least, and
calc newsvendor   how much to order once: in cli/calc_buying.py
"""

import json
from collections.abc import Mapping
from typing import Annotated

import typer

from stockroom.cli.calc_air import age, dewpoint, mkt, warmup
from stockroom.cli.calc_buying import eoq, newsvendor, reorder
from stockroom.cli.calc_layout import layout
from stockroom.cli.calc_lift import lift
from stockroom.cli.calc_memory import curl, remember
from stockroom.errors import Code, Refusal
from stockroom.film import roll
from stockroom.lines.cautions import lifting
from stockroom.units import FOOT, INCH, KG, MM, UM, M, System
from stockroom.units.shown import show_length, show_mass, show_width
from stockroom.units.typed import parse_length, parse_thickness

app = typer.Typer(
    help="Reckon a roll's length, mass, curl or age, and what to order; no book needed."
)

app.command()(layout)
app.command("memory")(remember)
app.command()(curl)
app.command()(mkt)
app.command()(age)
app.command()(dewpoint)
app.command()(warmup)
app.command()(lift)
app.command()(reorder)
app.command()(eoq)
app.command()(newsvendor)

Outside = Annotated[str, typer.Option(help="Diameter across the roll, like 150mm.")]
Core = Annotated[str, typer.Option(help="OUTSIDE diameter of the core, where the film starts.")]
Thickness = Annotated[str, typer.Option(help="Film, adhesive and liner as wound, like 50um.")]
Length = Annotated[str, typer.Option(help="Length of film, like 30.48m.")]
Units = Annotated[System, typer.Option(help="What a bare number means.")]
AsJson = Annotated[bool, typer.Option("--json", help="Keys carry their units.")]


@app.command()
def length(
    core: Core,
    thickness: Thickness,
    outside: Outside = "",
    round_: Annotated[
        str, typer.Option("--round", help="Tape laid round the roll, instead of --outside.")
    ] = "",
    units: Units = System.METRIC,
    as_json: AsJson = False,
) -> None:
    """Say how much film a roll holds, and how sure that is."""
    if bool(outside) == bool(round_):
        raise Refusal(Code.BAD_USAGE, "Give the roll's size once: --outside or --round.")
    outside_mm, outside_error_mm = (
        (parse_length(outside, units) / MM, roll.CALLIPER_ERROR_MM)
        if outside
        else (roll.outside_from_round_mm(parse_length(round_, units) / MM), roll.TAPE_ERROR_MM)
    )
    core_mm = parse_length(core, units) / MM
    thickness_um = parse_thickness(thickness, units) / UM
    found = roll.estimate_by_outside(
        outside_mm, core_mm, thickness_um, outside_error_mm=outside_error_mm
    )
    turns = roll.wraps(outside_mm, core_mm, thickness_um)
    per_mm = roll.length_mm_per_mm_outside(outside_mm, thickness_um)
    small, small_mm = ("1/16 in", 25.4 / 16) if units is System.US else ("a millimetre", 1.0)
    per_small = show_length(round(per_mm * small_mm * MM), units)
    low, likely, high = _as_sure_as_it_is(found, units)
    _say(
        f"About {likely}, between {low} and {high}, in {round(turns, 1):g} wraps; "
        f"{small} of diameter is {per_small}.",
        {
            "length_mm": found.length_m * 1_000,
            "low_mm": found.low_m * 1_000,
            "high_mm": found.high_m * 1_000,
            "wraps": turns,
            "length_mm_per_mm_outside": per_mm,
        },
        as_json=as_json,
    )


@app.command()
def outside(
    length: Length,
    core: Core,
    thickness: Thickness,
    units: Units = System.METRIC,
    as_json: AsJson = False,
) -> None:
    """Say how thick a roll of a length becomes."""
    outside_mm = roll.outside_mm(
        parse_length(length, units) / M,
        parse_length(core, units) / MM,
        parse_thickness(thickness, units) / UM,
    )
    _say(
        f"{show_width(round(outside_mm * MM), units)} across.",
        {"outside_mm": outside_mm},
        as_json=as_json,
    )


@app.command()
def mass(
    width: Annotated[str, typer.Option(help="Width of the film, like 1524mm.")],
    length: Length,
    layer: Annotated[
        list[str], typer.Option(help="Thickness and density, like 50.8um:1390; one for each layer.")
    ],
    units: Units = System.METRIC,
    as_json: AsJson = False,
) -> None:
    """Say what a length of film weighs, without its core."""
    width_nm = parse_length(width, units)
    layers = [roll.parse_layer(text, units) for text in layer]
    mass_kg = roll.mass_kg(width_nm / MM, parse_length(length, units) / M, layers)
    _say(
        f"{show_mass(round(mass_kg * KG), units)} of film; the core comes on top.",
        {"mass_kg": mass_kg},
        as_json=as_json,
    )
    if not as_json and (caution := lifting(mass_kg, width_nm)):
        typer.echo(caution, err=True)


def _as_sure_as_it_is(found: roll.LengthEstimate, units: System) -> list[str]:
    """Low, likely and high in words, no finer than the band is wide."""
    coarse, fine = (FOOT, INCH) if units is System.US else (M, M // 10)
    step = coarse if (found.high_m - found.low_m) * M > coarse else fine
    values = (found.low_m, found.length_m, found.high_m)
    return [show_length(round(value * M / step) * step, units) for value in values]


def _say(sentence: str, values: Mapping[str, float], *, as_json: bool) -> None:
    """Print the sentence, or the values to six decimals."""
    rounded = {key: round(value, 6) for key, value in values.items()}
    typer.echo(json.dumps(rounded) if as_json else sentence)
