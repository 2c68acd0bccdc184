"""A cut takes a length off a roll; waste and offcuts are parts of it, the rest is charged."""

from typing import Any

import pytest

from stockroom.errors import Code
from stockroom.film.verdict import Verdict
from stockroom.units import INCH, MM, M
from tests.builders import ON_ONE_ENGINE, Station, dump, is_sound, refused, written


def test_charges_the_job_with_what_was_cut(station: Station) -> None:
    """Two metres of a roll 1.5 m wide are three square metres and their part of the price."""
    roll, job = station.roll(), station.job()

    done = station.cut(roll, 2 * M, job=job)

    assert written(done.act) == [(roll, "cut", -2 * M, 28 * M, 3_000_000, 0, 0, 3_000)]
    assert (done.left_nm, done.charged_mm2, done.cost_minor) == (28 * M, 3_000_000, 3_000)
    assert (done.act.job, done.offcuts, done.warning) == (job, (), "")
    assert is_sound(station.book)


def test_keeps_waste_and_offcuts_apart(station: Station) -> None:
    """An offcut takes its part of the price with it; waste is paid by whoever cut."""
    roll, job = station.roll(), station.job()
    size = (700 * MM, 1_500 * MM)

    done = station.cut(roll, 2 * M, job=job, waste_nm=200 * MM, offcuts=(size,))

    offcut = done.offcuts[0].code
    assert written(done.act) == [
        (roll, "cut", -2 * M, 28 * M, 1_650_000, 300_000, 1_050_000, 1_950),
        (offcut, "keep", 1_500 * MM, 1_500 * MM, 0, 0, 0, 0),
    ]
    assert station.state(offcut).cost_minor == 1_050


def test_an_offcut_inherits_all_but_size_core_and_value(station: Station) -> None:
    """What is true of a roll stays true of a part of it."""
    place = station.place()
    roll = station.roll(lot="L-204", place=place, printed="2026-11", ink="latex")

    offcut = station.cut(roll, M, offcuts=((600 * MM, M),)).offcuts[0].code

    parent, child = station.state(roll), station.state(offcut)
    for name in ("lot", "made", "received", "printed", "printed_by", "ink", "place_id", "owner"):
        assert getattr(child, name) == getattr(parent, name)
    assert (child.form, child.parent, child.width_nm) == ("offcut", roll, 600 * MM)
    assert (child.core_inside_nm, child.core_wall_nm) == (None, None)


def test_an_offcut_that_is_cut_ends_and_its_rest_lives(station: Station) -> None:
    """A sheet that was cut is no more; what is left of it is another sheet with its own code."""
    sheet = station.offcut((1_200 * MM, 2 * M))

    done = station.cut(sheet, 500 * MM)

    rest = done.offcuts[0]
    assert (rest.across_nm, rest.along_nm) == (1_200 * MM, 1_500 * MM)
    assert written(done.act) == [
        (sheet, "cut", -2 * M, 0, 600_000, 0, 1_800_000, 600),
        (rest.code, "keep", 1_500 * MM, 1_500 * MM, 0, 0, 0, 0),
    ]
    assert station.state(sheet).ended == "cut up"
    assert station.state(rest.code).cost_minor == 1_800
    assert is_sound(station.book)


def test_a_rest_too_small_to_keep_is_waste(station: Station) -> None:
    """Nobody labels a strip of 25 cm."""
    sheet = station.offcut((1_200 * MM, 2 * M))

    done = station.cut(sheet, 1_750 * MM)

    assert written(done.act) == [(sheet, "cut", -2 * M, 0, 2_100_000, 300_000, 0, 2_400)]


def test_cuts_what_a_roll_holds_to_the_last(station: Station) -> None:
    """A roll cut empty stays, until somebody sees the bare core."""
    roll = station.roll()

    done = station.cut(roll, 30 * M)

    assert done.left_nm == 0
    assert station.state(roll).ended is None


def test_refuses_more_than_the_roll_has_and_says_the_way_out(station: Station) -> None:
    """Books that are short are counted first, or counted and cut in one act."""
    roll = station.roll()

    with refused(station.book, Code.TOO_LONG, "books short by 400 mm: count it first"):
        station.cut(roll, 30_400 * MM)


def test_an_overrun_counts_and_cuts_in_one_act(station: Station) -> None:
    """What was cut must have been there."""
    roll, job = station.roll(), station.job()
    station.cut(roll, 25 * M)

    done = station.cut(roll, 6 * M, job=job, overrun=True)

    assert written(done.act) == [
        (roll, "count", M, 6 * M, 0, 0, 0, -1_500),
        (roll, "cut", -6 * M, 0, 9_000_000, 0, 0, 9_000),
    ]
    assert done.act.moves[0].facts == {"by": "overrun"}
    assert is_sound(station.book)


def test_an_overrun_far_above_what_the_roll_came_in_with_is_refused(station: Station) -> None:
    """A slip of the finger is no film: 45 m of a roll of 30 m may be, a millimetre more is counted first."""
    roll, other = station.roll(), station.roll()

    with refused(station.book, Code.TOO_LONG, "came in with 30 m: 45 m is hard to believe; count"):
        station.cut(roll, 45 * M + 1, overrun=True)
    assert station.cut(other, 45 * M, overrun=True).left_nm == 0


def test_overrun_changes_nothing_where_the_books_have_enough(station: Station) -> None:
    """Saying it beforehand does no harm."""
    roll = station.roll()

    done = station.cut(roll, 2 * M, overrun=True)

    assert [move.kind for move in done.act.moves] == ["cut"]


