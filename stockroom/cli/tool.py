"""`stockroom tool`: tools in use, from the day they are put in use to the day they fail."""

import typer

from stockroom.cli.desk import Desk, maybe, note, reads, writes
from stockroom.cli.keeping import kept
from stockroom.cli.options import Code, Why
from stockroom.cli.receive import AtPlace, read_place_text
from stockroom.cli.saying import Answer
from stockroom.codes.own import read_piece

app = typer.Typer(help="Tools in use: how long each kind lasts, and what it costs a month.")


@app.command()
@writes
def use(desk: Desk, code: Code, place: AtPlace = None) -> Answer:
    """Put a tool in use; one of several leaves its box and gets a code of its own."""
    from stockroom.lines import begun, cautions
    from stockroom.work.begin import PutInUse, put_in_use

    of = read_piece(code)
    request = PutInUse(piece=of, place=maybe(place, read_place_text), **desk.asked(of))
    done = put_in_use(request, book=desk.book, now=desk.now)
    return Answer(values=begun.begun_values(done), lines=begun.begun(done), notes=[cautions.TOOL])


@app.command()
@writes
def failed(desk: Desk, code: Code, why: Why = "") -> Answer:
    """Say that a tool in use has failed, and why; its service life ends."""
    from stockroom.lines import cautions
    from stockroom.work.begin import Fail, fail

    of = read_piece(code)
    request = Fail(piece=of, why=note(why), **desk.asked(of))
    return kept(desk, of, fail(request, book=desk.book, now=desk.now), cautions.TOOL)


@app.command("list")
@reads
def list_(desk: Desk) -> Answer:
    """Show how long each kind of tool lasts, and what one in use costs a month."""
    from stockroom.lines import begun
    from stockroom.work.tools import tools

    found = tools(desk.book, now=desk.now)
    return Answer(
        values=begun.lives_values(found),
        lines=begun.lives(found, desk.width),
        notes=[begun.MEANING] if found.kinds else [],
    )
