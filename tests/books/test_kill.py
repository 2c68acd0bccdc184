"""Power fails and programs are killed: what was told to be done is done, and nothing is half done."""

from collections.abc import Sequence
from contextlib import closing
from hashlib import sha256
from pathlib import Path
from typing import cast

import pytest

from stockroom.books.opening import create_book, open_book
from stockroom.work.delivery import ReceiveAll, deliveries, delivery, receive_all
from stockroom.work.look import log
from tests.books.at_work import answers, make_alone, pipe, start, type_until_killed
from tests.books.storm import set_up, storms_until_killed
from tests.builders import ON_ONE_ENGINE, Station, is_sound
from tests.conftest import NOW
from tests.floor import Floor

KILLS = 200
LONGEST = 0.06
MAKINGS = 20
TYPINGS = 20


def _moment(number: int, longest: float) -> float:
    """A moment to kill at, in seconds: any, and the same in every run."""
    digest = sha256(f"moment {number}".encode()).digest()
    return longest * int.from_bytes(digest[:4]) / 2**32


@pytest.mark.parametrize(
    "book_url",
    ["sqlite", pytest.param("postgresql", marks=pytest.mark.postgresql)],
    indirect=True,
)
def test_a_storm_of_all_acts_loses_and_halves_nothing_when_it_is_killed(book_url: str) -> None:
    """Two hundred stations die at any moment; all they told of is there, whole."""
    with closing(create_book(book_url)) as book:
        jobs = set_up(Floor(book))
    moments = [_moment(number, LONGEST) for number in range(KILLS)]

    told = _told_in_storms(book_url, jobs, moments)

    with closing(open_book(book_url)) as book:
        found = {act.request: act for act in log(book, now=NOW)}
        assert {request: len(found[request].moves) for request in told} == told
        assert len(told) >= KILLS
        kinds = {act.kind for act in found.values()}
        assert {
            "cut",
            "print",
            "out",
            "in",
            "seen",
            "hold",
            "kit",
            "mix",
            "reserve",
            "undo",
        } <= kinds
        assert is_sound(book)


def _told_in_storms(where: str, jobs: tuple[str, ...], moments: Sequence[float]) -> dict[str, int]:
    """What the stations told of before they were killed, each act with the number of its moves."""
    reader, writer = pipe()
    process = start(storms_until_killed, where, jobs, moments, writer)
    writer.close()
    told = cast("list[list[tuple[str, int]]]", answers(reader))
    process.join()
    assert (process.exitcode, len(told)) == (0, len(moments))
    return {request: moves for station in told for request, moves in station}


@pytest.mark.parametrize(
    "book_url",
    ["sqlite", pytest.param("postgresql", marks=pytest.mark.postgresql)],
    indirect=True,
)
def test_a_delivery_half_typed_when_power_goes_is_kept_line_by_line(book_url: str) -> None:
    """Each line that was told of, in order and once; it is received as if nothing had happened."""
    with closing(create_book(book_url)) as book:
        Station(book).material()

    for number in range(TYPINGS):
        name = f"pallet {number}"
        told = _typed_until_killed(book_url, name, number)
        with closing(open_book(book_url)) as book:
            lines = delivery(book, name, now=NOW).lines
            assert [one.line.lot for one in lines] == [f"L-{one}" for one in range(len(lines))]
            assert told == list(range(len(told)))
            assert len(told) <= len(lines) <= len(told) + 1
            request = ReceiveAll(**Station(book).asked(name=name))
            assert len(receive_all(request, book=book, now=NOW).codes) == len(lines)

    with closing(open_book(book_url)) as book:
        assert deliveries(book, now=NOW) == ()
        assert is_sound(book)


def _typed_until_killed(where: str, name: str, number: int) -> list[object]:
    reader, writer = pipe()
    process = start(type_until_killed, where, name, writer)
    writer.close()
    assert reader.poll(30)
    process.join(_moment(number, LONGEST))
    process.kill()
    process.join()
    return answers(reader)


@ON_ONE_ENGINE
def test_a_making_that_was_killed_does_not_stand_in_the_way(tmp_path: Path, book_url: str) -> None:
    """Whatever was there of the file, the next one who makes the book makes it."""
    for number in range(MAKINGS):
        where = str(tmp_path / f"{number}.db")
        process = start(make_alone, where)
        process.join(_moment(number, 0.08))
        process.kill()
        process.join()

        with closing(create_book(where)) as book:
            assert Station(book).roll().startswith("R")
            assert is_sound(book)
