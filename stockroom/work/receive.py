"""Receiving: rolls or boxes come in, or are found standing there; all in one act."""

from dataclasses import dataclass
from datetime import datetime
from itertools import pairwise

from stockroom.books.catalog import material_named, place_named
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, Job, Material, MoveDraft, Place, Shop
from stockroom.codes.own import Letter
from stockroom.errors import Code, Refusal
from stockroom.film.dates import PartialDate, parse_partial_date
from stockroom.film.kinds import parse_ink
from stockroom.work.gates import more_than_nothing, open_job

OURS = "ours"
OWNERS = (OURS, "client", "supplier", "sample")
"""Whose a piece can be; only what is ours is stock and has a price of its own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Receive(Asked):
    """What came in: so many rolls of one length, or one box of so many."""

    material: str
    length_nm: int | None = None
    number: int | None = None
    pieces: int = 1
    lot: str | None = None
    width_nm: int | None = None
    core_inside_nm: int | None = None
    core_wall_nm: int | None = None
    cost_minor: int | None = None
    made: str | None = None
    shipped: str | None = None
    received: str | None = None
    printed: str | None = None
    ink: str | None = None
    place: str | None = None
    job: str | None = None
    owner: str = OURS
    damaged: str | None = None
    """What is wrong with it; it is held from the beginning."""


@dataclass(frozen=True, slots=True)
class Received:
    """The codes of what was received, in order."""

    act: Act
    codes: tuple[str, ...]


MOST_PIECES = 1_000
RECEIVE = "receive"
DAMAGED = "came in damaged"


def receive(request: Receive, *, book: Book, now: datetime) -> Received:
    """Give each piece a code and a first move, all in one act."""
    with writing(book, request, now=now, job=request.job, letters=[_letter(request)]) as pen:
        act = pen.repeated or _append(request, pen)
    return Received(act, tuple(move.piece for move in act.moves))


def _append(request: Receive, pen: Pen) -> Act:
    at = pen.when()
    moves = born(request, pen, at)
    return pen.append(ActDraft(kind=RECEIVE, at=at, moves=moves, job=_job(request, pen)))


def born(request: Receive, pen: Pen, at: datetime) -> tuple[MoveDraft, ...]:
    """The first move of each piece of a request, with all that it begins with."""
    sets = begins_with(request, pen, at)
    delta = request.number if request.number is not None else request.length_nm
    return tuple(
        MoveDraft(code=pen.new_code(_letter(request)), kind=RECEIVE, delta=delta or 0, sets=sets)
        for _ in range(request.pieces)
    )


def begins_with(request: Receive, pen: Pen, at: datetime) -> dict[str, object]:
    """What a piece of this request begins with, or a refusal that says what cannot be."""
    material = material_named(pen.connection, request.material, pen.now)
    place = place_named(pen.connection, request.place, pen.now) if request.place else None
    job = _job(request, pen)
    facts = facts_of(request, material, place, shop=pen.shop, at=at)
    return facts | {"job_id": job.id if job else None}


def facts_of(
    request: Receive, material: Material, place: Place | None, *, shop: Shop, at: datetime
) -> dict[str, object]:
    """What a piece of this material and place begins with, whatever job it is for."""
    _refuse_form(request, material)
    _refuse_nothing(request)
    if request.owner not in OWNERS:
        raise Refusal(Code.BAD_NAME, f"“{request.owner}” is no owner: use {', '.join(OWNERS)}.")
    return _facts(request, material, place) | _dates(request, shop, at)


def _letter(request: Receive) -> Letter:
    return Letter.ROLL if request.number is None else Letter.BOX


def _job(request: Receive, pen: Pen) -> Job | None:
    """The job a bought-in print is for; other film is for whoever cuts it."""
    if request.job is None:
        return None
    if request.printed is None:
        raise Refusal(Code.BAD_USAGE, "Only a print belongs to a job: give --printed, or no --job.")
    return open_job(pen)


def _refuse_form(request: Receive, material: Material) -> None:
    if not 1 <= request.pieces <= MOST_PIECES:
        raise Refusal(Code.BAD_NUMBER, f"{request.pieces} pieces at once: give 1 to {MOST_PIECES}.")
    if material.kind.comes_in_rolls and (request.length_nm is None or request.number is not None):
        raise Refusal(
            Code.WRONG_FORM, f"{material.name} comes in rolls: give the length of one, --length."
        )
    if not material.kind.comes_in_rolls and (
        request.number is None or request.length_nm is not None
    ):
        raise Refusal(
            Code.WRONG_FORM, f"{material.name} is counted: give how many are in the box, --count."
        )


def _refuse_nothing(request: Receive) -> None:
    if request.number is not None:
        more_than_nothing(request.number, code=Code.BAD_NUMBER)
    else:
        more_than_nothing(
            *(size for size in (request.length_nm, request.width_nm) if size is not None)
        )


def _facts(request: Receive, material: Material, place: Place | None) -> dict[str, object]:
    facts: dict[str, object] = {
        "material_id": material.id,
        "lot": request.lot,
        "place_id": place.id if place else None,
        "owner": request.owner,
        "held": f"{DAMAGED}: {request.damaged}" if request.damaged else None,
        "cost_minor": _first(
            request.cost_minor, material.cost_minor if request.owner == OURS else None
        ),
    }
    if request.number is not None:
        return facts | {"form": "box", "is_wound": False}
    width_nm = _first(request.width_nm, material.width_nm)
    if width_nm is None:
        raise Refusal(
            Code.UNKNOWN_SIZE, f"The width of {material.name} is not known: give it with --width."
        )
    return facts | {
        "form": "roll",
        "width_nm": width_nm,
        "thickness_nm": material.thickness_nm,
        "core_inside_nm": _first(request.core_inside_nm, material.core_inside_nm),
        "core_wall_nm": _first(request.core_wall_nm, material.core_wall_nm),
    }


def _dates(request: Receive, shop: Shop, at: datetime) -> dict[str, object]:
    running = shop.day_of(at)
    given = {
        "made": request.made,
        "shipped": request.shipped,
        "received": request.received or running.isoformat(),
    }
    known = {name: parse_partial_date(text) for name, text in given.items() if text is not None}
    _refuse_order(known, PartialDate.of(running))
    dates: dict[str, object] = {name: str(day) for name, day in known.items()}
    if request.printed is not None:
        printed = parse_partial_date(request.printed)
        _refuse_order(
            {name: day for name, day in known.items() if name == "made"} | {"printed": printed},
            PartialDate.of(running),
        )
        done_by = min(shop.end_of(printed.last), shop.end_of(known["received"].last), at)
        dates |= {
            "printed": str(printed),
            "printed_by": done_by.astimezone(at.tzinfo).isoformat(),
            "ink": None if request.ink is None else parse_ink(request.ink).value,
        }
    return dates


def _refuse_order(known: dict[str, PartialDate], running: PartialDate) -> None:
    """Refuse a date after the act, and dates that cannot have followed each other."""
    for name, day in known.items():
        if day.first > running.last:
            raise Refusal(
                Code.FUTURE, f"{name} {day} is in the future: give a day up to {running}."
            )
    for earlier, later in pairwise(known):
        if known[earlier].first > known[later].last:
            raise Refusal(
                Code.TOO_EARLY,
                f"{later} {known[later]} is before {earlier} {known[earlier]}: "
                "one of the two is wrong.",
            )


def _first(*values: int | None) -> int | None:
    return next((value for value in values if value is not None), None)
