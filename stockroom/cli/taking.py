"""Film and goods that leave a piece, and that come back: cut, take, back, finished, charge, undo."""

from functools import partial
from typing import Annotated, Any

import typer

from stockroom.cli.desk import Desk, maybe, name, note, writes
from stockroom.cli.keeping import kept
from stockroom.cli.options import Code as PieceCode
from stockroom.cli.options import Despite, ForJob, ForReason, KitPart, Length, Waste
from stockroom.cli.saying import Answer
from stockroom.codes.own import Letter, letter_of, read_job, read_piece
from stockroom.errors import Code, Refusal
from stockroom.units.typed import parse_count, parse_length, parse_size


@writes
def cut(
    desk: Desk,
    code: PieceCode,
    length: Length,
    job: ForJob = None,
    reason: ForReason = None,
    waste: Waste = None,
    offcut: Annotated[
        list[str] | None,
        typer.Option(metavar="ACROSSxALONG", help="A part of it that is kept; may be repeated."),
    ] = None,
    despite: Despite = None,
    overrun: Annotated[
        bool, typer.Option("--overrun", help="More than the books say: count and cut in one act.")
    ] = False,
) -> Answer:
    """Cut a length of a piece, for a job or for a reason without one."""
    from stockroom.lines import answers, cautions, text_done, text_film
    from stockroom.work import cut as room

    typed = partial(parse_length, system=desk.shop.system)
    at = read_piece(code)
    request = room.Cut(
        piece=at,
        length_nm=typed(length),
        job=maybe(job, read_job),
        reason=reason,
        waste_nm=maybe(waste, typed) or 0,
        offcuts=tuple(parse_size(text, desk.shop.system) for text in offcut or ()),
        despite=note(despite) or None,
        overrun=overrun,
        **desk.asked(at),
    )
    hints = older(desk, at, request.length_nm)
    done = room.cut(request, book=desk.book, now=desk.now)
    standing = desk.standing(at)
    return Answer(
        values=answers.cut(done, standing),
        lines=text_done.cut(done, standing, desk.shop),
        notes=[*hints, *text_film.warnings(done.flaws, desk.shop), cautions.BLADE],
    )


@writes
def take(
    desk: Desk,
    code: PieceCode,
    number: Annotated[
        str | None, typer.Argument(metavar="N", help="How many; of a part, 1 if not said.")
    ] = None,
    job: ForJob = None,
    reason: ForReason = None,
    part: KitPart = None,
    despite: Despite = None,
) -> Answer:
    """Take goods out of a box, or a part out of a kit."""
    from stockroom.lines import answers, cautions, text_done
    from stockroom.work import take as room
    from stockroom.work.kit import TakePart, take_part

    box = read_piece(code)
    if part is not None:
        _refuse_beside_a_part(job, reason, despite)
        asked = TakePart(**_part(desk, box, part, number))
        return kept(desk, box, take_part(asked, book=desk.book, now=desk.now))
    if number is None:
        raise Refusal(Code.BAD_USAGE, "Say how many are taken, or which part with --part.")
    request = room.Take(
        piece=box,
        number=parse_count(number),
        job=maybe(job, read_job),
        reason=reason,
        despite=note(despite) or None,
        **desk.asked(box),
    )
    done = room.take(request, book=desk.book, now=desk.now)
    standing = desk.standing(box)
    caution = cautions.taking(standing.material.kind)
    return Answer(
        values=answers.changed(done.act, standing, done.left, done.cost_minor),
        lines=text_done.act(done.act, box, desk.shop),
        notes=[] if caution is None else [caution],
    )


