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
MeasuredLength = Annotated[
    str | None, typer.Option("--length", metavar="LENGTH", help="Measured along the film.")
]
MeasuredOutside = Annotated[
    str | None, typer.Option("--outside", metavar="LENGTH", help="Diameter across the roll.")
]
MeasuredRound = Annotated[
    str | None, typer.Option("--round", metavar="LENGTH", help="Tape laid round the roll.")
]
MeasuredMass = Annotated[
    str | None,
    typer.Option("--mass", metavar="MASS", help="Of the roll with its core, like 4.1kg."),
]
MeasuredNumber = Annotated[
    str | None, typer.Option("--number", metavar="N", help="How many are in the box.")
]
KitPart = Annotated[
    str | None, typer.Option("--part", metavar="PART", help="A part of a kit, by its name.")
]
InLot = Annotated[
    str, typer.Option("--lot", metavar="LOT", help="Instead of one piece: all pieces of a lot.")
]
OfMaterial = Annotated[
    str | None,
    typer.Option("--material", metavar="NAME", help="With --lot: only of this material."),
]
MaybeCode = Annotated[
    str | None, typer.Argument(metavar="CODE", help="The piece, typed or scanned.")
]
Despite = Annotated[
    str | None, typer.Option(metavar="WHY", help="Take a piece that is stopped by its age.")
]
