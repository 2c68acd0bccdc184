"""Trials of the piece itself: what passes may be used for longer, what fails is held."""

from dataclasses import dataclass
from datetime import datetime

from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, MoveDraft, Piece
from stockroom.work.gates import FILM, here

ADHESION = "adhesion"
_AND = "; "


@dataclass(frozen=True, slots=True, kw_only=True)
class TryAdhesion(Asked):
    """A square of the piece stood on scrap glass for a day; it was looked at, and peeled."""

    piece: str
    passed: bool


def try_adhesion(request: TryAdhesion, *, book: Book, now: datetime) -> Act:
    """Extend the shelf limit of a piece that passed, from that day on; hold one that failed."""
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        return pen.repeated or _append(request, pen)


def _append(request: TryAdhesion, pen: Pen) -> Act:
    piece = here(pen, request.piece, *FILM)
    at = pen.when(pieces=[piece])
    if request.passed:
        until = pen.shop.house.extension("shelf").after(pen.shop.day_of(at))
        sets: dict[str, object] = {"shelf_passed": until.isoformat()}
    else:
        sets = {"shelf_passed": None, "held": held_for(piece, ADHESION)}
    facts = {"trial": ADHESION, "passed": request.passed}
    move = MoveDraft(code=piece.code, kind="trial", sets=sets, facts=facts)
    return pen.append(ActDraft(kind="trial", at=at, moves=(move,)))


def held_for(piece: Piece, trial: str, why: str = "") -> str:
    """Why it is held now; an earlier reason is not painted over, an earlier trial of this kind is."""
    failed = f"failed {trial} trial"
    before = (piece.state.held or "").split(_AND)
    others = [reason for reason in before if reason and not reason.startswith(failed)]
    return _AND.join([*others, f"{failed}: {why}" if why else failed])
