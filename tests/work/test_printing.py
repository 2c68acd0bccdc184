"""Printing: what the roll loses, what the print is born with, and who pays for the leader."""

from datetime import timedelta
from typing import Any

import pytest

from stockroom.errors import Code
from stockroom.film.kinds import Ink, Kind
from stockroom.film.verdict import Verdict
from stockroom.units import MM, M
from stockroom.work.look import piece, rack
from stockroom.work.winding import Core
from tests.builders import ON_ONE_ENGINE, Station, is_sound, refused, written

TUBE_CORE = Core(inside_nm=50 * MM, wall_nm=5 * MM)


def test_a_print_is_a_piece_of_its_own_and_the_leader_is_waste(station: Station) -> None:
    """1.5 m wide: 6 square metres of print keep their value, 0.75 of leader are the job's loss."""
    roll, job = station.blank(), station.job()

    done = station.print(roll, 4 * M, leader_nm=500 * MM, job=job)

    assert written(done.act) == [
        (roll, "print", -4_500 * MM, 25_500 * MM, 0, 750_000, 6_000_000, 750),
        (done.code, "printed", 4 * M, 4 * M, 0, 0, 0, 0),
    ]
    assert (done.length_nm, done.taken.left_nm) == (4 * M, 25_500 * MM)
    assert (done.act.job, station.state(done.code).cost_minor) == (job, 6_000)
    assert is_sound(station.book)


def test_a_print_carries_what_it_was_printed_for_and_on(station: Station) -> None:
    """Lot and dates of the film, job, artwork and tile; wound today, on a core nobody named."""
    place = station.place("print rack")
    roll = station.blank(lot="L-9", place=station.place())
    job = station.job()

    code = station.print(
        roll, 2 * M, job=job, artwork="shelter side", tile=" 02/4", ink=Ink.SOLVENT, place=place
    ).code

    state = station.state(code)
    assert (state.form, state.parent, state.width_nm) == ("offcut", roll, 1_500 * MM)
    assert (state.lot, state.made, state.thickness_nm) == ("L-9", "2026-06-01", 75_000)
    assert (state.artwork, state.tile, state.ink) == ("shelter side", "2/4", "solvent")
    assert (state.printed, state.printed_by) == ("2026-11-25", station.now.isoformat())
    assert (state.is_wound, state.wound_since, state.wound_days_before) == (True, "2026-11-25", 0)
    assert (state.core_inside_nm, state.core_wall_nm, state.in_tube) == (None, None, False)
    standing = piece(station.book, code, now=station.now).judged.standing
    assert standing.job is not None
    assert standing.place is not None
    assert (standing.job.code, standing.place.name) == (job, "print rack")


def test_a_print_serves_its_own_job_only(station: Station) -> None:
    """One for nothing yet serves any; so does no print of another job."""
    roll, job, other = station.blank(), station.job(), station.job("tram shelter")
    own, free = station.print(roll, 2 * M, job=job).code, station.print(roll, 2 * M).code

    with refused(station.book, Code.OTHER_JOB):
        station.cut(own, M, job=other)

    assert station.cut(free, M, job=other).charged_mm2 == 1_500_000


def test_a_warm_winding_and_the_ink_stay_on_record(station: Station) -> None:
    """Solvent ink rests a day; that it was wound warm is written down."""
    done = station.print(station.blank(), 2 * M, ink=Ink.ECO_SOLVENT, warm_c=30.5)

    found = piece(station.book, done.code, now=station.now).judged.judgement

    assert done.act.moves_of(done.code)[0].facts == {"wound_warm_c": 30.5}
    assert found.wait_until == station.now + timedelta(hours=24)


def test_days_wound_begin_with_the_print(station: Station) -> None:
    """On a core under 100 mm 30 days are allowed; on an unknown one 90."""
    roll = station.blank()
    tight = station.print(roll, 2 * M, core=TUBE_CORE).code
    loose = station.print(roll, 2 * M).code
    in_tube = station.print(roll, 2 * M, core=Core(in_tube=True)).code
    station.wait(days=31)

    found = {one.code: one.judgement for one in rack(station.book, now=station.now).pieces}

    assert {found[code].wound_days for code in (tight, loose, in_tube)} == {31}
    assert (found[tight].verdict, found[in_tube].verdict) == (Verdict.TEST, Verdict.TEST)
    assert found[loose].verdict is Verdict.USE


def test_waste_is_a_part_of_the_length_and_never_of_the_print(station: Station) -> None:
    """A metre the printer spoiled: the print is so much shorter, the job pays."""
    roll = station.blank()

    done = station.print(roll, 4 * M, waste_nm=M, leader_nm=500 * MM)

    assert (done.length_nm, done.taken.wasted_mm2, done.taken.kept_mm2) == (
        3 * M,
        2_250_000,
        4_500_000,
    )
    assert (done.taken.cost_minor, station.state(done.code).cost_minor) == (2_250, 4_500)


