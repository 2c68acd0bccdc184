"""Counted blind: within the tolerance it settles the books, beyond it a second counter is asked."""

from typing import Any

import pytest

from stockroom.errors import Code
from stockroom.units import MM, M
from stockroom.work.blind import waiting_of
from tests.builders import ON_ONE_ENGINE, is_sound, refused, written
from tests.floor import Floor


def test_a_count_within_the_tolerance_corrects_the_books(floor: Floor) -> None:
    """29.4 m of 30: two percent."""
    roll = floor.roll()

    done = floor.count_blind(roll, length_nm=29_400 * MM)

    assert (done.waiting, done.left) == ((), 29_400 * MM)
    assert written(done.act) == [(roll, "count", -600 * MM, 29_400 * MM, 0, 0, 0, 900)]
    assert is_sound(floor.book)


def test_beyond_the_tolerance_nothing_changes_until_a_second_counter_agrees(floor: Floor) -> None:
    """The second need not say the same to the millimetre; the newer figure counts."""
    roll = floor.roll()

    first = floor.count_blind(roll, "Ida M.", length_nm=27 * M)
    between = floor.state(roll)
    second = floor.count_blind(roll, "Tom R.", length_nm=27_300 * MM)

    assert [(one.found, one.by, one.books) for one in first.waiting] == [(27 * M, "Ida M.", 30 * M)]
    assert (first.left, first.differs, between.balance) == (30 * M, False, 30 * M)
    assert (second.waiting, second.left) == ((), 27_300 * MM)
    assert floor.state(roll).recount is None
    assert is_sound(floor.book)


def test_a_second_counter_who_disagrees_leaves_both_figures_for_a_third(floor: Floor) -> None:
    """The books stay as they are; the third settles it with whom it agrees."""
    roll = floor.roll()
    floor.count_blind(roll, "Ida M.", length_nm=27 * M)

    second = floor.count_blind(roll, "Tom R.", length_nm=24 * M)
    kept = waiting_of(floor.state(roll))
    third = floor.count_blind(roll, "Ana P.", length_nm=24_100 * MM)

    assert second.differs
    assert [(one.by, one.found) for one in kept] == [("Ida M.", 27 * M), ("Tom R.", 24 * M)]
    assert second.left == 30 * M
    assert (third.left, third.waiting) == (24_100 * MM, ())


def test_a_third_counter_may_find_the_books_right(floor: Floor) -> None:
    """Two who disagree, and one who found what the books say."""
    roll = floor.roll()
    floor.count_blind(roll, "Ida M.", length_nm=27 * M)
    floor.count_blind(roll, "Tom R.", length_nm=24 * M)

    assert floor.count_blind(roll, "Ana P.", length_nm=30 * M).left == 30 * M
    assert floor.state(roll).recount is None


def test_the_same_person_is_no_second_counter(floor: Floor) -> None:
    """In whatever case the name is typed."""
    roll = floor.roll()
    floor.count_blind(roll, "Ida M.", length_nm=27 * M)

    with refused(floor.book, Code.SAME_COUNTER, "somebody else"):
        floor.count_blind(roll, "IDA M.", length_nm=27 * M)


def test_a_cut_between_two_counts_makes_no_difference(floor: Floor) -> None:
    """Both are three metres off the books."""
    roll = floor.roll()
    floor.count_blind(roll, "Ida M.", length_nm=27 * M)
    floor.cut(roll, 10 * M)

    assert floor.count_blind(roll, "Tom R.", length_nm=17 * M).left == 17 * M
    assert is_sound(floor.book)


def test_a_band_that_allows_the_books_confirms_them(floor: Floor) -> None:
    """A diameter is never sharp; two that overlap are one."""
    roll = floor.roll()

    confirmed = floor.count_blind(roll, outside_nm=101 * MM)
    floor.count_blind(roll, "Ida M.", outside_nm=95 * MM)
    second = floor.count_blind(roll, "Tom R.", outside_nm=95_500_000)

    assert confirmed.left == 30 * M
    assert second.waiting == ()


def test_an_open_count_and_an_undo_end_the_waiting(floor: Floor) -> None:
    """Whoever sees the books may settle it; a count taken back never was."""
    roll, box = floor.roll(), floor.box(100)
    floor.count_blind(roll, length_nm=27 * M)
    floor.count_blind(box, number=80)

    floor.count(roll, length_nm=26 * M)
    floor.undo(box)

    assert [floor.state(code).recount for code in (roll, box)] == [None, None]
    assert floor.state(box).balance == 100
    assert is_sound(floor.book)


def test_the_shop_sets_the_tolerance(floor: Floor) -> None:
    """Ten percent, and 27 of 30 is near enough."""
    roll = floor.roll()
    floor.set_value("count.tolerance-percent", "10%")

    assert floor.count_blind(roll, length_nm=27 * M).waiting == ()


def test_a_late_charge_needs_a_count_that_settled(floor: Floor) -> None:
    """A figure that waits has corrected nothing."""
    roll, job = floor.roll(), floor.job()
    floor.wait(hours=1)
    floor.count_blind(roll, length_nm=20 * M)

    with refused(floor.book, Code.NOT_COUNTED):
        floor.charge(roll, M, job, at=floor.now)


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({}, Code.BAD_USAGE),
        ({"length_nm": M, "outside_nm": M}, Code.BAD_USAGE),
        ({"length_nm": -1}, Code.BAD_LENGTH),
        ({"number": 3}, Code.WRONG_FORM),
        ({"length_nm": 60 * M}, Code.TOO_LONG),
    ],
)
def test_refuses_what_is_no_count(floor: Floor, given: dict[str, Any], code: Code) -> None:
    """As with the books open."""
    roll = floor.roll()

    with refused(floor.book, code):
        floor.count_blind(roll, **given)
