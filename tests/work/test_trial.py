"""The adhesion trial: passed, it extends the shelf limit; failed, it holds the piece."""

from datetime import timedelta

from stockroom.errors import Code
from stockroom.film.verdict import Judgement, Verdict
from stockroom.units import M
from stockroom.work.look import piece, rack
from tests.builders import ON_ONE_ENGINE, Station, is_sound, refused


def _judged(station: Station, code: str) -> Judgement:
    return piece(station.book, code, now=station.now).judged.judgement


def test_a_passed_trial_turns_test_into_use_first_for_its_extension(station: Station) -> None:
    """Six months by default; the day after them it is STOP."""
    roll = station.roll(made="2024-10-01")
    before = _judged(station, roll).verdict

    act = station.try_adhesion(roll, passed=True, note="peeled clean")
    after = _judged(station, roll)
    station.wait(days=182)

    assert (before, after.verdict) == (Verdict.TEST, Verdict.USE_FIRST)
    assert station.state(roll).shelf_passed == "2027-05-25"
    assert act.moves[0].facts == {"trial": "adhesion", "passed": True}
    assert act.note == "peeled clean"
    assert _judged(station, roll).verdict is Verdict.STOP
    assert is_sound(station.book)


def test_a_failed_trial_holds_the_piece(station: Station) -> None:
    """Nobody cuts it, whatever is said, until somebody releases it; an old pass is void."""
    roll = station.roll(made="2024-10-01")
    station.try_adhesion(roll, passed=True)

    station.try_adhesion(roll, passed=False)

    assert _judged(station, roll).verdict is Verdict.STOP
    assert station.state(roll).held == "failed adhesion trial"
    with refused(station.book, Code.HELD, "failed adhesion trial"):
        station.cut(roll, M, despite="no matter")
    station.release(roll)
    assert _judged(station, roll).verdict is Verdict.TEST


def test_the_reason_of_a_hold_is_not_painted_over(station: Station) -> None:
    """A held piece may be tried; failing twice is said once."""
    roll = station.roll()
    station.hold(roll, "creased")

    station.try_adhesion(roll, passed=False)
    assert station.state(roll).held == "creased; failed adhesion trial"
    station.undo(roll)
    assert station.state(roll).held == "creased"
    station.release(roll)
    station.try_adhesion(roll, passed=False)
    station.try_adhesion(roll, passed=False)
    assert station.state(roll).held == "failed adhesion trial"


def test_a_trial_is_undone_and_a_day_before_it_knows_nothing(station: Station) -> None:
    """As of yesterday, the piece is to be tested."""
    roll = station.roll(made="2024-10-01")
    yesterday = rack(station.book, now=station.now).view.today
    station.wait(days=1)
    station.try_adhesion(roll, passed=True)

    (then,) = rack(station.book, now=station.now, today=yesterday).pieces
    station.undo(roll)

    assert then.judgement.verdict is Verdict.TEST
    assert station.state(roll).shelf_passed is None
    assert _judged(station, roll).verdict is Verdict.TEST


def test_the_house_says_how_long_a_passed_trial_holds(station: Station) -> None:
    """Counted from the day of the trial, which may have been written down late."""
    roll = station.roll(made="2024-10-01")
    station.wait(days=3)

    station.try_adhesion(roll, passed=True, at=station.now - timedelta(days=2))

    assert station.state(roll).shelf_passed == "2027-05-26"


@ON_ONE_ENGINE
def test_refuses_to_try_what_is_no_film_or_no_more(station: Station) -> None:
    """A box has no adhesive to look at."""
    roll, box = station.roll(), station.box()
    station.discard(roll)

    with refused(station.book, Code.WRONG_FORM):
        station.try_adhesion(box, passed=True)
    with refused(station.book, Code.ENDED):
        station.try_adhesion(roll, passed=True)
