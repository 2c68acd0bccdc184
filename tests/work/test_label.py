"""A label holds only what no later act can change."""

from datetime import timedelta

import pytest

from stockroom.errors import Code
from stockroom.units import MM, M
from stockroom.work.label import labels
from stockroom.work.setup import ChangeMaterial, change_a_material
from tests.builders import FILM, Station, refused


def test_a_roll_says_what_it_is_and_how_old(station: Station) -> None:
    """Width, lot, the dates that are known, and the maker's shelf date."""
    station.material(limits={"shelf": "24mo"})
    roll = station.roll(material=FILM, lot="L-204", made="2026-06-01", printed="2026-11", ink="uv")

    label = labels([roll], book=station.book, now=station.now)[0]

    assert (label.code, label.title, label.lot) == (roll, FILM, "L-204")
    assert "1500" in label.width_text
    assert dict(label.dates) == {
        "made": "2026-06-01",
        "received": "2026-11-25",
        "printed": "2026-11",
        "shelf": "2028-06-01",
    }


def test_an_unknown_lot_and_an_unknown_limit_are_said_or_left_out(station: Station) -> None:
    """A question mark for what somebody should find out, nothing for what nobody promised."""
    roll = station.roll(made=None)

    label = labels([roll], book=station.book, now=station.now)[0]

    assert label.lot == "?"
    assert [name for name, _ in label.dates] == ["received"]


def test_a_reprint_is_the_same_label(station: Station) -> None:
    """Whatever was done to the piece and its material since."""
    station.material(limits={"shelf": "24mo"})
    place = station.place()
    roll = station.roll(material=FILM, lot="L-204")
    sheet = station.cut(roll, 2 * M, offcuts=((700 * MM, M),)).offcuts[0].code
    box = station.box(120)
    codes = (roll, sheet, box)
    before = labels(codes, book=station.book, now=station.now)

    station.wait(days=1)
    change = ChangeMaterial(**station.asked(name=FILM, limits={"shelf": "6mo"}, why="new sheet"))
    change_a_material(change, book=station.book, now=station.now)
    station.put(roll, place)
    station.cut(roll, 3 * M)
    station.count(sheet, length_nm=900 * MM)
    station.take(box, 7)
    station.hold(box)

    assert labels(codes, book=station.book, now=station.now + timedelta(days=9)) == before


@pytest.mark.parametrize("place", [0, 1])
def test_a_code_nobody_has_gets_no_label(station: Station, place: int) -> None:
    """Nor do the others that were asked for with it."""
    codes = [station.roll()]
    codes.insert(place, "R0009994")

    with refused(station.book, Code.NO_PIECE):
        labels(codes, book=station.book, now=station.now)
