"""What comes back from a job: onto the roll it never left, or as an offcut of its own."""

from typing import Any

import pytest

from stockroom.errors import Code
from stockroom.units import INCH, MM, M
from tests.builders import ON_ONE_ENGINE, Station, is_sound, refused, written


def test_film_that_was_never_severed_goes_back_on_the_roll(station: Station) -> None:
    """The balance rises, and the job pays for what it used."""
    roll, job = station.roll(), station.job()
    station.cut(roll, 5 * M, job=job)

    done = station.back(roll, job, amount=2 * M)

    assert written(done.act) == [(roll, "back", 2 * M, 27 * M, -3_000_000, 0, 0, -3_000)]
    assert (done.piece, done.left, done.cost_minor) == (roll, 27 * M, -3_000)
    assert is_sound(station.book)


def test_a_severed_part_becomes_an_offcut_with_its_part_of_the_bill(station: Station) -> None:
    """The roll does not grow; the sheet takes what the job paid for it with it."""
    roll, job = station.roll(lot="L-204"), station.job()
    station.cut(roll, 5 * M, job=job)

    done = station.back(roll, job, size=(1_000 * MM, 1_500 * MM))

    assert done.piece.startswith("C")
    assert written(done.act) == [
        (roll, "severed", 0, 25 * M, -1_500_000, 0, 1_500_000, -1_500),
        (done.piece, "keep", 1_500 * MM, 1_500 * MM, 0, 0, 0, 0),
    ]
    sheet = station.state(done.piece)
    assert (sheet.form, sheet.width_nm, sheet.lot) == ("offcut", 1_000 * MM, "L-204")
    assert (sheet.cost_minor, sheet.parent) == (1_500, roll)
    assert is_sound(station.book)


def test_only_what_the_job_drew_can_come_back(station: Station) -> None:
    """Neither waste, nor offcuts, nor what other jobs drew, nor what was already returned."""
    roll, job, other = station.roll(), station.job(), station.job("library")
    station.cut(roll, 5 * M, job=other)
    station.cut(roll, 4 * M, job=job, waste_nm=M, offcuts=((1_500 * MM, M),))
    station.back(roll, job, amount=500 * MM)

    with refused(station.book, Code.NOT_DRAWN, "drew 1.5 m from"):
        station.back(roll, job, amount=1_501 * MM)
    with refused(station.book, Code.NOT_DRAWN, "drew 2.25 m² from"):
        station.back(roll, job, size=(1_500 * MM, 1_501 * MM))
    with refused(station.book, Code.NOT_DRAWN):
        station.back(roll, job, size=(1_501 * MM, M))
    assert station.back(roll, job, amount=1_500 * MM).cost_minor == -2_250


def test_nothing_comes_back_of_a_cut_that_was_undone(station: Station) -> None:
    """What was taken back already cannot come back again."""
    roll, job = station.roll(), station.job()
    station.cut(roll, 5 * M, job=job)
    station.undo(roll)

    with refused(station.book, Code.NOT_DRAWN):
        station.back(roll, job, amount=M)


def test_a_severed_part_comes_back_from_a_sheet_that_was_cut_up(station: Station) -> None:
    """The sheet is no more, but what the job took of it may be left over."""
    sheet, job = station.offcut((1_200 * MM, 2 * M)), station.job()
    station.cut(sheet, 2 * M, job=job)

    done = station.back(sheet, job, size=(1_200 * MM, M))

    assert (done.piece[0], done.left) == ("C", M)
    with refused(station.book, Code.ENDED):
        station.back(sheet, job, amount=M)


@pytest.mark.parametrize("sixty_fourths", [15, 64, 113, 1_003])
def test_all_of_a_cut_may_come_back_whatever_its_length(
    station: Station, sixty_fourths: int
) -> None:
    """Areas are rounded one by one; film that fits exactly is never a square millimetre too much."""
    roll = station.roll(width_nm=60 * INCH, length_nm=1_200 * INCH)
    job = station.job()
    length_nm = sixty_fourths * INCH // 64
    station.cut(roll, INCH // 64)
    station.cut(roll, length_nm, job=job)

    station.back(roll, job, amount=length_nm)
    station.undo(roll)
    severed = station.back(roll, job, size=(60 * INCH, length_nm))

    assert severed.cost_minor == -station.state(severed.piece).cost_minor  # type: ignore[operator]
    assert is_sound(station.book)


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({}, Code.BAD_USAGE),
        ({"amount": M, "size": (M, M)}, Code.BAD_USAGE),
        ({"amount": 0}, Code.BAD_LENGTH),
        ({"amount": -M}, Code.BAD_LENGTH),
        ({"size": (0, M)}, Code.BAD_LENGTH),
        ({"size": (-M, -M)}, Code.BAD_LENGTH),
    ],
)
def test_refuses_nothing_and_less(station: Station, given: dict[str, Any], code: Code) -> None:
    """Bringing back less than nothing would take film without a job."""
    roll, job = station.roll(), station.job()
    station.cut(roll, 5 * M, job=job)

    with refused(station.book, code):
        station.back(roll, job, **given)


def test_a_closed_job_gives_nothing_back(station: Station) -> None:
    """Its bill has been written."""
    roll, job = station.roll(), station.job()
    station.cut(roll, 5 * M, job=job)
    station.close(job)

    with refused(station.book, Code.JOB_CLOSED):
        station.back(roll, job, amount=M)


def test_film_comes_back_to_a_held_roll(station: Station) -> None:
    """A hold stops taking, not bringing."""
    roll, job = station.roll(), station.job()
    station.cut(roll, 5 * M, job=job)
    station.hold(roll)

    assert station.back(roll, job, amount=M).left == 26 * M
