"""Kits: a box with a list of its parts; what was taken out makes it incomplete until it is back."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from stockroom.books.catalog import name_key
from stockroom.books.chain import canonical
from stockroom.books.fold import State
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, MoveDraft, Piece
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.work.gates import free, here, more_than_nothing

KIT, PART_OUT, PART_BACK = "kit", "part-out", "part-back"


@dataclass(frozen=True, slots=True, kw_only=True)
class ListParts(Asked):
    """The parts of a kit, and how many of each; the list takes the place of the one before."""

    piece: str
    parts: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TakePart(Asked):
    """So many of a part are taken out of a kit."""

    piece: str
    part: str
    number: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class PartBack(Asked):
    """So many of a part are in the kit again, the same or new ones."""

    piece: str
    part: str
    number: int = 1


def list_parts(request: ListParts, *, book: Book, now: datetime) -> Act:
    """Make a box a kit, complete as it stands."""
    names = [name_key(name) for name, _ in request.parts]
    if not names or not all(names) or len(set(names)) != len(names):
        raise Refusal(Code.BAD_USAGE, "Name each part of the kit once: --part squeegee:2.")
    more_than_nothing(*(number for _, number in request.parts), code=Code.BAD_NUMBER)
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        return pen.repeated or _listed(request, pen)


def take_part(request: TakePart, *, book: Book, now: datetime) -> Act:
    """Take a part out of a kit, or refuse and change nothing."""
    more_than_nothing(request.number, code=Code.BAD_NUMBER)
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        if pen.repeated:
            return pen.repeated
        return _part(request, pen, free(pen, request.piece, "box"), request.number)


def part_back(request: PartBack, *, book: Book, now: datetime) -> Act:
    """Put a part back in its kit, or refuse and change nothing."""
    more_than_nothing(request.number, code=Code.BAD_NUMBER)
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        if pen.repeated:
            return pen.repeated
        kit = here(pen, request.piece, "box")
        return _part(request, pen, kit, -request.number)


def parts_of(state: State) -> Mapping[str, int]:
    """The parts of a kit; of another box, none."""
    return json.loads(state.parts) if state.parts else {}


def missing_of(state: State) -> Mapping[str, int]:
    """What was taken out of a kit and is not back."""
    return json.loads(state.missing) if state.missing else {}


def _listed(request: ListParts, pen: Pen) -> Act:
    piece = free(pen, request.piece, "box")
    if piece.state.balance != 1:
        raise Refusal(
            Code.WRONG_FORM,
            f"{grouped(piece.code)} holds {piece.state.balance}: a kit is one box with a code of "
            "its own; receive it with --count 1.",
        )
    parts = dict(request.parts)
    move = MoveDraft(
        code=piece.code,
        kind=KIT,
        sets={"parts": canonical(parts), "missing": None},
        facts={"parts": parts},
    )
    return pen.append(ActDraft(kind=KIT, at=pen.when(pieces=[piece]), moves=(move,)))


def _part(request: TakePart | PartBack, pen: Pen, kit: Piece, taken: int) -> Act:
    parts, missing = parts_of(kit.state), dict(missing_of(kit.state))
    name = next((one for one in parts if name_key(one) == name_key(request.part)), None)
    if name is None:
        raise Refusal(Code.NO_PART, _no_part(kit, request.part, parts))
    away = missing.pop(name, 0) + taken
    if away > parts[name]:
        raise Refusal(
            Code.TOO_MANY,
            f"{grouped(kit.code)} has {parts[name] - away + taken} {name}: "
            f"{request.number} cannot be taken.",
        )
    if away < 0:
        raise Refusal(
            Code.NOT_MISSING,
            f"{grouped(kit.code)} misses {away - taken} {name}: {request.number} cannot be put back.",
        )
    if away:
        missing[name] = away
    kind = PART_OUT if taken > 0 else PART_BACK
    move = MoveDraft(
        code=kit.code,
        kind=kind,
        sets={"missing": canonical(missing) if missing else None},
        facts={"part": name, "number": request.number},
    )
    return pen.append(ActDraft(kind=kind, at=pen.when(pieces=[kit]), moves=(move,)))


def _no_part(kit: Piece, part: str, parts: Mapping[str, int]) -> str:
    if not parts:
        return f"{grouped(kit.code)} is no kit: list its parts with `kit {kit.code} --part …`."
    return f"{grouped(kit.code)} has no part “{part}”: it has {', '.join(parts)}."
