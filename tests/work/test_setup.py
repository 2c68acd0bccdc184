"""A shop sets up what it shares; what was in force stays on record."""

from datetime import timedelta
from typing import Any

import pytest

from stockroom.errors import Code
from stockroom.film.dates import Span
from stockroom.film.kinds import Kind
from stockroom.film.limits import Basis
from stockroom.film.roll import Layer
from stockroom.units import INCH, M, System
from stockroom.work.look import materials, places
from stockroom.work.setup import (
    ChangeMaterial,
    SetValue,
    change_a_material,
    set_value,
    settings,
)
from tests.builders import FILM, ON_ONE_ENGINE, Station, refused
from tests.conftest import NOW


def _set(station: Station, name: str, value: str, **given: Any) -> None:
    request = SetValue(**station.asked(name=name, value=value, why="agreed", **given))
    set_value(request, book=station.book, now=station.now)


def _change(station: Station, **given: Any) -> None:
    request = ChangeMaterial(**station.asked(**{"name": FILM} | given))
    change_a_material(request, book=station.book, now=station.now)


def test_an_empty_book_has_the_house_defaults(station: Station) -> None:
    """And every one of them reads as a default."""
    shop, entries = settings(station.book, now=NOW)

    assert (shop.system, shop.currency, shop.zone, shop.day_start_hour) == (
        System.METRIC,
        "EUR",
        "UTC",
        5,
    )
    assert entries == ()
    assert shop.house.own == frozenset()


def test_what_is_set_is_in_force_from_now_on_and_before_stays_before(station: Station) -> None:
    """A report on last week counts with last week's values."""
    station.wait(days=1)
    for name, value in (
        ("name", "North Yard"),
        ("units", "us"),
        ("currency", "jpy"),
        ("time-zone", "Europe/Lisbon"),
        ("day-start", "06:00"),
        ("rest.solvent", "36h"),
        ("shelf.window-film", "18mo"),
    ):
        _set(station, name, value)

    shop, entries = settings(station.book, now=station.now)
    before, _ = settings(station.book, now=NOW)

    assert (shop.name, shop.system, shop.currency) == ("North Yard", System.US, "JPY")
    assert (shop.zone, shop.day_start_hour) == ("Europe/Lisbon", 6)
    assert shop.house.numbers["rest.solvent"] == 36
    shelf = shop.house.shelf(Kind.WINDOW_FILM)
    assert shelf is not None
    assert (shelf.span, shelf.basis) == (Span(months=18), Basis.HOUSE)
    assert (before.system, before.house.own) == (System.METRIC, frozenset())
    assert {(entry.operator, entry.why) for entry in entries} == {("Ida M.", "agreed")}


@pytest.mark.parametrize("typed", ['11 13/16"', "300.0375 mm", "1' 1/64\""])
def test_a_length_of_the_house_is_kept_to_the_nanometre(station: Station, typed: str) -> None:
    """A limit typed in sixteenths of an inch is that limit, not the nearest millimetre."""
    expected = {"1' 1/64\"": 12 * INCH + INCH // 64}.get(typed, 300_037_500)

    _set(station, "units", "us")
    _set(station, "keep.across", typed)
    _set(station, "units", "metric")

    shop, _ = settings(station.book, now=NOW)
    assert shop.house.numbers["keep.across"] == expected


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("units", "cubits"),
        ("currency", "euro"),
        ("currency", "€"),
        ("currency", "EUX"),
        ("currency", "XAU"),
        ("currency", ""),
        ("time-zone", "Atlantis/Main Street"),
        ("time-zone", ""),
        ("time-zone", "../../etc/passwd"),
        ("day-start", "24"),
        ("day-start", "-1"),
        ("day-start", "05:30"),
        ("name", ""),
        ("rest.solvent", "-1h"),
        ("rest.solvent", "nan"),
        ("near.percent", "101%"),
    ],
)
def test_refuses_a_value_the_shop_cannot_have(station: Station, name: str, value: str) -> None:
    """A wrong value would be in force for ever after."""
    with refused(station.book, Code.BAD_SETTING):
        _set(station, name, value)


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("name", "near"),
    [("curency", "currency"), ("time-zon", "time-zone"), ("rest.solvant", "rest.solvent")],
)
def test_a_wrong_name_is_refused_with_the_nearest(station: Station, name: str, near: str) -> None:
    """A slip of the finger is named."""
    with refused(station.book, Code.BAD_SETTING, f"did you mean {near}?"):
        _set(station, name, "5")


