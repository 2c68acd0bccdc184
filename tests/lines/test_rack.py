"""The rack in words, and what is found on it."""

import pytest

from stockroom.film.kinds import Kind
from stockroom.film.verdict import Verdict
from stockroom.lines import rack as lines
from stockroom.lines.rack import Shelf
from stockroom.units import MM, M
from stockroom.work.look import EVERYTHING, Wanted, rack
from tests.builders import Station


def the_shelf(station: Station) -> Shelf:
    return lines.shelf(rack(station.book, now=station.now))


def codes(shelf: Shelf, wanted: Wanted = EVERYTHING) -> list[str]:
    return [shelf.pieces[at].code for at in shelf.chosen(wanted)]


def cells(station: Station, code: str) -> tuple[str, ...]:
    shelf = the_shelf(station)
    one = next(one for one in shelf.pieces if one.code == code)
    return lines.cells(one, shelf.view)


def test_film_stands_together_and_what_asks_for_most_stands_first_then_the_oldest(
    station: Station,
) -> None:
    """The order in which it is to be used."""
    for name in ("white", "Amber"):
        station.material(name)
    young = station.roll(material="white", made="2026-06-01")
    old = station.roll(material="white", made="2026-03-01")
    held = station.roll(material="white", made="2026-08-01")
    station.hold(held)
    amber = station.roll(material="Amber")

    assert codes(the_shelf(station)) == [amber, held, old, young]


def test_words_are_found_in_code_film_lot_place_and_job(station: Station) -> None:
    """All of the words, in whatever case and order."""
    job = station.job("tram shelter")
    vinyl = station.material("white cast", Kind.PRINT_VINYL, width_nm=1_370 * MM)
    printed = station.roll(
        material=vinyl, made="2026-07-01", printed="2026-11-01", job=job, place=station.place("B2")
    )
    other = station.roll(lot="L-2291")
    shelf = the_shelf(station)

    for words in ("CAST shelter", printed.lower(), "b2 white", job):
        assert codes(shelf, Wanted(find=words)) == [printed]
    assert codes(shelf, Wanted(find="l-22")) == [other]
    assert codes(shelf, Wanted(find="cast l-22")) == []


def test_material_place_and_verdict_narrow_the_shelf_together(station: Station) -> None:
    """A place is asked for by its name or by its code; unknown is a place too."""
    place = station.place("B2")
    here, near = station.roll(place=place), station.roll(place=place, made="2024-12-10")
    nowhere = station.roll()
    shelf = the_shelf(station)

    assert codes(shelf, Wanted(place="B2")) == codes(shelf, Wanted(place=place)) == [near, here]
    assert codes(shelf, Wanted(place="?")) == [nowhere]
    assert codes(shelf, Wanted(place="B2", verdict=Verdict.USE_FIRST)) == [near]
    assert codes(shelf, Wanted(material="clear 50", verdict=Verdict.TEST)) == []
    assert codes(shelf, Wanted(verdict=Verdict.WAIT)) == []


def test_a_wait_stands_beside_a_verdict_that_gives_way(station: Station) -> None:
    """Both have their sign and word in one narrow column."""
    vinyl = station.material("white cast", Kind.PRINT_VINYL, width_nm=1_370 * MM)
    job = station.job()
    fresh = station.roll(material=vinyl, made="2026-07-01", printed="2026-11-25", job=job)
    near = station.roll(material=vinyl, made="2024-12-10", printed="2026-11-25", job=job)

    assert cells(station, fresh)[3] == "● USE ◷ WAIT"
    assert cells(station, near)[3] == "◐ FIRST ◷ WAIT"
    assert codes(the_shelf(station), Wanted(verdict=Verdict.WAIT)) == [near, fresh]


@pytest.mark.parametrize(
    ("facts", "age"),
    [
        ({"made": "2026-06-01"}, "5 mo"),
        ({"made": "2026-06"}, "~ 5 mo"),
        ({"made": None, "received": "2026-10-01"}, "≥ 55 d"),
    ],
)
def test_an_age_says_how_sure_it_is(station: Station, facts: dict[str, str], age: str) -> None:
    """By a sign: at least so old, or assumed."""
    assert cells(station, station.roll(**facts))[4] == age


def test_goods_are_never_wound_and_what_is_unknown_reads_so(station: Station) -> None:
    """A dash is not a question mark."""
    *_, wound, lot, received = cells(station, station.box())

    assert (wound, lot, received) == ("-", "?", "2026-11-25")


def test_what_is_shown_says_by_what_it_was_chosen(station: Station) -> None:
    """A scanned place by its name."""
    place = station.place("B2")
    station.roll(place=place)
    station.roll()
    shelf = the_shelf(station)

    def said(wanted: Wanted) -> str:
        return lines.said(shelf, wanted, shelf.chosen(wanted))

    assert said(EVERYTHING) == "2 pieces"
    assert said(Wanted(place=place, find="clear")) == "1 of 2 pieces  ·  at B2  ·  “clear”"
    assert said(Wanted(verdict=Verdict.TEST)) == "0 of 2 pieces  ·  ▲ TEST"


def test_what_is_no_more_is_not_on_the_rack(station: Station) -> None:
    """A finished roll takes no line."""
    code = station.roll()
    station.cut(code, 1 * M)
    station.finish(code)

    assert codes(the_shelf(station)) == []
