"""Supplies that begin to be used: a bottle is opened, a tool is put in use, and one day it fails.

One of several is taken out of its box and gets a code and a label of its own, for its days are its own.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from stockroom.books.catalog import material as material_of
from stockroom.books.catalog import place_named
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, Material, MoveDraft, Piece
from stockroom.codes.own import Letter, grouped
from stockroom.errors import Code, Refusal
from stockroom.film.dates import Span, parse_span
from stockroom.film.kinds import Kind
from stockroom.work.charging import cost_between
from stockroom.work.gates import free, on_hand
from stockroom.work.keep import reason_of
from stockroom.work.soundness import judgement_of, refuse_stopped

OPENED, IN_USE, FAILED = "opened", "in-use", "failed"
AFTER_OPENING = "opened"
"""The limit of a material: how long it keeps once a bottle is open."""

_INHERITED = ("material_id", "lot", "owner", "made", "shipped", "received", "place_id")


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenBottle(Asked):
    """A bottle is opened; how long it keeps from then on, if its material does not say."""

    piece: str
    keeps: str = ""
    place: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PutInUse(Asked):
    """A tool is put in use, for good."""

    piece: str
    place: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fail(Asked):
    """A tool that was in use has failed, and is no more."""

    piece: str
    why: str


@dataclass(frozen=True, slots=True)
class Begun:
    """The code of what began to be used: of the box itself, or of the one that left it."""

    act: Act
    piece: str


def open_bottle(request: OpenBottle, *, book: Book, now: datetime) -> Begun:
    """Say that a bottle is open from now on."""
    return _begin(request, OPENED, Kind.LIQUID, book=book, now=now)


def put_in_use(request: PutInUse, *, book: Book, now: datetime) -> Begun:
    """Say that a tool is in use from now on."""
    return _begin(request, IN_USE, Kind.TOOL, book=book, now=now)


def fail(request: Fail, *, book: Book, now: datetime) -> Act:
    """Say that a tool has come to the end of its service life, and why."""
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        if pen.repeated:
            return pen.repeated
        tool = on_hand(pen.piece(request.piece))
        at = pen.when(pieces=[tool])
        _of_kind(material_of(pen.connection, tool.state.material_id, at), Kind.TOOL)
        if tool.state.begun is None:
            raise Refusal(
                Code.WRONG_FORM,
                f"{grouped(tool.code)} was never put in use: `tool use` first, or `discard` it.",
            )
        move = MoveDraft(
            code=tool.code,
            kind=FAILED,
            delta=-tool.state.balance,
            cost_minor=cost_between(tool.state, tool.state.balance, 0),
            sets={"ended": FAILED},
            facts={"why": reason_of(request.why)},
        )
        return pen.append(ActDraft(kind=FAILED, at=at, moves=(move,)))


def _begin(
    request: OpenBottle | PutInUse, act: str, kind: Kind, *, book: Book, now: datetime
) -> Begun:
    with writing(book, request, now=now, pieces=[request.piece], letters=[Letter.BOX]) as pen:
        done = pen.repeated or _append(request, act, kind, pen)
    begun = next(move.piece for move in done.moves if "begun" in move.sets)
    return Begun(done, begun)


def _append(request: OpenBottle | PutInUse, act: str, kind: Kind, pen: Pen) -> Act:
    box = free(pen, request.piece, "box")
    at = pen.when(pieces=[box])
    material = _of_kind(material_of(pen.connection, box.state.material_id, at), kind)
    _refuse_begun(box)
    refuse_stopped(box, judgement_of(pen, box, material, at), None)
    today = pen.shop.day_of(at)
    sets: dict[str, object] = {"begun": today.isoformat()}
    if isinstance(request, OpenBottle) and (keeps := _keeps(request, material)) is not None:
        sets["keeps_days"] = keeps.days_from(today)
    if request.place is not None:
        sets["place_id"] = place_named(pen.connection, request.place, pen.now).id
    return pen.append(ActDraft(kind=act, at=at, moves=_moves(pen, box, act, sets)))


def _moves(pen: Pen, box: Piece, act: str, sets: Mapping[str, object]) -> tuple[MoveDraft, ...]:
    """The last of a box begins itself; of several one leaves the box under a code of its own."""
    state = box.state
    if state.balance == 1:
        return (MoveDraft(code=box.code, kind=act, sets=sets),)
    value = cost_between(state, state.balance, state.balance - 1)
    born = {name: getattr(state, name) for name in _INHERITED} | {
        "form": "box",
        "is_wound": False,
        "parent": box.code,
        "cost_minor": None if state.cost_minor is None else value,
    }
    one = MoveDraft(code=pen.new_code(Letter.BOX), kind=act, delta=1, sets={**born, **sets})
    return (one, MoveDraft(code=box.code, kind=act, delta=-1))


def _of_kind(material: Material, kind: Kind) -> Material:
    if material.kind is not kind:
        said = "only a liquid is opened" if kind is Kind.LIQUID else "only a tool is put in use"
        raise Refusal(Code.WRONG_KIND, f"{material.name} is {material.kind}: {said}.")
    return material


def _refuse_begun(box: Piece) -> None:
    state = box.state
    if not state.balance:
        raise Refusal(Code.TOO_MANY, f"{grouped(box.code)} is empty: take another.")
    if begun := state.begun or state.mixed:
        raise Refusal(
            Code.ALREADY_THERE, f"{grouped(box.code)} has been in use since {begun} already."
        )


def _keeps(request: OpenBottle, material: Material) -> Span | None:
    if request.keeps:
        return parse_span(request.keeps)
    limit = material.limits.get(AFTER_OPENING)
    return None if limit is None else limit.span
