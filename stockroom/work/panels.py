"""The panels of a job: written down, cut, spoiled, and up."""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import cast

from stockroom.books.catalog import job as job_of
from stockroom.books.catalog import jobs as all_jobs
from stockroom.books.catalog import materials
from stockroom.books.fold import State
from stockroom.books.job_entries import (
    INSTALLED,
    SPOILED,
    JobPanel,
    add_entry,
    add_panels,
    installed_jobs,
    panels_of,
    panels_of_all,
    spoiled_of,
)
from stockroom.books.journal import acts
from stockroom.books.opening import Book
from stockroom.books.pen import UNDO, Pen, writing
from stockroom.books.pieces import reserved_pieces
from stockroom.books.values import Act, ActDraft, Asked, Job
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal, clean_text
from stockroom.plan.layout import MOST_PANELS
from stockroom.work.gates import open_job
from stockroom.work.reserved import reserved_for
from stockroom.work.wanted import panel_of, whole

CUT_PANELS = "panels"
"""The fact of a cut that says which panels it made, and how many of each."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetPanels(Asked):
    """All the panels of a job, instead of those it had."""

    job: str
    panels: tuple[JobPanel, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SpoilPanels(Asked):
    """So many panels of a name are lost after they were cut, and wanted again."""

    job: str
    name: str
    number: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class InstallJob(Asked):
    """The film of a job is up; how many minutes of work that was, where somebody says so."""

    job: str
    minutes: int | None = None


@dataclass(frozen=True, slots=True)
class Covering:
    """A job's panels, how much of them is cut by the names on the film, how far the job has come."""

    job: Job
    panels: tuple[JobPanel, ...]
    strips_done: Mapping[str, int]
    stage: str

    @property
    def done(self) -> Mapping[str, int]:
        """How many panels of each name are cut; one in strips when all of its strips are."""
        return whole(self.strips_done)

    def left(self) -> tuple[JobPanel, ...]:
        """The panels that are still to be cut; of two layers each counts."""
        return left_of(self.panels, self.done)


def covering(book: Book, code: str) -> Covering:
    """What a job covers, and how much of that is cut."""
    with book.reading() as connection:
        found = next((one for one in all_jobs(connection).values() if one.code == code), None)
        if found is None:
            raise Refusal(Code.NO_JOB, f"No job has the code {code}: see `job list`.")
        history = acts(connection, job=code)
        panels = panels_of(connection, found.id)
        done = _done(history, spoiled_of(connection, found.id))
        is_left = bool(left_of(panels, whole(done))) or not panels
        stage = _stage(
            found, installed_jobs(connection), reserved_pieces(connection), is_left=is_left
        )
    return Covering(found, panels, done, stage)


def stages(book: Book) -> Mapping[str, str]:
    """How far each job has come of which panels are written down, by its code."""
    with book.reading() as connection:
        panels, up = panels_of_all(connection), installed_jobs(connection)
        kept = reserved_pieces(connection)
        those = [one for one in all_jobs(connection).values() if one.id in panels]
        done = {
            one.id: whole(_done(acts(connection, job=one.code), spoiled_of(connection, one.id)))
            for one in those
            if not one.is_closed and one.id not in up
        }
    return {
        one.code: _stage(one, up, kept, is_left=bool(left_of(panels[one.id], done.get(one.id, {}))))
        for one in those
    }


def _stage(job: Job, up: Collection[int], kept: Mapping[str, State], *, is_left: bool) -> str:
    """Of our own: asked, planned, cut, installed, closed."""
    if job.is_closed:
        return "closed"
    if job.id in up:
        return "installed"
    if not is_left:
        return "cut"
    return "planned" if reserved_for(kept, job.code) else "asked"


def left_of(panels: Sequence[JobPanel], done: Mapping[str, int]) -> tuple[JobPanel, ...]:
    """Those of the panels that are not cut yet, the first of a name cut first."""
    spare = dict(done)
    left: list[JobPanel] = []
    for one in panels:
        wanted = one.number * one.layers
        cut = min(wanted, max(0, spare.get(one.name, 0)))
        spare[one.name] = spare.get(one.name, 0) - cut
        if cut < wanted:
            left.append(replace(one, number=wanted - cut, layers=1))
    return tuple(left)


