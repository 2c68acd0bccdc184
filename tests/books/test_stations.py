"""Several stations at one book at once: nothing is lost, doubled or less than nothing."""

from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import cast

import pytest

from stockroom.books.opening import create_book, open_book
from stockroom.units import M
from stockroom.work.look import rack
from stockroom.work.order_draft import Wanted
from tests.books.at_work import (
    LENGTH,
    all_at_once,
    cut_and_look,
    cut_and_undo,
    cut_until_nothing_is_left,
    make,
    name_the_same,
    receive_and_undo,
)
from tests.builders import FILM, Station, dump, is_sound
from tests.ordering import Buyer

STATIONS, CUTS, THERE = 8, 40, 250


@pytest.fixture
def roll(book_url: str) -> Iterator[str]:
    """A roll that holds fewer cuts than all stations together want."""
    with closing(create_book(book_url)) as book:
        yield Station(book).roll(length_nm=THERE * LENGTH)


def test_eight_stations_cut_one_roll_to_its_end(book_url: str, roll: str) -> None:
    """Each cut that was told is in the journal once; the rest were refused; the sum adds up."""
    told = all_at_once(STATIONS, cut_until_nothing_is_left, book_url, roll, CUTS)

    with closing(open_book(book_url)) as book:
        history = Station(book).history(roll)
        cuts = [act for act in history if act.kind == "cut"]
        moves = [move for act in history[::-1] for move in act.moves_of(roll)]
        assert len(told) == THERE
        assert {act.id for act in cuts} == set(told)
        assert [move.seq for move in moves] == list(range(1, THERE + 2))
        assert [move.balance for move in moves] == [n * LENGTH for n in range(THERE, -1, -1)]
        codes = [row["code"] for row in dump(book)["piece"]]
        assert len(codes) == len(set(codes)) > STATIONS
        assert (
            sum(move.cost_minor for act in cuts for move in act.moves)
            + sum(
                one.standing.state.cost_minor or 0
                for one in rack(book, now=history[0].at).pieces
                if one.code != roll
            )
            == Station(book).state(roll).cost_minor
        )
        assert is_sound(book)


def test_stations_that_take_back_each_others_cuts_end_with_the_same_books(
    book_url: str, roll: str
) -> None:
    """Nobody waits for ever, and what was cut and not taken back is what is missing."""
    told = all_at_once(4, cut_and_undo, book_url, roll, 8)

    cut = {one for one in told if isinstance(one, int) and one > 0}
    undone = [-one for one in told if isinstance(one, int) and one < 0]
    with closing(open_book(book_url)) as book:
        assert len(undone) == len(set(undone))
        assert set(undone) <= cut
        left = THERE - len(cut) + len(undone)
        assert Station(book).state(roll).balance == left * LENGTH
        assert is_sound(book)


def test_a_place_is_looked_through_while_others_cut_what_stands_there(
    book_url: str, roll: str
) -> None:
    """Nobody loses a cut, and nobody is told that the roll is missing."""
    with closing(open_book(book_url)) as book:
        station = Station(book)
        place = station.place()
        station.put(roll, place)

    told = all_at_once(4, cut_and_look, book_url, roll, place, 6)

    with closing(open_book(book_url)) as book:
        station = Station(book)
        acts = {act.id: act.kind for act in station.history(roll)}
        kinds = [acts[act] for act, _ in cast("list[tuple[int, bool]]", told)]
        assert sorted(kinds) == ["cut"] * 24 + ["seen"] * 24
        assert all(is_here for _, is_here in cast("list[tuple[int, bool]]", told))
        assert station.state(roll).balance == (THERE - 24) * LENGTH
        assert is_sound(book)


def test_stations_that_receive_one_order_bring_in_no_more_than_was_ordered(book_url: str) -> None:
    """Each roll comes once, and what is taken back is to come again."""
    with closing(create_book(book_url)) as book:
        buyer = Buyer(book)
        buyer.material()
        order = buyer.ordered(Wanted(material=FILM, pieces=12, length_nm=M))

    told = cast("list[int]", all_at_once(4, receive_and_undo, book_url, order, 6))

    with closing(open_book(book_url)) as book:
        buyer = Buyer(book)
        assert told.count(1) > 12 - buyer.open(order)[0] >= 12 - told.count(-1)
        assert sum(told) == 12 - buyer.open(order)[0] == len(rack(book, now=buyer.now).pieces)
        assert is_sound(book)


def test_a_name_is_given_once_however_many_give_it(book_url: str) -> None:
    """One station enters it, the others are told that it is there already."""
    create_book(book_url).close()

    told = all_at_once(4, name_the_same, book_url, 10)

    with closing(open_book(book_url)) as book:
        held = dump(book)
        assert sorted(row["name"] for row in held["material"]) == sorted(
            str(one) for one in told if str(one).startswith("film")
        )
        assert (len(held["material"]), len(held["place"]), len(told)) == (10, 10, 20)


@pytest.mark.parametrize("book_url", ["postgresql"], indirect=True)
def test_eight_stations_make_one_book_on_a_server(book_url: str) -> None:
    """One makes it, the others open it, and all go on."""
    assert all_at_once(STATIONS, make, book_url) == ["made"] * STATIONS
    with closing(open_book(book_url)) as book:
        assert Station(book).cut(Station(book).roll(), M).left_nm == 29 * M


@pytest.mark.parametrize("attempt", range(5))
def test_eight_stations_make_one_book_in_a_file(tmp_path: Path, attempt: int) -> None:
    """The same, as often as it takes to meet in an awkward moment."""
    where = str(tmp_path / "book.db")

    assert all_at_once(STATIONS, make, where) == ["made"] * STATIONS
    with closing(open_book(where)) as book:
        assert is_sound(book)
