"""Values for scripts."""

import json

import pytest

from stockroom.books.values import Shop
from stockroom.lines import answers
from stockroom.units import MM, M
from stockroom.work import look
from tests.builders import BLADES, FILM, Station


@pytest.mark.parametrize(
    ("length_nm", "said"),
    [
        (None, "null"),
        (0, "0"),
        (1524 * MM, "1524"),
        (25_400, "0.0254"),
        (30_480_000_000, "30480"),
        (396_875, "0.396875"),
        (29_749_500_128, "29749.500128"),
        (-(3 * M), "-3000"),
    ],
)
def test_millimetres_are_whole_where_they_are_exact(length_nm: int | None, said: str) -> None:
    """And carry every nanometre where they are not."""
    assert json.dumps(answers.mm(length_nm)) == said


def test_micrometres_are_whole_where_they_are_exact() -> None:
    """2 mil is 50.8."""
    assert json.dumps([answers.um(one) for one in (50_800, 50_000, None)]) == "[50.8, 50, null]"


def test_film_is_measured_and_goods_are_counted() -> None:
    """The key says which."""
    assert answers.amount("R000002J", 3 * M) == {"left_mm": 3000}
    assert answers.amount("B000004S", 3) == {"left_count": 3}
    assert answers.amount("C000001H", -3 * M, "change") == {"change_mm": -3000}


def test_a_row_of_the_rack_goes_through_json_unharmed(station: Station) -> None:
    """Roll, offcut and box alike; an assumed age says so."""
    station.roll(made="2026-06")
    station.offcut()
    station.box()
    found = look.rack(station.book, now=station.now)

    rows = [answers.piece(one, found.view.shop, None) for one in found.pieces]

    assert json.loads(json.dumps(rows)) == rows
    assert {one["form"] for one in rows} == {"roll", "offcut", "box"}
    assert {one["material"] for one in rows} == {FILM, BLADES}
    basis = {one["code"]: one["shelf_days_basis"] for one in rows}
    assert basis["R000002J"] == "assumed"


def test_the_money_of_a_piece_without_a_price_is_unknown(station: Station) -> None:
    """Not zero."""
    station.material()
    free = station.roll(material=FILM, cost_minor=None)
    done = station.cut(free, 1 * M)
    one = look.piece(station.book, free, now=station.now).judged.standing

    assert answers.cut(done, one)["cost_minor"] is None
    assert answers.changed(done.act, one, done.left_nm, 0)["cost_minor"] is None


def test_an_act_carries_its_moves_with_units(station: Station) -> None:
    """Areas in square millimetres, lengths in millimetres, times on the clock of the shop."""
    roll = station.roll()
    station.cut(roll, 1 * M)

    act = answers.act(station.history(roll)[0], Shop())

    assert act["at"] == "2026-11-25T09:00:00+00:00"
    assert act["moves"] == [
        {
            "code": roll,
            "kind": "cut",
            "change_mm": -1000,
            "left_mm": 29_000,
            "used_area_mm2": 1_500_000,
            "wasted_area_mm2": 0,
            "kept_area_mm2": 0,
            "cost_minor": 1500,
        }
    ]
