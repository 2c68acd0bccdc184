"""`stockroom export`: everything the book holds as tables for a spreadsheet."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stockroom.cli.desk import Desk, maybe, reads
from stockroom.cli.saying import Answer
from stockroom.errors import Code, Refusal
from stockroom.lines.when import read_day

if TYPE_CHECKING:
    from stockroom.work.spreadsheet import Exported

app = typer.Typer(help="Tables for a spreadsheet: .xlsx, or comma-separated values.")

File = Annotated[
    Path,
    typer.Argument(metavar="FILE", help="A new file, .csv or .xlsx; none is overwritten."),
]


@app.command()
@reads
def acts(desk: Desk, file: File) -> Answer:
    """Write every act to a file, newest first, a row for each piece it touched."""
    from stockroom.work.export import export_acts

    return _said(export_acts(desk.book, file, now=desk.now))


@app.command()
@reads
def pieces(desk: Desk, file: File) -> Answer:
    """Write every piece there ever was to a file, with its verdict; another book can import it."""
    from stockroom.work.export import export_pieces

    return _said(export_pieces(desk.book, file, now=desk.now))


@app.command()
@reads
def materials(desk: Desk, file: File) -> Answer:
    """Write every material to a file, with its limits and terms; another book can import it."""
    from stockroom.work.export_shop import export_materials

    return _said(export_materials(desk.book, file, now=desk.now))


@app.command()
@reads
def jobs(desk: Desk, file: File) -> Answer:
    """Write every job to a file, with the film it took and what it cost."""
    from stockroom.work.export_shop import export_jobs

    return _said(export_jobs(desk.book, file, now=desk.now))


@app.command()
@reads
def places(desk: Desk, file: File) -> Answer:
    """Write every place to a file, with its zone and how many pieces stand there."""
    from stockroom.work.export_shop import export_places

    return _said(export_places(desk.book, file, now=desk.now))


@app.command()
@reads
def readings(desk: Desk, file: File) -> Answer:
    """Write every reading of every zone to a file, oldest first."""
    from stockroom.work.export import export_readings

    return _said(export_readings(desk.book, file))


@app.command()
@reads
def use(
    desk: Desk,
    file: File,
    by: Annotated[str, typer.Option(metavar="week|month", help="Add up by week or month.")] = "",
    since: Annotated[
        str | None, typer.Option(metavar="DAY", help="Only from that day on, like 2026-01-01.")
    ] = None,
) -> Answer:
    """Write what was taken of each material to a file."""
    from stockroom.lines import tables
    from stockroom.work.spreadsheet import write_table
    from stockroom.work.use import By
    from stockroom.work.use import use as all_of_it

    if by not in ("", *By):
        raise Refusal(Code.BAD_USAGE, "Use is added up --by week or --by month.")
    found = all_of_it(
        desk.book, now=desk.now, since=maybe(since, read_day), by=By(by) if by else None
    )
    return _said(write_table(file, tables.of_use(found)))


@app.command()
@reads
def value(desk: Desk, file: File) -> Answer:
    """Write what each piece of ours is worth to a file, with its age and verdict."""
    from stockroom.lines import tables
    from stockroom.work.spreadsheet import write_table
    from stockroom.work.value import value as all_of_it

    return _said(write_table(file, tables.of_value(all_of_it(desk.book, now=desk.now))))


@app.command()
@reads
def buying(desk: Desk, file: File) -> Answer:
    """Write what to order of each material to a file, and why."""
    from stockroom.lines import tables
    from stockroom.work.buying import buying as plan
    from stockroom.work.spreadsheet import write_table

    return _said(write_table(file, tables.of_buying(plan(desk.book, now=desk.now))))


@app.command()
@reads
def orders(desk: Desk, file: File) -> Answer:
    """Write every line of every order to a file, with what came of it."""
    from stockroom.lines import tables
    from stockroom.work.look import materials as all_materials
    from stockroom.work.orders import all_orders
    from stockroom.work.spreadsheet import write_table

    known, today = all_materials(desk.book, now=desk.now), desk.shop.day_of(desk.now)
    table = tables.of_orders(all_orders(desk.book), known, desk.shop, today)
    return _said(write_table(file, table))


def _said(done: "Exported") -> Answer:
    rows = "1 row" if done.rows == 1 else f"{done.rows} rows"
    return Answer(
        values={"file": str(done.path), "rows": done.rows}, lines=[f"{done.path}: {rows}"]
    )
