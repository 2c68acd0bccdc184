"""The curl trial: a strip of the film lies free, and the circle it curls to is held to a limit."""

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from stockroom.books.catalog import material as material_of
from stockroom.books.fold import State
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, Material, MoveDraft, Piece
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.film.bending import circle_mm, curl_from_arc_per_m, curl_from_chord_per_m
from stockroom.film.limits import Basis, Figure, House
from stockroom.film.roll import CALLIPER_ERROR_MM
from stockroom.units import INCH, MM, System
from stockroom.units.shown import show_width
from stockroom.work.gates import FILM, here
from stockroom.work.trial import held_for
from stockroom.work.windings import Wraps, began, kept, wraps_of, written

CURL = "curl"
_NEAR_NM = round(CALLIPER_ERROR_MM * MM)


@dataclass(frozen=True, slots=True, kw_only=True)
class TryCurl(Asked):
    """A strip of a piece lay free: the chord between its ends or its length, and how high it stood.

    With both, the length checks the chord. `at_diameter_nm` is where on the roll it was taken, the
    outer end unless said; `other_way` tells that it curls against the way it lay there.
    """

    piece: str
    height_nm: int
    chord_nm: int | None = None
    arc_nm: int | None = None
    at_diameter_nm: int | None = None
    other_way: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class CurlTried:
    """The circle the strip curls to, None for flat, against the limit; and how far a pass reaches."""

    act: Act
    piece: str
    passed: bool
    circle_nm: int | None
    other_way: bool
    limit: Figure  # mm of the circle
    at_diameter_nm: int | None
    good_until: str | None

    @property
    def curl_per_m(self) -> float:
        """The curl; below 0 against the way it lay on the roll."""
        if self.circle_nm is None:
            return 0.0
        return (-2_000 if self.other_way else 2_000) * MM / self.circle_nm


def shown_circle(circle_nm: int, system: System) -> str:
    """The circle of a trial, rounded to the tighter side: one that is too tight reads as it."""
    step_nm = INCH // 8 if system is System.US else MM
    return show_width(circle_nm // step_nm * step_nm, system)


def try_curl(request: TryCurl, *, book: Book, now: datetime) -> CurlTried:
    """Extend the limit of being wound of film that passed, outside of the strip; hold what failed."""
    circle_nm = circle_of(request.height_nm, request.chord_nm, request.arc_nm)
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        act = pen.repeated or _append(request, pen, circle_nm)
    move = act.moves_of(request.piece)[-1]
    facts: dict[str, Any] = dict(move.facts)
    return CurlTried(
        act=act,
        piece=request.piece,
        limit=Figure(facts["limit_nm"] / MM, Basis(facts["basis"])),
        good_until=facts["good_until"],
        **{name: facts[name] for name in ("passed", "circle_nm", "other_way", "at_diameter_nm")},
    )


def circle_of(height_nm: int, chord_nm: int | None, arc_nm: int | None) -> int | None:
    """The circle through what was measured; None where the strip lies flat."""
    height_mm = height_nm / MM
    arc_mm = None if arc_nm is None else arc_nm / MM
    if chord_nm is not None:
        curl_per_m = curl_from_chord_per_m(chord_nm / MM, height_mm, arc_mm)
    elif arc_mm is not None:
        curl_per_m = curl_from_arc_per_m(arc_mm, height_mm)
    else:
        raise Refusal(
            Code.BAD_USAGE,
            "Give the chord between the ends of the strip, --chord, or its length, --arc.",
        )
    circle = circle_mm(curl_per_m)
    return None if circle is None else round(circle * MM)


def passes(circle_nm: int | None, limit: Figure) -> bool:
    """Whether film that curls to a circle may be used."""
    return circle_nm is None or circle_nm >= round(limit.value * MM)


def _append(request: TryCurl, pen: Pen, circle_nm: int | None) -> Act:
    piece = here(pen, request.piece, *FILM)
    at = pen.when(pieces=[piece])
    limit = limit_of(material_of(pen.connection, piece.state.material_id, at), pen.shop.house)
    limit_nm = round(limit.value * MM)
    passed = passes(circle_nm, limit)
    wraps = wraps_of(piece.state)
    at_nm = _taken_at_nm(request, pen, piece, wraps)
    until = pen.shop.house.extension("wound").after(pen.shop.day_of(at)).isoformat()
    sets: dict[str, object] = {"wound_passed": until, "curl_at_nm": at_nm}
    if not passed:
        circle = shown_circle(circle_nm or 0, pen.shop.system)
        why = f"curls to {circle}, limit {show_width(limit_nm, pen.shop.system)}"
        sets = {"wound_passed": None, "curl_at_nm": None, "held": held_for(piece, CURL, why)}
    facts = {
        "trial": CURL,
        "passed": passed,
        "chord_nm": request.chord_nm,
        "arc_nm": request.arc_nm,
        "height_nm": request.height_nm,
        "other_way": request.other_way,
        "circle_nm": circle_nm,
        "limit_nm": limit_nm,
        "basis": limit.basis.value,
        "at_diameter_nm": at_nm,
        "from_core_nm": _from_core_nm(wraps, at_nm),
        "good_until": until if passed else None,
        "is_laminated": piece.state.is_laminated,
        "stages": _stages(piece.state, at),
    }
    move = MoveDraft(code=piece.code, kind="trial", sets=sets, facts=facts)
    return pen.append(ActDraft(kind="trial", at=at, moves=(move,)))


def limit_of(material: Material, house: House) -> Figure:
    """The circle that film of a material may curl to, in mm."""
    limit = material.facts.get(CURL) or house.curl(material.kind)
    if limit is None:
        raise Refusal(
            Code.WRONG_KIND,
            f"{material.name} is {material.kind}, which has no limit of curl: enter one with "
            "`material change … --curl`, or try other film.",
        )
    return limit


def _taken_at_nm(request: TryCurl, pen: Pen, piece: Piece, wraps: Wraps | None) -> int | None:
    """The diameter on which the strip lay; None where that cannot be known."""
    said_nm = request.at_diameter_nm
    if said_nm is None:
        return None if wraps is None else wraps.outside_nm
    if wraps is None:
        raise Refusal(
            Code.UNKNOWN_SIZE,
            f"The core or the thickness of {grouped(piece.code)} is not known: "
            "leave the diameter out.",
        )
    inside_nm, outside_nm = wraps.inside_nm, wraps.outside_nm
    if not inside_nm - _NEAR_NM <= said_nm <= outside_nm + _NEAR_NM:
        inside, outside, said = (
            show_width(one, pen.shop.system) for one in (inside_nm, outside_nm, said_nm)
        )
        raise Refusal(
            Code.BAD_ROLL,
            f"The film of {grouped(piece.code)} lies from {inside} to {outside}: "
            f"no strip of it was taken at {said}.",
        )
    return min(max(said_nm, inside_nm), outside_nm)


def _from_core_nm(wraps: Wraps | None, at_nm: int | None) -> int | None:
    """How far from the core end the strip lay; that of the outer end is known exactly."""
    if wraps is None or at_nm is None:
        return None
    return wraps.left_nm if at_nm == wraps.outside_nm else wraps.place_nm(at_nm)


def _stages(state: State, at: datetime) -> list[dict[str, Any]]:
    """How the film was kept up to its trial, from a day that is known."""
    first, *later = kept(state)
    first = first if first.since else first._replace(since=began(state))
    *before, last = (first, *later)
    return written((*before, last._replace(until=at.astimezone(UTC).isoformat())))
