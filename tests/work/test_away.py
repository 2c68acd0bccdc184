"""A whole piece goes to a van or a site, and what is less when it comes in again was used."""

from datetime import UTC

import pytest

from stockroom.errors import Code
from stockroom.film.kinds import Ink
from stockroom.units import MM, M
from stockroom.work.job_use import job_use
from stockroom.work.look import Wanted, rack
from stockroom.work.older import older_sound
from tests.builders import ON_ONE_ENGINE, is_sound, refused, written
from tests.conftest import NOW
from tests.floor import Floor


def _is_out(floor: Floor) -> list[str]:
    found = rack(floor.book, now=floor.now, wanted=Wanted(is_out=True))
    return [one.code for one in found.pieces]


def test_a_piece_that_is_out_says_where_since_when_and_with_whom(floor: Floor) -> None:
    """A van that is a place is called by its name, whatever was scanned."""
    roll, van = floor.roll(), floor.place("Van 2", zone="road")

    act = floor.go_out(roll, van, taker="Tom R.")

    state = floor.state(roll)
    assert (state.out_to, state.out_by) == ("Van 2", "Tom R.")
    assert state.out_since == NOW.astimezone(UTC).isoformat()
    assert written(act) == [(roll, "out", 0, 30 * M, 0, 0, 0, 0)]
    assert _is_out(floor) == [roll]
    assert is_sound(floor.book)


def test_what_is_less_when_it_comes_in_is_charged_to_the_job(floor: Floor) -> None:
    """Area and money as if it had been cut; the piece is here again."""
    roll, job = floor.roll(), floor.job()
    floor.go_out(roll)

    done = floor.come_in(roll, length_nm=18 * M, job=job)

    assert written(done.act) == [(roll, "in", -12 * M, 18 * M, 18_000_000, 0, 0, 18_000)]
    assert (done.before, done.left, done.used_mm2, done.cost_minor) == (
        30 * M,
        18 * M,
        18_000_000,
        18_000,
    )
    assert floor.state(roll).out_to is None
    assert _is_out(floor) == []
    used = job_use(floor.book, job, now=floor.now).total
    assert (used.used_mm2, used.cost_minor) == (18_000_000, 18_000)
    assert is_sound(floor.book)


def test_a_tape_round_the_roll_says_how_much_was_used(floor: Floor) -> None:
    """What a band of 3 mm round the roll allows is taken at its middle."""
    roll, job = floor.roll(), floor.job()
    floor.go_out(roll)

    done = floor.come_in(roll, round_nm=310 * MM, job=job)

    assert 0 < done.left < 30 * M
    assert done.before - done.left == -done.act.moves[0].delta


def test_a_measurement_that_allows_what_went_out_says_that_nothing_was_used(floor: Floor) -> None:
    """30 m of 75 µm on an 86.2 mm core are 101.5 mm thick; 101 mm may be 30 m, and are 29.1."""
    roll, job = floor.roll(), floor.job()
    floor.go_out(roll)

    allowed = floor.come_in(roll, outside_nm=101 * MM, job=job)
    floor.undo(roll)
    replaced = floor.come_in(roll, outside_nm=101 * MM, job=job, replace=True)

    assert (allowed.used_mm2, allowed.act.job, allowed.left) == (0, None, 30 * M)
    assert replaced.used_mm2 > 0
    assert replaced.act.job == job


def test_a_piece_may_come_in_as_it_went(floor: Floor) -> None:
    """Nothing measured is nothing used: no job is asked for."""
    box = floor.box(100)
    floor.go_out(box)

    done = floor.come_in(box)

    assert written(done.act) == [(box, "in", 0, 100, 0, 0, 0, 0)]


def test_goods_come_in_by_number(floor: Floor) -> None:
    """Sixty blades of a hundred are back."""
    box, job = floor.box(100), floor.job()
    floor.go_out(box)

    done = floor.come_in(box, number=60, job=job)

    assert written(done.act) == [(box, "in", -40, 60, 0, 0, 0, 800)]


def test_more_than_went_out_cannot_come_in(floor: Floor) -> None:
    """Nothing is written; the piece stays out."""
    roll, job = floor.roll(), floor.job()
    floor.go_out(roll)

    with refused(floor.book, Code.TOO_LONG, "30 m went out"):
        floor.come_in(roll, length_nm=31 * M, job=job)
    with refused(floor.book, Code.TOO_LONG):
        floor.come_in(roll, outside_nm=300 * MM, job=job)


