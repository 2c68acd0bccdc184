"""Power fails and programs are killed: what was told to be done is done, and nothing is half done."""

from contextlib import closing
from hashlib import sha256
from pathlib import Path

import pytest

from stockroom.books.opening import create_book, open_book
from stockroom.units import M
from tests.books.at_work import LENGTH, answers, cut_until_killed, make_alone, pipe, start
from tests.builders import ON_ONE_ENGINE, Station, is_sound

KILLS = 50
MAKINGS = 20


def _moment(number: int, longest: float) -> float:
    """A moment to kill at, in seconds: any, and the same in every run."""
    digest = sha256(f"moment {number}".encode()).digest()
    return longest * int.from_bytes(digest[:4]) / 2**32


@pytest.mark.parametrize(
    ("book_url", "longest"),
    [
        ("sqlite", 0.06),
        pytest.param("postgresql", 0.06, marks=pytest.mark.postgresql),
    ],
    indirect=["book_url"],
)
def test_nothing_acknowledged_is_missing_after_a_kill(book_url: str, longest: float) -> None:
    """Fifty writers are killed at any moment; every cut they told of is there, whole."""
    with closing(create_book(book_url)) as book:
        roll = Station(book).roll(length_nm=5_000 * M)
    told: set[object] = set()

    for number in range(KILLS):
        reader, writer = pipe()
        process = start(cut_until_killed, book_url, roll, writer)
        writer.close()
        assert reader.poll(30)
        process.join(_moment(number, longest))
        process.kill()
        process.join()
        told.update(answers(reader))

    with closing(open_book(book_url)) as book:
        cuts = [act for act in Station(book).history(roll) if act.kind == "cut"]
        assert told <= {act.request for act in cuts}
        assert len(told) >= KILLS
        assert len(cuts) <= len(told) + KILLS
        assert Station(book).state(roll).balance == 5_000 * M - len(cuts) * LENGTH
        assert {len(act.moves) for act in cuts} == {2}
        assert is_sound(book)


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