def test_a_sheet_is_never_longer_than_it_is(station: Station) -> None:
    """A sheet lies on the table: nothing of it is hidden on a core."""
    sheet = station.offcut((1_200 * MM, 2 * M))

    with refused(station.book, Code.TOO_LONG, "is 2 m long"):
        station.cut(sheet, 2_001 * MM, overrun=True)


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("length_nm", "given"),
    [
        (0, {}),
        (-3 * M, {}),
        (-3 * M, {"overrun": True}),
        (2 * M, {"waste_nm": -M}),
        (2 * M, {"offcuts": ((0, M),)}),
        (2 * M, {"offcuts": ((M, -M),)}),
        (2 * M, {"offcuts": ((-M, -M),)}),
    ],
)
def test_refuses_lengths_that_are_nothing_or_less(
    station: Station, length_nm: int, given: dict[str, Any]
) -> None:
    """A length below nothing would put film on the roll."""
    roll = station.roll()

    with refused(station.book, Code.BAD_LENGTH):
        station.cut(roll, length_nm, **given)


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    "given",
    [
        {"offcuts": ((1_501 * MM, M),)},
        {"offcuts": ((M, 2_001 * MM),)},
        {"offcuts": ((1_500 * MM, M), (1_500 * MM, 1_001 * MM))},
        {"offcuts": ((1_500 * MM, M),), "waste_nm": 1_001 * MM},
        {"waste_nm": 2_001 * MM},
    ],
)
def test_refuses_parts_greater_than_the_whole(station: Station, given: dict[str, Any]) -> None:
    """Waste and offcuts lie inside what is cut."""
    roll = station.roll()

    with refused(station.book, Code.TOO_LONG):
        station.cut(roll, 2 * M, **given)


@pytest.mark.parametrize("sixty_fourths", [15, 64, 113, 1_003])
def test_a_cut_may_be_kept_whole_whatever_its_length(station: Station, sixty_fourths: int) -> None:
    """Areas are rounded one by one; film that fits exactly is never a square millimetre short."""
    roll = station.roll(width_nm=60 * INCH, length_nm=100 * 12 * INCH)
    length_nm = sixty_fourths * INCH // 64
    station.cut(roll, INCH // 64)

    done = station.cut(roll, length_nm, offcuts=((60 * INCH, length_nm),))

    move = done.act.moves[0]
    assert (move.used_mm2, move.wasted_mm2) == (0, 0)
    assert move.cost_minor == 0


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    "given",
    [
        {"job": None, "reason": None},
        {"job": "J0000015", "reason": "sample"},
        {"reason": "because"},
    ],
)
def test_a_cut_is_for_a_job_or_for_a_reason(station: Station, given: dict[str, Any]) -> None:
    """Film that nobody needs is not cut, and one purpose is enough."""
    roll = station.roll()

    with refused(station.book, Code.BAD_USAGE):
        station.cut(roll, M, **given)


def test_refuses_a_closed_job(station: Station) -> None:
    """What was invoiced grows no more."""
    roll, job = station.roll(), station.job()
    station.close(job)

    with refused(station.book, Code.JOB_CLOSED):
        station.cut(roll, M, job=job)


def test_refuses_a_job_and_a_piece_nobody_knows(station: Station) -> None:
    """A code that was never given out is not found."""
    roll = station.roll()

    with refused(station.book, Code.NO_JOB):
        station.cut(roll, M, job="J0000015")
    with refused(station.book, Code.NO_PIECE):
        station.cut("R0009994", M)


def test_refuses_a_box(station: Station) -> None:
    """Blades have no length."""
    box = station.box()

    with refused(station.book, Code.WRONG_FORM, "is a box"):
        station.cut(box, M)


@pytest.mark.parametrize("end", ["discard", "finish", "undo"])
def test_refuses_a_piece_that_has_ended(station: Station, end: str) -> None:
    """What is no more cannot be cut."""
    roll = station.roll()
    getattr(station, end)(roll)

    with refused(station.book, Code.ENDED):
        station.cut(roll, M)


def test_refuses_a_held_piece_whatever_is_said(station: Station) -> None:
    """A hold is somebody's word; only a release takes it back."""
    roll = station.roll()
    station.hold(roll)

    with refused(station.book, Code.HELD, "creased"):
        station.cut(roll, M, despite="in a hurry")


def test_warns_of_film_past_its_limit_and_keeps_the_warning(station: Station) -> None:
    """Film that asks for a test may be cut, and the act remembers that it asked."""
    roll = station.roll(made="2023-01-15", received="2023-02-01")

    done = station.cut(roll, M)

    assert done.verdict is Verdict.TEST
    assert "adhesion trial" in done.warning
    assert done.act.moves[0].facts["verdict"] == "TEST"


def test_film_stopped_by_age_is_cut_only_despite_it(station: Station) -> None:
    """Past the extension a reason and a name are needed, and both are kept."""
    roll = station.roll(made="2023-01-15", received="2023-02-01")
    station.trial(roll, "shelf", until="2026-01-01")

    with refused(station.book, Code.STOPPED, "--despite"):
        station.cut(roll, M)
    done = station.cut(roll, M, despite="a mock-up for one afternoon")

    assert done.verdict is Verdict.STOP
    assert done.act.moves[0].facts["despite"] == "a mock-up for one afternoon"


def test_a_refusal_leaves_no_code_used_up(station: Station) -> None:
    """Codes are handed out with the act or not at all."""
    roll = station.roll()
    before = dump(station.book)["counter"]

    with refused(station.book, Code.TOO_LONG):
        station.cut(roll, 31 * M, offcuts=((M, M),))

    assert dump(station.book)["counter"] == before
