"""`stockroom place`: where pieces stand."""

from typing import Annotated

import typer

from stockroom.cli.desk import Desk, enters, maybe, name, reads, sets_up
from stockroom.cli.saying import Answer
from stockroom.errors import Code, Refusal

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


@app.command()
@sets_up
def zone(
    desk: Desk,
    place: Annotated[str, typer.Argument(metavar="PLACE", help="Its name or its code.")],
    called: Annotated[
        str | None, typer.Argument(metavar="ZONE", help="The area whose climate it shares.")
    ] = None,
    none: Annotated[
        bool, typer.Option("--none", help="It shares no climate that is known.")
    ] = False,
) -> Answer:
    """Say in which zone a place lies, from an instant on; before it, all stays as it was."""
    from stockroom.codes.own import looks_like_code, read_place
    from stockroom.lines import answers, text_setup
    from stockroom.work.sensors import PutInZone, put_in_zone

    if none is (called is not None) or called == "":
        raise Refusal(Code.BAD_USAGE, "A place lies in a ZONE, or in --none.")
    called_or_code = read_place(place) if looks_like_code(place) else name(place)
    request = PutInZone(place=called_or_code, zone=maybe(called, name) or "", **desk.asked())
    found = put_in_zone(request, book=desk.book, now=desk.now)
    return Answer(values=answers.zoned_place(found), lines=text_setup.zoned_place(found, desk.shop))


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
