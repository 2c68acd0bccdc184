"""`stockroom restore`: a backup goes back in the place of the book, which need not be readable."""

import json
from pathlib import Path
from typing import Annotated

import typer

from stockroom.cli import desk


def restore(
    ctx: typer.Context,
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A copy that `backup` made.")],
    book: Annotated[
        str | None, typer.Option(metavar="BOOK", help="The stock book: a file, or postgresql://…")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print values.")] = False,
) -> None:
    """Put a backup in the place of the book; what was there is kept beside it.

    A PostgreSQL book must be empty.
    """
    from stockroom.work.safekeeping import restore as put_back

    station, named = desk.named_book(book, ctx.obj)
    done = put_back(named or station.book_or_default(), file, now=desk.clock())
    copy = done.copy
    if as_json:
        kept = None if done.kept is None else str(done.kept)
        values = {"pieces": copy.pieces, "moves": copy.moves, "heads": copy.heads, "kept": kept}
        typer.echo(json.dumps(values))
        return
    typer.echo(f"restored from {file}: {copy.pieces} pieces, {copy.moves} moves, verified")
    if done.kept is not None:
        typer.echo(f"what was there before is kept in {done.kept}")
