"""Stocktake: a place is scanned, then what stands in it; found pieces are put there, nothing ends.

A piece the books have there and nobody found is written down as not seen, and stays in the books.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from stockroom.books.catalog import name_key, place_named
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.pieces import standings
from stockroom.books.values import Act, ActDraft, Asked, Move, MoveDraft, Piece, Place
from stockroom.errors import Code, Refusal

SEEN, NOT_SEEN = "seen", "not-seen"


class Found(StrEnum):
    """What a stocktake says of one piece."""

    HERE = "here"
    ELSEWHERE = "elsewhere"
    """It stands here, and the books had it in another place, or in none."""
    OUT = "out"
    """It stands here, and the books have it away."""
    ENDED = "ended"
    """It stands here, and the books say it is no more."""
    MISSING = "missing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen(Asked):
    """What stands in a place, each piece once."""

    place: str
    pieces: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sighting:
    """One piece of a stocktake; `before` is the place the books had it in."""

    piece: str
    found: Found
    before: int | None


@dataclass(frozen=True, slots=True)
class Taken:
    """What a stocktake of a place found, as the act has it."""

    act: Act
    place_id: int
    sightings: tuple[Sighting, ...]

    def of(self, *found: Found) -> tuple[Sighting, ...]:
        """The sightings of these kinds."""
        return tuple(one for one in self.sightings if one.found in found)


def seen(request: Seen, *, book: Book, now: datetime) -> Taken:
    """Put what was found in its place, and say what is missing and what nobody expected."""
    with book.reading() as connection:
        place = place_named(connection, request.place, now)
        there = [one.code for one in standings(connection, now) if _stands_at(one.piece, place)]
    touched = {*request.pieces, *there}
    with writing(book, request, now=now, pieces=sorted(touched)) as pen:
        act = pen.repeated or _append(request, pen, place, there)
    return taken(act)


def taken(act: Act) -> Taken:
    """What a stocktake found, read from its act."""
    place_id = act.moves[0].facts["at"]
    if not isinstance(place_id, int):
        raise TypeError("a place has a whole number")
    return Taken(act, place_id, tuple(_sighting(move) for move in act.moves))


def _sighting(move: Move) -> Sighting:
    before = move.facts["before"]
    place_id = before if isinstance(before, int) else None
    return Sighting(move.piece, Found(str(move.facts["found"])), place_id)


def _append(request: Seen, pen: Pen, place: Place, there: Iterable[str]) -> Act:
    found = [pen.piece(code) for code in dict.fromkeys(request.pieces)]
    codes = {piece.code for piece in found}
    expected = (pen.piece(code) for code in there if code not in codes)
    # Looked at again: somebody may have cut or moved a piece meanwhile.
    missing = [piece for piece in expected if _stands_at(piece, place)]
    if not found and not missing:
        raise Refusal(
            Code.BAD_USAGE,
            f"Nothing was found at {place.name} and nothing is expected there: nothing to write.",
        )
    moves = (
        *(_found(piece, place) for piece in found),
        *(_move(piece, place, Found.MISSING) for piece in missing),
    )
    at = pen.when(pieces=[*found, *missing])
    return pen.append(ActDraft(kind=SEEN, at=at, moves=moves))


def _found(piece: Piece, place: Place) -> MoveDraft:
    if piece.state.ended is not None:
        return _move(piece, place, Found.ENDED)
    if _stands_at(piece, place):
        return _move(piece, place, Found.HERE)
    return _move(piece, place, Found.OUT if piece.state.out_to else Found.ELSEWHERE)


def _move(piece: Piece, place: Place, found: Found) -> MoveDraft:
    return MoveDraft(
        code=piece.code,
        kind=NOT_SEEN if found is Found.MISSING else SEEN,
        sets={"place_id": place.id} if found is Found.ELSEWHERE else {},
        facts={"at": place.id, "found": found.value, "before": piece.state.place_id},
    )


def _stands_at(piece: Piece, place: Place) -> bool:
    """Whether the books have a piece there: in the place itself, or out with the van of that name."""
    state = piece.state
    if state.ended is not None:
        return False
    if state.out_to is not None:
        return name_key(state.out_to) == name_key(place.name)
    return state.place_id == place.id
