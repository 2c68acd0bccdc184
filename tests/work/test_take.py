"""Counted goods are taken from a box, for a job or for a reason."""

from typing import Any

import pytest

from stockroom.errors import Code
from stockroom.units import M
from tests.builders import ON_ONE_ENGINE, Station, is_sound, refused, written


def test_charges_the_job_with_its_part_of_the_box(station: Station) -> None:
    """Three of a hundred blades cost three hundredths of the box."""
    box, job = station.box(100), station.job()

    done = station.take(box, 3, job=job)

    assert written(done.act) == [(box, "take", -3, 97, 0, 0, 0, 60)]
    assert (done.left, done.cost_minor, done.act.job) == (97, 60, job)
    assert is_sound(station.book)


def test_the_last_one_may_be_taken_and_no_more(station: Station) -> None:
    """An empty box stays until somebody throws it away."""
    box = station.box(3)
    station.take(box, 3)

    with refused(station.book, Code.TOO_MANY, "holds 0"):
        station.take(box, 1)


@ON_ONE_ENGINE
@pytest.mark.parametrize("number", [0, -1, -100])
def test_refuses_numbers_that_are_nothing_or_less(station: Station, number: int) -> None:
    """Taking less than nothing would fill the box."""
    box = station.box()

    with refused(station.book, Code.BAD_NUMBER):
        station.take(box, number)


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    "given",
    [{"job": None, "reason": None}, {"job": "J0000015", "reason": "sample"}, {"reason": "?"}],
)
def test_goods_are_taken_for_a_job_or_for_a_reason(station: Station, given: dict[str, Any]) -> None:
    """One purpose, and a known one."""
    box = station.box()

    with refused(station.book, Code.BAD_USAGE):
        station.take(box, 1, **given)


def test_refuses_a_roll_a_held_box_an_ended_one_and_a_closed_job(station: Station) -> None:
    """What holds for film holds for blades."""
    box, roll, job = station.box(), station.roll(), station.job()

    with refused(station.book, Code.WRONG_FORM):
        station.take(roll, 1)
    station.close(job)
    with refused(station.book, Code.JOB_CLOSED):
        station.take(box, 1, job=job)
    station.hold(box, "rusty")
    with refused(station.book, Code.HELD, "rusty"):
        station.take(box, 1)
    station.discard(box)
    with refused(station.book, Code.ENDED):
        station.take(box, 1)


def test_blades_taken_too_many_come_back(station: Station) -> None:
    """What a job did not need goes back into the box, and off its bill."""
    box, job = station.box(100), station.job()
    station.take(box, 10, job=job)

    done = station.back(box, job, amount=4)

    assert written(done.act) == [(box, "back", 4, 94, 0, 0, 0, -80)]
    with refused(station.book, Code.NOT_DRAWN, "drew 6 from"):
        station.back(box, job, amount=7)
    with refused(station.book, Code.WRONG_FORM):
        station.back(box, job, size=(M, M))
