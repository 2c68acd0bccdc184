"""Film kept for a job and cut as planned: nobody else takes it, nothing is written twice."""

from dataclasses import replace
from typing import Any

import pytest

from stockroom.codes.own import grouped
from stockroom.errors import Code
from stockroom.lines.today import job_lines
from stockroom.units import MM, M
from stockroom.work.away import GoOut, go_out
from stockroom.work.cut_plan import CutAsPlanned, CutPlan, cut_plan
from stockroom.work.job_use import job_use
from stockroom.work.panels import InstallJob, SpoilPanels, covering, install, spoil, stages
from stockroom.work.plan_job import HowToPlan, plan_job
from stockroom.work.planned import PlannedCut, planned_cuts
from stockroom.work.reserve import (
    Reserve,
    ReservedFilm,
    Unreserve,
    reserve,
    reserved_cuts,
    unreserve,
)
from stockroom.work.reserved import reserved
from stockroom.work.scrap import Scrap, scrap
from stockroom.work.today import today
from tests.builders import BLANK, Station, is_sound, refused


def cuts_of(station: Station, job: str) -> tuple[PlannedCut, ...]:
    """What a plan of little effort draws."""
    return planned_cuts(plan_job(station.book, job, now=station.now, how=HowToPlan(effort=0)))


def keep(station: Station, job: str, **given: Any) -> ReservedFilm:
    """Reserve what the plan of a job draws."""
    facts = {"cuts": cuts_of(station, job), **given}
    request = Reserve(**station.asked(job=job, **facts))
    return reserve(request, book=station.book, now=station.now)


def cut_as(station: Station, job: str, cuts: tuple[PlannedCut, ...], **given: Any) -> CutAsPlanned:
    """Cut as planned."""
    request = CutPlan(**station.asked(job=job, cuts=cuts, **given))
    return cut_plan(request, book=station.book, now=station.now)


@pytest.fixture
def job(station: Station) -> str:
    """A job of two panes of 900 by 2100 mm, and a roll."""
    station.roll()
    job = station.job(on_day="2026-12-20")
    station.panels(job, (900, 2_100), (900, 2_100))
    return job


def test_what_is_reserved_is_what_the_plan_draws_and_is_cut_so(station: Station, job: str) -> None:
    """Two panes one behind the other; beside them stays an offcut. All in one act, once."""
    (cut,) = cuts_of(station, job)
    kept = keep(station, job)

    assert kept.cuts == (cut,) == reserved_cuts(station.book, job)
    assert kept.until == "2026-12-20"
    assert covering(station.book, job).stage == "planned"

    request = CutPlan(**station.asked(job=job, cuts=kept.cuts))
    done = cut_plan(request, book=station.book, now=station.now)

    assert done == cut_plan(request, book=station.book, now=station.now)
    (move,) = done.cuts
    assert move.balance == 30 * M - cut.length_nm
    assert move.facts["panels"] == {"P1": 1, "P2": 1}
    assert move.used_mm2 == 2 * 940 * 2_140
    whole = round(1_500 * cut.length_nm / MM)
    assert move.used_mm2 + move.wasted_mm2 + move.kept_mm2 == whole
    assert [(one.sets["width_nm"], one.balance) for one in done.offcuts] == list(cut.offcuts)
    assert covering(station.book, job).stage == "cut"
    assert reserved_cuts(station.book, job) == ()
    use = job_use(station.book, job, now=station.now)
    assert [(one.name, one.number) for one in use.panels] == [("P1", 1), ("P2", 1)]
    assert sum(one.used_mm2 for one in use.panels) == move.used_mm2
    assert sum(one.wasted_mm2 for one in use.panels) == move.wasted_mm2
    assert sum(one.cost_minor for one in use.panels) == move.cost_minor == use.expected_minor
    assert is_sound(station.book)


def test_another_job_leaves_what_is_kept_and_may_say_why_it_does_not(
    station: Station, job: str
) -> None:
    """The rest of the roll is free; the last day is the job's."""
    roll = keep(station, job).cuts[0].piece
    other = station.job("clinic")

    with refused(station.book, Code.RESERVED):
        station.cut(roll, 28 * M, job=other)
    with refused(station.book, Code.RESERVED):
        station.cut(roll, 28 * M)
    assert station.cut(roll, 20 * M, job=other).left_nm == 10 * M
    assert station.cut(roll, 8 * M, job=other, despite="the shop front is open").left_nm == 2 * M