@writes
def back(
    desk: Desk,
    code: Annotated[
        str | None, typer.Argument(metavar="CODE", help="The piece it never left.")
    ] = None,
    length: Annotated[
        str | None,
        typer.Argument(metavar="LENGTH", help="How much of it; a number for goods of a box."),
    ] = None,
    job: ForJob = None,
    parent: Annotated[
        str | None,
        typer.Option("--from", metavar="CODE", help="The piece it was cut from, with --size."),
    ] = None,
    size: Annotated[
        str | None,
        typer.Option(metavar="ACROSSxALONG", help="The size of a severed part; it gets a code."),
    ] = None,
    part: KitPart = None,
) -> Answer:
    """Take back what a job did not use, or a part of a kit.

    What was never severed goes back on its piece; a severed part becomes an offcut.
    """
    from stockroom.lines import answers, text_done, words
    from stockroom.work import back as room
    from stockroom.work.kit import PartBack, part_back

    if part is not None:
        _refuse_beside_a_part(job, parent, size)
        box = read_piece(code or "")
        asked = PartBack(**_part(desk, box, part, length))
        return kept(desk, box, part_back(asked, book=desk.book, now=desk.now))
    if job is None:
        raise Refusal(Code.BAD_USAGE, "Say which job it comes back from, with --job.")
    is_severed = (code, length) == (None, None) and None not in (parent, size)
    is_whole = (parent, size) == (None, None) and None not in (code, length)
    if not (is_severed or is_whole):
        raise Refusal(
            Code.BAD_USAGE, "Say what comes back: CODE LENGTH, or --from CODE --size ACROSSxALONG."
        )
    of = read_piece(code or parent or "")
    request = room.Back(
        piece=of,
        job=read_job(job),
        amount=None if length is None else _amount(desk, of, length),
        size=None if size is None else parse_size(size, desk.shop.system),
        **desk.asked(of),
    )
    done = room.back(request, book=desk.book, now=desk.now)
    standing = desk.standing(done.piece)
    size_now = words.left(standing, desk.shop.system)
    return Answer(
        values=answers.changed(done.act, standing, done.left, done.cost_minor),
        lines=text_done.came_back(done, desk.shop, size_now),
    )


@writes
def finished(desk: Desk, code: PieceCode) -> Answer:
    """Say that a core is bare or a box is empty.

    What the books still had of it is variance.
    """
    from stockroom.lines import answers, text_done
    from stockroom.work.count import Finish, finish

    at = read_piece(code)
    done = finish(Finish(piece=at, **desk.asked(at)), book=desk.book, now=desk.now)
    return Answer(values=answers.counted(done), lines=text_done.act(done.act, at, desk.shop))


@writes
def charge(desk: Desk, code: PieceCode, length: Length, job: ForJob = None) -> Answer:
    """Charge a job for a cut nobody wrote down.

    It has its own time, --at, and a later count has seen it: what is left stays as it is.
    """
    from stockroom.lines import answers, text_done
    from stockroom.work import charge as room

    if job is None:
        raise Refusal(Code.BAD_USAGE, "Say which job the film went to, with --job.")
    of = read_piece(code)
    request = room.Charge(
        piece=of,
        length_nm=parse_length(length, desk.shop.system),
        job=read_job(job),
        **desk.asked(),
    )
    done = room.charge(request, book=desk.book, now=desk.now)
    standing = desk.standing(of)
    left = done.act.moves_of(of)[0].balance
    values = answers.changed(done.act, standing, left, done.cost_minor)
    return Answer(
        values=values | {"charged_area_mm2": done.charged_mm2},
        lines=text_done.act(done.act, of, desk.shop),
    )


@writes
def undo(
    desk: Desk,
    code: PieceCode,
    act: Annotated[
        int | None, typer.Option(metavar="ACT", help="Only if this is still the last act.")
    ] = None,
) -> Answer:
    """Reverse the last act of a piece, with all it did to others."""
    from stockroom.lines import answers, text_done
    from stockroom.work import undo as room

    of = read_piece(code)
    done = room.undo(room.Undo(piece=of, act=act, **desk.asked(of)), book=desk.book, now=desk.now)
    return Answer(
        values={
            "code": of,
            "act": done.act.id,
            "undone": done.undone,
            **answers.amount(of, done.left),
        },
        lines=text_done.act(done.act, of, desk.shop),
    )


def _refuse_beside_a_part(*others: str | None) -> None:
    if any(one is not None for one in others):
        raise Refusal(
            Code.BAD_USAGE, "A part belongs to its kit: give CODE, perhaps N, and --part alone."
        )


def _part(desk: Desk, code: str, part: str, number: str | None) -> dict[str, Any]:
    """A part of a kit, once unless a number is given."""
    return {
        "piece": code,
        "part": name(part),
        "number": 1 if number is None else parse_count(number),
        **desk.asked(code),
    }


def _amount(desk: Desk, code: str, text: str) -> int:
    if letter_of(code) is Letter.BOX:
        return parse_count(text)
    return parse_length(text, desk.shop.system)


def older(desk: Desk, code: str, length_nm: int) -> list[str]:
    """The hint that an older sound piece of the same film would do."""
    from stockroom.lines import words
    from stockroom.work.older import older_sound

    found = older_sound(desk.book, code, length_nm, now=desk.now)
    if found is None:
        return []
    left = words.left(found.standing, desk.shop.system)
    place = words.place(found.standing.place)
    return [f"An older sound piece would do: {words.code(found.code)} at {place}, {left}."]
