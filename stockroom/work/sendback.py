"""Sent back to the supplier: a piece ends, and its credit is awaited until somebody writes it."""

from dataclasses import dataclass
from datetime import datetime

from stockroom.books.catalog import shop
from stockroom.books.journal import acts
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.pieces import standings
from stockroom.books.values import Act, ActDraft, Asked, MoveDraft, Standing
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.work.charging import cost_between
from stockroom.work.gates import here
from stockroom.work.judging import View, view
from stockroom.work.keep import reason_of

SENT_BACK = "sent back"
SEND_BACK, CREDIT = "send-back", "credit"


@dataclass(frozen=True, slots=True, kw_only=True)
class SendBack(Asked):
    """A piece goes back to its supplier, for a reason, under a claim's number."""

    piece: str
    why: str
    claim: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Credit(Asked):
    """The supplier settled the claim of a piece: so much was credited, or nothing."""

    piece: str
    credit_minor: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """A piece that was sent back and is not settled yet; the value is None where it has no price."""

    standing: Standing
    number: str
    since: datetime
    why: str
    amount: int
    value_minor: int | None


@dataclass(frozen=True, slots=True)
class Claims:
    """The credits that are awaited, oldest first."""

    view: View
    claims: tuple[Claim, ...]

    @property
    def value_minor(self) -> int:
        """What all of them are worth, as far as prices are known."""
        return sum(one.value_minor or 0 for one in self.claims)


def send_back(request: SendBack, *, book: Book, now: datetime) -> Act:
    """End a piece that goes back; its value is a credit that is awaited."""
    if not request.claim:
        raise Refusal(Code.BAD_USAGE, "Say under which number it is claimed, with --claim.")
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        return pen.repeated or _sent(request, pen)


def credit(request: Credit, *, book: Book, now: datetime) -> Act:
    """Settle the claim of a piece; what was credited stays on record."""
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        return pen.repeated or _credited(request, pen)


def claims(book: Book, *, now: datetime) -> Claims:
    """Every claim that is not settled."""
    with book.reading() as connection:
        seen = view(shop(connection, now), now=now, today=None)
        open_ones = [one for one in standings(connection, now, ended=True) if one.state.claim]
        found = [_claim(one, acts(connection, piece=one.code)) for one in open_ones]
    return Claims(seen, tuple(sorted(found, key=lambda one: (one.since, one.standing.code))))


def _sent(request: SendBack, pen: Pen) -> Act:
    piece = here(pen, request.piece)
    at = pen.when(pieces=[piece])
    move = MoveDraft(
        code=piece.code,
        kind=SEND_BACK,
        delta=-piece.state.balance,
        cost_minor=cost_between(piece.state, piece.state.balance, 0),
        sets={"ended": SENT_BACK, "claim": request.claim},
        facts={"why": reason_of(request.why)},
    )
    return pen.append(ActDraft(kind=SEND_BACK, at=at, moves=(move,)))


def _credited(request: Credit, pen: Pen) -> Act:
    piece = pen.piece(request.piece)
    if piece.state.claim is None:
        raise Refusal(
            Code.NO_CLAIM, f"No claim of {grouped(piece.code)} is open: see `claim list`."
        )
    if request.credit_minor < 0:
        raise Refusal(Code.BAD_MONEY, "A credit is not less than nothing.")
    move = MoveDraft(
        code=piece.code,
        kind=CREDIT,
        sets={"claim": None},
        facts={"claim": piece.state.claim, "credit_minor": request.credit_minor},
    )
    return pen.append(ActDraft(kind=CREDIT, at=pen.when(pieces=[piece]), moves=(move,)))


def _claim(one: Standing, history: tuple[Act, ...]) -> Claim:
    sent = next(act for act in history if act.kind == SEND_BACK and not act.is_reversed)
    move = sent.moves[0]
    return Claim(
        standing=one,
        number=one.state.claim or "",
        since=sent.at,
        why=str(move.facts["why"]),
        amount=-move.delta,
        value_minor=None if one.state.cost_minor is None else move.cost_minor,
    )
