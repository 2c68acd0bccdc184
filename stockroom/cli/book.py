"""`stockroom book`: what the whole shop shares; and the book as a file: verify, backup."""

from pathlib import Path
from typing import Annotated

import typer

from stockroom.cli.desk import Desk, name, note, reads, sets_up
from stockroom.cli.options import Why
from stockroom.cli.saying import Answer
from stockroom.errors import Code, Refusal

app = typer.Typer(help="Units, currency, clock and limits of the house.")


@app.command()
@reads
def show(desk: Desk) -> Answer:
    """Show the shop's settings and every house limit, with what each rests on."""
    from stockroom.lines import answers_shop, text_setup
    from stockroom.work.setup import settings

    shop, entries = settings(desk.book, now=desk.now)
    return Answer(
        values=answers_shop.shop_values(shop), lines=text_setup.shop(shop, entries, desk.width)
    )


@app.command("set")
@sets_up
def set_(
    desk: Desk,
    setting: Annotated[
        str,
        typer.Argument(
            metavar="NAME",
            help="name, units, currency, time-zone, day-start, labour, or a limit that `book show` names.",
        ),
    ],
    value: Annotated[str, typer.Argument(metavar="VALUE", help="What it shall be from now on.")],
    why: Why = "",
) -> Answer:
    """Set a value of the shop; what was in force before stays on record."""
    from stockroom.lines import answers_shop, text_setup, words
    from stockroom.work.setup import SetValue, set_value

    request = SetValue(name=name(setting), value=name(value), why=note(why), **desk.asked())
    since = request.at or desk.now
    shop = set_value(request, book=desk.book, now=desk.now)
    value = text_setup.setting(request.name, shop)
    return Answer(
        values=answers_shop.shop_values(shop),
        lines=[f"{request.name} is {value} from {words.moment(since, shop)} on"],
    )


def verify(
    desk: Desk,
    sums: Annotated[
        bool, typer.Option("--sums", help="Also sum the climate of every zone again; takes long.")
    ] = False,
) -> Answer:
    """Fold every journal again; say what does not agree."""
    from stockroom.work.safekeeping import verify as verify_all

    findings = verify_all(desk.book, sums=sums)
    said = [f"{found.piece} {found.text}".strip() for found in findings]
    number = "1 finding" if len(said) == 1 else f"{len(said)} findings"
    return Answer(
        values={"findings": [{"piece": one.piece or None, "text": one.text} for one in findings]},
        lines=said or ["The book agrees with itself."],
        ends=Refusal(
            Code.VERIFY_FOUND,
            f"The book {desk.book.name} has {number}: keep it as it is, restore the last backup.",
        )
        if findings
        else None,
    )


def backup(
    desk: Desk,
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A new file; none is overwritten.")],
) -> Answer:
    """Copy the book to a new file and verify the copy.

    The copy is a SQLite file, as of one moment, whatever the book is.
    """
    from stockroom.work.safekeeping import backup as copy_book

    copy = copy_book(desk.book, file)
    return Answer(
        values={
            "file": str(copy.path),
            "pieces": copy.pieces,
            "moves": copy.moves,
            "heads": copy.heads,
        },
        lines=[
            f"{copy.path}: {copy.pieces} pieces, {copy.moves} moves, verified",
            f"heads {copy.heads}",
        ],
    )
