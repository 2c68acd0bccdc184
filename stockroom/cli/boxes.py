"""Boxes that are more than goods: kits with their parts, bottles mixed or opened: kit, mix, opened."""

from typing import Annotated

import typer

from stockroom.cli.desk import NAMES, Desk, maybe, name, note, plain, writes
from stockroom.cli.keeping import kept
from stockroom.cli.options import Code as PieceCode
from stockroom.cli.receive import AtPlace, read_place_text
from stockroom.cli.saying import Answer
from stockroom.codes.own import read_piece
from stockroom.errors import Code, Refusal, clean_text
from stockroom.units.typed import parse_count


@writes
def kit(
    desk: Desk,
    code: PieceCode,
    part: Annotated[
        list[str] | None,
        typer.Option(metavar="PART:N", help="A part and how many of it; may be repeated."),
    ] = None,
) -> Answer:
    """Make a box a kit: list its parts; it is complete as it stands."""
    from stockroom.work.kit import ListParts, list_parts

    of = read_piece(code)
    request = ListParts(piece=of, parts=tuple(map(_part, part or ())), **desk.asked(of))
    return kept(desk, of, list_parts(request, book=desk.book, now=desk.now))


@writes
def mix(
    desk: Desk,
    material: Annotated[str, typer.Argument(metavar="MATERIAL", help="The liquid, by its name.")],
    contents: Annotated[str, typer.Option(metavar="TEXT", help="What is in the bottle.")] = "",
    hazard: Annotated[
        str, typer.Option(metavar="TEXT", help="What to mind, from the maker's sheet.")
    ] = "",
    keeps: Annotated[str, typer.Option(metavar="SPAN", help="How long it keeps, like 7d.")] = "",
    source: Annotated[
        str | None, typer.Option("--from", metavar="CODE", help="The bottle it was mixed from.")
    ] = None,
    bottles: Annotated[str, typer.Option("--count", metavar="N", help="How many bottles.")] = "1",
    place: AtPlace = None,
) -> Answer:
    """Fill bottles with what is mixed or decanted; each gets a code and a label of its own."""
    from stockroom.film.kinds import Kind
    from stockroom.lines import answers_goods, cautions, text_goods
    from stockroom.work import bottle as room

    of = maybe(source, read_piece)
    request = room.Mix(
        material=name(material),
        contents=plain(contents, NAMES),
        hazard=note(hazard),
        keeps=keeps,
        bottles=parse_count(bottles),
        source=of,
        place=maybe(place, read_place_text),
        **desk.asked(*([of] if of else [])),
    )
    done = room.mix(request, book=desk.book, now=desk.now)
    caution = cautions.taking(Kind.LIQUID)
    return Answer(
        values=answers_goods.mixed(done),
        lines=text_goods.mixed(done, desk.shop),
        notes=[] if caution is None else [caution],
    )


@writes
def opened(
    desk: Desk,
    code: PieceCode,
    keeps: Annotated[
        str,
        typer.Option(metavar="SPAN", help="How long it keeps open, like 6mo; else its material's."),
    ] = "",
    place: AtPlace = None,
) -> Answer:
    """Open a bottle; one of several leaves its box and gets a code and a label of its own."""
    from stockroom.film.kinds import Kind
    from stockroom.lines import begun, cautions
    from stockroom.work.begin import OpenBottle, open_bottle

    of = read_piece(code)
    where = maybe(place, read_place_text)
    request = OpenBottle(piece=of, keeps=keeps, place=where, **desk.asked(of))
    done = open_bottle(request, book=desk.book, now=desk.now)
    caution = cautions.taking(Kind.LIQUID)
    return Answer(
        values=begun.begun_values(done),
        lines=begun.begun(done),
        notes=[] if caution is None else [caution],
    )


def _part(text: str) -> tuple[str, int]:
    """A part and how many of it; a name alone is one."""
    called, colon, number = text.rpartition(":")
    if not colon:
        called, number = text, "1"
    if not (part := clean_text(called, NAMES)):
        raise Refusal(Code.BAD_NAME, "A part needs a name: write it like squeegee:2.")
    return part, parse_count(number)
