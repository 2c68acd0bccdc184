"""What is done to a piece without taking film: count, put, hold, release, discard."""

from functools import partial
from typing import TYPE_CHECKING, Annotated

import typer

from stockroom.cli.desk import Desk, maybe, note, writes
from stockroom.cli.options import Code, Why
from stockroom.cli.receive import read_place_text
from stockroom.cli.saying import Answer
from stockroom.codes.own import read_piece
from stockroom.units.typed import parse_count, parse_length, parse_mass

if TYPE_CHECKING:
    from stockroom.books.values import Act


@writes
def count(
    desk: Desk,
    code: Code,
    length: Annotated[
        str | None, typer.Option(metavar="LENGTH", help="Measured along the film.")
    ] = None,
    outside: Annotated[
        str | None, typer.Option(metavar="LENGTH", help="Diameter across the roll.")
    ] = None,
    round_: Annotated[
        str | None, typer.Option("--round", metavar="LENGTH", help="Tape laid round the roll.")
    ] = None,
    mass: Annotated[
        str | None, typer.Option(metavar="MASS", help="Of the roll with its core, like 4.1kg.")
    ] = None,
    number: Annotated[
        str | None, typer.Option(metavar="N", help="How many are in the box.")
    ] = None,
    replace: Annotated[
        bool, typer.Option("--replace", help="Correct the books even where the count allows them.")
    ] = False,
) -> Answer:
    """Measure a piece: confirm the books, or correct them.

    A measurement that allows what the books say confirms them.
    """
    from stockroom.lines import answers, text_done
    from stockroom.work import count as room

    typed = partial(parse_length, system=desk.shop.system)
    of = read_piece(code)
    request = room.Count(
        piece=of,
        length_nm=maybe(length, typed),
        outside_nm=maybe(outside, typed),
        round_nm=maybe(round_, typed),
        mass_mg=maybe(mass, partial(parse_mass, system=desk.shop.system)),
        number=maybe(number, parse_count),
        replace=replace,
        **desk.asked(of),
    )
    done = room.count(request, book=desk.book, now=desk.now)
    return Answer(values=answers.counted(done), lines=text_done.counted(done, desk.shop))


@writes
def put(
    desk: Desk,
    code: Code,
    place: Annotated[str, typer.Argument(metavar="PLACE", help="Its name or code.")],
) -> Answer:
    """Say where a piece stands from now on."""
    from stockroom.work import keep

    of = read_piece(code)
    request = keep.Put(piece=of, place=read_place_text(place), **desk.asked(of))
    return kept(desk, of, keep.put(request, book=desk.book, now=desk.now))


@writes
def hold(desk: Desk, code: Code, why: Why = "") -> Answer:
    """Let nobody cut a piece until it is released."""
    from stockroom.work import keep

    of = read_piece(code)
    request = keep.Hold(piece=of, why=note(why), **desk.asked(of))
    return kept(desk, of, keep.hold(request, book=desk.book, now=desk.now))


@writes
def release(desk: Desk, code: Code, why: Why = "") -> Answer:
    """Let a held piece be cut again."""
    from stockroom.work import keep

    of = read_piece(code)
    request = keep.Release(piece=of, why=note(why), **desk.asked(of))
    return kept(desk, of, keep.release(request, book=desk.book, now=desk.now))


@writes
def discard(desk: Desk, code: Code, why: Why = "") -> Answer:
    """Throw a piece away; what was left of it is waste."""
    from stockroom.lines import cautions
    from stockroom.work import keep

    of = read_piece(code)
    request = keep.Discard(piece=of, why=note(why), **desk.asked(of))
    caution = cautions.taking(desk.standing(of).material.kind)
    return kept(desk, of, keep.discard(request, book=desk.book, now=desk.now), caution)


def kept(desk: Desk, code: str, act: "Act", caution: str | None = None) -> Answer:
    """What one act did to one piece, and what to mind."""
    from stockroom.lines import answers, text_done
    from stockroom.work.look import places

    return Answer(
        values={
            "code": code,
            "act": act.id,
            "kind": act.kind,
            **answers.amount(code, act.moves_of(code)[-1].balance),
        },
        lines=text_done.act(act, code, desk.shop, places(desk.book, now=desk.now)),
        notes=[] if caution is None else [caution],
    )
