"""The report of every place: seen when, what is missing or waits, how far the books were off."""

from stockroom.errors import Code
from stockroom.units import MM, M
from stockroom.work.stocktakes import PlaceTaken, stocktakes
from tests.builders import refused
from tests.floor import Floor


def _at(floor: Floor, place: str) -> PlaceTaken:
    return stocktakes(floor.book, now=floor.now, place=place).places[0]


def test_a_place_nobody_looked_through_says_so(floor: Floor) -> None:
    """How many stand there is known, what is missing is not."""
    bay = floor.place("A1")
    floor.rolls(pieces=2, place=bay)

    found = _at(floor, "a1")

    assert (found.pieces, found.seen_at, found.seen_by, found.missing) == (2, None, None, ())


def test_what_was_not_seen_is_missing_until_somebody_has_it_in_hand(floor: Floor) -> None:
    """A hold is no sight of it; a cut, a move or another stocktake is."""
    bay = floor.place("A1")
    lost, cut, moved = floor.rolls(pieces=3, place=bay, lot="L-1")
    floor.seen(bay)
    floor.hold_lot("L-1")
    all_of_them = [one.code for one in _at(floor, bay).missing]
    floor.release_lot("L-1")
    floor.cut(cut, M)
    floor.put(moved, floor.place("A2"))

    assert all_of_them == [lost, cut, moved]
    assert [one.code for one in _at(floor, bay).missing] == [lost]
    floor.seen(bay, lost, cut)
    assert _at(floor, bay).missing == ()


def test_the_variance_is_what_counts_of_that_day_and_since_found(floor: Floor) -> None:
    """Short in area and money; a late charge explains a part of it; a client's film is not ours."""
    bay, job = floor.place("A1"), floor.job()
    long_ago = floor.roll(place=bay)
    floor.count(long_ago, length_nm=29 * M)
    floor.wait(days=3)
    short, theirs = floor.roll(place=bay), floor.roll(place=bay, owner="client", cost_minor=None)
    cut_at = floor.now
    floor.count(short, length_nm=26 * M)
    floor.seen(bay, long_ago, short, theirs)
    floor.count(theirs, length_nm=20 * M)

    counted = _at(floor, bay)
    floor.charge(short, M, job, cut_at)
    explained = _at(floor, bay)

    assert (counted.variance_mm2, counted.variance_minor) == (-6_000_000, -6_000)
    assert (explained.variance_mm2, explained.variance_minor) == (-4_500_000, -4_500)


def test_a_count_that_waits_is_listed_and_an_undone_stocktake_never_was(floor: Floor) -> None:
    """The stocktake before is the newest again."""
    bay = floor.place("A1")
    roll = floor.roll(place=bay)
    floor.seen(bay, roll)
    first = floor.now
    floor.wait(hours=2)
    floor.seen(bay)
    floor.undo(roll)
    floor.count_blind(roll, length_nm=500 * MM)

    found = _at(floor, bay)

    assert (found.seen_at, found.missing) == (first, ())
    assert [one.code for one in found.waiting] == [roll]


def test_all_places_are_shown_or_one_that_is_known(floor: Floor) -> None:
    """By name, as the list of places is."""
    floor.place("B2")
    floor.place("A1")

    found = stocktakes(floor.book, now=floor.now)

    assert [one.place.name for one in found.places] == ["A1", "B2"]
    with refused(floor.book, Code.NO_PLACE):
        _at(floor, "Z9")
