"""Planning a job: which film to cut for it, how, and what no film covers; nothing is written.

Hard rules: film that is ours and here, not held, not printed for another job, not stopped on the
day it is put up, not kept for another job; no flaw, core end, outer wrap or factory edge.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from stockroom.books.catalog import shop
from stockroom.books.climates import Climates
from stockroom.books.opening import Book
from stockroom.books.pieces import standings
from stockroom.books.use import Arrival, arrivals
from stockroom.books.values import Job, Material, Shop
from stockroom.errors import Code, Refusal
from stockroom.film.dates import parse_partial_date
from stockroom.film.verdict import Judgement, Verdict
from stockroom.plan.choosing import Choice, choose
from stockroom.plan.covering import Rules
from stockroom.plan.layout import Knife
from stockroom.plan.stock import Film, Form, age_of
from stockroom.units import MM
from stockroom.work.flaw import flaws_of
from stockroom.work.gates import FILM
from stockroom.work.judging import Judged, judged, view
from stockroom.work.look import materials
from stockroom.work.panels import Covering, covering
from stockroom.work.receive import OURS
from stockroom.work.reserved import kept_for_others
from stockroom.work.storage import Stored
from stockroom.work.wanted import Line, lines, usable_nm
from stockroom.work.widths import Width, alike, widths

_ROUND_A_FLAW_NM = 50 * MM
"""Film left out on either side of a flaw: common practice, no source."""
_OF_AGE = ("shelf", "wound", "heat")


@dataclass(frozen=True, slots=True, kw_only=True)
class HowToPlan:
    """What may be taken, how it is cut, and how long to look for a short layout."""

    knife: Knife = Knife.STRAIGHT
    with_test: bool = False
    mixed_lots: bool = False
    effort: int | None = None
    seed: int = 1


@dataclass(frozen=True, slots=True)
class MaterialPlan:
    """What one material gives: the choice, the pieces by code, and the choice without its first."""

    material: Material
    lines: tuple[Line, ...]
    choice: Choice
    pieces: Mapping[str, Judged]
    instead: Choice | None
    barred: Mapping[str, int]
    """Pieces of it that must not be taken, by why."""
    widths: tuple[Width, ...] = ()
    """New film for what is missing, in every width it is sold in, the cheapest first."""

    @property
    def missing(self) -> Mapping[str, int]:
        """The panels no film covers, by name."""
        return Counter(self.choice.items[one].name for one in self.choice.left)


@dataclass(frozen=True, slots=True)
class JobPlan:
    """A job, the day it is planned for, and what each material gives."""

    covering: Covering
    on: date
    materials: tuple[MaterialPlan, ...]

    @property
    def job(self) -> Job:
        """The job."""
        return self.covering.job

    @property
    def is_short(self) -> bool:
        """Whether a panel is covered by no film."""
        return any(one.choice.left for one in self.materials)


@dataclass(frozen=True, slots=True)
class _Asked:
    """For which job, in which shop, on which day, and how."""

    job: Job
    shared: Shop
    today: date
    wishes: HowToPlan


def plan_job(book: Book, code: str, *, now: datetime, how: HowToPlan | None = None) -> JobPlan:
    """Plan what is still to be cut for a job, by the verdicts of the day it is put up."""
    wishes = how or HowToPlan()
    covers = covering(book, code)
    if covers.job.is_closed:
        raise Refusal(Code.JOB_CLOSED, f"Job {code} is closed: reopen it with `job reopen {code}`.")
    if not covers.panels:
        raise Refusal(
            Code.BAD_USAGE,
            f"Job {code} has no panels to plan: write them down first, with `w` on its screen or "
            f"`job panels {code}`.",
        )
    known = {one.id: one for one in materials(book, now=now)}
    with book.reading() as connection:
        shared = shop(connection, now)
        on = _day(covers.job, shared.day_of(now))
        seen = view(shared, now=now, today=on)
        found = standings(connection, now)
        wanted = tuple(
            lines(covers.panels, known, shared.house, kind=covers.job.kind, done=covers.strips_done)
        )
        ids = {one.material_id for one in wanted}
        last = {one.material_id: one for one in arrivals(connection, OURS)}
        storage = Stored(Climates(connection, shared, now), seen).storage_of
        film = [one for one in found if one.material.id in ids and one.state.form in FILM]
        stock = list(judged(film, seen, storage))
    planned = tuple(
        _of_material(
            known[number],
            tuple(one for one in wanted if one.material_id == number),
            [one for one in stock if one.standing.material.id == number],
            [(one, last[one.id]) for one in alike(known.values(), known[number]) if one.id in last],
            _Asked(covers.job, shared, shared.day_of(now), wishes),
        )
        for number in sorted(ids, key=lambda number: known[number].name)
    )
    return JobPlan(covers, on, planned)


def _day(job: Job, today: date) -> date:
    """The day on which film must still be sound: the last the job can mean, or today."""
    return today if job.on_day is None else max(today, parse_partial_date(job.on_day).last)


def _of_material(
    material: Material,
    wanted: Sequence[Line],
    stock: Sequence[Judged],
    sold: Sequence[tuple[Material, Arrival]],
    asked: _Asked,
) -> MaterialPlan:
    wishes = asked.wishes
    barred = Counter[str]()
    films: list[Film] = []
    pieces: dict[str, Judged] = {}
    for one in stock:
        if why := _barred(one, asked.job, wishes):
            barred[why] += 1
        elif (film := _film(one, asked)).stretches:
            films.append(film)
            pieces[one.code] = one
    rules = _rules(material, asked.shared, wishes)
    panels = [replace(one.wanted, group="") if wishes.mixed_lots else one.wanted for one in wanted]
    choice = choose(panels, films, rules, effort=wishes.effort)
    taken = {part.film.code for part in choice.parts[:1]}
    others = [one for one in films if one.code not in taken]
    instead = choose(panels, others, rules, effort=0) if taken and others else None
    return MaterialPlan(
        material=material,
        lines=tuple(wanted),
        choice=choice,
        pieces=pieces,
        instead=instead if instead is not None and not instead.left else None,
        barred=barred,
        widths=widths(choice, sold, rules, asked.shared.house),
    )


def _rules(material: Material, shared: Shop, wishes: HowToPlan) -> Rules:
    numbers = shared.house.numbers
    return Rules(
        knife=wishes.knife,
        table=numbers["table.length"] or None,
        keep=shared.house.keep(material.kind),
        extra_waste=numbers["plan.extra-waste-percent"] / 100,
        seed=wishes.seed,
    )


def _barred(one: Judged, job: Job, wishes: HowToPlan) -> str:
    """Why a piece must not be taken for a job; nothing where it may."""
    state, verdict = one.standing.state, one.judgement.verdict
    reasons = {
        "not ours": state.owner != OURS,
        "printed for another job": state.job_id not in (None, job.id),
        "out": state.out_to is not None,
        "held": state.held is not None,
        "stopped by then": verdict is Verdict.STOP,
        "to be tested by then": verdict is Verdict.TEST and not wishes.with_test,
    }
    return next((why for why, is_so in reasons.items() if is_so), "")


def _film(one: Judged, asked: _Asked) -> Film:
    state, house = one.standing.state, asked.shared.house
    is_roll = state.form == "roll"
    width = state.width_nm or 0
    form = Form.OFFCUT
    if is_roll:
        form = Form.FULL if state.balance == state.full else Form.OPENED
    begins = house.numbers["outer.unusable"] if form is Form.FULL else 0
    kept = kept_for_others(state, asked.job.code, asked.today)
    ends = state.balance - sum(each.along_nm for each in kept)
    if is_roll:
        ends -= house.core_unusable_nm
    flaws = [flaw.at_nm for flaw in flaws_of(state)]
    return Film(
        code=one.code,
        width=usable_nm(width, house) if is_roll else width,
        stretches=tuple(_stretches(begins, ends, flaws)),
        lot=state.lot,
        age=age_of(_left(one.judgement)),
        form=form,
    )


def _stretches(begins: int, ends: int, flaws: Sequence[int]) -> Iterator[tuple[int, int]]:
    """What lies between flaws, from the outer end on."""
    for flaw in flaws:
        if begins < (stop := min(ends, flaw - _ROUND_A_FLAW_NM)):
            yield begins, stop
        begins = max(begins, flaw + _ROUND_A_FLAW_NM)
    if begins < ends:
        yield begins, ends


def _left(judgement: Judgement) -> float | None:
    """The part of its life that film has left, by the rule that asks first."""
    left = [
        1 - reason.measured / reason.limit
        for reason in judgement.reasons
        if reason.rule in _OF_AGE and reason.limit and reason.measured is not None
    ]
    return min(left, default=None)
