"""Winding: a piece is wound on a core or put in a tube, or laid flat; nothing makes it younger."""

from dataclasses import dataclass
from datetime import datetime

from stockroom.books.catalog import materials
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, MoveDraft
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.work.flaw import turned_over
from stockroom.work.gates import FILM, here, more_than_nothing
from stockroom.work.soundness import judgement_of
from stockroom.work.windings import ended

FACES = ("in", "out")


@dataclass(frozen=True, slots=True, kw_only=True)
class Core:
    """What a piece is wound on: a core by inside diameter and wall, or nothing, in a tube."""

    inside_nm: int | None = None
    wall_nm: int | None = None
    in_tube: bool = False

    @property
    def is_new(self) -> bool:
        """Whether it is another than the piece had."""
        return self.in_tube or self.inside_nm is not None

    @property
    def sets(self) -> dict[str, object]:
        """What a piece that is wound on it begins with."""
        return {
            "is_wound": True,
            "core_inside_nm": self.inside_nm,
            "core_wall_nm": self.wall_nm,
            "in_tube": self.in_tube,
        }


NO_CORE_NAMED = Core()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rewind(Asked):
    """A piece is wound again, on the core it had or on another, its face in or out."""

    piece: str
    core: Core = NO_CORE_NAMED
    face: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LayFlat(Asked):
    """A piece is unwound and lies flat."""

    piece: str


def checked(core: Core) -> Core:
    """The core itself, which must be one that can be."""
    more_than_nothing(*(size for size in (core.inside_nm, core.wall_nm) if size is not None))
    if core.inside_nm is None and core.wall_nm is not None:
        raise Refusal(Code.BAD_USAGE, "A wall alone is no core: give the inside diameter, --core.")
    return core


def rewind(request: Rewind, *, book: Book, now: datetime) -> Act:
    """Wind a piece again; the days it was wound before still count.

    On a new core its outer end comes to lie inside, and its flaws with it; what a curl trial told
    of the winding it had is told no more.
    """
    checked(request.core)
    if request.face not in (None, *FACES):
        raise Refusal(Code.BAD_USAGE, "The face of the film is wound in or out: use --face in|out.")
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        return pen.repeated or _rewound(request, pen)


def lay_flat(request: LayFlat, *, book: Book, now: datetime) -> Act:
    """Lay a piece flat: its days wound stop, and are kept."""
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        return pen.repeated or _laid_flat(request, pen)


def _rewound(request: Rewind, pen: Pen) -> Act:
    piece = here(pen, request.piece, *FILM)
    at = pen.when(pieces=[piece])
    state = piece.state
    is_turned = state.is_wound and request.core.inside_nm is not None
    sets: dict[str, object] = {
        "winding": request.face,
        "in_tube": False,
        "windings": ended(state, at, turned=is_turned),
    }
    if request.core.is_new:
        sets |= request.core.sets | {"wound_passed": None, "curl_at_nm": None}
    if not state.is_wound:
        sets |= {"is_wound": True, "wound_since": pen.shop.day_of(at).isoformat()}
    if is_turned:
        sets["flaws"] = turned_over(state, state.balance)
    move = MoveDraft(code=piece.code, kind="rewind", sets=sets)
    return pen.append(ActDraft(kind="rewind", at=at, moves=(move,)))


def _laid_flat(request: LayFlat, pen: Pen) -> Act:
    piece = here(pen, request.piece, *FILM)
    at = pen.when(pieces=[piece])
    if not piece.state.is_wound:
        raise Refusal(Code.ALREADY_THERE, f"{grouped(piece.code)} lies flat already.")
    material = materials(pen.connection, at)[piece.state.material_id]
    sets = {
        "is_wound": False,
        "winding": None,
        "windings": ended(piece.state, at),
        "core_inside_nm": None,
        "core_wall_nm": None,
        "in_tube": False,
        "wound_since": None,
        "wound_days_before": judgement_of(pen, piece, material, at).wound_days or 0,
    }
    move = MoveDraft(code=piece.code, kind="layflat", sets=sets)
    return pen.append(ActDraft(kind="layflat", at=at, moves=(move,)))
