"""Rewinding resets nothing, and lying flat only stops the days."""

from typing import Any

import pytest

from stockroom.errors import Code
from stockroom.film.verdict import Judgement
from stockroom.units import MM, M
from stockroom.work.flaw import Flaw, flaws_of
from stockroom.work.look import piece
from stockroom.work.winding import Core
from tests.builders import ON_ONE_ENGINE, Station, is_sound, refused, written

SMALL = Core(inside_nm=50 * MM, wall_nm=5 * MM)


def _judged(station: Station, code: str) -> Judgement:
    return piece(station.book, code, now=station.now).judged.judgement


def _limit(station: Station, code: str) -> int | None:
    return next(one.limit for one in _judged(station, code).reasons if one.rule == "wound")


def test_lying_flat_stops_the_days_and_winding_goes_on_with_them(station: Station) -> None:
    """20 days wound, 30 flat, 5 wound: 25."""
    code = station.print(station.blank(), 4 * M).code
    station.wait(days=20)
    station.lay_flat(code)
    flat = station.state(code)
    station.wait(days=30)
    while_flat = _judged(station, code).wound_days
    station.rewind(code)
    station.wait(days=5)

    assert (flat.is_wound, flat.wound_since, flat.wound_days_before) == (False, None, 20)
    assert while_flat == 20
    assert _judged(station, code).wound_days == 25
    assert is_sound(station.book)


def test_rewinding_what_is_wound_resets_nothing(station: Station) -> None:
    """The same days, but a tight core or a tube allows fewer of them."""
    code = station.print(station.blank(), 4 * M).code
    station.wait(days=20)
    loose = _limit(station, code)

    act = station.rewind(code, core=SMALL, face="out")
    on_core = _limit(station, code)
    station.rewind(code, core=Core(in_tube=True))

    assert written(act) == [(code, "rewind", 0, 4 * M, 0, 0, 0, 0)]
    assert (loose, on_core, _limit(station, code)) == (90, 30, 30)
    assert _judged(station, code).wound_days == 20
    state = station.state(code)
    assert (state.in_tube, state.core_inside_nm, state.winding) == (True, None, None)


def test_rewinding_in_place_keeps_the_core(station: Station) -> None:
    """Only what is said changes."""
    roll = station.roll()

    station.rewind(roll, face="in")

    state = station.state(roll)
    assert (state.core_inside_nm, state.core_wall_nm) == (76_200_000, 5 * MM)
    assert (state.winding, state.wound_since) == ("in", None)


def test_a_roll_that_was_never_treated_counts_its_days_since_made(station: Station) -> None:
    """Laid flat, it has lain wound since it was made."""
    roll = station.roll(made="2026-11-05")

    station.lay_flat(roll)

    state = station.state(roll)
    assert (state.wound_days_before, state.core_inside_nm) == (20, None)


def test_a_new_core_takes_the_outer_end_first_and_flaws_with_it(station: Station) -> None:
    """A splice a metre from the outer end is then a metre from the core."""
    roll = station.roll()
    station.flaw(roll, M)

    station.rewind(roll)
    in_place = flaws_of(station.state(roll))
    station.rewind(roll, core=SMALL)

    assert in_place == (Flaw(M, "splice"),)
    assert flaws_of(station.state(roll)) == (Flaw(29 * M, "splice"),)


def test_both_are_undone(station: Station) -> None:
    """The core, the days and the flaws are as they were."""
    roll = station.roll()
    station.flaw(roll, M)
    before = station.state(roll)

    station.lay_flat(roll)
    station.rewind(roll, core=SMALL)
    station.undo(roll)
    station.undo(roll)

    assert station.state(roll) == before
    assert is_sound(station.book)


def test_the_rest_of_a_wound_print_stays_on_its_core(station: Station) -> None:
    """A sheet that is cut ends, but what is left is not suddenly loose."""
    code = station.print(station.blank(), 4 * M, core=SMALL).code

    rest = station.cut(code, M).offcuts[0].code

    assert station.state(rest).core_inside_nm == 50 * MM
    assert _limit(station, rest) == 30


@ON_ONE_ENGINE
def test_refuses_what_cannot_be_wound(station: Station) -> None:
    """A box, what is no more, what lies flat already, a face that is none."""
    roll, box = station.roll(), station.box()

    with refused(station.book, Code.WRONG_FORM):
        station.rewind(box)
    with refused(station.book, Code.WRONG_FORM):
        station.lay_flat(box)
    with refused(station.book, Code.BAD_USAGE, "in or out"):
        station.rewind(roll, face="up")
    station.lay_flat(roll)
    with refused(station.book, Code.ALREADY_THERE, "flat"):
        station.lay_flat(roll)
    station.discard(roll)
    with refused(station.book, Code.ENDED):
        station.rewind(roll)
    with refused(station.book, Code.ENDED):
        station.lay_flat(roll)


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("core", "code"),
    [
        ({"wall_nm": 5 * MM}, Code.BAD_USAGE),
        ({"inside_nm": -MM}, Code.BAD_LENGTH),
        ({"inside_nm": 50 * MM, "wall_nm": 0}, Code.BAD_LENGTH),
    ],
)
def test_refuses_a_core_that_cannot_be(station: Station, core: dict[str, Any], code: Code) -> None:
    """Nothing, less than nothing, or a wall around nothing."""
    roll = station.roll()

    with refused(station.book, code):
        station.rewind(roll, core=Core(**core))
