"""A cut somebody forgot to write, found after a count that has already seen it."""

from datetime import timedelta

from stockroom.errors import Code
from stockroom.units import M
from tests.builders import Station, is_sound, refused, written
from tests.conftest import NOW

DAY = timedelta(days=1)


def test_a_late_charge_moves_variance_to_the_job(station: Station) -> None:
    """The count has seen the length leave; only who pays for it changes."""
    roll, job = station.roll(), station.job()
    station.wait(days=3)
    station.count(roll, length_nm=26 * M)
    station.wait(days=1)

    done = station.charge(roll, 4 * M, job, at=NOW + DAY)

    assert written(done.act) == [
        (roll, "charge", 0, 26 * M, 6_000_000, 0, 0, 6_000),
        (roll, "variance", 0, 26 * M, 0, 0, 0, -6_000),
    ]
    assert (done.charged_mm2, done.cost_minor, done.act.job) == (6_000_000, 6_000, job)
    assert (done.act.at, done.act.recorded_at) == (NOW + DAY, NOW + 4 * DAY)
    assert is_sound(station.book)


def test_a_late_charge_does_not_turn_the_clock_of_the_piece_back(station: Station) -> None:
    """What comes next still comes after the count."""
    roll, job = station.roll(), station.job()
    counted = station.wait(days=3)
    station.count(roll, length_nm=26 * M)
    station.wait(days=1)
    station.charge(roll, 4 * M, job, at=NOW + DAY)

    assert station.piece(roll).last_at == counted
    with refused(station.book, Code.TOO_EARLY):
        station.cut(roll, M, at=NOW + 2 * DAY)


def test_a_cut_no_count_has_seen_is_written_as_a_cut(station: Station) -> None:
    """Without a count the film would be charged twice when it is counted."""
    roll, job = station.roll(), station.job()
    station.wait(days=1)
    station.count(roll, length_nm=26 * M)
    station.wait(days=2)

    with refused(station.book, Code.NOT_COUNTED):
        station.charge(roll, 4 * M, job, at=NOW + 2 * DAY)
    station.undo(roll)
    with refused(station.book, Code.NOT_COUNTED):
        station.charge(roll, 4 * M, job, at=NOW)


def test_a_roll_seen_empty_has_been_counted(station: Station) -> None:
    """A bare core says as much as a tape."""
    roll, job = station.roll(), station.job()
    station.wait(days=1)
    station.finish(roll)

    assert station.charge(roll, 30 * M, job, at=NOW).cost_minor == 45_000


def test_refuses_what_cannot_have_been_cut(station: Station) -> None:
    """Before it came, more than it ever held, nothing, in the future, without a time, for nobody."""
    roll, box, job = station.roll(), station.box(), station.job()
    station.wait(days=1)
    station.count(roll, length_nm=26 * M)
    book = station.book

    with refused(book, Code.TOO_EARLY, "was not here yet"):
        station.charge(roll, M, job, at=NOW - DAY)
    with refused(book, Code.TOO_LONG, "never held"):
        station.charge(roll, 31 * M, job, at=NOW)
    with refused(book, Code.BAD_LENGTH):
        station.charge(roll, 0, job, at=NOW)
    with refused(book, Code.BAD_LENGTH):
        station.charge(roll, -M, job, at=NOW)
    with refused(book, Code.FUTURE):
        station.charge(roll, M, job, at=NOW + 2 * DAY)
    with refused(book, Code.BAD_USAGE, "--at"):
        station.charge(roll, M, job, at=None)
    with refused(book, Code.NO_JOB):
        station.charge(roll, M, "J0000015", at=NOW)
    with refused(book, Code.WRONG_FORM):
        station.charge(box, M, job, at=NOW)


def test_refuses_a_closed_job(station: Station) -> None:
    """Late is late."""
    roll, job = station.roll(), station.job()
    station.count(roll, length_nm=26 * M)
    station.close(job)

    with refused(station.book, Code.JOB_CLOSED):
        station.charge(roll, M, job, at=NOW)


def test_film_charged_late_can_come_back(station: Station) -> None:
    """The job drew it, whenever it was written."""
    roll, job = station.roll(), station.job()
    station.count(roll, length_nm=26 * M)
    station.charge(roll, 4 * M, job, at=NOW)

    assert station.back(roll, job, amount=4 * M).left == 30 * M
    assert is_sound(station.book)


def test_a_late_charge_can_be_undone(station: Station) -> None:
    """The price goes back to variance, and the length stays where the count left it."""
    roll, job = station.roll(), station.job()
    station.wait(days=1)
    station.count(roll, length_nm=26 * M)
    station.charge(roll, 4 * M, job, at=NOW)

    done = station.undo(roll)

    assert written(done.act) == [
        (roll, "undo", 0, 26 * M, 0, 0, 0, 6_000),
        (roll, "undo", 0, 26 * M, -6_000_000, 0, 0, -6_000),
    ]
    assert is_sound(station.book)