def test_what_was_used_needs_a_job_or_a_reason(floor: Floor) -> None:
    """One of the two, and one that is known."""
    roll, job = floor.roll(), floor.job()
    floor.go_out(roll)

    with refused(floor.book, Code.BAD_USAGE, "5 m were used"):
        floor.come_in(roll, length_nm=25 * M)
    with refused(floor.book, Code.BAD_USAGE):
        floor.come_in(roll, length_nm=25 * M, job=job, reason="sample")
    with refused(floor.book, Code.BAD_USAGE, "no reason"):
        floor.come_in(roll, length_nm=25 * M, reason="lost")
    floor.close(job)
    with refused(floor.book, Code.JOB_CLOSED):
        floor.come_in(roll, length_nm=25 * M, job=job)
    assert floor.come_in(roll, length_nm=25 * M, reason="spoiled").used_mm2 == 7_500_000


def test_an_offcut_that_comes_in_smaller_gets_a_new_code(floor: Floor) -> None:
    """Its label says its size; what is too small to keep is waste."""
    offcut, job = floor.offcut((1_200 * MM, 4 * M)), floor.job()
    floor.go_out(offcut)

    done = floor.come_in(offcut, length_nm=3 * M, job=job)

    assert floor.state(offcut).ended == "cut up"
    assert [floor.state(code).balance for code in done.rest] == [3 * M]
    assert floor.state(done.rest[0]).out_to is None
    assert (done.used_mm2, done.left) == (1_200_000, 3 * M)
    assert is_sound(floor.book)


def test_a_print_that_is_all_used_at_the_site_comes_in_as_nothing(floor: Floor) -> None:
    """Length 0 is an answer."""
    job = floor.job()
    code = floor.print(floor.blank(), 4 * M, job=job, ink=Ink.LATEX).code
    floor.go_out(code, "Mill Lane")

    done = floor.come_in(code, length_nm=0, job=job)

    assert (done.left, done.rest, floor.state(code).ended) == (0, (), "cut up")
    assert done.used_mm2 == 6_000_000


OUT = "out with van 2 since 2026-11-25 09:00: bring it in first"


@pytest.mark.parametrize(
    ("deed", "rest"),
    [
        ("cut", (M,)),
        ("print", (M,)),
        ("rewind", ()),
        ("lay_flat", ()),
        ("flaw", (M,)),
        ("finish", ()),
        ("send_back", ()),
    ],
)
def test_nothing_is_done_to_a_roll_that_is_out_until_it_is_in(
    floor: Floor, deed: str, rest: tuple[int, ...]
) -> None:
    """The answer says who has it, and what to do first."""
    roll = floor.blank()
    floor.go_out(roll)

    with refused(floor.book, Code.OUT, OUT):
        getattr(floor, deed)(roll, *rest)


def test_a_piece_that_is_out_is_not_put_tried_laminated_or_binned_here(floor: Floor) -> None:
    """Nor does film that was never severed go back on it."""
    film, over, job = floor.blank(), floor.clear(), floor.job()
    offcut = floor.cut(film, M, offcuts=((100 * MM, 100 * MM),)).offcuts[0].code
    floor.cut(film, M, job=job)
    place = floor.place()
    for code in (film, offcut):
        floor.go_out(code)

    with refused(floor.book, Code.OUT, OUT):
        floor.put(film, place)
    with refused(floor.book, Code.OUT, OUT):
        floor.try_adhesion(film, passed=True)
    with refused(floor.book, Code.OUT, OUT):
        floor.laminate(film, over, M)
    with refused(floor.book, Code.OUT, OUT):
        floor.back(film, job, amount=M)
    with refused(floor.book, Code.OUT, OUT):
        floor.scrap(offcut)


