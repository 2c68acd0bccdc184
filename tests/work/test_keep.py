"""What is done to a piece without taking film: put, hold, release, discard."""

import pytest

from stockroom.errors import Code
from stockroom.units import M
from tests.builders import ON_ONE_ENGINE, Station, is_sound, refused, written


def test_a_piece_stands_where_it_was_put_last(station: Station) -> None:
    """A place is found by its name, in any case, and by its code."""
    roll, bay, van = station.roll(), station.place("Bay 2"), station.place("van", zone="road")

    by_name = station.put(roll, "bay  2")
    at_first = station.state(roll).place_id
    station.put(roll, van)

    assert written(by_name) == [(roll, "put", 0, 30 * M, 0, 0, 0, 0)]
    assert (at_first, station.state(roll).place_id) == (1, 2)
    assert bay.startswith("P")
    assert is_sound(station.book)


def test_refuses_a_place_nobody_knows(station: Station) -> None:
    """A piece is never put nowhere."""
    roll = station.roll()

    with refused(station.book, Code.NO_PLACE):
        station.put(roll, "A9")


def test_a_hold_stops_a_piece_until_it_is_released(station: Station) -> None:
    """Both need a reason, and both reasons stay on record."""
    roll = station.roll()

    held = station.hold(roll, "creased")
    released = station.release(roll, "only the outer wrap")

    assert written(held) == [(roll, "hold", 0, 30 * M, 0, 0, 0, 0)]
    assert held.moves[0].sets == {"held": "creased"}
    assert released.moves[0].sets == {"held": None}
    assert released.moves[0].facts == {"why": "only the outer wrap"}
    assert station.cut(roll, M).left_nm == 29 * M


def test_holding_twice_and_releasing_what_is_not_held_are_refused(station: Station) -> None:
    """The first reason is not painted over."""
    roll = station.roll()

    with refused(station.book, Code.NOT_HELD):
        station.release(roll)
    station.hold(roll)
    with refused(station.book, Code.ALREADY_THERE, "creased"):
        station.hold(roll, "something else")


def test_a_discarded_piece_ends_as_waste(station: Station) -> None:
    """What was left of it is waste, and its price is lost."""
    roll = station.roll()
    station.cut(roll, 20 * M)

    act = station.discard(roll, "crushed")

    assert written(act) == [(roll, "discard", -10 * M, 0, 0, 15_000_000, 0, 15_000)]
    assert act.moves[0].facts == {"why": "crushed"}
    assert station.state(roll).ended == "discarded"
    assert is_sound(station.book)


def test_a_held_piece_and_a_box_may_be_thrown_away(station: Station) -> None:
    """A hold keeps film from jobs, not from the bin."""
    roll, box = station.roll(), station.box(100)
    station.hold(roll)

    station.discard(roll)

    assert written(station.discard(box)) == [(box, "discard", -100, 0, 0, 0, 0, 2_000)]


@ON_ONE_ENGINE
@pytest.mark.parametrize("script", ["hold", "release", "discard"])
def test_refuses_to_act_without_a_reason(station: Station, script: str) -> None:
    """Somebody will ask in a year."""
    roll = station.roll()
    if script == "release":
        station.hold(roll)

    with refused(station.book, Code.BAD_USAGE, "--why"):
        getattr(station, script)(roll, "")


@ON_ONE_ENGINE
@pytest.mark.parametrize("script", ["put", "hold", "release", "discard"])
def test_nothing_is_done_to_what_is_no_more(station: Station, script: str) -> None:
    """A piece that was thrown away is neither put, held, released nor thrown away again."""
    roll, place = station.roll(), station.place()
    station.discard(roll)

    with refused(station.book, Code.ENDED, "discarded"):
        getattr(station, script)(roll, place)


@ON_ONE_ENGINE
@pytest.mark.parametrize("script", ["put", "hold", "release", "discard"])
def test_a_code_that_was_never_given_out_is_not_found(station: Station, script: str) -> None:
    """A well-formed code of nobody's piece changes nothing."""
    place = station.place()

    with refused(station.book, Code.NO_PIECE):
        getattr(station, script)("R0009994", place)
