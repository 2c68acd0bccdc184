"""`stockroom export`: all acts or all pieces as a table for a spreadsheet."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stockroom.cli.desk import Desk, reads
from stockroom.cli.saying import Answer

if TYPE_CHECKING:
    from stockroom.work.export import Exported

app = typer.Typer(help="All acts or all pieces as comma-separated values, for a spreadsheet.")

File = Annotated[Path, typer.Argument(metavar="FILE.csv", help="A new file; none is overwritten.")]


@app.command()
@reads
def acts(desk: Desk, file: File) -> Answer:
    """Write every act to a file, newest first, a row for each piece it touched."""
    from stockroom.work.export import export_acts

    return _said(export_acts(desk.book, file, now=desk.now))


@app.command()
@reads
def pieces(desk: Desk, file: File) -> Answer:
    """Write every piece there ever was to a file, with its verdict."""
    from stockroom.work.export import export_pieces

    return _said(export_pieces(desk.book, file, now=desk.now))


def _said(done: "Exported") -> Answer:
    rows = "1 row" if done.rows == 1 else f"{done.rows} rows"
    return Answer(
        values={"file": str(done.path), "rows": done.rows}, lines=[f"{done.path}: {rows}"]
    )