def test_a_sheet_that_is_printed_ends_and_its_rest_lives_on(station: Station) -> None:
    """A sheet wholly printed is no more; of one printed in part, the rest gets a code."""
    sheet = station.cut(station.blank(), 5 * M, offcuts=((1_500 * MM, 5 * M),)).offcuts[0].code

    part = station.print(sheet, 2 * M)
    (rest,) = part.taken.rest
    whole = station.print(rest, 3 * M)

    assert station.state(sheet).ended == "cut up"
    assert (station.state(rest).printed, station.state(rest).ended) == (None, "printed")
    assert station.state(whole.code).balance == 3 * M
    values = [station.state(code).cost_minor for code in (part.code, whole.code)]
    assert values == [3_000, 4_500]
    assert is_sound(station.book)


def test_a_print_is_undone_whole(station: Station) -> None:
    """The roll has all its film again and the print was never there."""
    roll = station.blank()
    before = station.state(roll)
    code = station.print(roll, 4 * M, leader_nm=M).code

    station.undo(code)

    assert station.state(roll) == before
    assert (station.state(code).ended, station.state(code).balance) == ("undone", 0)
    assert is_sound(station.book)


def test_a_day_before_the_print_knows_only_the_roll(station: Station) -> None:
    """As of yesterday, all of it was on the roll."""
    roll = station.blank()
    yesterday = rack(station.book, now=station.now).view.today
    station.wait(days=1)
    station.print(roll, 4 * M)

    (only,) = rack(station.book, now=station.now, today=yesterday).pieces

    assert (only.code, only.standing.state.balance) == (roll, 30 * M)


def test_film_that_is_stopped_by_its_age_needs_a_reason(station: Station) -> None:
    """As for a cut; the reason is kept."""
    roll = station.blank(made="2023-01-01")
    station.trial(roll, "shelf", "2026-01-01")

    with refused(station.book, Code.STOPPED, "--despite"):
        station.print(roll, M)
    done = station.print(roll, M, despite="a proof")

    assert (done.taken.verdict, done.act.moves[0].facts["despite"]) == (Verdict.STOP, "a proof")
    assert "24 months" in done.taken.warning or "limit 24" in done.taken.warning


def test_a_print_longer_than_the_roll_writes_nothing(station: Station) -> None:
    """The leader counts."""
    roll = station.blank()

    with refused(station.book, Code.TOO_LONG, "30 m"):
        station.print(roll, 29_800 * MM, leader_nm=300 * MM)

    assert station.print(roll, 29_700 * MM, leader_nm=300 * MM).taken.left_nm == 0


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({"length_nm": 0}, Code.BAD_LENGTH),
        ({"length_nm": -M}, Code.BAD_LENGTH),
        ({"leader_nm": -1}, Code.BAD_LENGTH),
        ({"waste_nm": -1}, Code.TOO_LONG),
        ({"waste_nm": M}, Code.TOO_LONG),
        ({"tile": "5/4"}, Code.BAD_NUMBER),
        ({"tile": "0/4"}, Code.BAD_NUMBER),
        ({"tile": "two of four"}, Code.BAD_NUMBER),
        ({"core": Core(wall_nm=5 * MM)}, Code.BAD_USAGE),
        ({"core": Core(inside_nm=0)}, Code.BAD_LENGTH),
        ({"place": "nowhere"}, Code.NO_PLACE),
        ({"job": "J0009993"}, Code.NO_JOB),
    ],
)
def test_refuses_what_is_no_print(station: Station, given: dict[str, Any], code: Code) -> None:
    """Nothing, less than nothing, a tile that is none, a wall without its core."""
    roll = station.blank()

    with refused(station.book, code):
        station.print(roll, **{"length_nm": M} | given)


@ON_ONE_ENGINE
def test_refuses_film_that_cannot_be_printed(station: Station) -> None:
    """Window film, what is printed or laminated already, what is held, what is no more."""
    film, roll, box = station.roll(), station.blank(), station.box()
    job, other = station.job(), station.job("tram shelter")
    printed = station.print(roll, 2 * M, job=job).code
    sheet = station.cut(roll, 2 * M, offcuts=((1_500 * MM, 2 * M),)).offcuts[0].code
    covered = station.laminate(sheet, station.clear(), 2 * M).code

    with refused(station.book, Code.WRONG_KIND, "print-vinyl"):
        station.print(film, M)
    with refused(station.book, Code.ALREADY_THERE, "printed"):
        station.print(printed, M)
    with refused(station.book, Code.OTHER_JOB):
        station.print(printed, M, job=other)
    with refused(station.book, Code.ALREADY_THERE, "laminated"):
        station.print(covered, M)
    with refused(station.book, Code.ENDED):
        station.print(sheet, M)
    with refused(station.book, Code.WRONG_FORM):
        station.print(box, M)
    station.hold(roll)
    with refused(station.book, Code.HELD):
        station.print(roll, M)


@ON_ONE_ENGINE
def test_a_calendered_film_is_printed_too(station: Station) -> None:
    """Both kinds of print media are."""
    name = station.material("white calendered", Kind.CALENDERED_VINYL)

    assert station.print(station.roll(material=name), M).length_nm == M


def test_asked_twice_it_is_printed_once(station: Station) -> None:
    """The answer is read from the act, letter by letter."""
    roll = station.blank()

    first = station.print(roll, M, request="one", leader_nm=M)

    assert station.print(roll, M, request="one", leader_nm=M) == first
    assert station.state(roll).balance == 28 * M