def test_the_job_whose_film_was_taken_is_short_on_today(station: Station, job: str) -> None:
    """Whenever it is wanted; what is gone is named, until it is planned again."""
    roll = keep(station, job).cuts[0].piece
    other = station.job("clinic")
    assert today(station.book, now=station.now).short == {}
    station.cut(roll, 28 * M, job=other, despite="the shop front is open")

    seen = today(station.book, now=station.now)
    assert (seen.short, [one.code for one in seen.jobs]) == ({job: (roll,)}, [job])
    (line,) = job_lines(seen)
    assert line.endswith(f"short: its {grouped(roll)} was taken, plan it again")

    station.discard(roll, despite="it tore")
    assert today(station.book, now=station.now).short == {job: (roll,)}
    station.roll(material="clear 50")
    keep(station, job)
    assert today(station.book, now=station.now).short == {}


def test_a_reservation_lapses_with_its_day(station: Station, job: str) -> None:
    """On the day itself it holds, on the next it does not."""
    roll = keep(station, job).cuts[0].piece
    other = station.job("clinic")

    station.wait(days=25)
    with refused(station.book, Code.RESERVED):
        station.cut(roll, 28 * M, job=other)
    station.wait(days=1)
    assert station.cut(roll, 28 * M, job=other).left_nm == 2 * M


def test_a_cut_for_the_job_itself_uses_its_reservation_up(station: Station, job: str) -> None:
    """By hand too; what is left of it stays kept."""
    cut = keep(station, job).cuts[0]

    station.cut(cut.piece, M, job=job)

    state = station.piece(cut.piece).state
    (left,) = reserved(state, station.now.date())
    assert (left.job, left.along_nm) == (job, cut.length_nm - M)
    station.cut(cut.piece, cut.length_nm, job=job)
    assert station.piece(cut.piece).state.reserved is None


def test_two_people_cut_the_same_plan_and_the_second_is_told(station: Station, job: str) -> None:
    """Nothing is written twice; the rest is planned again."""
    cuts = cuts_of(station, job)
    cut_as(station, job, cuts)

    with refused(station.book, Code.PLAN_STALE):
        cut_as(station, job, cuts)
    with refused(station.book, Code.PLAN_STALE):
        request = Reserve(**station.asked(job=job, cuts=cuts))
        reserve(request, book=station.book, now=station.now)


def test_a_spoiled_panel_is_planned_again(station: Station, job: str) -> None:
    """From what is left."""
    cut_as(station, job, cuts_of(station, job))
    request = SpoilPanels(**station.asked(job=job, name="P2"))
    assert spoil(request, book=station.book, now=station.now).stage == "asked"

    (again,) = cuts_of(station, job)

    assert again.panels == {"P2": 1}


def test_undo_takes_the_cut_back_and_the_reservation_is_there_again(
    station: Station, job: str
) -> None:
    """The offcut ends with it, the panels are wanted again."""
    kept = keep(station, job)
    done = cut_as(station, job, kept.cuts)

    station.undo(kept.cuts[0].piece)

    assert reserved_cuts(station.book, job) == kept.cuts
    assert covering(station.book, job).done == {}
    assert station.piece(done.offcuts[0].piece).state.ended == "undone"
    assert is_sound(station.book)


def test_reserving_again_lets_go_of_what_is_not_planned_any_more(
    station: Station, job: str
) -> None:
    """An older roll comes in, and is taken instead."""
    first = keep(station, job).cuts[0].piece
    older = station.roll(material="clear 50", made="2024-12-20")

    second = keep(station, job)

    assert [cut.piece for cut in second.cuts] == [older]
    assert station.piece(first).state.reserved is None


def test_closing_a_job_and_unreserving_let_its_film_go(station: Station, job: str) -> None:
    """A second time there is nothing to let go."""
    roll = keep(station, job).cuts[0].piece
    request = Unreserve(**station.asked(job=job))
    act = unreserve(request, book=station.book, now=station.now)
    assert act == unreserve(request, book=station.book, now=station.now)
    assert station.piece(roll).state.reserved is None
    with refused(station.book, Code.NOT_RESERVED):
        unreserve(Unreserve(**station.asked(job=job)), book=station.book, now=station.now)

    keep(station, job)
    station.close(job)
    assert station.piece(roll).state.reserved is None
    assert is_sound(station.book)


