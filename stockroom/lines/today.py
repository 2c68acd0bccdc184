"""Today as a screen shows it.

title(view)            Quay Street · Wed 2026-11-25
counts(today)          ✕ 1 stopped    ▲ 3 to test    ◐ 9 to use first
cells(…)               R000 1231, white cast 1370, 11.2 m, B2, ▲ TEST adhesion 32 d past, 1370 mm
detail(…)              why, and what a person has to know to go there
late_line(today)       ✕ late: D000 0010 Northlight Films, due Tue 2026-11-24
job_lines(today)       Fri 2026-11-27  J000 046K  tram shelter 4, Mill Lane  ▲ to test
"""

from datetime import date

from stockroom.books.values import Job, Standing
from stockroom.film.dates import parse_partial_date
from stockroom.film.limits import Basis
from stockroom.film.verdict import Reason, Verdict
from stockroom.lines import orders, words
from stockroom.units import System
from stockroom.work.judging import Judged, View
from stockroom.work.today import Today

NOTHING_HERE = (
    "Nothing is on the rack yet. Name a film with `stockroom material add`, then bring a roll in "
    "with `stockroom receive`; it stands here as soon as it needs a hand."
)
NOTHING_TO_DO = "Nothing needs a hand: no piece is held, near a limit or waiting."

_COUNTED = {
    Verdict.STOP: "stopped",
    Verdict.TEST: "to test",
    Verdict.USE_FIRST: "to use first",
    Verdict.WAIT: "waiting",
    Verdict.USE: "to use",
}
_STORED = {"heat": "aged by heat", "climate": "was too warm", "memory": "curls to {} mm"}
_TRIALS = {"shelf": "adhesion", "wound": "curl"}


def title(view: View) -> str:
    """Whose day it is."""
    return f"{view.shop.name} · {view.today:%a} {words.day(view.today)}"


def counts(today: Today) -> str:
    """How many pieces have each verdict, the worst first; what there is none of is left out."""
    counted = {**today.counts, Verdict.WAIT: today.waiting}
    said = [
        f"{words.MARKS[verdict]} {counted[verdict]} {what}"
        for verdict, what in _COUNTED.items()
        if counted.get(verdict)
    ]
    if today.late:
        said.append(f"{words.MARKS[Verdict.STOP]} {words.counted(len(today.late), 'order')} late")
    return "    ".join(said)


def empty(today: Today) -> str:
    """What an empty list means, and what to do next."""
    return NOTHING_TO_DO if any(today.counts.values()) else NOTHING_HERE


def cells(one: Judged, view: View) -> tuple[str, ...]:
    """One piece that needs a hand."""
    standing, system = one.standing, view.shop.system
    return (
        words.code(one.code),
        standing.material.name,
        words.left(standing, system),
        words.stands(standing),
        to_do(one, view),
        more_of(standing, system),
    )


def more_of(standing: Standing, system: System) -> str:
    """What the name of the material does not say: the width, a print, the job it serves."""
    return words.film(standing, system).removeprefix(standing.material.name).lstrip(", ")


def to_do(one: Judged, view: View) -> str:
    """The verdict and what it asks for, in a few words."""
    judgement = one.judgement
    if judgement.verdict is Verdict.USE and judgement.wait_until is not None:
        return f"{words.marked(Verdict.WAIT)} until {_until(one, view)}"
    pressing = [one for one in judgement.reasons if one.verdict is judgement.verdict]
    return f"{words.marked(judgement.verdict)} {_asked(pressing[0], view.today)}".rstrip()


def _until(one: Judged, view: View) -> str:
    ready = one.judgement.wait_until
    if ready is None:
        return ""
    local = view.shop.local(ready)
    is_today = local.date() == view.shop.local(view.moment).date()
    return f"{local:%H:%M}" if is_today else f"{local:%m-%d %H:%M}"


