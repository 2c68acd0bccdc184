"""`stockroom supplier`: the least each sells, carriage, and the days it is closed."""

from typing import Annotated

import typer

from stockroom.cli.desk import Desk, enters, maybe, name, note, reads
from stockroom.cli.options import Why
from stockroom.cli.reporting import stretch_of
from stockroom.cli.saying import Answer
from stockroom.errors import Code, Refusal
from stockroom.units.money import parse_money

app = typer.Typer(help="Who sells: the least order, carriage, closed days.")


@app.command()
@enters
def change(
    desk: Desk,
    called: Annotated[str, typer.Argument(metavar="NAME", help="As the materials name it.")],
    least_order: Annotated[
        str | None, typer.Option(metavar="AMOUNT", help="It takes no smaller order.")
    ] = None,
    carriage_paid: Annotated[
        str | None, typer.Option(metavar="AMOUNT", help="From here on it pays the carriage.")
    ] = None,
    carriage: Annotated[
        str | None, typer.Option(metavar="AMOUNT", help="What the carriage costs below that.")
    ] = None,
    closed: Annotated[
        str | None, typer.Option(metavar="DAYS", help="Nobody delivers: 2026-12-24..2027-01-02.")
    ] = None,
    opens: Annotated[
        str | None, typer.Option("--open", metavar="DAYS", help="These days are not closed.")
    ] = None,
    why: Why = "",
) -> Answer:
    """Say what was agreed with a supplier, from now on; an amount is taken away by "none"."""
    from stockroom.lines import suppliers as said
    from stockroom.work.suppliers import ChangeSupplier, change_supplier

    typed = {
        "least_minor": least_order,
        "paid_minor": carriage_paid,
        "carriage_minor": carriage,
    }
    if closed is opens is None and not any(text is not None for text in typed.values()):
        raise Refusal(Code.BAD_USAGE, "Nothing to change was named: see `supplier change --help`.")
    request = ChangeSupplier(
        name=name(called),
        terms={
            field: None if text.strip().lower() == "none" else parse_money(text, desk.shop.currency)
            for field, text in typed.items()
            if text is not None
        },
        closed=maybe(closed, stretch_of),
        opens=maybe(opens, stretch_of),
        why=note(why),
        **desk.asked(),
    )
    one = change_supplier(request, book=desk.book, now=desk.now)
    return Answer(values=said.values(one), lines=said.lines([one], desk.shop.currency, desk.width))


@app.command("list")
@reads
def list_(desk: Desk) -> Answer:
    """List the suppliers with what was agreed."""
    from stockroom.lines import suppliers as said
    from stockroom.work.suppliers import all_suppliers

    found = all_suppliers(desk.book, now=desk.now)
    return Answer(
        values={"suppliers": [said.values(one) for one in found]},
        lines=said.lines(found, desk.shop.currency, desk.width),
    )