def set_panels(request: SetPanels, *, book: Book, now: datetime) -> Covering:
    """Write the panels of an open job; its names must be its own, and what is cut stays among them."""
    _refuse_panels(request.panels)
    with writing(book, request, now=now, job=request.job) as pen:
        if not pen.repeated:
            job = open_job(pen)
            known = materials(pen.connection, now)
            if any(one.material_id not in known for one in request.panels):
                raise Refusal(Code.NO_MATERIAL, "A panel is of a material this book does not have.")
            _refuse_cut(request.panels, whole(_done_so_far(pen, job)))
            act = pen.append(ActDraft(kind="panels", at=pen.when(), moves=(), job=job))
            add_panels(pen.connection, request.panels, act_id=act.id, job_id=job.id)
    return covering(book, request.job)


def spoil(request: SpoilPanels, *, book: Book, now: datetime) -> Covering:
    """Say that panels which were cut are lost; they are planned again."""
    with writing(book, request, now=now, job=request.job) as pen:
        if not pen.repeated:
            job = open_job(pen)
            done = _done_so_far(pen, job).get(request.name, 0)
            if not 0 < request.number <= done:
                raise Refusal(
                    Code.BAD_NUMBER,
                    f"{done} of “{clean_text(request.name, 40)}” are cut: "
                    "no more than these can be spoiled.",
                )
            act = pen.append(ActDraft(kind="spoiled", at=pen.when(), moves=(), job=job))
            value = {request.name: request.number}
            add_entry(pen.connection, SPOILED, value, act_id=act.id, job_id=job.id)
    return covering(book, request.job)


def install(request: InstallJob, *, book: Book, now: datetime) -> Covering:
    """Say that the film of a job is up."""
    with writing(book, request, now=now, job=request.job) as pen:
        if not pen.repeated:
            job = open_job(pen)
            if job.id in installed_jobs(pen.connection):
                raise Refusal(Code.ALREADY_THERE, f"Job {grouped(job.code)} is installed already.")
            act = pen.append(ActDraft(kind="install", at=pen.when(), moves=(), job=job))
            value = {"minutes": request.minutes}
            add_entry(pen.connection, INSTALLED, value, act_id=act.id, job_id=job.id)
    return covering(book, request.job)


def cut_panels(history: Sequence[Act]) -> Mapping[str, int]:
    """How many panels of each name the standing acts of a job have cut."""
    cut: Counter[str] = Counter()
    for act in history:
        if act.is_reversed or act.kind == UNDO:
            continue
        for move in act.moves:
            made = cast("Mapping[str, int]", move.facts.get(CUT_PANELS) or {})
            cut.update(made)
    return cut


def _done(history: Sequence[Act], spoiled: Mapping[str, int]) -> Mapping[str, int]:
    cut = cut_panels(history)
    return {name: max(0, number - spoiled.get(name, 0)) for name, number in cut.items()}


def _done_so_far(pen: Pen, job: Job) -> Mapping[str, int]:
    history = acts(pen.connection, job=job.code)
    return _done(history, spoiled_of(pen.connection, job_of(pen.connection, job.id).id))


def _refuse_panels(panels: Sequence[JobPanel]) -> None:
    number = sum(one.number * one.layers for one in panels)
    if not 0 < number <= MOST_PANELS:
        raise Refusal(Code.BAD_USAGE, f"{number} panels: give a job from 1 to {MOST_PANELS:,}.")
    for one in panels:
        if panel_of(one.name) != one.name:
            raise Refusal(
                Code.BAD_NAME,
                f"“{clean_text(one.name, 40)}” ends like a strip of a seam: "
                "name the panel without n/m.",
            )
    names = Counter(one.name for one in panels)
    if twice := next((name for name, times in names.items() if times > 1), None):
        raise Refusal(
            Code.BAD_NAME,
            f"Two lines are called “{clean_text(twice, 40)}”: give each its own name, "
            "and panels alike a count.",
        )


def _refuse_cut(panels: Sequence[JobPanel], done: Mapping[str, int]) -> None:
    wanted = {one.name: one.number * one.layers for one in panels}
    for name, number in done.items():
        if wanted.get(name, 0) < number:
            raise Refusal(
                Code.ALREADY_THERE,
                f"{number} of “{clean_text(name, 40)}” are cut: they stay among the panels; "
                "say which are spoiled first.",
            )
