"""Laminating: one piece of two, both lots, the older one's dates, and every square millimetre."""

from typing import Any

import pytest

from stockroom.errors import Code
from stockroom.film.kinds import Ink, Kind
from stockroom.film.roll import Layer
from stockroom.film.verdict import Verdict
from stockroom.units import MM, M
from stockroom.work.layers import layers_of
from stockroom.work.look import mass_left_kg, piece, rack
from tests.builders import ON_ONE_ENGINE, Station, dump, is_sound, refused, written


def test_two_films_become_one_piece(station: Station) -> None:
    """The whole print goes in and ends; the laminate loses the length; the value is both shares."""
    printed = station.print(station.blank(), 4 * M).code
    clear = station.clear()

    done = station.laminate(printed, clear, 4 * M)

    assert written(done.act) == [
        (printed, "laminate", -4 * M, 0, 0, 0, 6_000_000, 0),
        (clear, "laminate", -4 * M, 26 * M, 0, 0, 6_000_000, 0),
        (done.code, "laminated", 4 * M, 4 * M, 0, 0, 0, 0),
    ]
    assert station.state(printed).ended == "laminated"
    assert station.state(done.code).cost_minor == 12_000
    assert is_sound(station.book)


def test_it_carries_the_print_and_both_lots(station: Station) -> None:
    """Job, artwork and ink of the print, the lot of each film."""
    job = station.job()
    printed = station.print(
        station.blank(lot="L-1"), 4 * M, job=job, artwork="shelter side", tile="2/4"
    ).code

    done = station.laminate(printed, station.clear(lot="G-7"), 4 * M)

    was, state = station.state(printed), station.state(done.code)
    assert (state.lot, state.laminate_lot, state.is_laminated) == ("L-1", "G-7", True)
    assert (state.job_id, state.artwork, state.tile) == (was.job_id, "shelter side", "2/4")
    assert (state.printed, state.printed_by, state.ink) == (was.printed, was.printed_by, "latex")
    assert (state.parent, done.act.job) == (printed, job)


@pytest.mark.parametrize(
    ("film", "over", "older"),
    [
        ({"made": "2026-06-01"}, {"made": "2026-03"}, "over"),
        ({"made": "2026-02"}, {"made": "2026-03-01"}, "film"),
        ({"made": "2026-06-01"}, {"made": "2026-06-01"}, "film"),
        ({"made": None, "received": "2026-01-10"}, {"made": "2026-02-01"}, "film"),
        ({"made": "2026-06-01"}, {"made": None, "shipped": "2026-05-01"}, "over"),
    ],
)
@ON_ONE_ENGINE
def test_it_is_as_old_as_the_older_of_both(
    station: Station, film: dict[str, Any], over: dict[str, Any], older: str
) -> None:
    """All three dates come from one of the two, the one that began earlier."""
    pieces = {"film": station.blank(**film), "over": station.clear(**over)}

    done = station.laminate(pieces["film"], pieces["over"], 2 * M)

    state, was = station.state(done.code), station.state(pieces[older])
    assert (state.made, state.shipped, state.received) == (was.made, was.shipped, was.received)


def test_a_passed_trial_goes_with_the_dates_it_was_for(station: Station) -> None:
    """A trial of the younger film says nothing of the older one."""
    film, over = station.blank(made="2024-01-01"), station.clear(made="2025-12-01")
    station.trial(film, "shelf", "2027-01-01")
    station.trial(over, "shelf", "2027-06-01")

    done = station.laminate(film, over, 2 * M)

    assert station.state(done.code).shelf_passed == "2027-01-01"


def test_thickness_and_layers_are_those_of_both_and_the_laminates_liner_is_gone(
    station: Station,
) -> None:
    """80 + 60 µm of film on its liner, under 50 µm of laminate whose 90 µm of liner were pulled."""
    below = (Layer(80.0, 1_350.0), Layer(60.0, 1_100.0))
    above = (Layer(50.0, 1_380.0), Layer(90.0, 1_100.0))
    station.material("cast", Kind.PRINT_VINYL, thickness_nm=140_000, layers=below)
    station.material("gloss", Kind.LAMINATE, thickness_nm=140_000, applied_nm=50_000, layers=above)

    code = station.laminate(
        station.blank(material="cast"), station.clear(material="gloss"), 2 * M
    ).code

    standing = piece(station.book, code, now=station.now).judged.standing
    assert standing.state.thickness_nm == 190_000
    assert layers_of(standing.state, standing.material) == (above[0], *below)
    # 3 square metres of 69 + 108 + 66 g: worked by hand
    assert mass_left_kg(standing) == pytest.approx(3 * (0.069 + 0.108 + 0.066))