def test_film_that_is_held_or_gone_is_not_cut_as_planned(station: Station, job: str) -> None:
    """A reservation whose roll was thrown away ends with it."""
    kept = keep(station, job)
    roll = kept.cuts[0].piece
    station.hold(roll)
    with refused(station.book, Code.HELD):
        cut_as(station, job, kept.cuts)
    station.release(roll)
    station.discard(roll, despite="it tore")
    with refused(station.book, Code.ENDED):
        cut_as(station, job, kept.cuts)
    assert reserved_cuts(station.book, job) == ()


def test_nothing_is_reserved_or_cut_where_the_plan_draws_nothing(
    station: Station, job: str
) -> None:
    """And more than there is free is refused."""
    with refused(station.book, Code.BAD_USAGE):
        keep(station, job, cuts=())
    with refused(station.book, Code.BAD_USAGE):
        cut_as(station, job, ())
    other = station.job("clinic")
    (cut,) = keep(station, job).cuts
    station.panels(other, (900, 2_100))
    with refused(station.book, Code.RESERVED):
        cut_as(station, other, (replace(cut, length_nm=29 * M),))


def test_whoever_takes_all_of_what_is_kept_says_why_and_the_job_shows_on_today(
    station: Station, job: str
) -> None:
    """Out to a site, or thrown away; out for the job itself it may go, and is not missed."""
    roll = keep(station, job).cuts[0].piece
    for_it, for_another = (
        GoOut(**station.asked(piece=roll, to="van 2", job=one))
        for one in (job, station.job("clinic"))
    )

    with refused(station.book, Code.RESERVED):
        go_out(for_another, book=station.book, now=station.now)
    with refused(station.book, Code.RESERVED):
        station.discard(roll)
    with refused(station.book, Code.RESERVED):
        go_out(GoOut(**station.asked(piece=roll, to="van")), book=station.book, now=station.now)

    go_out(for_it, book=station.book, now=station.now)
    assert today(station.book, now=station.now).short == {}
    station.undo(roll)
    go_out(
        replace(for_another, request="again", despite="the only roll"),
        book=station.book,
        now=station.now,
    )
    assert today(station.book, now=station.now).short == {job: (roll,)}
    station.discard(roll, despite="it fell off the van")
    assert today(station.book, now=station.now).short == {job: (roll,)}
    assert is_sound(station.book)


def test_film_that_is_kept_is_neither_laid_over_other_film_nor_covered(station: Station) -> None:
    """Neither the film below nor the laminate; with a reason, both."""
    blank, clear = station.blank(), station.clear()
    job, other = station.job(), station.job("clinic")
    station.panels(job, (900, 20_000), material=BLANK)
    keep(station, job)

    with refused(station.book, Code.RESERVED):
        station.laminate(blank, clear, 12 * M, job=other)
    assert station.laminate(blank, clear, 5 * M, job=other).film.left_nm == 25 * M
    station.laminate(blank, clear, 12 * M, job=other, despite="the shop front is open")
    assert job in today(station.book, now=station.now).short


def test_a_small_offcut_that_is_kept_does_not_go_in_the_bin(station: Station) -> None:
    """Whatever its size."""
    job = station.job()
    small = station.offcut((290 * MM, 500 * MM))
    station.panels(job, (200, 400), trims_nm=(0, 0, 0, 0))
    cuts = cuts_of(station, job)
    assert [one.piece for one in cuts] == [small]
    keep(station, job, cuts=cuts)

    with refused(station.book, Code.NOT_SCRAP):
        scrap(Scrap(**station.asked(pieces=(small,))), book=station.book, now=station.now)


def test_all_jobs_have_the_stage_that_each_has(station: Station) -> None:
    """Asked, planned, cut, installed and closed; of a job without panels nothing is known."""
    station.roll()
    asked, planned, cut, up, closed = [station.job(f"job {number}") for number in range(5)]
    station.job("without panels")
    for job in (asked, planned, cut, up, closed):
        station.panels(job, (900, 2_100))
    keep(station, cut)
    cut_as(station, cut, reserved_cuts(station.book, cut))
    keep(station, planned)
    install(InstallJob(**station.asked(job=up)), book=station.book, now=station.now)
    station.close(closed)

    found = stages(station.book)

    assert found == {
        asked: "asked",
        planned: "planned",
        cut: "cut",
        up: "installed",
        closed: "closed",
    }
    assert found == {code: covering(station.book, code).stage for code in found}
