"""What the Bench asks of the book, each in one call that is made in a thread."""

from collections.abc import Callable
from dataclasses import dataclass

from textual.message import Message

from stockroom.books.values import Act, Job, Place, Shop
from stockroom.codes.own import Letter, letter_of
from stockroom.errors import Refusal
from stockroom.lines import bench as lines
from stockroom.lines import planned_cut
from stockroom.screens.bench_line import PlannedFor, Request
from stockroom.screens.keys import MOST_JOBS
from stockroom.screens.station import Station
from stockroom.work.count import Finish, finish
from stockroom.work.cut import cut
from stockroom.work.cut_plan import CutPlan, cut_plan
from stockroom.work.jobs import CloseJob, close_or_reopen
from stockroom.work.judging import Judged
from stockroom.work.look import Card, job, jobs, log, piece, places
from stockroom.work.older import older_sound
from stockroom.work.reserve import reserved_cuts
from stockroom.work.setup import settings
from stockroom.work.take import Take, take
from stockroom.work.undo import Undo, undo

_ACTS_LOOKED_AT = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Surroundings:
    """What lies beside the line: the jobs to choose from, and what was written last."""

    shop: Shop
    jobs: tuple[Job, ...]
    acts: tuple[Act, ...]
    """Those of this operator that still stand, newest first."""
    places: tuple[Place, ...]


@dataclass
class SurroundingsRead(Message):
    """The surroundings were read."""

    found: Surroundings


@dataclass
class PieceFound(Message):
    """The piece that was scanned."""

    card: Card


@dataclass
class SeenAgain(Message):
    """The piece on the line, to which something was written beside the line."""

    card: Card


@dataclass
class OlderFound(Message):
    """The older piece that is taken instead."""

    card: Card


@dataclass
class JobFound(Message):
    """The job that was scanned."""

    job: Job


@dataclass
class PlanFound(Message):
    """What is planned of the piece on the line for its job."""

    found: PlannedFor | None


@dataclass
class Checked(Message):
    """The piece as it is now, and an older sound one of the same film, if there is one."""

    card: Card
    older: Judged | None


@dataclass
class Written(Message):
    """An act was written; the card is that of its piece afterwards."""

    sentence: str
    card: Card


@dataclass
class Undone(Message):
    """An act was reversed; the card is that of its piece afterwards."""

    sentence: str
    card: Card


@dataclass
class NotDone(Message):
    """What was asked for the line was refused; nothing was written."""

    refusal: Refusal


def or_not(call: Callable[[], Message]) -> Message:
    """What a call for the line comes to."""
    try:
        return call()
    except Refusal as refusal:
        return NotDone(refusal)


def surroundings(station: Station) -> SurroundingsRead:
    """Read what lies beside the line."""
    book, now = station.book, station.now()
    acts = log(book, now=now, limit=_ACTS_LOOKED_AT)
    mine = (act for act in acts if act.operator == station.operator and act.moves)
    return SurroundingsRead(
        Surroundings(
            shop=settings(book, now=now)[0],
            jobs=lines.choices(jobs(book), acts, MOST_JOBS),
            acts=tuple(act for act in mine if not act.is_reversed and act.kind != "undo"),
            places=places(book, now=now),
        )
    )


def look_up(station: Station, code: str) -> PieceFound | JobFound:
    """Find the piece or the job of a code."""
    if letter_of(code) is Letter.JOB:
        return JobFound(job(station.book, code)[0])
    return PieceFound(piece(station.book, code, now=station.now()))


def look_up_older(station: Station, code: str) -> OlderFound:
    """Find the piece that takes the place of a newer one."""
    return OlderFound(piece(station.book, code, now=station.now()))


def look_again(station: Station, code: str) -> SeenAgain:
    """Look the piece on the line up once more."""
    return SeenAgain(piece(station.book, code, now=station.now()))


def reopen(station: Station, one: Job) -> JobFound:
    """Open a closed job again."""
    request = CloseJob(**station.asking(), job=one.code, reopen=True)
    return JobFound(close_or_reopen(request, book=station.book, now=station.now()))


def look_for_plan(station: Station, job: str, code: str) -> PlanFound:
    """Look for what is planned of a piece for a job."""
    cuts = (one for one in reserved_cuts(station.book, job) if one.piece == code)
    return PlanFound(next((PlannedFor(job, one) for one in cuts), None))


def _piece_of(request: Request) -> str:
    return request.cuts[0].piece if isinstance(request, CutPlan) else request.piece


def check(station: Station, request: Request) -> Checked:
    """Look at the piece once more, and for an older one that would do; a plan has chosen by age."""
    book, now = station.book, station.now()
    card = piece(book, _piece_of(request), now=now)
    if isinstance(request, Take | CutPlan):
        return Checked(card, None)
    return Checked(card, older_sound(book, request.piece, request.length_nm, now=now))


def write(station: Station, request: Request, shop: Shop) -> Written:
    """Write the line; asked twice under one id it is written once."""
    book, now = station.book, station.now()
    if isinstance(request, Take):
        sentence = lines.taken(take(request, book=book, now=now), shop)
    elif isinstance(request, CutPlan):
        sentence = planned_cut.done(cut_plan(request, book=book, now=now), shop)
    else:
        sentence = lines.cut_done(cut(request, book=book, now=now), shop)
    return Written(sentence, piece(book, _piece_of(request), now=station.now()))


def finish_roll(station: Station, code: str) -> Written:
    """Write that a core is bare."""
    request = Finish(**station.asking(), piece=code)
    finish(request, book=station.book, now=station.now())
    card = piece(station.book, code, now=station.now())
    return Written(lines.finished(card), card)


def undo_act(station: Station, act: Act, was: str) -> Undone:
    """Reverse one act, if it still is the last on its piece."""
    code = act.moves[0].piece
    request = Undo(**station.asking(), piece=code, act=act.id)
    undo(request, book=station.book, now=station.now())
    return Undone(f"undone: {was}", piece(station.book, code, now=station.now()))
