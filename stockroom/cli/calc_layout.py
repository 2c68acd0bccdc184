"""`stockroom calc layout`: panels on film of one width, with little waste; no book needed."""

import json
from pathlib import Path
from random import Random  # noqa: TID251 - the seed is the person's
from time import monotonic
from typing import Annotated

import typer

from stockroom.cli.files import content_of
from stockroom.feeds.panels import PanelLine, read_panels
from stockroom.lines.layout import drawn, layout_lines, layout_values
from stockroom.plan.layout import Knife, lay_out
from stockroom.plan.panels import Panel
from stockroom.units import System
from stockroom.units.typed import parse_length

_COLUMNS = 78


def layout(
    panels: Annotated[
        Path, typer.Argument(help="CSV: name,width,height,count[,turn,group]; width lies across.")
    ],
    width: Annotated[str, typer.Option(help="Usable width of the film, like 1524mm.")],
    turn: Annotated[bool, typer.Option("--turn", help="Panels may be turned.")] = False,
    knife: Annotated[
        Knife, typer.Option(help="straight: from edge to edge, by hand; free: by a machine.")
    ] = Knife.STRAIGHT,
    table: Annotated[
        str, typer.Option(help="Longest piece the table holds: film is cut across first.")
    ] = "",
    effort: Annotated[
        int | None, typer.Option(min=1, help="Evaluations; the same number, the same layout.")
    ] = None,
    seconds: Annotated[float | None, typer.Option(min=0, help="Stop early after so long.")] = None,
    seed: Annotated[int, typer.Option(help="Where chance begins.")] = 1,
    units: Annotated[System, typer.Option(help="What a bare number means.")] = System.METRIC,
    as_json: Annotated[bool, typer.Option("--json", help="Keys carry their units.")] = False,
) -> None:
    """Lay panels out on film with little waste, and say the cuts."""
    began = monotonic()
    found = lay_out(
        [_panel(line, turns=turn) for line in read_panels(content_of(panels), units)],
        parse_length(width, units),
        chance=Random(seed),  # noqa: S311
        knife=knife,
        table=parse_length(table, units) if table else None,
        effort=effort,
        is_late=lambda: seconds is not None and monotonic() - began >= seconds,
    )
    if as_json:
        typer.echo(json.dumps(layout_values(found)))
        return
    for line in (*drawn(found, _COLUMNS), *layout_lines(found, units, _COLUMNS)):
        typer.echo(line)


def _panel(line: PanelLine, *, turns: bool) -> Panel:
    return Panel(
        name=line.name,
        across=line.width_nm,
        along=line.height_nm,
        number=line.number,
        turns=turns if line.turns is None else line.turns,
    )
