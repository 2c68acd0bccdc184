"""A count confirms the books where the measurement allows them, or corrects them."""

from typing import Any

import pytest

from stockroom.errors import Code
from stockroom.film.roll import Layer, core_mass_kg, mass_kg, outside_mm
from stockroom.units import KG, MM, M
from stockroom.work.measuring import CORE_DENSITY_KG_M3
from tests.builders import FILM, ON_ONE_ENGINE, Station, is_sound, refused, written

CORE_MM = 86.2
"""76.2 mm inside and a wall of 5 mm: where the film starts."""


def test_a_length_corrects_the_books_and_their_price(station: Station) -> None:
    """What the count finds missing is nobody's: its price leaves with it."""
    roll = station.roll()

    done = station.count(roll, length_nm=28 * M)

    assert written(done.act) == [(roll, "count", -2 * M, 28 * M, 0, 0, 0, 3_000)]
    assert done.act.moves[0].facts == {
        "by": "length",
        "found": 28 * M,
        "low": 28 * M,
        "high": 28 * M,
    }
    assert (done.before, done.left, done.confirmed) == (30 * M, 28 * M, False)
    assert is_sound(station.book)


def test_more_than_the_books_had_gives_the_price_back(station: Station) -> None:
    """Film that was written off and is there after all is worth something again."""
    roll = station.roll()
    station.cut(roll, 10 * M)

    done = station.count(roll, length_nm=21 * M)

    assert written(done.act) == [(roll, "count", M, 21 * M, 0, 0, 0, -1_500)]


def test_a_diameter_whose_band_holds_the_books_figure_confirms_it(station: Station) -> None:
    """A calliper cannot know better than the books within its band."""
    roll = station.roll()
    near_mm = outside_mm(29.5, CORE_MM, 75)

    done = station.count(roll, outside_nm=round(near_mm * MM))

    assert written(done.act) == [(roll, "count", 0, 30 * M, 0, 0, 0, 0)]
    assert done.confirmed
    assert done.low < 29_500 * MM < 30 * M < done.high


def test_replace_takes_the_measured_figure_all_the_same(station: Station) -> None:
    """A person who trusts the calliper more than the books says so."""
    roll = station.roll()
    near_nm = round(outside_mm(29.5, CORE_MM, 75) * MM)

    done = station.count(roll, outside_nm=near_nm, replace=True)

    assert done.left == pytest.approx(29_500 * MM, abs=MM)
    assert not done.confirmed


@pytest.mark.parametrize("by", ["outside", "round", "mass"])
def test_each_measure_finds_the_film_that_is_there(station: Station, by: str) -> None:
    """Ten metres left are found by calliper, by tape and by scale."""
    layers = (Layer(50.0, 1_390.0), Layer(25.0, 1_390.0))
    station.material(layers=layers)
    roll = station.roll(material=FILM)
    around_mm = outside_mm(10, CORE_MM, 75)
    core_kg = core_mass_kg(76.2, 5, 1_500, CORE_DENSITY_KG_M3)
    given = {
        "outside": {"outside_nm": round(around_mm * MM)},
        "round": {"round_nm": round(around_mm * 3.141592653589793 * MM)},
        "mass": {"mass_mg": round((core_kg + mass_kg(1_500, 10, layers)) * KG)},
    }[by]

    done = station.count(roll, **given)

    assert done.left == pytest.approx(10 * M, rel=1e-4)
    assert done.low < done.left < done.high
    assert done.act.moves[0].facts["by"] == by


def test_a_sheet_is_weighed_without_a_core(station: Station) -> None:
    """A sheet has no core to take off."""
    layers = (Layer(75.0, 1_390.0),)
    station.material(layers=layers)
    sheet = station.offcut((1_200 * MM, 2 * M), material=FILM)

    done = station.count(sheet, mass_mg=round(mass_kg(1_200, 1, layers) * KG), replace=True)

    assert done.left == pytest.approx(M, rel=1e-4)


def test_a_box_is_counted_by_number(station: Station) -> None:
    """What is missing in a box is nobody's too."""
    box = station.box(100)

    done = station.count(box, number=90)

    assert written(done.act) == [(box, "count", -10, 90, 0, 0, 0, 200)]


