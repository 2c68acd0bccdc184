"""What is done to a piece without taking film: count, put, hold, release, discard, scrap."""

from typing import TYPE_CHECKING, Annotated, Any

import typer

from stockroom.cli.desk import LOTS, Desk, maybe, name, note, plain, writes
from stockroom.cli.measuring import measurement
from stockroom.cli.options import (
    Code,
    Despite,
    InLot,
    MaybeCode,
    MeasuredLength,
    MeasuredMass,
    MeasuredNumber,
    MeasuredOutside,
    MeasuredRound,
    OfMaterial,
    Why,
)
from stockroom.cli.receive import read_place_text
from stockroom.cli.saying import Answer
from stockroom.codes.own import read_piece
from stockroom.errors import Code as RefusalCode
from stockroom.errors import Refusal

if TYPE_CHECKING:
    from stockroom.books.values import Act


@writes
def count(
    desk: Desk,
    code: Code,
    length: MeasuredLength = None,
    outside: MeasuredOutside = None,
    round_: MeasuredRound = None,
    mass: MeasuredMass = None,
    number: MeasuredNumber = None,
    replace: Annotated[
        bool, typer.Option("--replace", help="Correct the books even where the count allows them.")
    ] = False,
    blind: Annotated[
        bool,
        typer.Option("--blind", help="By somebody who does not see the books; see the tolerance."),
    ] = False,
) -> Answer:
    """Measure a piece: confirm the books, or correct them.

    A measurement that allows what the books say confirms them. Counted blind, one that is further
    off than the tolerance of the house waits for a second counter.
    """
    from stockroom.lines import answers, text_done
    from stockroom.work import count as room

    of = read_piece(code)
    measured = measurement(
        desk, length=length, outside=outside, round_=round_, mass=mass, number=number
    )
    given: dict[str, Any] = {"piece": of, **measured, **desk.asked(of)}
    if blind:
        if replace:
            raise Refusal(
                RefusalCode.BAD_USAGE, "Who counts blind cannot replace the books: leave one out."
            )
        return _blind(desk, given)
    done = room.count(room.Count(replace=replace, **given), book=desk.book, now=desk.now)
    return Answer(values=answers.counted(done), lines=text_done.counted(done, desk.shop))


def _blind(desk: Desk, given: dict[str, Any]) -> Answer:
    """A count that is kept even where it is refused for disagreeing with another."""
    from stockroom.lines import answers_goods, text_goods
    from stockroom.work.blind import CountBlind, count_blind

    done = count_blind(CountBlind(**given), book=desk.book, now=desk.now)
    return Answer(
        values=answers_goods.blind(done),
        lines=text_goods.blind(done, desk.shop),
        ends=Refusal(RefusalCode.COUNTS_DIFFER, text_goods.differs(done, desk.shop))
        if done.differs
        else None,
    )


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
def hold(
    desk: Desk,
    code: MaybeCode = None,
    lot: InLot = "",
    material: OfMaterial = None,
    why: Why = "",
) -> Answer:
    """Let nobody cut a piece until it is released; or all pieces of a lot, in one act."""
    from stockroom.work import keep
    from stockroom.work.recall import HoldLot, hold_lot

    of = _one_piece(code, lot, material)
    if of is None:
        whole = HoldLot(**_lot(desk, lot, material, why))
        return _recalled(desk, hold_lot(whole, book=desk.book, now=desk.now))
    request = keep.Hold(piece=of, why=note(why), **desk.asked(of))
    return kept(desk, of, keep.hold(request, book=desk.book, now=desk.now))


@writes
def release(
    desk: Desk,
    code: MaybeCode = None,
    lot: InLot = "",
    material: OfMaterial = None,
    why: Why = "",
) -> Answer:
    """Let a held piece be cut again; or all pieces that were held with their lot."""
    from stockroom.work import keep
    from stockroom.work.recall import ReleaseLot, release_lot

    of = _one_piece(code, lot, material)
    if of is None:
        whole = ReleaseLot(**_lot(desk, lot, material, why))
        return _recalled(desk, release_lot(whole, book=desk.book, now=desk.now))
    request = keep.Release(piece=of, why=note(why), **desk.asked(of))
    return kept(desk, of, keep.release(request, book=desk.book, now=desk.now))


@writes
def discard(desk: Desk, code: Code, why: Why = "", despite: Despite = None) -> Answer:
    """Throw a piece away; what was left of it is waste."""
    from stockroom.lines import cautions
    from stockroom.work import keep

    of = read_piece(code)
    request = keep.Discard(piece=of, why=note(why), despite=note(despite) or None, **desk.asked(of))
    caution = cautions.taking(desk.standing(of).material.kind)
    return kept(desk, of, keep.discard(request, book=desk.book, now=desk.now), caution)


@writes
def scrap(
    desk: Desk,
    codes: Annotated[list[str], typer.Argument(metavar="CODE...", help="Offcuts, scanned.")],
) -> Answer:
    """Drop offcuts in the bin that are too small to keep; nobody counts them any more."""
    from stockroom.lines import answers_goods, text_goods
    from stockroom.work.scrap import Scrap
    from stockroom.work.scrap import scrap as drop

    pieces = tuple(map(read_piece, codes))
    act = drop(Scrap(pieces=pieces, **desk.asked(*pieces)), book=desk.book, now=desk.now)
    return Answer(values=answers_goods.scrapped(act), lines=text_goods.scrapped(act, desk.shop))


def _one_piece(code: str | None, lot: str, material: str | None) -> str | None:
    """The one piece that was named; None where a lot was."""
    if (code is None) == (not lot) or (material is not None and not lot):
        raise Refusal(
            RefusalCode.BAD_USAGE, "Say which piece, or which lot with --lot: one of the two."
        )
    return maybe(code, read_piece)


def _lot(desk: Desk, lot: str, material: str | None, why: str) -> dict[str, Any]:
    return {
        "lot": plain(lot, LOTS),
        "material": maybe(material, name),
        "why": note(why),
        **desk.asked(),
    }


def _recalled(desk: Desk, act: "Act") -> Answer:
    from stockroom.lines import answers_goods, text_goods

    pieces = [desk.standing(move.piece) for move in act.moves]
    return Answer(values=answers_goods.lot(act), lines=text_goods.lot(act, pieces, desk.shop))


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