@ON_ONE_ENGINE
def test_what_is_not_known_of_one_is_not_known_of_both(station: Station) -> None:
    """A thickness or layers of one film alone would be wrong for two."""
    station.material("thin", Kind.LAMINATE, thickness_nm=None)
    station.material("cast", Kind.PRINT_VINYL, layers=(Layer(80.0, 1_350.0),))

    code = station.laminate(
        station.blank(material="cast"), station.clear(material="thin"), 2 * M
    ).code

    standing = piece(station.book, code, now=station.now).judged.standing
    assert standing.state.thickness_nm is None
    assert mass_left_kg(standing) is None


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("film", "over", "value"),
    [(None, None, None), (None, 45_000, 3_000), (45_000, None, 3_000)],
)
def test_its_value_is_what_is_known_of_both(
    station: Station, film: int | None, over: int | None, value: int | None
) -> None:
    """Where one film has no price, the other's still is in it."""
    done = station.laminate(station.blank(cost_minor=film), station.clear(cost_minor=over), 2 * M)

    assert station.state(done.code).cost_minor == value


def test_a_wider_laminate_leaves_waste_beside_the_film(station: Station) -> None:
    """100 mm on 1.6 m: the job pays for the strip, too."""
    job = station.job()
    printed = station.print(station.blank(), 4 * M, job=job).code
    clear = station.clear(width_nm=1_600 * MM)

    done = station.laminate(printed, clear, 4 * M, waste_nm=M)

    assert station.state(done.code).width_nm == 1_500 * MM
    assert (done.length_nm, done.film.wasted_mm2, done.over.wasted_mm2) == (
        3 * M,
        1_500_000,
        1_900_000,
    )
    assert done.act.job == job
    paid = done.film.cost_minor + done.over.cost_minor
    assert paid + (station.state(done.code).cost_minor or 0) == 6_000 + 6_000
    assert is_sound(station.book)


def test_refuses_a_laminate_narrower_than_the_film(station: Station) -> None:
    """It would leave a strip bare; nothing is written."""
    film, clear = station.blank(), station.clear(width_nm=1_400 * MM)

    with refused(station.book, Code.TOO_NARROW, "1400 mm"):
        station.laminate(film, clear, 2 * M)


def test_a_part_of_a_print_leaves_the_rest_under_a_new_code(station: Station) -> None:
    """The rest is the same print, not laminated, wound since the same day."""
    printed = station.print(station.blank(), 4 * M, artwork="shelter side").code
    station.wait(days=5)

    done = station.laminate(printed, station.clear(), M)

    (rest,) = done.film.rest
    state = station.state(rest)
    assert (station.state(printed).ended, state.balance) == ("cut up", 3 * M)
    assert (state.artwork, state.is_laminated, state.wound_since) == (
        "shelter side",
        False,
        "2026-11-25",
    )
    assert done.over.rest == ()


def test_lamination_makes_no_print_younger(station: Station) -> None:
    """40 days on the core before it and 20 after it are 60."""
    printed = station.print(station.blank(), 4 * M).code
    station.wait(days=40)
    code = station.laminate(printed, station.clear(), 4 * M).code
    bare = station.laminate(station.blank(), station.clear(), 4 * M).code
    station.wait(days=20)

    found = {one.code: one.judgement for one in rack(station.book, now=station.now).pieces}

    assert (found[code].wound_days, found[bare].wound_days) == (60, 20)


def test_a_print_that_still_rests_is_laminated_with_a_warning(station: Station) -> None:
    """Nobody is stopped; what was said is kept."""
    printed = station.print(station.blank(), 4 * M, ink=Ink.SOLVENT).code

    done = station.laminate(printed, station.clear(made="2024-12-01"), 4 * M)

    assert "24 h to go" in done.film.warning
    assert done.film.verdict is Verdict.USE
    assert done.over.warning == ""


def test_undo_gives_both_parents_back(station: Station) -> None:
    """Film, laminate and print are as they were; the laminated piece was never there."""
    printed, clear = station.print(station.blank(), 4 * M).code, station.clear()
    before = station.state(printed), station.state(clear)
    code = station.laminate(printed, clear, M).code

    station.undo(code)

    assert (station.state(printed), station.state(clear)) == before
    assert station.state(code).ended == "undone"
    assert is_sound(station.book)