def test_what_is_known_from_afar_is_written_of_a_piece_that_is_out(floor: Floor) -> None:
    """Somebody rings up: it is held, counted, found, its cut of last week is charged, it is no more."""
    roll, job = floor.roll(), floor.job()
    van = floor.place("van 2")
    floor.cut(roll, 3 * M, job=job)
    then = floor.wait(days=1)
    floor.wait(days=1)
    floor.go_out(roll)

    floor.hold(roll)
    floor.release(roll)
    floor.count(roll, length_nm=25 * M)
    floor.charge(roll, 2 * M, job, then)
    severed = floor.back(roll, job, size=(600 * MM, M)).piece
    floor.seen(van, roll)
    floor.discard(roll, "left at the site")

    assert floor.state(severed).out_to is None
    assert (floor.state(roll).ended, floor.state(roll).balance) == ("discarded", 0)
    assert _is_out(floor) == []
    assert is_sound(floor.book)


def test_goods_that_are_out_are_not_taken_here(floor: Floor) -> None:
    """A box in the van is not at the bench, and a kit gets no part."""
    box, kit = floor.box(), floor.kit(("squeegee", 2))
    floor.take_part(kit, "squeegee")
    for code in (box, kit):
        floor.go_out(code)

    with refused(floor.book, Code.OUT):
        floor.take(box, 1)
    with refused(floor.book, Code.OUT):
        floor.take_part(kit, "squeegee")
    with refused(floor.book, Code.OUT):
        floor.part_back(kit, "squeegee")
    with refused(floor.book, Code.OUT):
        floor.list_parts(kit, ("squeegee", 3))


def test_out_twice_and_in_twice_are_refused(floor: Floor) -> None:
    """Somebody forgot to scan one of them."""
    roll = floor.roll()

    with refused(floor.book, Code.NOT_OUT):
        floor.come_in(roll)
    floor.go_out(roll)
    with refused(floor.book, Code.ALREADY_THERE, "van 2"):
        floor.go_out(roll, "van 1")


def test_a_held_piece_and_one_stopped_by_its_age_do_not_go_out(floor: Floor) -> None:
    """A hold is a hold; age gives way to a reason."""
    held, old = floor.roll(), floor.roll(made="2020-01-01")
    floor.hold(held)
    floor.trial(old, "shelf", "2026-01-01")

    with refused(floor.book, Code.HELD):
        floor.go_out(held)
    with refused(floor.book, Code.STOPPED):
        floor.go_out(old)
    floor.go_out(old, despite="tried on site")
    with refused(floor.book, Code.BAD_USAGE, "--to"):
        floor.go_out(held, "")


def test_a_recall_reaches_what_is_out_and_the_part_that_comes_back(floor: Floor) -> None:
    """The rest of an offcut is held like the offcut."""
    offcut, job = floor.offcut((1_200 * MM, 4 * M), lot="L-9"), floor.job()
    floor.go_out(offcut)
    floor.hold_lot("L-9")

    done = floor.come_in(offcut, length_nm=3 * M, job=job)

    assert floor.state(done.rest[0]).held == "lot L-9: maker's notice"


def test_out_and_in_are_undone_and_seen_on_the_day_they_were(floor: Floor) -> None:
    """The day before, it was out; undone, it still is."""
    roll, job = floor.roll(), floor.job()
    floor.go_out(roll)
    yesterday = floor.now.date()
    floor.wait(days=1)
    floor.come_in(roll, length_nm=20 * M, job=job)

    then = rack(floor.book, now=floor.now, today=yesterday).pieces[0].standing.state
    floor.undo(roll)
    again = floor.state(roll)
    floor.undo(roll)

    assert (then.out_to, then.balance) == ("van 2", 30 * M)
    assert (again.out_to, again.balance) == ("van 2", 30 * M)
    assert floor.state(roll).out_to is None
    assert is_sound(floor.book)


def test_what_the_job_did_not_use_comes_back_to_it(floor: Floor) -> None:
    """What was drawn in the van is drawn like any other."""
    roll, job = floor.roll(), floor.job()
    floor.go_out(roll)
    floor.come_in(roll, length_nm=20 * M, job=job)

    assert floor.back(roll, job, amount=4 * M).left == 24 * M
    with refused(floor.book, Code.NOT_DRAWN):
        floor.back(roll, job, amount=7 * M)


@ON_ONE_ENGINE
def test_an_older_roll_that_is_out_is_not_offered(floor: Floor) -> None:
    """Nobody can take it."""
    old, new = floor.roll(made="2025-09-01"), floor.roll(made="2026-08-01")
    offered = older_sound(floor.book, new, M, now=floor.now)
    floor.go_out(old)

    assert offered is not None
    assert older_sound(floor.book, new, M, now=floor.now) is None
