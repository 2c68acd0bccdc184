"""The reports of a shop: before we close, stock; and its calendar of closed days."""

from datetime import date
from typing import Annotated

import typer

from stockroom.cli.desk import Desk, enters, name, note, reads, reports
from stockroom.cli.options import Why
from stockroom.cli.saying import Answer
from stockroom.errors import clean_text
from stockroom.lines.when import read_day

closed = typer.Typer(help="The days the shop is closed, and what becomes of the film meanwhile.")

Days = Annotated[str, typer.Argument(metavar="DAYS", help="A day, or two: 2026-12-24..2027-01-02.")]


@reads
def closing(desk: Desk) -> Answer:
    """Show what still lies out, waits or is half typed before the shop closes."""
    from stockroom.lines import answers_reports, text_reports
    from stockroom.work.closing import closing as before_we_close

    found = before_we_close(desk.book, now=desk.now)
    return Answer(
        values=answers_reports.closing(found), lines=text_reports.closing(found, desk.width)
    )


@reports
def stock(
    desk: Desk,
    material: Annotated[str, typer.Option(metavar="TEXT", help="Part of its name.")] = "",
) -> Answer:
    """Show how much of each material is ours, what it is worth, and its verdicts."""
    from stockroom.lines import answers_reports, text_reports
    from stockroom.work.stock import stock as all_of_it

    found = all_of_it(desk.book, now=desk.now, today=desk.today, material=name(material))
    return Answer(values=answers_reports.stock(found), lines=text_reports.stock(found, desk.width))


@reports
def forecast(
    desk: Desk,
    days: Annotated[int, typer.Option(help="How many days ahead.")] = 14,
) -> Answer:
    """Show on which day each piece is to be used first, tested or stopped."""
    from stockroom.lines import answers_reports, text_reports
    from stockroom.work.forecast import forecast as coming

    found = coming(desk.book, now=desk.now, today=desk.today, days=days)
    return Answer(values=answers_reports.forecast(found), lines=text_reports.forecast(found))


@closed.command()
@enters
def add(desk: Desk, days: Days, why: Why = "") -> Answer:
    """Write down that the shop is closed."""
    return _written(desk, days, why, opens=False)


@closed.command()
@enters
def drop(desk: Desk, days: Days, why: Why = "") -> Answer:
    """Write down that the shop is open on these days after all."""
    return _written(desk, days, why, opens=True)


@closed.command("list")
@reports
def list_(desk: Desk) -> Answer:
    """List the closed days to come, with the verdicts that change meanwhile."""
    from stockroom.lines import answers_reports, text_reports
    from stockroom.work.closed import calendar

    found = calendar(desk.book, now=desk.now, today=desk.today)
    return Answer(values=answers_reports.calendar(found), lines=text_reports.calendar(found))


def _written(desk: Desk, days: str, why: str, *, opens: bool) -> Answer:
    from stockroom.lines.text_reports import stretch
    from stockroom.work.closed import CloseDays, close_days

    first, last = stretch_of(days)
    request = CloseDays(first=first, last=last, why=note(why), opens=opens, **desk.asked())
    done = close_days(request, book=desk.book, now=desk.now)
    return Answer(
        values={
            "first": done.first.isoformat(),
            "last": done.last.isoformat(),
            "is_closed": not opens,
        },
        lines=[f"{'open after all' if opens else 'closed'}: {stretch(done)}"],
    )


def stretch_of(text: str) -> tuple[date, date]:
    """A day, or the first and the last of several."""
    first, to, last = clean_text(text).partition("..")
    return read_day(first), read_day(last if to else first)
