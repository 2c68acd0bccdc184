"""How a piece is kept, and what is found on it: rewind, layflat, trial, flaw."""

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Annotated

import typer

from stockroom.cli.desk import Desk, maybe, note, writes
from stockroom.cli.keeping import kept
from stockroom.cli.options import Code as PieceCode
from stockroom.cli.options import Core, Tube, Wall
from stockroom.cli.saying import Answer
from stockroom.codes.own import read_piece
from stockroom.errors import Code, Refusal
from stockroom.units.typed import parse_length

if TYPE_CHECKING:
    from stockroom.work import winding as room

trial = typer.Typer(help="Trials of the piece itself: what passes may be used for longer.")


@writes
def rewind(
    desk: Desk,
    code: PieceCode,
    core: Core = None,
    wall: Wall = None,
    face: Annotated[
        str | None, typer.Option(metavar="in|out", help="Which way its face is wound.")
    ] = None,
    tube: Tube = False,
) -> Answer:
    """Wind a piece again, on the core it had or on another.

    The days it was wound before still count.
    """
    from stockroom.work import winding as room

    of = read_piece(code)
    request = room.Rewind(
        piece=of, core=read_core(desk, core, wall, tube=tube), face=face, **desk.asked(of)
    )
    return kept(desk, of, room.rewind(request, book=desk.book, now=desk.now))


@writes
def layflat(desk: Desk, code: PieceCode) -> Answer:
    """Lay a piece flat: its days wound stop, and are kept."""
    from stockroom.work import winding as room

    of = read_piece(code)
    request = room.LayFlat(piece=of, **desk.asked(of))
    return kept(desk, of, room.lay_flat(request, book=desk.book, now=desk.now))


@writes
def adhesion(
    desk: Desk,
    code: PieceCode,
    passed: Annotated[
        bool | None,
        typer.Option("--pass/--fail", help="It held and peeled as it should, or it did not."),
    ] = None,
    remark: Annotated[str, typer.Option("--note", help="What was seen, in a few words.")] = "",
) -> Answer:
    """Enter how a 300 mm square fared on scrap glass for 24 hours: look at it, then peel it.

    A pass extends the shelf limit from that day; a fail holds the piece.
    """
    from stockroom.lines import cautions
    from stockroom.work import trial as room

    if passed is None:
        raise Refusal(Code.BAD_USAGE, "Say how it went: --pass or --fail.")
    of = read_piece(code)
    request = room.TryAdhesion(piece=of, passed=passed, note=note(remark), **desk.asked(of))
    done = room.try_adhesion(request, book=desk.book, now=desk.now)
    return kept(desk, of, done, cautions.SCRAP_GLASS)


trial.command()(adhesion)


@writes
def curl(
    desk: Desk,
    code: PieceCode,
    height: Annotated[
        str, typer.Option(help="How high the strip stands; of a closed one, how wide it is.")
    ],
    chord: Annotated[
        str | None, typer.Option(help="From end to end; 0 where the ends meet.")
    ] = None,
    arc: Annotated[
        str | None,
        typer.Option(help="Length of the strip: to check the chord; alone, up to half a circle."),
    ] = None,
    at_diameter: Annotated[
        str | None,
        typer.Option(help="Where on the roll it was taken; at the outer end if not given."),
    ] = None,
    other_way: Annotated[
        bool, typer.Option("--other-way", help="It curls against the way it lay on the roll.")
    ] = False,
    remark: Annotated[str, typer.Option("--note", help="What was seen, in a few words.")] = "",
) -> Answer:
    """Enter what a strip, cut along the film, curls to when it stands free on its edge.

    A pass extends the limit of being wound from that day, for the wraps outside the strip; a fail
    holds the piece.
    """
    from stockroom.lines import cautions, curl_trial
    from stockroom.work import curl_trial as room

    typed = partial(parse_length, system=desk.shop.system)
    freely = partial(typed, zero=True)
    of = read_piece(code)
    request = room.TryCurl(
        piece=of,
        height_nm=freely(height),
        chord_nm=maybe(chord, freely),
        arc_nm=maybe(arc, typed),
        at_diameter_nm=maybe(at_diameter, typed),
        other_way=other_way,
        note=note(remark),
        **desk.asked(of),
    )
    done = room.try_curl(request, book=desk.book, now=desk.now)
    answer = kept(desk, of, done.act, cautions.BLADE)
    return replace(
        answer,
        values={**answer.values, **curl_trial.values(done)},
        lines=[*answer.lines, *curl_trial.reaches(done, desk.shop)],
    )


trial.command()(curl)


@writes
def flaw(
    desk: Desk,
    code: PieceCode,
    distance: Annotated[str, typer.Argument(metavar="AT", help="Its distance from the outer end.")],
    what: Annotated[str, typer.Option(help="splice, damage, dirt, or what it is.")] = "",
) -> Answer:
    """Mark a splice or damage; a cut that runs through it says so."""
    from stockroom.work import flaw as room

    of = read_piece(code)
    request = room.MarkFlaw(
        piece=of,
        at_nm=parse_length(distance, desk.shop.system, zero=True),
        what=note(what),
        **desk.asked(of),
    )
    return kept(desk, of, room.mark_flaw(request, book=desk.book, now=desk.now))


def read_core(desk: Desk, core: str | None, wall: str | None, *, tube: bool) -> "room.Core":
    """What a piece is wound on, as it was typed."""
    from stockroom.work.winding import Core

    typed = partial(parse_length, system=desk.shop.system)
    return Core(inside_nm=maybe(core, typed), wall_nm=maybe(wall, typed), in_tube=tube)