def test_a_material_is_found_by_its_name_in_any_case(station: Station) -> None:
    """And a name that is taken, in any case, is refused."""
    station.material("Clear  50")

    with refused(station.book, Code.ALREADY_THERE):
        station.material("CLEAR 50")
    assert station.roll(material="clear 50").startswith("R")


def test_a_limit_entered_with_the_material_was_always_in_force(station: Station) -> None:
    """A changed one is in force from then on, and one taken away leaves the house default."""
    station.material(limits={"shelf": "24mo"})
    station.wait(days=1)
    _change(station, limits={"shelf": "18 months"}, why="new sheet")
    changed = station.wait(days=1)
    _change(station, limits={"shelf": ""})

    def limit(days: int) -> object:
        one = materials(station.book, now=NOW + timedelta(days=days))[0]
        return one.limits.get("shelf") and one.limits["shelf"].span

    assert changed == NOW + timedelta(days=2)
    assert (limit(-500), limit(0), limit(1), limit(2)) == (
        Span(months=24),
        Span(months=24),
        Span(months=18),
        None,
    )


def test_figures_are_entered_and_changed_like_limits(station: Station) -> None:
    """Typed in their units, in force from then on, taken away by nothing."""
    station.material(figures={"energy": "Q10 2", "bond": "0.5 J/m²"})
    station.wait(days=1)
    _change(station, figures={"energy": "60", "curl": "180mm"}, why="new sheet")
    station.wait(days=1)
    _change(station, figures={"curl": ""})

    def figures(days: int) -> dict[str, float]:
        one = materials(station.book, now=NOW + timedelta(days=days))[0]
        assert {figure.basis for figure in one.facts.values()} == {Basis.MAKER}
        assert dict(one.limits) == {}
        return {name: figure.value for name, figure in one.facts.items()}

    assert figures(0) == {"energy": pytest.approx(51.2162, abs=1e-4), "bond": 0.5}
    assert figures(1) == {"energy": 60.0, "bond": 0.5, "curl": 180.0}
    assert figures(2) == {"energy": 60.0, "bond": 0.5}


def test_a_changed_material_leaves_the_rolls_received_before_as_they_were(
    station: Station,
) -> None:
    """A roll has the thickness it was received with."""
    before = station.roll()
    _change(station, changes={"thickness_nm": 100_000, "layers": (Layer(100.0, 1_400.0),)})
    after = station.roll()

    assert (station.state(before).thickness_nm, station.state(after).thickness_nm) == (
        75_000,
        100_000,
    )
    assert materials(station.book, now=NOW)[0].layers == (Layer(100.0, 1_400.0),)


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({"name": ""}, Code.BAD_NAME),
        ({"counted_from": "birthday"}, Code.BAD_NAME),
        ({"limits": {"shelf": "soon"}}, Code.BAD_SPAN),
        ({"figures": {"energy": "warm"}}, Code.BAD_NUMBER),
        ({"figures": {"shelf": "24mo"}}, Code.BAD_NAME),
    ],
)
def test_refuses_a_material_the_rules_could_not_read(
    station: Station, given: dict[str, Any], code: Code
) -> None:
    """One bad word would stop every list it is part of."""
    with refused(station.book, code):
        station.material(**{"name": "urethane 200"} | given)


def test_refuses_changes_the_rules_could_not_read(station: Station) -> None:
    """A change is looked at like the first entry, and an unknown material is not found."""
    station.material()

    with refused(station.book, Code.BAD_NAME):
        _change(station, changes={"counted_from": "birthday"})
    with refused(station.book, Code.BAD_SPAN):
        _change(station, limits={"shelf": "-3d"})
    with refused(station.book, Code.BAD_NUMBER):
        _change(station, figures={"modulus": "0"})
    with refused(station.book, Code.NO_MATERIAL):
        _change(station, name="never heard of")


def test_places_have_codes_and_names_of_their_own(station: Station) -> None:
    """Two bays with one name would be one bay too few."""
    first, second = station.place("Bay 1"), station.place("Bay 2", zone="south")

    found = places(station.book, now=NOW)

    assert [(place.code, place.name, place.zone) for place in found] == [
        (first, "Bay 1", "north"),
        (second, "Bay 2", "south"),
    ]
    with refused(station.book, Code.ALREADY_THERE):
        station.place("BAY  1")
    with refused(station.book, Code.BAD_NAME):
        station.place("")


def test_a_box_of_a_kind_without_a_limit_is_simply_used(station: Station) -> None:
    """Tools do not age."""
    station.material("squeegee", Kind.TOOL)

    assert station.take(station.box(material="squeegee"), 1).left == 99
    assert station.roll(length_nm=M).startswith("R")
