"""An opening stock and materials from lists: all of it or the good lines, and each line once."""

from datetime import UTC, datetime
from typing import Any

import pytest

from stockroom.errors import Code
from stockroom.film.kinds import Kind
from stockroom.film.verdict import Verdict
from stockroom.units import M
from stockroom.work import list_stock
from stockroom.work.import_list import Imported, ImportList, Looked, keep, look_into
from stockroom.work.list_places import NamesListed
from stockroom.work.list_stock import StockListed
from stockroom.work.look import materials, places, rack
from stockroom.work.setup import settings
from tests.builders import BLADES, FILM, ON_ONE_ENGINE, PRICE, Station, refused

STOCK = (
    "Film,Length m,Lot,Made,Place,Qty,Cost EUR\n"
    "clear 50,30,L-1,2025-03,A1,2,450\n"
    "clear 50,12.5,,,,,\n"
    "snap blades,,,,A1,100,20\n"
)


@pytest.fixture
def shop(station: Station) -> Station:
    """A shop that knows its materials and a place, and holds nothing."""
    station.material()
    station.material(BLADES, Kind.BLADE)
    station.place("A1")
    return station


def _look(station: Station, text: str, **given: Any) -> tuple[ImportList, Looked]:
    request = ImportList(**station.asked(raw=text.encode(), **given))
    shop, _ = settings(station.book, now=station.now)
    return request, look_into(request, book=station.book, shop=shop, now=station.now)


def _import(station: Station, text: str, **given: Any) -> Imported:
    request, looked = _look(station, text, **given)
    return keep(request, looked, book=station.book, now=station.now)


def _stock(station: Station, text: str, **given: Any) -> StockListed:
    done = _import(station, text, **given)
    assert isinstance(done, StockListed)
    return done


def test_a_stock_comes_in_with_one_act(shop: Station) -> None:
    """Rolls and boxes, each with a code; what the list does not say stays unknown."""
    done = _stock(shop, STOCK)

    assert done.acts == 1
    assert {line: len(codes) for line, codes in done.codes.items()} == {2: 2, 3: 1, 4: 1}
    first, rest, box = (shop.piece(done.codes[line][0]).state for line in (2, 3, 4))
    assert (first.balance, first.lot, first.made, first.cost_minor) == (
        30 * M,
        "L-1",
        "2025-03",
        PRICE,
    )
    assert (rest.balance, rest.lot, rest.place_id) == (12_500_000_000, None, None)
    assert (box.form, box.balance, box.cost_minor) == ("box", 100, 2_000)
    assert len(shop.history(done.codes[4][0])[0].moves) == 4


def test_a_line_comes_in_once_whatever_file_it_is_in(shop: Station) -> None:
    """Other order, other writing, more lines: only what is new is added; two lines alike are two rolls."""
    _stock(shop, STOCK)
    again = _stock(shop, STOCK)
    other = _stock(
        shop,
        "Lot;Material;Length;Made;Place;Rolls;Price\n"
        ";CLEAR 50;12500 mm;;;;\n;clear 50;12500 mm;;;;\nL-1;clear 50;3000 cm;2025-03;A1;2;450\n",
    )

    assert (again.codes, again.acts, again.known) == ({}, 0, (2, 3, 4))
    assert (list(other.codes), other.known) == ([3], (2, 4))
    assert len(rack(shop.book, now=shop.now).pieces) == 5


def test_a_list_that_was_undone_can_come_again(shop: Station) -> None:
    """As after a list that was of another shop."""
    code = _stock(shop, STOCK).codes[3][0]
    shop.undo(code)

    assert len(_stock(shop, STOCK).codes) == 3


def test_one_bad_line_keeps_all_out_unless_the_good_ones_are_asked_for(shop: Station) -> None:
    """And each bad line says why."""
    text = f"{STOCK}grey 20,30,,,,,\nclear 50,30,,2099-01,,,\nclear 50,30,,,B9,,\nclear 50,-3,,,,,\n,5,,,,,\n"
    request, looked = _look(shop, text)

    with refused(shop.book, Code.BAD_FILE, "5 of 8 lines cannot be taken"):
        keep(request, looked, book=shop.book, now=shop.now)
    done = _stock(shop, text, good_lines_only=True)

    assert [(one.line, one.text.partition(":")[0]) for one in looked.findings] == [
        (5, "No material is called “grey 20”"),
        (6, "made 2099-01 is in the future"),
        (7, "No place is called “B9”"),
        (8, "length"),
        (9, "It names no material"),
    ]
    assert len(done.codes) == 3


def test_what_is_held_stays_held_and_what_is_no_more_stays_away(shop: Station) -> None:
    """An offcut is one, a roll of a client's has no price."""
    done = _stock(
        shop,
        "material,form,left_mm,width_mm,owner,held,ended\n"
        f"{FILM},roll,9000,,client,edge dented,\n{FILM},offcut,2000,600,ours,,\n{FILM},roll,5000,,,,discarded\n",
    )

    held, offcut = done.codes[2][0], done.codes[3][0]
    assert offcut.startswith("C")
    assert shop.piece(offcut).state.form == "offcut"
    assert (shop.piece(held).state.owner, shop.piece(held).state.cost_minor) == ("client", None)
    verdicts = {one.code: one.judgement.verdict for one in rack(shop.book, now=shop.now).pieces}
    assert verdicts == {held: Verdict.STOP, offcut: Verdict.USE}


