"""What goes back to its supplier, and the credits that are awaited: send-back, claim."""

from typing import Annotated

import typer

from stockroom.cli.desk import LOTS, Desk, note, plain, reads, writes
from stockroom.cli.keeping import kept
from stockroom.cli.options import Code, Why
from stockroom.cli.saying import Answer
from stockroom.codes.own import read_piece
from stockroom.units.money import parse_money

app = typer.Typer(help="Credits that suppliers owe for what was sent back.")


@writes
def send_back(
    desk: Desk,
    code: Code,
    why: Why = "",
    claim: Annotated[
        str, typer.Option(metavar="NUMBER", help="The number the supplier knows it by.")
    ] = "",
) -> Answer:
    """Send a piece back to its supplier; its value is a credit that is awaited."""
    from stockroom.work import sendback as room

    of = read_piece(code)
    request = room.SendBack(piece=of, why=note(why), claim=plain(claim, LOTS), **desk.asked(of))
    return kept(desk, of, room.send_back(request, book=desk.book, now=desk.now))


@app.command("list")
@reads
def list_(desk: Desk) -> Answer:
    """List every claim that is not settled, with its value."""
    from stockroom.lines import answers_goods, text_goods
    from stockroom.work.sendback import claims

    found = claims(desk.book, now=desk.now)
    return Answer(values=answers_goods.claims(found), lines=text_goods.claims(found, desk.width))


@app.command()
@writes
def credit(
    desk: Desk,
    code: Code,
    money: Annotated[
        str, typer.Argument(metavar="AMOUNT", help="What was credited; 0 if nothing.")
    ],
) -> Answer:
    """Settle the claim of a piece that was sent back."""
    from stockroom.work import sendback as room

    of = read_piece(code)
    minor = parse_money(money, desk.shop.currency)
    request = room.Credit(piece=of, credit_minor=minor, **desk.asked(of))
    return kept(desk, of, room.credit(request, book=desk.book, now=desk.now))
