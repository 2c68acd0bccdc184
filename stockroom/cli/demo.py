"""`stockroom demo`: a book of an invented shop, to try everything on."""

import json
import os
from pathlib import Path
from typing import Annotated

import typer
from platformdirs import user_data_path

from stockroom.cli.desk import clock
from stockroom.lines.when import read_day


def demo(
    into: Annotated[
        Path | None, typer.Option(metavar="FILE", help="A new file; none is overwritten.")
    ] = None,
    seed: Annotated[int, typer.Option(metavar="N", help="Another number, another shop.")] = 7,
    today: Annotated[
        str | None, typer.Option(metavar="DAY", help="The day on whose morning it is shown.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print values.")] = False,
) -> None:
    """Make the book of an invented shop, fourteen months old."""
    from stockroom.books.backup import refuse_taken
    from stockroom.books.opening import create_book
    from stockroom.demo.generate import generate

    day = clock().date() if today is None else read_day(today)
    target = into or user_data_path("stockroom", ensure_exists=True) / "demo.db"
    refuse_taken(target)
    half = target.with_name(f".{target.name}.part")
    try:
        book = create_book(str(half), lasting=False)
        try:
            generate(book, seed=seed, today=day)
        finally:
            book.close()
        with half.open("rb") as written:
            os.fsync(written.fileno())
        half.replace(target)
    finally:
        for leftover in (half, Path(f"{half}-wal"), Path(f"{half}-shm")):
            leftover.unlink(missing_ok=True)
    if as_json:
        typer.echo(json.dumps({"file": str(target), "seed": seed, "today": day.isoformat()}))
    else:
        typer.echo(f"The invented shop is in {target}: stockroom --book {target} today")
