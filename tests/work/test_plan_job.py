"""Planning a job from the book: what may be taken, what of it, and what is short."""

from datetime import timedelta

import pytest

from stockroom.errors import Code
from stockroom.film.kinds import Kind
from stockroom.plan.stock import Age
from stockroom.units import MM, M
from stockroom.work.plan_job import HowToPlan, JobPlan, plan_job
from tests.builders import ON_ONE_ENGINE, Station, refused
from tests.floor import Floor

HOUSE_EDGES = 2 * 5 * MM
TRIMS = 2 * 20 * MM


def planned(station: Station, job: str, **how: object) -> JobPlan:
    """The plan of a job, with little effort."""
    wishes = HowToPlan(effort=20, **how)  # type: ignore[arg-type]
    return plan_job(station.book, job, now=station.now, how=wishes)


def taken(plan: JobPlan) -> list[str]:
    return [part.film.code for one in plan.materials for part in one.choice.parts]


def test_the_plan_takes_trims_and_leaves_edges_core_end_and_outer_wrap(station: Station) -> None:
    """A pane of 900 by 2100 mm on glass, from a full roll 1.5 m wide."""
    roll = station.roll()
    job = station.job()
    station.panels(job, (900, 2_100))

    plan = planned(station, job)

    (part,) = plan.materials[0].choice.parts
    assert (part.film.code, part.begins) == (roll, 300 * MM)
    assert part.film.width == 1_500 * MM - HOUSE_EDGES
    assert part.film.stretches == ((300 * MM, 30 * M - 500 * MM),)
    (item,) = plan.materials[0].choice.items
    assert (item.across, item.along) == (900 * MM + TRIMS, 2_100 * MM + TRIMS)
    assert not plan.is_short


def test_older_film_goes_first_and_what_must_not_be_taken_is_said(station: Station) -> None:
    """Held, away, a client's, stopped or to be tested by the day it is put up."""
    station.material(limits={"shelf": "24mo"})
    held, away, new = station.rolls(material="clear 50", pieces=3)
    old = station.roll(material="clear 50", made="2024-12-20")
    past = station.roll(material="clear 50", made="2024-01-01")
    station.roll(material="clear 50", owner="client")
    station.hold(held)
    Floor(station.book, station.now).go_out(away)
    soon = (station.now + timedelta(days=2)).date().isoformat()
    later = (station.now + timedelta(days=60)).date().isoformat()
    job, other = station.job(on_day=soon), station.job("clinic", on_day=later)
    for one in (job, other):
        station.panels(one, (900, 2_100))

    plan = planned(station, job)

    assert taken(plan) == [old]
    assert plan.materials[0].choice.parts[0].film.age is Age.OLD
    assert dict(plan.materials[0].barred) == {
        "held": 1,
        "out": 1,
        "not ours": 1,
        "to be tested by then": 1,
    }
    assert taken(planned(station, other)) == [new]
    assert taken(planned(station, job, with_test=True))[0] in (old, past)


def test_a_flaw_is_left_out(station: Station) -> None:
    """Film on either side of it serves."""
    roll = station.roll()
    station.flaw(roll, 1_500 * MM)
    job = station.job()
    station.panels(job, (900, 2_100))

    (part,) = planned(station, job).materials[0].choice.parts

    assert part.begins == 1_550 * MM
    assert part.film.stretches[0] == (300 * MM, 1_450 * MM)


def test_a_wide_pane_is_made_of_strips_where_a_seam_is_allowed(station: Station) -> None:
    """And is short where it is not."""
    station.roll()
    job, other = station.job(), station.job("clinic")
    station.panels(job, (2_400, 2_100), seams=True)
    station.panels(other, (2_400, 2_100))

    plan = planned(station, job)

    assert [one.name for one in plan.materials[0].choice.items] == ["P1 1/2", "P1 2/2"]
    assert {one.across for one in plan.materials[0].choice.items} == {(2_440 + 10) * MM // 2}
    assert planned(station, other).materials[0].missing == {"P1": 1}


def test_metallic_film_is_never_turned_and_clear_film_need_not_match(station: Station) -> None:
    """What somebody says of a panel does not undo a direction."""
    metallic = station.material("mirror", finish="metallic")
    clear = station.material("plain", finish="clear")
    unknown = station.material("something")
    job = station.job()

    def group_and_turn(material: str) -> tuple[str, bool]:
        station.panels(job, (900, 2_100), material=material, group="a", turns=True)
        (line,) = planned(station, job).materials[0].lines
        return line.group, line.turns

    assert group_and_turn(metallic) == ("a", False)
    assert group_and_turn(clear) == ("", True)
    assert group_and_turn(unknown) == ("a", True)


@ON_ONE_ENGINE
def test_film_to_print_on_is_not_turned_unless_somebody_says_so(station: Station) -> None:
    """A print has a top."""
    vinyl = station.material("white", Kind.PRINT_VINYL)
    job = station.job(kind="graphic")

    for turns, turned in ((None, False), (True, True)):
        station.panels(job, (900, 2_100), material=vinyl, turns=turns)
        (line,) = planned(station, job).materials[0].lines
        assert line.turns is turned


def test_a_job_that_cannot_be_planned_is_refused(station: Station) -> None:
    """Closed, without panels, or nowhere."""
    station.material()
    bare, closed = station.job(), station.job("clinic")
    station.panels(closed, (900, 2_100))
    station.close(closed)

    for job, code in (
        (bare, Code.BAD_USAGE),
        (closed, Code.JOB_CLOSED),
        ("J999999X", Code.NO_JOB),
    ):
        with refused(station.book, code):
            planned(station, job)


@pytest.mark.parametrize("mixed_lots", [False, True])
def test_adjoining_panes_of_two_lots_are_short_unless_somebody_says_so(
    station: Station, *, mixed_lots: bool
) -> None:
    """Two short rolls of two lots, each long enough for one of the panes."""
    station.material(finish="frosted")
    for lot in ("L1", "L2"):
        station.roll(material="clear 50", lot=lot, length_nm=3_500 * MM)
    job = station.job()
    station.panels(job, (1_300, 2_100), (1_301, 2_100), group="front")

    plan = planned(station, job, mixed_lots=mixed_lots)

    assert plan.is_short is not mixed_lots
    assert len(taken(plan)) == (2 if mixed_lots else 0)


def test_new_film_of_the_width_that_costs_least_for_what_is_missing(station: Station) -> None:
    """One film in two widths: two panes of 740 mm lie side by side only on the wider one."""
    for name, cost in (("grey 1220", 30_000), ("grey 1524", 36_000)):
        width = int(name[-4:]) * MM
        station.material(name, width_nm=width, cost_minor=cost, terms={"series": "grey"})
        station.discard(station.roll(material=name))
    station.material("black 1524", width_nm=1_524 * MM, cost_minor=1)
    job = station.job()
    station.panels(job, (700, 2_000), (700, 2_000), material="grey 1220")

    found = planned(station, job).materials[0].widths

    assert [(one.material.name, one.length_nm) for one in found] == [
        ("grey 1524", 2_040 * MM),
        ("grey 1220", 2 * 2_040 * MM),
    ]
    assert [one.cost_minor for one in found] == [2_448, 4_080]
