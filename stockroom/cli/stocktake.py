"""Stocktake: what stands in a place, and the report of every place: seen, stocktake."""

from typing import Annotated

import typer

from stockroom.cli.desk import Desk, maybe, reads, writes
from stockroom.cli.receive import read_place_text
from stockroom.cli.saying import Answer
from stockroom.codes.own import read_piece
from stockroom.errors import Code, Refusal


@writes
def seen(
    desk: Desk,
    place: Annotated[str, typer.Argument(metavar="PLACE", help="Its name or code.")],
    codes: Annotated[
        list[str] | None,
        typer.Argument(metavar="[CODE]...", help="All that stands there, typed or scanned."),
    ] = None,
    empty: Annotated[bool, typer.Option("--empty", help="Nothing stands there.")] = False,
) -> Answer:
    """Write down what stands in a place: what is missing, unexpected, or from elsewhere.

    Found pieces are put there. Nothing is thrown away.
    """
    from stockroom.lines import answers_goods, text_goods
    from stockroom.work.look import places
    from stockroom.work.stocktake import Seen
    from stockroom.work.stocktake import seen as look_through

    pieces = tuple(map(read_piece, codes or ()))
    if bool(pieces) == empty:
        raise Refusal(
            Code.BAD_USAGE,
            "Name every piece that stands there, one or more, or say --empty: "
            "what is not named is missing.",
        )
    request = Seen(place=read_place_text(place), pieces=pieces, **desk.asked(*pieces))
    done = look_through(request, book=desk.book, now=desk.now)
    known = places(desk.book, now=desk.now)
    return Answer(values=answers_goods.seen(done, known), lines=text_goods.seen(done, known))


@reads
def stocktake(
    desk: Desk,
    place: Annotated[
        str | None, typer.Option(metavar="PLACE", help="Only this one: its name or code.")
    ] = None,
) -> Answer:
    """Show when each place was looked through, what is missing, and how far the books were off."""
    from stockroom.lines import answers_goods, text_goods
    from stockroom.work.stocktakes import stocktakes

    found = stocktakes(desk.book, now=desk.now, place=maybe(place, read_place_text))
    return Answer(
        values=answers_goods.stocktakes(found), lines=text_goods.stocktakes(found, desk.width)
    )
