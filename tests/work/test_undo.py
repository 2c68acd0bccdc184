"""Undo takes a whole act back, by writing another one."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from sqlalchemy import Connection

from stockroom.books.opening import Book
from stockroom.errors import Code, Refusal
from stockroom.units import MM, M
from stockroom.work.undo import Undo, undo
from tests.builders import Station, is_sound, refused, written


def test_a_cut_is_taken_back_with_its_offcuts(station: Station) -> None:
    """The film is on the roll again, the job's bill is what it was, and the offcut ends."""
    roll, job = station.roll(), station.job()
    done = station.cut(roll, 2 * M, job=job, waste_nm=100 * MM, offcuts=((700 * MM, 1_500 * MM),))
    offcut = done.offcuts[0].code

    undone = station.undo(roll)

    assert written(undone.act) == [
        (offcut, "undo", -1_500 * MM, 0, 0, 0, 0, 0),
        (roll, "undo", 2 * M, 30 * M, -1_800_000, -150_000, -1_050_000, -1_950),
    ]
    assert (undone.undone, undone.left, undone.act.reverses) == (done.act.id, 30 * M, done.act.id)
    assert undone.act.job == job
    assert station.state(offcut).ended == "undone"
    assert is_sound(station.book)


def test_what_was_done_stays_on_record(station: Station) -> None:
    """Nothing is rubbed out: the act and its undo both stand in the log."""
    roll = station.roll()
    station.cut(roll, 2 * M)
    station.undo(roll)

    history = station.history(roll)

    assert [(act.kind, act.is_reversed) for act in history] == [
        ("undo", False),
        ("cut", True),
        ("receive", False),
    ]


def test_an_overrun_is_taken_back_whole(station: Station) -> None:
    """The count that was part of the cut goes with it, and the journal adds up all the way."""
    roll = station.roll()
    station.cut(roll, 25 * M)
    station.cut(roll, 6 * M, overrun=True)

    undone = station.undo(roll)

    assert written(undone.act) == [
        (roll, "undo", 6 * M, 6 * M, -9_000_000, 0, 0, -9_000),
        (roll, "undo", -M, 5 * M, 0, 0, 0, 1_500),
    ]
    assert undone.left == 5 * M
    assert is_sound(station.book)


def test_a_second_undo_takes_the_act_before_and_never_the_undo(station: Station) -> None:
    """Whoever goes back twice goes two steps back."""
    roll = station.roll()
    first = station.cut(roll, 2 * M).act.id
    second = station.cut(roll, 3 * M).act.id

    assert station.undo(roll).undone == second
    assert station.undo(roll).undone == first
    assert station.state(roll).balance == 30 * M
    assert is_sound(station.book)


def test_a_piece_whose_receipt_was_undone_is_no_more(station: Station) -> None:
    """A delivery written by mistake leaves used codes, and nothing on the rack."""
    rolls = station.rolls(pieces=3)

    undone = station.undo(rolls[1])

    assert len(undone.act.moves) == 3
    assert [station.state(roll).ended for roll in rolls] == ["undone"] * 3
    with refused(station.book, Code.NOTHING_TO_UNDO):
        station.undo(rolls[0])
    with refused(station.book, Code.ENDED, "undone"):
        station.hold(rolls[0])
    assert is_sound(station.book)


def test_refuses_while_a_piece_of_the_act_has_a_later_act(station: Station) -> None:
    """An offcut that was used since cannot go back on the roll; its own act goes first."""
    roll = station.roll()
    offcut = station.cut(roll, 2 * M, offcuts=((700 * MM, 1_500 * MM),)).offcuts[0].code
    station.hold(offcut)

    with refused(station.book, Code.LATER_ACT, "hold"):
        station.undo(roll)
    station.undo(offcut)
    assert station.undo(roll).left == 30 * M


