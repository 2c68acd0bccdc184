"""`stockroom place`: where pieces stand."""

from typing import Annotated

import typer

from stockroom.cli.desk import Desk, enters, name, reads
from stockroom.cli.saying import Answer

app = typer.Typer(help="Where pieces stand: bays, tubes, vans.")


@app.command()
@enters
def add(
    desk: Desk,
    called: Annotated[str, typer.Argument(metavar="NAME", help="What is written on it.")],
    zone: Annotated[
        str, typer.Option(metavar="ZONE", help="The area that shares its climate.")
    ] = "",
) -> Answer:
    """Enter a place and give it a code."""
    from stockroom.lines import answers, words
    from stockroom.work.setup import AddPlace, add_a_place

    request = AddPlace(name=name(called), zone=name(zone), **desk.asked())
    place = add_a_place(request, book=desk.book, now=desk.now)
    return Answer(values=answers.place(place), lines=[f"{words.code(place.code)}  {place.name}"])


@app.command("list")
@reads
def list_(desk: Desk) -> Answer:
    """List every place."""
    from stockroom.lines import answers, text_setup
    from stockroom.work.look import places

    known = places(desk.book, now=desk.now)
    return Answer(
        values={"places": [answers.place(one) for one in known]},
        lines=text_setup.places(known, desk.width),
    )