def test_a_parent_with_a_later_act_keeps_the_lamination_from_being_undone(
    station: Station,
) -> None:
    """Either parent's."""
    printed, clear = station.print(station.blank(), 4 * M).code, station.clear()
    code = station.laminate(printed, clear, 4 * M).code
    station.cut(clear, M)

    with refused(station.book, Code.LATER_ACT, "cut"):
        station.undo(code)


def test_areas_and_money_add_up_from_the_rolls_to_the_last_cut(station: Station) -> None:
    """Two rolls bought; what was charged and what is left is their price, and so is the area."""
    job = station.job()
    blank, clear = station.blank(cost_minor=45_001), station.clear(cost_minor=33_337)
    printed = station.print(blank, 3_333 * MM, leader_nm=417 * MM, job=job).code
    code = station.laminate(printed, clear, 3_333 * MM, waste_nm=41 * MM).code
    station.cut(code, 1_111 * MM, job=job, waste_nm=7 * MM, offcuts=((701 * MM, 503 * MM),))

    held = dump(station.book)
    charged = sum(move["cost_minor"] for move in held["move"])
    left = sum(round(one["cost_minor"] * one["balance"] / one["full"]) for one in held["piece"])
    assert charged + left == 45_001 + 33_337
    for piece_id in (one["id"] for one in held["piece"]):
        moves = [one for one in held["move"] if one["piece_id"] == piece_id][1:]
        gone_mm2 = -sum(move["delta"] for move in moves) * 1_500 // MM
        parts = sum(move["used_mm2"] + move["wasted_mm2"] + move["kept_mm2"] for move in moves)
        assert parts == gone_mm2
    assert is_sound(station.book)


@ON_ONE_ENGINE
def test_refuses_what_cannot_be_laminated(station: Station) -> None:
    """Not with itself, with printed film, with window film, twice, or longer than either."""
    job = station.job()
    film, clear, window = station.blank(), station.clear(), station.roll()
    done = station.laminate(station.print(film, 2 * M, job=job).code, clear, 2 * M)
    short, bought = station.clear(length_nm=M), station.clear(printed="2026-11-01")

    with refused(station.book, Code.BAD_USAGE):
        station.laminate(film, film, M)
    with refused(station.book, Code.WRONG_KIND, "laminate or protective-film"):
        station.laminate(film, window, M)
    with refused(station.book, Code.WRONG_KIND):
        station.laminate(film, bought, M)
    with refused(station.book, Code.ALREADY_THERE, "laminated"):
        station.laminate(done.code, clear, M)
    with refused(station.book, Code.TOO_LONG, "1 m"):
        station.laminate(film, short, 2 * M)
    with refused(station.book, Code.TOO_LONG, "waste"):
        station.laminate(film, clear, M, waste_nm=M)
    with refused(station.book, Code.NO_PIECE):
        station.laminate(film, "R0009994", M)
    station.hold(clear)
    with refused(station.book, Code.HELD):
        station.laminate(film, clear, M)


@ON_ONE_ENGINE
def test_a_print_is_laminated_for_its_own_open_job(station: Station) -> None:
    """Another job is refused; a print for nothing yet may get one."""
    job, other, place = station.job(), station.job("tram shelter"), station.place("cutting")
    film, clear = station.blank(), station.clear()
    own, free = station.print(film, 2 * M, job=job).code, station.print(film, 2 * M).code

    with refused(station.book, Code.OTHER_JOB):
        station.laminate(own, clear, 2 * M, job=other)
    done = station.laminate(free, clear, 2 * M, job=other, place=place)
    station.close(job)
    with refused(station.book, Code.JOB_CLOSED):
        station.laminate(own, clear, 2 * M)

    found = piece(station.book, done.code, now=station.now).judged.standing
    assert found.job is not None
    assert found.place is not None
    assert (found.job.code, found.place.name) == (other, "cutting")


@ON_ONE_ENGINE
def test_film_that_is_stopped_by_its_age_needs_a_reason(station: Station) -> None:
    """Either film's age; the reason stands beside both."""
    film, clear = station.blank(made="2023-01-01"), station.clear()
    station.trial(film, "shelf", "2026-01-01")

    with refused(station.book, Code.STOPPED):
        station.laminate(film, clear, M)

    assert station.laminate(film, clear, M, despite="a proof").film.verdict is Verdict.STOP


def test_asked_twice_it_is_laminated_once(station: Station) -> None:
    """The answer is read from the act."""
    film, clear = station.blank(), station.clear()

    first = station.laminate(film, clear, M, request="one")

    assert station.laminate(film, clear, M, request="one") == first
    assert station.state(clear).balance == 29 * M
