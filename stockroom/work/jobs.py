"""Jobs: opened, closed, reopened; film is charged to an open one."""

from dataclasses import dataclass
from datetime import datetime

from stockroom.books.catalog import add_job, close_job
from stockroom.books.catalog import jobs as all_jobs
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, Job
from stockroom.codes.own import Letter, grouped
from stockroom.errors import Code, Refusal
from stockroom.film.dates import parse_partial_date

KINDS = ("glass", "vehicle", "graphic")


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenJob(Asked):
    """New work for a site."""

    name: str
    site: str = ""
    on_day: str | None = None
    kind: str = "glass"


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
    on_day = None if request.on_day is None else str(parse_partial_date(request.on_day))
    with writing(book, request, now=now, letters=[Letter.JOB]) as pen:
        act = pen.repeated or _opened(request, pen, on_day)
        found = all_jobs(pen.connection)
    return next(job for job in found.values() if job.code == act.job)


def close_or_reopen(request: CloseJob, *, book: Book, now: datetime) -> Job:
    """Close a job, or open it again; doing it twice is refused."""
    with writing(book, request, now=now, job=request.job) as pen:
        if not pen.repeated:
            _closed(request, pen)
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
    )
    kept = add_job(pen.connection, job, opened_at=at)
    return pen.append(ActDraft(kind="open", at=at, moves=(), job=kept))


def _closed(request: CloseJob, pen: Pen) -> None:
    job = pen.job
    if job is None or job.is_closed != request.reopen:
        state = "open" if request.reopen else "closed"
        raise Refusal(Code.ALREADY_THERE, f"Job {grouped(request.job)} is {state} already.")
    close_job(pen.connection, job.id, closed=not request.reopen)
    kind = "reopen" if request.reopen else "close"
    pen.append(ActDraft(kind=kind, at=pen.when(), moves=(), job=job))
