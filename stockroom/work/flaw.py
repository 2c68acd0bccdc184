"""Flaws: a splice or damage at a distance, kept from the core, so that no cut moves it."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from stockroom.books.chain import canonical
from stockroom.books.fold import State
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, Move, MoveDraft
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.units.shown import show_length
from stockroom.work.gates import FILM, here


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkFlaw(Asked):
    """Something is wrong with the film so far from its outer end."""

    piece: str
    at_nm: int
    what: str


@dataclass(frozen=True, slots=True)
class Flaw:
    """What is wrong with the film, and how far from its outer end."""

    at_nm: int
    what: str


def mark_flaw(request: MarkFlaw, *, book: Book, now: datetime) -> Act:
    """Write down where a flaw lies, or refuse and change nothing."""
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        return pen.repeated or _append(request, pen)


def flaws_of(state: State) -> tuple[Flaw, ...]:
    """What is wrong with what is left of a piece, from the outer end on."""
    known = [Flaw(state.balance - one["from_core_nm"], one["what"]) for one in _kept(state)]
    return tuple(sorted((one for one in known if one.at_nm >= 0), key=lambda one: one.at_nm))


def flaws_ahead(state: State, length_nm: int) -> tuple[Flaw, ...]:
    """The flaws that a length taken from the outer end runs through."""
    return tuple(one for one in flaws_of(state) if one.at_nm <= length_nm)


def flaws_in(move: Move) -> tuple[Flaw, ...]:
    """The flaws that what was taken ran through, as the act has them."""
    facts: Mapping[str, Any] = move.facts
    return tuple(Flaw(**one) for one in facts.get("flaws", ()))


def turned_over(state: State, length_nm: int, *, skipped_nm: int = 0) -> str | None:
    """The flaws of a length that is wound anew, its outer end first: that end is the core end now."""
    taken = [Flaw(one.at_nm - skipped_nm, one.what) for one in flaws_of(state)]
    return _text([one for one in taken if 0 <= one.at_nm <= length_nm])


def together(*texts: str | None) -> str | None:
    """The flaws of two films that are one now."""
    kept = [one for text in texts if text for one in json.loads(text)]
    return canonical(kept) if kept else None


def _append(request: MarkFlaw, pen: Pen) -> Act:
    piece = here(pen, request.piece, *FILM)
    at = pen.when(pieces=[piece])
    if not request.what:
        raise Refusal(Code.BAD_USAGE, "Say what it is with --what: a splice, damage, dirt.")
    if not 0 <= request.at_nm <= piece.state.balance:
        raise Refusal(
            Code.TOO_LONG,
            f"{grouped(piece.code)} holds {show_length(piece.state.balance, pen.shop.system)}: "
            "give the distance from its outer end.",
        )
    flaw = {"from_core_nm": piece.state.balance - request.at_nm, "what": request.what}
    move = MoveDraft(
        code=piece.code,
        kind="flaw",
        sets={"flaws": canonical([*_kept(piece.state), flaw])},
        facts={"at_nm": request.at_nm, "what": request.what},
    )
    return pen.append(ActDraft(kind="flaw", at=at, moves=(move,)))


def _kept(state: State) -> list[dict[str, Any]]:
    return json.loads(state.flaws) if state.flaws else []


def _text(from_core: list[Flaw]) -> str | None:
    kept = [{"from_core_nm": one.at_nm, "what": one.what} for one in from_core]
    return canonical(kept) if kept else None
