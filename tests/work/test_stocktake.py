"""A place is scanned, then what stands in it: found, missing, unexpected, in the wrong place."""

from typing import Any

import pytest

from stockroom.books.pen import writing
from stockroom.books.pieces import standings_as_of
from stockroom.errors import Code
from stockroom.units import MM, M
from stockroom.work import stocktake
from stockroom.work.stocktake import Found, Sighting
from tests.builders import is_sound, refused, written
from tests.floor import Floor


def test_a_stocktake_says_what_is_here_elsewhere_and_missing(floor: Floor) -> None:
    """Found pieces are put there; nothing is thrown away."""
    bay, other = floor.place("A1"), floor.place("A2")
    right, lost = floor.rolls(pieces=2, place=bay)
    wrong, nowhere = floor.roll(place=other), floor.roll()

    done = floor.seen("a1", right, wrong, nowhere)

    assert done.sightings == (
        Sighting(right, Found.HERE, 1),
        Sighting(wrong, Found.ELSEWHERE, 2),
        Sighting(nowhere, Found.ELSEWHERE, None),
        Sighting(lost, Found.MISSING, 1),
    )
    assert [floor.state(code).place_id for code in (right, wrong, nowhere, lost)] == [1, 1, 1, 1]
    assert written(done.act)[-1] == (lost, "not-seen", 0, 30 * M, 0, 0, 0, 0)
    assert floor.state(lost).ended is None
    assert is_sound(floor.book)


def test_what_the_books_have_ended_or_away_is_unexpected(floor: Floor) -> None:
    """It is said, and changes nothing of what the books know."""
    bay = floor.place("A1")
    binned, away = floor.roll(), floor.roll(place=bay)
    floor.discard(binned)
    floor.go_out(away)

    done = floor.seen(bay, binned, away)

    assert [one.found for one in done.sightings] == [Found.ENDED, Found.OUT]
    assert (floor.state(binned).ended, floor.state(away).out_to) == ("discarded", "van 2")
    assert is_sound(floor.book)


def test_what_somebody_does_while_a_place_is_looked_through_is_not_missing(
    floor: Floor, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another station cuts, moves and throws away between the look and the writing."""
    bay, other = floor.place("A1"), floor.place("A2")
    right, moved, thrown = floor.rolls(pieces=3, place=bay)
    sheet = floor.cut(right, 2 * M, offcuts=((1_200 * MM, 2 * M),)).offcuts[0].code

    def meanwhile(*asked: Any, **given: Any) -> Any:
        monkeypatch.undo()
        floor.cut(right, M)
        floor.put(moved, other)
        floor.discard(thrown)
        floor.cut(sheet, M)
        return writing(*asked, **given)

    monkeypatch.setattr(stocktake, "writing", meanwhile)
    done = floor.seen(bay, right, sheet)

    assert [(one.piece, one.found) for one in done.sightings] == [
        (right, Found.HERE),
        (sheet, Found.ENDED),
    ]
    assert floor.state(right).balance == 27 * M
    assert floor.state(moved).place_id == 2
    assert is_sound(floor.book)


def test_a_label_whose_roll_was_taken_back_is_unexpected_now_and_later(floor: Floor) -> None:
    """What was received by mistake is nothing, before its label is met and after that is taken back."""
    bay = floor.place("A1")
    mistaken = floor.roll()
    floor.undo(mistaken)

    done = floor.seen(bay, mistaken)

    assert [one.found for one in done.sightings] == [Found.ENDED]
    assert is_sound(floor.book)
    with floor.book.reading() as connection:
        assert standings_as_of(connection, floor.now) == ()
    floor.undo(mistaken)
    assert (floor.state(mistaken).ended, floor.state(mistaken).balance) == ("undone", 0)
    assert is_sound(floor.book)


def test_a_van_that_is_a_place_has_what_went_out_with_it(floor: Floor) -> None:
    """What is out with the van stands in the van."""
    van = floor.place("van 2", zone="road")
    there, lost = floor.roll(), floor.roll()
    floor.go_out(there, "Van 2")
    floor.go_out(lost, van)

    done = floor.seen(van, there)

    assert [(one.piece, one.found) for one in done.sightings] == [
        (there, Found.HERE),
        (lost, Found.MISSING),
    ]


def test_a_piece_scanned_twice_is_one_and_undo_takes_the_whole_place_back(floor: Floor) -> None:
    """One act on all that was found and missed."""
    bay, other = floor.place("A1"), floor.place("A2")
    wrong, lost = floor.roll(place=other), floor.roll(place=bay)

    done = floor.seen(bay, wrong, wrong)
    floor.undo(lost)

    assert len(done.sightings) == 2
    assert (floor.state(wrong).place_id, floor.state(lost).place_id) == (2, 1)
    assert is_sound(floor.book)


def test_refuses_an_unknown_place_an_unknown_code_and_nothing_at_all(floor: Floor) -> None:
    """A stocktake is written whole or not at all."""
    bay = floor.place("A1")
    roll = floor.roll()

    with refused(floor.book, Code.NO_PLACE):
        floor.seen("Z9", roll)
    with refused(floor.book, Code.NO_PIECE):
        floor.seen(bay, roll, "R0009994")
    with refused(floor.book, Code.BAD_USAGE, "nothing to write"):
        floor.seen(bay)
