"""The commands as one program; whatever goes wrong for a person is one plain line on stderr."""

import re
from collections.abc import Sequence
from typing import Annotated

import typer
from typer.exceptions import TyperException

from stockroom.cli import (
    away,
    book,
    boxes,
    calc,
    claim,
    climate,
    delivery,
    demo,
    export,
    importing,
    job,
    keeping,
    label,
    looking,
    material,
    order,
    owning,
    person,
    place,
    planning,
    printing,
    reporting,
    reserving,
    restore,
    sheets,
    stocktake,
    supplier,
    taking,
    tool,
    winding,
)
from stockroom.cli import receive as receiving
from stockroom.cli.desk import reads
from stockroom.errors import Exit, Refusal, clean_text

app = typer.Typer(
    help="Keep film in rolls: what there is, how old it is, what to use first.",
    rich_markup_mode=None,
    add_completion=False,
    epilog="Without a command the screens open. Every report has --json. "
    "Ends with 0 done, 2 not understood, 3 refused, 4 not found, 5 the book.",
)


@app.callback()
def stockroom(
    ctx: typer.Context,
    where: Annotated[
        str | None,
        typer.Option("--book", metavar="BOOK", help="The stock book: a file, or postgresql://…"),
    ] = None,
) -> None:
    """Keep the stock of film in rolls."""
    ctx.obj = where


app.command()(receiving.receive)
app.command()(taking.cut)
app.command()(taking.take)
app.command("print")(printing.print_length)
app.command()(printing.laminate)
app.command()(winding.rewind)
app.command()(winding.layflat)
app.command()(winding.flaw)
app.command()(taking.back)
app.command()(taking.finished)
app.command()(keeping.count)
app.command()(keeping.put)
app.command()(keeping.hold)
app.command()(keeping.release)
app.command()(keeping.discard)
app.command()(keeping.scrap)
app.command()(away.out)
app.command("in")(away.come_in)
app.command()(claim.send_back)
app.add_typer(claim.app, name="claim")
app.command()(stocktake.seen)
app.command()(stocktake.stocktake)
app.command()(boxes.kit)
app.command()(boxes.mix)
app.command()(boxes.opened)
app.add_typer(tool.app, name="tool")
app.command()(taking.charge)
app.command()(taking.undo)
app.command()(planning.plan)
app.command()(reserving.reserve)
app.command()(reserving.unreserve)
app.command()(reserving.cut_plan)
app.command()(looking.today)
app.command()(looking.rack)
app.command()(looking.piece)
app.command()(looking.log)
app.command()(reporting.closing)
app.command()(reporting.forecast)
app.command()(reporting.stock)
app.command()(owning.use)
app.command()(owning.value)
app.command()(owning.buying)
app.command()(label.label)
app.command()(sheets.wall_card)
app.command()(sheets.van_sheet)
app.command()(sheets.power_cut_sheet)
app.add_typer(winding.trial, name="trial")
app.add_typer(delivery.app, name="delivery")
app.add_typer(book.app, name="book")
app.add_typer(order.app, name="order")
app.add_typer(supplier.app, name="supplier")
app.add_typer(material.app, name="material")
app.add_typer(place.app, name="place")
app.add_typer(reporting.closed, name="closed")
app.add_typer(person.app, name="person")
app.add_typer(job.app, name="job")
app.add_typer(climate.app, name="climate")
app.command()(reads(book.verify))
app.command()(reads(book.backup))
app.command()(restore.restore)
app.command("import")(importing.import_)
app.add_typer(export.app, name="export")
app.add_typer(calc.app, name="calc")
app.command()(demo.demo)

_NEGATIVE = re.compile(r"-(?:[.,]?\d|inf|nan)", re.IGNORECASE)
_MINUS = "\N{MINUS SIGN}"
_LONGEST_SENTENCE = 400


def main(arguments: Sequence[str]) -> int:
    """Run one command and say how it ended."""
    command = typer.main.get_command(app)
    try:
        ended = command.main(
            _with_negatives(arguments), prog_name="stockroom", standalone_mode=False
        )
    except Refusal as refusal:
        typer.echo(refusal.sentence, err=True)
        return refusal.exit
    except TyperException as error:
        typer.echo(_sentence(error), err=True)
        return Exit.NOT_UNDERSTOOD
    return ended if isinstance(ended, int) else Exit.DONE


def _with_negatives(arguments: Sequence[str]) -> list[str]:
    """The arguments with -3m as a quantity, for the command to refuse, and not as an option."""
    return [_MINUS + one[1:] if _NEGATIVE.match(one) else one for one in arguments]


def _sentence(error: TyperException) -> str:
    """What was wrong with the arguments, and where to look."""
    said = clean_text(error.format_message(), _LONGEST_SENTENCE).rstrip(".")
    said = said.replace("Value error, ", "")
    context = getattr(error, "ctx", None)
    path = context.command_path if context is not None else "stockroom"
    return f"{said}: see `{path} --help`."