def _asked(reason: Reason, today: date) -> str:
    match reason.verdict:
        case Verdict.TEST if reason.rule in _TRIALS:
            return f"{_TRIALS[reason.rule]} {_past(reason, today)}"
        case Verdict.USE_FIRST if reason.due is not None:
            return f"{words.age((reason.due - today).days, today)} left"
        case Verdict.TEST | Verdict.USE_FIRST if reason.rule in _STORED:
            return _STORED[reason.rule].format(reason.measured)
        case Verdict.STOP if reason.basis == Basis.TRIAL:
            return f"trial {_past(reason, today)}"
        case Verdict.STOP:
            return reason.text
        case _:
            return ""


def _past(reason: Reason, today: date) -> str:
    if reason.due is not None:
        return f"{words.age((today - reason.due).days, today)} past"
    if reason.measured is not None and reason.limit is not None:
        return f"{words.age(reason.measured - reason.limit, today)} past"
    return "past"


def detail(one: Judged, view: View) -> tuple[str, ...]:
    """Why a piece is on the list, and beside it what a person has to know to go there."""
    return ("   ".join(words.reason(reason) for reason in _telling(one)), where(one, view))


def _telling(one: Judged) -> list[Reason]:
    """The reasons worth a line: of the verdict and of a wait; else an age, or that none is known."""
    reasons, asking = one.judgement.reasons, {one.judgement.verdict, Verdict.WAIT}
    if pressing := [one for one in reasons if one.verdict in asking - {Verdict.USE}]:
        return pressing
    return [one for one in reasons if one.limit or one.verdict is None][:1]


def where(one: Judged, view: View) -> str:
    """The place, the lot, the age, and the job a piece serves."""
    standing = one.standing
    job = standing.job
    parts = [
        words.where(standing, view.shop),
        f"lot {words.known(standing.state.lot)}",
        f"age {words.shelf_age(one, view.today)}",
    ]
    if job is not None:
        parts.append(f"serves {words.code(job.code)} {job.name}, {day_of(job)}")
    return " · ".join(parts)


def late_line(today: Today) -> tuple[str, ...]:
    """The order that is late the longest, and how many others are; nothing where none is."""
    if not today.late:
        return ()
    first, *others = today.late
    more = f", and {len(others)} more" if others else ""
    said = f"{words.code(first.code)} {first.supplier}, {orders.due(first)}"
    return (f"{words.MARKS[Verdict.STOP]} late: {said}{more}",)


def job_lines(today: Today) -> tuple[str, ...]:
    """The jobs of the coming days, with what their own pieces still need."""
    return tuple(_job_line(job, today) for job in today.jobs)


def some_jobs(today: Today, most: int) -> tuple[str, ...]:
    """What is late, and as many of the jobs as there are lines left, and how many more there are."""
    late, said = late_line(today), job_lines(today)
    room = most - len(late)
    if len(said) <= room:
        return (*late, *said)
    left = words.counted(len(said) - room + 1, "more job")
    return (*late, *said[: room - 1], f"and {left}: F9 shows all")


def _job_line(job: Job, today: Today) -> str:
    own = [
        one.judgement
        for one in today.of_jobs
        if one.standing.job is not None and one.standing.job.id == job.id
    ]
    found = {one.verdict for one in own} | {Verdict.WAIT for one in own if one.wait_until}
    needs = [
        f"{words.MARKS[verdict]} {what}"
        for verdict, what in _COUNTED.items()
        if verdict in found - {Verdict.USE}
    ]
    if taken := today.short.get(job.code):
        gone = ", ".join(map(words.code, taken))
        needs.append(f"{words.MARKS[Verdict.STOP]} short: its {gone} was taken, plan it again")
    return "  ".join((f"{day_of(job):<14}", words.code(job.code), named(job), *needs))


def named(job: Job) -> str:
    """The name of a job and its site."""
    return f"{job.name}, {job.site}" if job.site else job.name


def day_of(job: Job) -> str:
    """The day a job is wanted, with its weekday where the day is known."""
    if job.on_day is None:
        return words.UNKNOWN
    day = parse_partial_date(job.on_day)
    return f"{day.first:%a} {day}" if day.is_exact else str(day)