def test_an_empty_box_and_an_empty_roll_may_be_counted(station: Station) -> None:
    """Nothing left is a count, not a mistake."""
    assert station.count(station.box(), number=0).left == 0
    assert station.count(station.roll(), length_nm=0).left == 0


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({}, Code.BAD_USAGE),
        ({"length_nm": M, "number": 3}, Code.BAD_USAGE),
        ({"length_nm": -1}, Code.BAD_LENGTH),
        ({"number": 3}, Code.WRONG_FORM),
        ({"outside_nm": 50 * MM}, Code.BAD_ROLL),
        ({"outside_nm": 0}, Code.BAD_ROLL),
        ({"mass_mg": 3 * KG}, Code.UNKNOWN_SIZE),
    ],
)
def test_refuses_a_measurement_that_says_nothing_of_a_roll(
    station: Station, given: dict[str, Any], code: Code
) -> None:
    """One measurement, of the right sort, that such a roll can have."""
    roll = station.roll()

    with refused(station.book, code):
        station.count(roll, **given)


def test_refuses_to_measure_what_has_no_such_measure(station: Station) -> None:
    """A box has no length, a sheet no diameter, and an unknown core hides the film."""
    box, sheet = station.box(), station.offcut()
    bare = station.material("no core", core_inside_nm=None)

    with refused(station.book, Code.WRONG_FORM):
        station.count(box, length_nm=M)
    with refused(station.book, Code.UNKNOWN_SIZE):
        station.count(sheet, outside_nm=100 * MM)
    roll = station.roll(material=bare)
    with refused(station.book, Code.UNKNOWN_SIZE, "count it by length"):
        station.count(roll, outside_nm=100 * MM)


def test_a_weight_without_a_known_core_is_refused(station: Station) -> None:
    """Nobody knows how much of it is cardboard."""
    station.material(core_wall_nm=None, layers=(Layer(75.0, 1_390.0),))
    roll = station.roll(material=FILM)

    with refused(station.book, Code.UNKNOWN_SIZE, "weighs too"):
        station.count(roll, mass_mg=3 * KG)


def test_far_more_than_ever_came_in_is_believed_only_when_it_is_said_twice(
    station: Station,
) -> None:
    """A wrong core or a slip of the tape is no film."""
    roll = station.roll()
    with refused(station.book, Code.TOO_LONG, says="hard to believe"):
        station.count(roll, length_nm=46 * M)

    assert station.count(roll, length_nm=46 * M, replace=True).left == 46 * M
    assert station.count(roll, length_nm=44 * M).left == 44 * M


def test_counts_never_reprice_past_cuts(station: Station) -> None:
    """What a job paid stays paid; the next cut costs what a square metre always cost."""
    roll, job = station.roll(), station.job()
    first = station.cut(roll, 5 * M, job=job)
    station.count(roll, length_nm=10 * M)

    second = station.cut(roll, 5 * M, job=job)

    assert (first.cost_minor, second.cost_minor) == (7_500, 7_500)


def test_a_sheet_that_lies_flat_has_no_core_to_be_bare(station: Station) -> None:
    """An empty box is at its end like a roll, and so is a roll that was used up lying flat."""
    sheet, box, roll = station.offcut(), station.box(3), station.roll()
    station.lay_flat(sheet)
    station.lay_flat(roll)
    station.cut(roll, 30 * M)

    with refused(station.book, Code.WRONG_FORM, "lies flat and has no core"):
        station.finish(sheet)
    assert written(station.finish(box).act) == [(box, "finished", -3, 0, 0, 0, 0, 2_000)]
    assert station.finish(roll).before == 0


def test_a_bare_core_ends_the_roll(station: Station) -> None:
    """What the books still had of it is variance, and nothing can be done to it any more."""
    roll = station.roll()
    station.cut(roll, 29 * M)

    done = station.finish(roll)

    assert written(done.act) == [(roll, "finished", -M, 0, 0, 0, 0, 1_500)]
    assert (done.before, done.left) == (M, 0)
    assert station.state(roll).ended == "finished"
    with refused(station.book, Code.ENDED):
        station.finish(roll)
    with refused(station.book, Code.ENDED):
        station.count(roll, length_nm=M)
    assert is_sound(station.book)