def test_a_bottle_that_is_open_stays_open_and_a_laminate_is_one(shop: Station) -> None:
    """What rules need of a piece's past is carried; a day known in part is none to count from."""
    shop.material("slip", Kind.LIQUID, cost_minor=9_600)
    text = (
        "material,form,left_mm,left_count,laminate_lot,begun_on,keeps_days,contents,mixed_on\n"
        f"slip,box,,1,,2026-10-01,30,,\n{FILM},roll,9000,,G-2,,,,\nslip,box,,1,,2026-10,30,,\n"
        "slip,box,,1,,,7,1:60 in water,2026-11-24\n"
    )
    done = _stock(shop, text, good_lines_only=True)
    _, looked = _look(shop, text)

    bottle, laminate, mixed = (shop.piece(done.codes[line][0]).state for line in (2, 3, 5))
    assert (bottle.begun, bottle.keeps_days, bottle.cost_minor) == ("2026-10-01", 30, 9_600)
    assert (mixed.mixed, mixed.contents, mixed.cost_minor) == ("2026-11-24", "1:60 in water", None)
    assert (laminate.is_laminated, laminate.laminate_lot) == (True, "G-2")
    verdicts = {one.code: one.judgement.verdict for one in rack(shop.book, now=shop.now).pieces}
    assert verdicts[done.codes[2][0]] is Verdict.STOP
    assert looked.findings[0].text == "begun: “2026-10” is no day: write it in full"


def test_more_pieces_than_an_act_may_have_are_several_acts_and_still_all_or_none(
    shop: Station, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A line is never divided."""
    monkeypatch.setattr(list_stock, "MOST_OF_AN_ACT", 3)
    done = _stock(shop, STOCK, at=datetime(2026, 11, 20, 8, tzinfo=UTC))

    assert done.acts == 2
    assert len(shop.history(done.codes[2][0])[0].moves) == 3


@ON_ONE_ENGINE
def test_what_a_file_leaves_open_is_asked_before_anything_is_written(shop: Station) -> None:
    """Days that can be read in two ways, sizes without a unit, other money."""
    with refused(shop.book, Code.BAD_DATE, "--date-order"):
        _import(shop, "Film,Length m,Made\nclear 50,30,03/04/2025\n")
    with refused(shop.book, Code.BAD_NUMBER, "Length=length_m"):
        _import(shop, "Film,Length\nclear 50,30\n")
    with refused(shop.book, Code.BAD_MONEY, "is in CHF, and the book in EUR"):
        _import(shop, "Film,Length m,Price CHF\nclear 50,30,480\n")
    with refused(shop.book, Code.BAD_FILE, "no line that can be taken"):
        _import(shop, "Film,Length m\n")


MATERIALS = (
    "name,kind,width mm,thickness um,layers,shelf,supplier,lead,cost EUR\n"
    "clear 80,window-film,1524,100,80um:1390 + 20um:900,24mo,Quay Films,7d,450\n"
    "slip,liquid,,,,,,,12\n"
)


def test_materials_come_in_with_their_limits_and_terms(station: Station) -> None:
    """Again they add nothing; one that is there with something else is a finding, not a change."""
    done = _import(station, MATERIALS)
    again = _import(station, MATERIALS)
    _, looked = _look(station, MATERIALS.replace("1524", "1830").replace("24mo", "12mo"))

    assert isinstance(done, NamesListed)
    assert isinstance(again, NamesListed)
    assert (done.names, again.names, again.known) == (("clear 80", "slip"), (), (2, 3))
    film = next(one for one in materials(station.book, now=station.now) if one.name == "clear 80")
    assert (film.kind, film.width_nm, film.cost_minor) == (Kind.WINDOW_FILM, 1_524_000_000, 45_000)
    assert [layer.density_kg_m3 for layer in film.layers] == [1390, 900]
    assert (str(film.limits["shelf"].span), film.terms["supplier"]) == ("24mo", "Quay Films")
    assert [one.text for one in looked.findings] == [
        "“clear 80” is there with another width, shelf: see `material change`"
    ]


def test_places_come_in_with_their_zones(station: Station) -> None:
    """Once; one that is there in another zone, is named twice or has no name is a finding."""
    text = "Location,Zone\nA1,north\nvan 2,\n"
    done, again = _import(station, text), _import(station, text.replace("A1", "a1"))
    _, looked = _look(
        station, f"{text}A1,north\nvan 2,south\n,loft\n".replace("A1,north", "A1,loft", 1)
    )

    assert isinstance(done, NamesListed)
    assert isinstance(again, NamesListed)
    assert (done.names, again.names, again.known) == (("A1", "van 2"), (), (2, 3))
    assert [(one.name, one.zone) for one in places(station.book, now=station.now)] == [
        ("A1", "north"),
        ("van 2", ""),
    ]
    assert [(one.line, one.text) for one in looked.findings] == [
        (2, "“A1” is there, in the zone north: leave it out, or name another"),
        (4, "“A1” is on line 2 already"),
        (5, "“van 2” is on line 3 already"),
        (6, "It names no place"),
    ]


@ON_ONE_ENGINE
def test_a_bad_material_keeps_all_out(station: Station) -> None:
    """Twice the same name, no kind, a limit that is none."""
    text = "name,kind,shelf\na,window-film,24mo\nA,window-film,24mo\nb,,\nc,film of glass,\nd,blade,soon\n"
    request, looked = _look(station, text)

    with refused(station.book, Code.BAD_FILE, "4 of 5 lines"):
        keep(request, looked, book=station.book, now=station.now)
    assert [one.line for one in looked.findings] == [3, 4, 5, 6]
