"""`stockroom delivery`: goods in, built line by line and received as one act."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from stockroom.cli.desk import Desk, enters, maybe, name, reads, writes
from stockroom.cli.label import refuse_labels_to, with_labels
from stockroom.cli.offering import offers
from stockroom.cli.receive import GOODS, Goods, cautions_of, read_line
from stockroom.cli.saying import Answer
from stockroom.codes.own import read_order
from stockroom.units.typed import parse_count

if TYPE_CHECKING:
    from stockroom.work.delivery import Delivery

app = typer.Typer(help="Goods in: built line by line, received as one act.")

Named = Annotated[
    str, typer.Option("--name", metavar="NAME", help="Which delivery, where there are several.")
]
USUAL = "goods in"


@app.command()
@enters
@offers(GOODS)
def add(
    desk: Desk,
    typed: Goods,
    material: Annotated[str | None, typer.Argument(metavar="MATERIAL", help="By its name.")] = None,
    line: Annotated[
        str | None, typer.Option(metavar="N", help="Fill in this line instead of adding one.")
    ] = None,
    named: Named = USUAL,
) -> Answer:
    """Add a line, or fill in what one still lacks; it is kept as it is typed."""
    given = read_line(desk, material, typed)
    return _set(desk, name(named), given, maybe(line, parse_count))


def _set(desk: Desk, named: str, given: dict[str, Any], number: int | None) -> Answer:
    from stockroom.work import delivery as room
    from stockroom.work.goods_line import Line

    line = Line(**given)
    if number is not None:
        lines = room.delivery(desk.book, named, now=desk.now).lines
        line = replace(lines[number - 1].line, **given) if number <= len(lines) else line
    request = room.SetLine(name=named, line=line, number=number, **desk.asked())
    return _shown(desk, room.set_line(request, book=desk.book, now=desk.now))


@app.command()
@enters
def order(
    desk: Desk,
    code: Annotated[str, typer.Argument(metavar="ORDER", help="The order's code.")],
    named: Named = USUAL,
) -> Answer:
    """Add what is still to come of an order, as it was ordered; receiving it closes its lines."""
    from stockroom.work import delivery as room

    request = room.AddOrder(order=read_order(code), name=name(named), **desk.asked())
    return _shown(desk, room.add_order(request, book=desk.book, now=desk.now))


@app.command("list")
@reads
def list_(desk: Desk) -> Answer:
    """List the deliveries that are being built."""
    from stockroom.lines import goods, words
    from stockroom.work.delivery import deliveries

    found = deliveries(desk.book, now=desk.now)
    lines = [f"{one.name}  {words.counted(len(one.lines), 'line')}" for one in found]
    return Answer(
        values={"deliveries": [goods.values(one) for one in found]},
        lines=lines or ["No delivery is being built: `stockroom delivery add MATERIAL …`."],
    )


@app.command()
@reads
def show(desk: Desk, named: Named = USUAL) -> Answer:
    """Show a delivery that is being built, and what it still lacks."""
    from stockroom.work.delivery import delivery

    return _shown(desk, delivery(desk.book, name(named), now=desk.now))


@app.command("drop-line")
@enters
def drop_line(
    desk: Desk,
    number: Annotated[str, typer.Argument(metavar="N", help="The line, from 1.")],
    named: Named = USUAL,
) -> Answer:
    """Take a line out of a delivery."""
    from stockroom.work import delivery as room

    request = room.DropLine(number=parse_count(number), name=name(named), **desk.asked())
    return _shown(desk, room.drop_line(request, book=desk.book, now=desk.now))


@app.command()
@writes
def receive(
    desk: Desk,
    named: Named = USUAL,
    labels: Annotated[
        Path | None, typer.Option(metavar="FILE", help="A .pdf for the labels of all that came in.")
    ] = None,
) -> Answer:
    """Receive all lines of a delivery in one act; each piece gets a code."""
    from stockroom.lines import answers, goods
    from stockroom.work import delivery as room
    from stockroom.work.look import materials, places

    if labels is not None:
        refuse_labels_to(desk, labels)
    request = room.ReceiveAll(name=name(named), **desk.asked())
    done = room.receive_all(request, book=desk.book, now=desk.now)
    known = materials(desk.book, now=desk.now)
    answer = Answer(
        values=answers.received(done.act, known, places(desk.book, now=desk.now)),
        lines=goods.received(done.act, known, desk.shop),
        notes=cautions_of(desk, done),
    )
    return answer if labels is None else with_labels(desk, answer, done.codes, labels)


@app.command()
@enters
def forget(desk: Desk, named: Named = USUAL) -> Answer:
    """Throw a delivery away that was never received."""
    from stockroom.work import delivery as room

    request = room.Forget(name=name(named), **desk.asked())
    room.forget(request, book=desk.book, now=desk.now)
    return Answer(values={"name": request.name}, lines=[f"{request.name}: forgotten"])


def _shown(desk: Desk, found: "Delivery") -> Answer:
    from stockroom.lines import goods
    from stockroom.work.arriving import offered
    from stockroom.work.look import places

    known = places(desk.book, now=desk.now)
    lines = [one.line for one in found.lines]
    return Answer(
        values=goods.values(found),
        lines=goods.shown(found, desk.shop, known, desk.width),
        notes=goods.awaited(offered(desk.book, lines, now=desk.now)),
    )
