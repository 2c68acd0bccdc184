"""Bottles: what is mixed or decanted gets a code and a label of its own, and keeps so many days."""

from dataclasses import dataclass
from datetime import datetime

from stockroom.books.catalog import material as material_of
from stockroom.books.catalog import material_named, place_named
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, Material, MoveDraft, Piece
from stockroom.codes.own import Letter
from stockroom.errors import Code, Refusal
from stockroom.film.dates import parse_span
from stockroom.film.kinds import Kind
from stockroom.work.gates import free, more_than_nothing
from stockroom.work.receive import OURS
from stockroom.work.soundness import judgement_of, refuse_stopped

MIX = "mix"
MOST_BOTTLES = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Mix(Asked):
    """Bottles are filled: what is in them, what to mind, how long it keeps, from which bottle."""

    material: str
    contents: str
    hazard: str
    keeps: str
    bottles: int = 1
    source: str | None = None
    place: str | None = None


@dataclass(frozen=True, slots=True)
class Mixed:
    """The codes of the bottles, which all need a label."""

    act: Act
    codes: tuple[str, ...]


def mix(request: Mix, *, book: Book, now: datetime) -> Mixed:
    """Give each bottle a code and all that its label has to say, in one act."""
    _refuse_unlabelled(request)
    pieces = [request.source] if request.source else []
    with writing(book, request, now=now, pieces=pieces, letters=[Letter.BOX]) as pen:
        act = pen.repeated or _append(request, pen)
    return Mixed(act, tuple(move.piece for move in act.moves if move.piece != request.source))


def _refuse_unlabelled(request: Mix) -> None:
    if not request.contents or not request.hazard:
        raise Refusal(
            Code.BAD_USAGE,
            "Every bottle says what is in it and what to mind: give --contents and --hazard.",
        )
    more_than_nothing(request.bottles, code=Code.BAD_NUMBER)
    if request.bottles > MOST_BOTTLES:
        raise Refusal(
            Code.BAD_NUMBER, f"{request.bottles} bottles at once: give 1 to {MOST_BOTTLES}."
        )


def _append(request: Mix, pen: Pen) -> Act:
    source = free(pen, request.source, "box") if request.source else None
    at = pen.when(pieces=[source] if source else [])
    material = _liquid(material_named(pen.connection, request.material, pen.now))
    moves = [
        *_filled(request, pen, material, source, at),
        *(_poured(pen, source, at) if source else ()),
    ]
    return pen.append(ActDraft(kind=MIX, at=at, moves=tuple(moves)))


def _liquid(material: Material) -> Material:
    if material.kind is not Kind.LIQUID:
        raise Refusal(
            Code.WRONG_KIND, f"{material.name} is {material.kind}: only a liquid goes in a bottle."
        )
    return material


def _poured(pen: Pen, source: Piece, at: datetime) -> tuple[MoveDraft]:
    """What it was mixed from: a bottle that may be used, of which nobody measures how much."""
    material = _liquid(material_of(pen.connection, source.state.material_id, at))
    refuse_stopped(source, judgement_of(pen, source, material, at), None)
    return (MoveDraft(code=source.code, kind=MIX),)


def _filled(
    request: Mix, pen: Pen, material: Material, source: Piece | None, at: datetime
) -> list[MoveDraft]:
    today = pen.shop.day_of(at)
    place = place_named(pen.connection, request.place, pen.now) if request.place else None
    sets = {
        "form": "box",
        "is_wound": False,
        "material_id": material.id,
        "received": today.isoformat(),
        "lot": source.state.lot if source else None,
        "parent": source.code if source else None,
        "owner": source.state.owner if source else OURS,
        "place_id": place.id if place else None,
        "mixed": today.isoformat(),
        "keeps_days": parse_span(request.keeps).days_from(today),
        "contents": request.contents,
        "hazard": request.hazard,
    }
    return [
        MoveDraft(code=pen.new_code(Letter.BOX), kind=MIX, delta=1, sets=sets)
        for _ in range(request.bottles)
    ]
