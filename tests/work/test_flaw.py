"""A flaw is kept from the core: cuts come nearer to it, and none moves it."""

from stockroom.errors import Code
from stockroom.units import MM, M
from stockroom.work.flaw import Flaw, flaws_ahead, flaws_of
from tests.builders import ON_ONE_ENGINE, Station, is_sound, refused, written


def test_cuts_come_nearer_to_a_flaw_and_then_run_through_it(station: Station) -> None:
    """A splice at 5 m is at 2 m after a cut of 3 m; the next cut runs through it."""
    roll = station.roll()
    act = station.flaw(roll, 5 * M, "splice")

    before = station.cut(roll, 3 * M)
    nearer = flaws_of(station.state(roll))
    through = station.cut(roll, 3 * M)

    assert written(act) == [(roll, "flaw", 0, 30 * M, 0, 0, 0, 0)]
    assert act.moves[0].facts == {"at_nm": 5 * M, "what": "splice"}
    assert (before.flaws, nearer) == ((), (Flaw(2 * M, "splice"),))
    assert through.flaws == (Flaw(2 * M, "splice"),)
    assert flaws_of(station.state(roll)) == ()
    assert is_sound(station.book)


def test_what_comes_back_brings_its_flaw_back(station: Station) -> None:
    """Film never severed is on the roll again, flaw and all."""
    roll, job = station.roll(), station.job()
    station.flaw(roll, 1 * M)
    station.cut(roll, 3 * M, job=job)

    station.back(roll, job, amount=3 * M)

    assert flaws_of(station.state(roll)) == (Flaw(1 * M, "splice"),)


def test_flaws_are_told_from_the_outer_end_on(station: Station) -> None:
    """Whatever the order they were found in; the cutting line itself counts."""
    roll = station.roll()
    station.flaw(roll, 20 * M, "dent")
    station.flaw(roll, 0, "dirt")
    station.flaw(roll, 4 * M)

    state = station.state(roll)

    assert [one.what for one in flaws_of(state)] == ["dirt", "splice", "dent"]
    assert [one.what for one in flaws_ahead(state, 4 * M)] == ["dirt", "splice"]


def test_a_count_does_not_move_a_flaw_along_the_film(station: Station) -> None:
    """The core end is where it was; what was missing was missing outside."""
    roll = station.roll()
    station.flaw(roll, 5 * M)

    station.count(roll, length_nm=28 * M)

    assert flaws_of(station.state(roll)) == (Flaw(3 * M, "splice"),)


def test_the_rest_of_a_sheet_keeps_its_flaws_and_a_part_cut_out_has_none(station: Station) -> None:
    """The rest is the core end; a part is cut around what is wrong."""
    sheet = station.offcut((1_500 * MM, 5 * M))
    station.flaw(sheet, 1 * M)
    station.flaw(sheet, 4 * M)

    done = station.cut(sheet, 2 * M, offcuts=((1_000 * MM, 1 * M),))

    part, rest = (station.state(one.code) for one in done.offcuts)
    assert done.flaws == (Flaw(1 * M, "splice"),)
    assert (flaws_of(part), flaws_of(rest)) == ((), (Flaw(2 * M, "splice"),))


def test_a_print_and_a_laminate_carry_the_flaws_that_were_in_their_length(
    station: Station,
) -> None:
    """Wound anew with the outer end first: 0.7 m behind the leader is 0.7 m from the core."""
    blank, clear = station.blank(), station.clear()
    station.flaw(blank, 100 * MM, "dirt")
    station.flaw(blank, 1_200 * MM)
    station.flaw(clear, 400 * MM, "dent")

    printed = station.print(blank, 2 * M, leader_nm=500 * MM)
    of_print = flaws_of(station.state(printed.code))
    done = station.laminate(printed.code, clear, 2 * M)

    assert [one.what for one in printed.taken.flaws] == ["dirt", "splice"]
    assert of_print == (Flaw(1_300 * MM, "splice"),)
    assert flaws_of(station.state(done.code)) == (
        Flaw(700 * MM, "splice"),
        Flaw(1_600 * MM, "dent"),
    )
    assert (done.film.flaws, done.over.flaws) == (of_print, (Flaw(400 * MM, "dent"),))


def test_a_flaw_is_undone(station: Station) -> None:
    """The one before it stays."""
    roll = station.roll()
    station.flaw(roll, 5 * M)
    station.flaw(roll, 6 * M, "dent")

    station.undo(roll)

    assert flaws_of(station.state(roll)) == (Flaw(5 * M, "splice"),)


@ON_ONE_ENGINE
def test_refuses_a_flaw_that_cannot_be(station: Station) -> None:
    """Behind the core, before the end, nameless, in a box, on what is no more."""
    roll, box = station.roll(), station.box()

    with refused(station.book, Code.TOO_LONG, "30 m"):
        station.flaw(roll, 31 * M)
    with refused(station.book, Code.TOO_LONG):
        station.flaw(roll, -1)
    with refused(station.book, Code.BAD_USAGE, "--what"):
        station.flaw(roll, M, "")
    with refused(station.book, Code.WRONG_FORM):
        station.flaw(box, M)
    station.discard(roll)
    with refused(station.book, Code.ENDED):
        station.flaw(roll, M)
