"""Offcuts too small to keep go in the bin by the handful."""

from stockroom.errors import Code
from stockroom.units import MM, M
from stockroom.work.look import rack
from tests.builders import is_sound, refused, written
from tests.floor import Floor


def test_small_offcuts_end_as_waste_in_one_act(floor: Floor) -> None:
    """Nobody counts them any more."""
    first, second = floor.offcut((200 * MM, M)), floor.offcut((100 * MM, 2 * M))

    act = floor.scrap(first, second, first)

    assert written(act) == [
        (first, "scrap", -M, 0, 0, 200_000, 0, 200),
        (second, "scrap", -2 * M, 0, 0, 200_000, 0, 200),
    ]
    assert floor.state(first).ended == "scrap bin"
    on_hand = {one.code for one in rack(floor.book, now=floor.now).pieces}
    assert on_hand.isdisjoint({first, second})
    assert is_sound(floor.book)


def test_what_is_worth_keeping_is_not_dropped_by_mistake(floor: Floor) -> None:
    """One of them, and none is dropped."""
    small, big = floor.offcut((200 * MM, M)), floor.offcut()

    with refused(floor.book, Code.NOT_SCRAP, "big enough to keep"):
        floor.scrap(small, big)
    with refused(floor.book, Code.WRONG_FORM):
        floor.scrap(floor.history(small)[-1].moves[0].piece)
    with refused(floor.book, Code.BAD_USAGE):
        floor.scrap()


def test_a_print_for_a_job_is_no_scrap(floor: Floor) -> None:
    """However small a tile is, somebody waits for it."""
    tile = floor.print(floor.blank(), 200 * MM, job=floor.job()).code

    with refused(floor.book, Code.NOT_SCRAP, "serves a job"):
        floor.scrap(tile)


def test_the_bin_can_be_undone(floor: Floor) -> None:
    """From any of its offcuts, all of them."""
    first, second = floor.offcut((200 * MM, M)), floor.offcut((100 * MM, 2 * M))
    floor.scrap(first, second)

    floor.undo(second)

    assert (floor.state(first).ended, floor.state(first).balance) == (None, M)
    assert is_sound(floor.book)
