"""`stockroom use`, `value` and `buying`: what was taken, what the room is worth, what to order."""

from typing import Annotated

import typer

from stockroom.cli.desk import Desk, maybe, name, reads, reports
from stockroom.cli.saying import Answer
from stockroom.errors import Code, Refusal
from stockroom.lines.when import read_day

Part = Annotated[str, typer.Option("--material", metavar="TEXT", help="Part of its name.")]
AsSheet = Annotated[
    bool, typer.Option("--csv", help="Print comma-separated values for a spreadsheet.")
]


@reports
def use(
    desk: Desk,
    material: Part = "",
    by: Annotated[str, typer.Option(metavar="week|month", help="Add up by week or month.")] = "",
    since: Annotated[
        str | None, typer.Option(metavar="DAY", help="Only from that day on, like 2026-01-01.")
    ] = None,
    as_sheet: AsSheet = False,
) -> Answer:
    """Show what was taken of each material: for jobs, without one, discarded, and by counts."""
    from stockroom.lines import use as said
    from stockroom.work.use import By
    from stockroom.work.use import use as all_of_it

    _one_form(desk, as_sheet=as_sheet)
    if by not in ("", *By):
        raise Refusal(Code.BAD_USAGE, "Use is added up --by week or --by month.")
    found = all_of_it(
        desk.book,
        now=desk.now,
        today=desk.today,
        since=maybe(since, read_day),
        by=By(by) if by else None,
        material=name(material),
    )
    if as_sheet:
        return Answer(values={}, lines=said.sheet_of(found))
    notes = [said.MEANING] if found.rows else []
    return Answer(values=said.values(found), lines=said.lines(found, desk.width), notes=notes)


@reports
def value(
    desk: Desk,
    days: Annotated[
        int, typer.Option(min=1, max=3650, help="Over how many days use and waste count.")
    ] = 365,
    slow: Annotated[
        int, typer.Option(min=1, max=3650, help="Slow is what nothing was taken of for so long.")
    ] = 180,
    as_sheet: AsSheet = False,
) -> Answer:
    """Show what the room is worth by lot, age and verdict, what was written off, and what lies still."""
    from stockroom.lines import value as said
    from stockroom.work.value import Wanted
    from stockroom.work.value import value as all_of_it

    _one_form(desk, as_sheet=as_sheet)
    wanted = Wanted(days=days, slow_days=slow)
    found = all_of_it(desk.book, now=desk.now, today=desk.today, wanted=wanted)
    if as_sheet:
        return Answer(values={}, lines=said.sheet_of(found))
    return Answer(values=said.values(found), lines=said.lines(found, desk.width))


@reads
def buying(
    desk: Desk,
    supplier: Annotated[
        str, typer.Option(metavar="TEXT", help="Only what one sells: part of the name.")
    ] = "",
) -> Answer:
    """Show what to order of each material and why: what is fit, what is drawn, what would grow too old."""
    from stockroom.lines import buying_plan
    from stockroom.work.buying import buying as plan

    found = plan(desk.book, now=desk.now, supplier=name(supplier))
    return Answer(
        values=buying_plan.values(found),
        lines=buying_plan.lines(found, desk.width),
        notes=buying_plan.notes(found),
    )


def _one_form(desk: Desk, *, as_sheet: bool) -> None:
    """Refuse two forms of one answer."""
    if as_sheet and desk.told.as_json:
        raise Refusal(Code.BAD_USAGE, "Give --json or --csv, one of the two.")
