"""What somebody did, in a few words."""

from dataclasses import replace
from datetime import timedelta

from stockroom.books.values import Act, Shop
from stockroom.lines.text_acts import act_words, subject
from stockroom.units import MM, M
from stockroom.work import look
from tests.builders import Station

BY = "\N{MULTIPLICATION SIGN}"


def _said(station: Station, piece: str | None = None) -> str:
    """The last act in words."""
    last = look.log(station.book, now=station.now)[0]
    return _words(station, last, piece)


def _words(station: Station, act: Act, piece: str | None = None) -> str:
    places = look.places(station.book, now=station.now)
    return act_words(act, Shop(), places, piece=piece)


def test_what_comes_in(station: Station) -> None:
    """One roll, one of several, a box."""
    station.roll()
    assert _said(station) == "receive 30 m"
    station.rolls(pieces=3)
    assert _said(station) == "receive 30 m, one of 3"
    station.box(12)
    assert _said(station) == "receive 12 pcs"


def test_what_leaves_and_comes_back(station: Station) -> None:
    """For a job, or for a reason without one."""
    roll, box, job = station.roll(), station.box(), station.job()

    station.cut(roll, 3 * M, job=job)
    assert _said(station) == "cut 3 m for J000 0019"
    station.cut(roll, 500 * MM, reason="leader")
    assert _said(station) == "cut 500 mm for leader"
    station.take(box, 2, job=job)
    assert _said(station) == "take 2 pcs for J000 0019"
    station.back(box, job, amount=1)
    assert _said(station) == "back 1 pc from J000 0019"
    station.back(roll, job, amount=1 * M)
    assert _said(station) == "back 1 m from J000 0019"
    station.back(roll, job, size=(600 * MM, 900 * MM))
    assert _said(station) == "back, severed from J000 0019"


def test_an_offcut_says_where_it_is_from(station: Station) -> None:
    """Its first act is the cut that made it, or the return."""
    roll = station.roll()
    offcut = station.cut(roll, 2 * M, offcuts=((600 * MM, 1 * M),)).offcuts[0].code

    assert _said(station) == "cut 2 m for sample"
    assert _said(station, offcut) == f"kept, 600 {BY} 1000 mm, of R000 002J"


def test_counts_say_what_the_books_had(station: Station) -> None:
    """Confirmed, corrected, measured in another way, finished."""
    roll = station.roll()

    station.count(roll, length_nm=30 * M)
    assert _said(station) == "count by length: the books are right, 30 m"
    station.count(roll, length_nm=29 * M)
    assert _said(station) == "count by length: 29 m, books 30 m"
    station.count(roll, round_nm=314 * MM)
    assert _said(station) == "count by tape: 26.8 m, books 29 m"
    station.cut(roll, 31 * M, overrun=True)
    assert _said(station) == "cut 31 m for sample"
    station.finish(roll)
    assert _said(station) == "finished, books 0 mm"


def test_what_is_done_without_taking_film(station: Station) -> None:
    """With its place or its reason."""
    roll, place = station.roll(), station.place("bay B2")

    station.put(roll, place)
    assert _said(station) == "put in bay B2"
    station.hold(roll, "dented")
    assert _said(station) == "hold: dented"
    station.release(roll, "none")
    assert _said(station) == "release: none"
    station.discard(roll, "crushed")
    assert _said(station) == "discard: crushed"


def test_a_late_charge_and_an_undo(station: Station) -> None:
    """What was undone says so, and is still there."""
    roll, job = station.roll(), station.job()
    cut_at = station.now + timedelta(hours=1)
    station.wait(hours=2)
    station.count(roll, length_nm=29 * M)

    station.charge(roll, 1 * M, job, cut_at)
    assert _said(station) == "charge 1 m for J000 0019"
    undone = station.undo(roll)
    assert _said(station) == f"undo of act {undone.undone} (charge)"
    reversed_one = next(act for act in station.history(roll) if act.id == undone.undone)
    assert _words(station, reversed_one) == "charge 1 m for J000 0019 (undone)"


def test_jobs_are_opened_and_closed(station: Station) -> None:
    """Acts without a piece."""
    job = station.job()
    assert _said(station) == "open job J000 0019"
    station.close(job)
    assert _said(station) == "close job J000 0019"


def test_an_act_this_page_has_no_words_for_is_named(station: Station) -> None:
    """A kind of a later day is not an error."""
    station.roll()
    act = look.log(station.book, now=station.now)[0]
    moves = tuple(replace(move, kind="unheard of") for move in act.moves)

    assert _words(station, replace(act, kind="unheard of", moves=moves)) == "unheard of"


def test_an_undo_of_an_older_book_names_the_act_alone(station: Station) -> None:
    """Of what kind it was is written since undos say so."""
    roll = station.roll()
    station.put(roll, station.place("B1"))
    undone = station.undo(roll)
    act = look.log(station.book, now=station.now)[0]
    moves = tuple(replace(move, facts={}) for move in act.moves)

    assert _words(station, replace(act, moves=moves)) == f"undo of act {undone.undone}"


def test_the_subject_is_the_piece_the_act_was_about(station: Station) -> None:
    """And how many others it touched."""
    roll = station.roll()
    assert subject(look.log(station.book, now=station.now)[0]) == "R000 002J"
    station.cut(roll, 2 * M, offcuts=((600 * MM, 1 * M),))
    assert subject(look.log(station.book, now=station.now)[0]) == "R000 002J +1"
    station.job()
    assert subject(look.log(station.book, now=station.now)[0]) == "-"
