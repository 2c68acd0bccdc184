"""Jobs: opened, closed, reopened; film is charged to an open one."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from stockroom.books.catalog import add_job, close_job
from stockroom.books.catalog import jobs as all_jobs
from stockroom.books.journal import acts
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.pieces import reserved_pieces
from stockroom.books.values import Act, ActDraft, Asked, Job, Piece
from stockroom.codes.own import Letter, grouped
from stockroom.errors import Code, Refusal
from stockroom.film.dates import parse_partial_date
from stockroom.work.reserved import ever_for, let_go

KINDS = ("glass", "vehicle", "graphic")
GLASS = ("single", "toughened", "laminated", "wired", "sealed")
"""The types of glass that film which absorbs heat must be chosen for."""
OPEN, CLOSE, REOPEN = "open", "close", "reopen"


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenJob(Asked):
    """New work for a site."""

    name: str
    site: str = ""
    on_day: str | None = None
    kind: str = "glass"
    glass: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CloseJob(Asked):
    """A job is closed, or opened again."""

    job: str
    reopen: bool = False


def open_job(request: OpenJob, *, book: Book, now: datetime) -> Job:
    """Give new work a code."""
    if not request.name:
        raise Refusal(Code.BAD_NAME, "A job needs a name people know it by.")
    if request.kind not in KINDS:
        raise Refusal(Code.BAD_NAME, f"“{request.kind}” is no kind of job: use {', '.join(KINDS)}.")
    if request.glass is not None and (request.kind != "glass" or request.glass not in GLASS):
        raise Refusal(
            Code.BAD_NAME,
            f"“{request.glass}” is no glass a {request.kind} job has: use {', '.join(GLASS)}, "
            "for a glass job.",
        )
    on_day = None if request.on_day is None else str(parse_partial_date(request.on_day))
    with writing(book, request, now=now, letters=[Letter.JOB]) as pen:
        act = pen.repeated or _opened(request, pen, on_day)
        found = all_jobs(pen.connection)
    return next(job for job in found.values() if job.code == act.job)


def close_or_reopen(request: CloseJob, *, book: Book, now: datetime) -> Job:
    """Close a job, or open it again; doing it twice is refused."""
    with book.reading() as connection:
        kept = ever_for(reserved_pieces(connection), request.job)
    with writing(book, request, now=now, pieces=kept, job=request.job) as pen:
        if not pen.repeated:
            _closed(request, pen, kept)
        found = all_jobs(pen.connection)
    return next(job for job in found.values() if job.code == request.job)


def _opened(request: OpenJob, pen: Pen, on_day: str | None) -> Act:
    at = pen.when()
    job = Job(
        id=0,
        code=pen.new_code(Letter.JOB),
        name=request.name,
        site=request.site,
        on_day=on_day,
        kind=request.kind,
        note=request.note,
        is_closed=False,
        glass=request.glass,
    )
    kept = add_job(pen.connection, job, opened_at=at)
    return pen.append(ActDraft(kind=OPEN, at=at, moves=(), job=kept))


def _closed(request: CloseJob, pen: Pen, kept: tuple[str, ...]) -> None:
    job = pen.job
    if job is None or job.is_closed != request.reopen:
        state = "open" if request.reopen else "closed"
        raise Refusal(Code.ALREADY_THERE, f"Job {grouped(request.job)} is {state} already.")
    close_job(pen.connection, job.id, closed=not request.reopen)
    kind = REOPEN if request.reopen else CLOSE
    moves = () if request.reopen else tuple(let_go(pen, kept, job.code))
    at = _when(request, pen, job, [pen.piece(move.code) for move in moves])
    pen.append(ActDraft(kind=kind, at=at, moves=moves, job=job))


def _when(request: CloseJob, pen: Pen, job: Job, pieces: Sequence[Piece]) -> datetime:
    """The instant of the act: never before the job was last opened, closed or reopened."""
    at = pen.when(pieces=pieces)
    turns = [acts(pen.connection, job=job.code, kind=one, limit=1) for one in (OPEN, CLOSE, REOPEN)]
    last = max((act for found in turns for act in found), key=lambda act: act.id)
    if at < last.at and request.at is not None:
        raise Refusal(
            Code.TOO_EARLY,
            f"Job {grouped(job.code)} has a later act ({last.kind}, "
            f"{pen.shop.local(last.at):%Y-%m-%d %H:%M}): give a later time.",
        )
    return max(at, last.at)
