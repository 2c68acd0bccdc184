"""Arguments and options that more than one family of commands has."""

from typing import Annotated

import typer

Code = Annotated[str, typer.Argument(metavar="CODE", help="The piece, typed or scanned.")]
JobCode = Annotated[str, typer.Argument(metavar="JOB", help="The job's code.")]
Length = Annotated[str, typer.Argument(metavar="LENGTH", help="Like 3.2m, 3200, 10'6\" or 126in.")]
ForJob = Annotated[str | None, typer.Option("--job", metavar="JOB", help="The job it is for.")]
ForReason = Annotated[
    str | None,
    typer.Option(
        "--for", metavar="REASON", help="Without a job: spoiled, sample, training or leader."
    ),
]
Why = Annotated[str, typer.Option(help="The reason, in a few words.")]
Kind = Annotated[
    str,
    typer.Option(
        metavar="KIND",
        help="window-film, protective-film, print-vinyl, calendered-vinyl, laminate, "
        "transfer-tape, liquid, blade, tool or other.",
    ),
]
Width = Annotated[str | None, typer.Option(metavar="LENGTH", help="Width of the film.")]
Core = Annotated[str | None, typer.Option(metavar="LENGTH", help="INSIDE diameter of the core.")]
Wall = Annotated[str | None, typer.Option(metavar="LENGTH", help="Wall of the core.")]
Tube = Annotated[bool, typer.Option("--tube", help="It is kept rolled up in a tube.")]
Waste = Annotated[str | None, typer.Option(metavar="LENGTH", help="How much of it is waste.")]
Despite = Annotated[
    str | None, typer.Option(metavar="WHY", help="Take a piece that is stopped by its age.")
]
