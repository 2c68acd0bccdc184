"""Receiving gives each piece a code and a first move; a delivery is one act."""

from datetime import timedelta
from typing import Any

import pytest

from stockroom.books.fold import State
from stockroom.codes.own import is_code
from stockroom.errors import Code
from stockroom.film.kinds import Kind
from stockroom.units import MM, M
from tests.builders import FILM, ON_ONE_ENGINE, PRICE, Station, is_sound, refused, written
from tests.conftest import NOW


def test_a_delivery_is_one_act_with_a_code_for_each_roll(station: Station) -> None:
    """Four rolls that came together are four pieces of one act."""
    codes = station.rolls(pieces=4, lot="L-204")

    acts = station.history(codes[0])
    assert len(set(codes)) == 4
    assert all(is_code(code) and code.startswith("R") for code in codes)
    assert len(acts) == 1
    assert written(acts[0]) == [(code, "receive", 30 * M, 30 * M, 0, 0, 0, 0) for code in codes]
    assert is_sound(station.book)


def test_a_roll_begins_with_what_was_said_and_what_its_material_says(station: Station) -> None:
    """What nobody says of a roll is what the material says."""
    station.material()
    place = station.place("A1")

    roll = station.roll(material="CLEAR  50", lot="L-204", place="a1", made="2026-06")

    assert station.state(roll) == State(
        form="roll",
        material_id=1,
        balance=30 * M,
        full=30 * M,
        received="2026-11-25",
        lot="L-204",
        width_nm=1_500 * MM,
        thickness_nm=75_000,
        core_inside_nm=76_200_000,
        core_wall_nm=5 * MM,
        cost_minor=PRICE,
        made="2026-06",
        place_id=1,
    )
    assert place.startswith("P")


def test_a_box_counts_and_is_not_wound(station: Station) -> None:
    """Blades have a number, and no width, core or curl."""
    box = station.box(120)

    state = station.state(box)
    assert box.startswith("B")
    assert (state.form, state.balance, state.width_nm, state.is_wound) == ("box", 120, None, False)


def test_the_price_of_the_material_is_that_of_a_roll_unless_another_was_paid(
    station: Station,
) -> None:
    """A price paid goes over a price listed, and a gift costs nothing."""
    station.material(cost_minor=50_000)

    listed, paid, given = (station.roll(cost_minor=cost) for cost in (None, 40_000, 0))

    assert [station.state(roll).cost_minor for roll in (listed, paid, given)] == [50_000, 40_000, 0]


def test_a_print_known_by_its_day_was_done_by_the_end_of_it_or_by_now(station: Station) -> None:
    """A print that came in this morning was done this morning at the latest."""
    before = station.roll(printed="2026-11-20", ink="solvent")
    today = station.roll(printed="2026-11-25", ink="solvent")

    assert station.state(before).printed_by == "2026-11-21T04:59:59.999999+00:00"
    assert station.state(today).printed_by == NOW.isoformat()


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({"length_nm": None}, Code.WRONG_FORM),
        ({"number": 3}, Code.WRONG_FORM),
        ({"length_nm": None, "number": 3}, Code.WRONG_FORM),
        ({"length_nm": 0}, Code.BAD_LENGTH),
        ({"length_nm": -M}, Code.BAD_LENGTH),
        ({"width_nm": -M}, Code.BAD_LENGTH),
        ({"pieces": 0}, Code.BAD_NUMBER),
        ({"pieces": 1_001}, Code.BAD_NUMBER),
        ({"material": "never heard of"}, Code.NO_MATERIAL),
        ({"place": "nowhere"}, Code.NO_PLACE),
        ({"printed": "2026-11", "ink": "squid"}, Code.BAD_NAME),
        ({"made": "yesterday"}, Code.BAD_DATE),
        ({"made": "2026-02-30"}, Code.BAD_DATE),
        ({"received": "2026-11-26"}, Code.FUTURE),
        ({"made": "2026-12"}, Code.FUTURE),
        ({"printed": "2027"}, Code.FUTURE),
        ({"made": "2026-05-02", "shipped": "2026-05-01"}, Code.TOO_EARLY),
        ({"made": "2026-05-02", "received": "2026-05-01"}, Code.TOO_EARLY),
        ({"made": "2026-05-02", "printed": "2026-05-01"}, Code.TOO_EARLY),
        ({"at": NOW + timedelta(seconds=1)}, Code.FUTURE),
    ],
)
def test_refuses_what_cannot_have_come_in(
    station: Station, given: dict[str, Any], code: Code
) -> None:
    """Neither a code is used up nor a piece made."""
    station.material()

    with refused(station.book, code):
        station.roll(**{"material": FILM, "made": None} | given)


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({"number": None, "length_nm": M}, Code.WRONG_FORM),
        ({"length_nm": M}, Code.WRONG_FORM),
        ({"number": 0}, Code.BAD_NUMBER),
        ({"number": -1}, Code.BAD_NUMBER),
    ],
)
def test_counted_goods_need_a_number(station: Station, given: dict[str, Any], code: Code) -> None:
    """A box of nothing is not received."""
    station.material("snap blades", Kind.BLADE)

    with refused(station.book, code):
        station.box(**{"material": "snap blades"} | given)


def test_a_roll_without_a_width_is_refused(station: Station) -> None:
    """Area, and so cost, would be unknown for ever."""
    station.material(width_nm=None)

    with refused(station.book, Code.UNKNOWN_SIZE, "--width"):
        station.roll(material=FILM)


def test_dates_known_in_part_may_overlap(station: Station) -> None:
    """March and the 14th of March do not contradict each other."""
    roll = station.roll(made="2025-03-14", shipped="2025-03", received="2025")

    assert station.state(roll).shipped == "2025-03"


def test_opening_stock_is_entered_for_the_day_it_was_found(station: Station) -> None:
    """A roll may be written down later than it came."""
    roll = station.roll(at=NOW - timedelta(days=40))

    assert station.state(roll).received == "2026-10-16"
    assert station.piece(roll).last_at == NOW - timedelta(days=40)
