"""Counting blind: the counter does not see the books; what differs much waits for a second one.

A figure that waits is kept with what the books said then, so that film taken meanwhile makes no
difference: what is compared is by how much each count is off the books.
"""

import json
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any

from stockroom.books.chain import canonical
from stockroom.books.fold import State
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, MoveDraft, Piece
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.work.count import believable, corrected
from stockroom.work.gates import on_hand
from stockroom.work.measuring import Found, Measuring, measured, one_measurement

BLIND = "blind-count"


@dataclass(frozen=True, slots=True, kw_only=True)
class CountBlind(Measuring):
    """One measurement by somebody who does not see the books."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """What one counter found, and what the books said then."""

    found: int
    low: int
    high: int
    by: str
    books: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BlindCounted:
    """What a blind count did: the figures that wait, or none where the books are settled."""

    act: Act
    piece: str
    before: int
    left: int
    found: int
    waiting: tuple[Figure, ...]

    @property
    def differs(self) -> bool:
        """Whether two counters disagree, so that a third is needed."""
        return len(self.waiting) > 1


def count_blind(request: CountBlind, *, book: Book, now: datetime) -> BlindCounted:
    """Confirm or correct the books within the tolerance of the house; else change nothing yet.

    A second counter who agrees with the first settles it; who disagrees leaves both figures
    standing, for a third.
    """
    one_measurement(request)
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        act = pen.repeated or _append(request, pen)
    move = act.moves[0]
    facts: Any = move.facts
    return BlindCounted(
        act=act,
        piece=move.piece,
        before=move.balance - move.delta,
        left=move.balance,
        found=facts["found"],
        waiting=_figures(str(move.sets["recount"])) if act.kind == BLIND else (),
    )


def waiting_of(state: State) -> tuple[Figure, ...]:
    """The figures of a piece that wait for another counter."""
    return _figures(state.recount) if state.recount else ()


def _figures(text: str) -> tuple[Figure, ...]:
    return tuple(Figure(**one) for one in json.loads(text))


def _append(request: CountBlind, pen: Pen) -> Act:
    piece = on_hand(pen.piece(request.piece))
    at = pen.when(pieces=[piece])
    waiting = waiting_of(piece.state)
    _refuse_the_same(request.operator, waiting, piece)
    found = believable(pen, piece, measured(request, pen, piece, at))
    is_settled = any(_agree(pen, piece, found, one) for one in waiting)
    if len(waiting) != 1:  # the first is asked against the books, the second against the first
        is_settled = is_settled or _near(pen, found, piece.state.balance)
    move = _settled(piece, found) if is_settled else _waits(request.operator, piece, found, waiting)
    return pen.append(ActDraft(kind=move.kind, at=at, moves=(move,)))


def _refuse_the_same(operator: str, waiting: tuple[Figure, ...], piece: Piece) -> None:
    if any(one.by.casefold() == operator.casefold() for one in waiting):
        raise Refusal(
            Code.SAME_COUNTER,
            f"{operator} has counted {grouped(piece.code)} already: somebody else counts it now.",
        )


def _near(pen: Pen, found: Found, figure: int) -> bool:
    """Whether a measurement allows a figure, or is off it by no more than the tolerance."""
    return found.allows(figure) or pen.shop.house.agrees(found.found, figure)


def _agree(pen: Pen, piece: Piece, found: Found, other: Figure) -> bool:
    """Whether two counters found the same, less what was taken between their counts."""
    since = piece.state.balance - other.books
    overlap = found.low <= other.high + since and other.low + since <= found.high
    return overlap or pen.shop.house.agrees(found.found, other.found + since)


def _settled(piece: Piece, found: Found) -> MoveDraft:
    after = piece.state.balance if found.allows(piece.state.balance) else found.found
    return corrected(piece, found, after)


def _waits(by: str, piece: Piece, found: Found, waiting: tuple[Figure, ...]) -> MoveDraft:
    mine = Figure(
        found=found.found, low=found.low, high=found.high, by=by, books=piece.state.balance
    )
    figures = [asdict(one) for one in (*waiting, mine)]
    return MoveDraft(
        code=piece.code,
        kind=BLIND,
        sets={"recount": canonical(figures)},
        facts=asdict(found),
    )
