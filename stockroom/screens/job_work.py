"""What a job's screen asks of the book, each in one call that is made in a thread."""

from collections.abc import Iterable
from dataclasses import dataclass
from uuid import uuid4

from textual.message import Message

from stockroom.books.job_entries import JobPanel
from stockroom.books.values import Material, Shop
from stockroom.codes.own import grouped
from stockroom.errors import Refusal
from stockroom.lines import covers as lines
from stockroom.lines.covers import PlannedFilm
from stockroom.screens.station import Asking, Station
from stockroom.work.job_use import JobUse, job_use
from stockroom.work.look import materials, piece
from stockroom.work.panels import (
    Covering,
    InstallJob,
    SetPanels,
    SpoilPanels,
    covering,
    install,
    set_panels,
    spoil,
)
from stockroom.work.plan_job import JobPlan, plan_job
from stockroom.work.planned import PlannedCut, planned_cuts
from stockroom.work.reserve import Reserve, Unreserve, reserve, reserved_cuts, unreserve
from stockroom.work.reserved import all_reserved
from stockroom.work.setup import settings


@dataclass
class UseRead(Message):
    """What a job used was read."""

    use: JobUse
    shop: Shop


@dataclass
class JobRead(Message):
    """All of a job was read: what it used, what it covers, and the film that is kept for it."""

    use: JobUse
    shop: Shop
    covering: Covering
    materials: tuple[Material, ...]
    films: tuple[PlannedFilm, ...]
    until: str
    """The last day for which its film is kept; empty where none is."""


@dataclass
class Planned(Message):
    """A job was planned; nothing is written of it, until it is reserved under its id."""

    plan: JobPlan
    films: tuple[PlannedFilm, ...]
    request: str


@dataclass
class NotPlanned(Message):
    """A job could not be planned."""

    code: str
    refusal: Refusal


@dataclass
class Done(Message):
    """Something was written for the job."""

    sentence: str


def read_use(station: Station, code: str) -> UseRead:
    """Read what a job used so far."""
    now = station.now()
    return UseRead(job_use(station.book, code, now=now), settings(station.book, now=now)[0])


def read_job(station: Station, code: str) -> JobRead:
    """Read all of a job."""
    book, now = station.book, station.now()
    films = tuple(
        PlannedFilm(cut, piece(book, cut.piece, now=now).judged.standing)
        for cut in reserved_cuts(book, code)
    )
    until = {
        each.until for one in films for each in all_reserved(one.standing.state) if each.job == code
    }
    return JobRead(
        use=job_use(book, code, now=now),
        shop=settings(book, now=now)[0],
        covering=covering(book, code),
        materials=materials(book, now=now),
        films=films,
        until=min(until, default=""),
    )


def plan(station: Station, code: str) -> Planned | NotPlanned:
    """Plan what is still to be cut."""
    try:
        found = plan_job(station.book, code, now=station.now())
    except Refusal as refusal:
        return NotPlanned(code, refusal)
    pieces = {name: one for each in found.materials for name, one in each.pieces.items()}
    films = (PlannedFilm(cut, pieces[cut.piece].standing) for cut in planned_cuts(found))
    return Planned(found, tuple(films), uuid4().hex)


def keep(station: Station, planned: Planned) -> Done:
    """Reserve the film of a plan; asked twice, it is reserved once."""
    cuts: tuple[PlannedCut, ...] = tuple(one.cut for one in planned.films)
    job = planned.plan.job
    request = Reserve(**station.asking(planned.request), job=job.code, cuts=cuts)
    done = reserve(request, book=station.book, now=station.now())
    return Done(lines.kept_done(job, done.cuts, done.until))


def let_go(station: Station, code: str) -> Done:
    """Let go of the film that is kept for a job."""
    unreserve(Unreserve(**station.asking(), job=code), book=station.book, now=station.now())
    return Done(f"no film is kept for {grouped(code)}")


def put_up(station: Station, code: str) -> Done:
    """Write that the film of a job is up."""
    install(InstallJob(**station.asking(), job=code), book=station.book, now=station.now())
    return Done(f"{grouped(code)} is installed")


def lose(station: Station, code: str, panel: str) -> Done:
    """Write that one of a panel was spoiled, and is wanted again."""
    request = SpoilPanels(**station.asking(), job=code, name=panel)
    spoil(request, book=station.book, now=station.now())
    return Done(f"one “{panel}” is spoiled: p plans it again")


def drop(station: Station, code: str, panel: str) -> Done:
    """Write the panels of a job without one."""
    stay = (one for one in covering(station.book, code).panels if one.name != panel)
    _set(station, station.asking(), code, stay)
    return Done(f"“{panel}” is off the list")


def add(station: Station, asking: Asking, code: str, panels: Iterable[JobPanel]) -> None:
    """Write more panels of a job."""
    _set(station, asking, code, (*covering(station.book, code).panels, *panels))


def _set(station: Station, asking: Asking, code: str, panels: Iterable[JobPanel]) -> None:
    request = SetPanels(**asking, job=code, panels=tuple(panels))
    set_panels(request, book=station.book, now=station.now())