def test_undoing_from_the_offcut_takes_the_cut_back_too(station: Station) -> None:
    """The offcut's last act is the cut that made it, if nothing was done to the roll since."""
    roll = station.roll()
    offcut = station.cut(roll, 2 * M, offcuts=((700 * MM, 1_500 * MM),)).offcuts[0].code
    station.cut(roll, M)

    with refused(station.book, Code.LATER_ACT):
        station.undo(offcut)
    station.undo(roll)
    station.undo(offcut)

    assert station.state(roll).balance == 30 * M


def test_a_sheet_that_was_cut_up_is_whole_again(station: Station) -> None:
    """Its rest and its parts end, and it lives."""
    sheet = station.offcut((1_200 * MM, 2 * M))
    rest = station.cut(sheet, 500 * MM).offcuts[0].code

    station.undo(sheet)

    assert (station.state(sheet).ended, station.state(sheet).balance) == (None, 2 * M)
    assert station.state(rest).ended == "undone"
    assert is_sound(station.book)


@pytest.mark.parametrize("script", ["hold", "finish", "discard"])
def test_what_an_act_set_is_as_it_was_before(station: Station, script: str) -> None:
    """A hold, a bare core and a bin are taken back like a cut."""
    roll = station.roll()
    before = station.state(roll)
    getattr(station, script)(roll)

    station.undo(roll)

    assert station.state(roll) == before
    assert is_sound(station.book)


def test_a_put_is_taken_back_to_the_place_before(station: Station) -> None:
    """The roll stands where it stood."""
    station.place("A1")
    station.place("A2")
    roll = station.roll(place="A1")
    station.put(roll, "A2")

    station.undo(roll)

    assert station.state(roll).place_id == 1


def test_undo_takes_back_what_came_back(station: Station) -> None:
    """Severed or not, the job has it again."""
    roll, job = station.roll(), station.job()
    station.cut(roll, 5 * M, job=job)
    sheet = station.back(roll, job, size=(M, M)).piece

    station.undo(sheet)

    assert station.state(sheet).ended == "undone"
    assert station.back(roll, job, amount=5 * M).left == 30 * M
    assert is_sound(station.book)


def test_refuses_when_the_job_is_closed(station: Station) -> None:
    """The bill of a closed job does not change; reopen it first."""
    roll, job = station.roll(), station.job()
    station.cut(roll, 5 * M, job=job)
    station.close(job)

    with refused(station.book, Code.JOB_CLOSED):
        station.undo(roll)
    station.close(job, reopen=True)
    assert station.undo(roll).left == 30 * M


def test_refuses_another_act_than_the_one_expected(station: Station) -> None:
    """Who saw a cut on the screen does not take back what came after it."""
    roll = station.roll()
    seen = station.cut(roll, 2 * M).act.id
    station.hold(roll)

    with refused(station.book, Code.LATER_ACT, "hold"):
        station.undo(roll, act=seen)


class _Busy(Book):
    """A book at which somebody else is quicker: they write just before the next transaction."""

    somebody: Station
    job: str
    piece: str
    is_quick = True

    @contextmanager
    def transaction(self) -> Iterator[Connection]:
        """Let the other write first, once."""
        if self.is_quick:
            self.is_quick = False
            self.somebody.cut(self.piece, M, job=self.job)
        with super().transaction() as connection:
            yield connection


def test_never_takes_back_an_act_that_came_in_between(station: Station) -> None:
    """What another station wrote a moment ago is looked at before it is undone."""
    roll, mine, theirs = station.roll(), station.job(), station.job("library")
    station.cut(roll, 2 * M, job=mine)
    busy = _Busy(station.book.url)
    busy.somebody, busy.job, busy.piece = station, theirs, roll
    asked: dict[str, Any] = station.asked(piece=roll)

    with pytest.raises(Refusal, match="look again"):
        undo(Undo(**asked), book=busy, now=station.now)
    busy.close()

    assert [act.kind for act in station.history(roll)] == ["cut", "cut", "receive"]


def test_a_code_that_was_never_given_out_is_not_found(station: Station) -> None:
    """There is nothing to take back of a piece nobody has."""
    with refused(station.book, Code.NO_PIECE):
        station.undo("R0009994")
