"""`buying`, and how a material is bought: for people and for a script."""

import pytest

from tests.cli.conftest import FILM, Shop


@pytest.fixture
def busy(shop: Shop) -> Shop:
    """A roll of which two metres a week are cut, until little is left."""
    shop.lines("release", "{held}", "--why", "only the box", "--at", "2026-11-03T10:00")
    shop.lines("discard", "{held}", "--why", "it was the film", "--at", "2026-11-03T11:00")
    for day in ("20T17:00", "21T09:00", "22T09:00", "23T09:00", "24T09:00"):
        shop.lines("cut", "{roll}", "2.5m", "--job", "{clinic}", "--at", f"2026-11-{day}")
    return shop


def test_buying_says_what_to_order_and_why(busy: Shop) -> None:
    """And that what it rests on is a default; then every material."""
    ran = busy.run("buying")
    lines = ran.out.splitlines()

    assert lines[0] == "Quay Street · Wed 2026-11-25"
    assert lines[1].startswith(f"{FILM}: 2.7 m to draw on, ordered below ")
    assert ", here in 8 days (default). Order 1 roll: it covers " in lines[1]
    assert lines[3].split() == [
        *("material", "demand", "a", "month", "fit", "reserved", "lost", "below", "order")
    ]
    assert lines[-1].startswith("urethane clear 200")
    assert lines[-1].endswith(" 1")
    assert "--lead 7d" in ran.err
    assert "coming: on order, for stock" in ran.err


def test_buying_as_values_carries_units(busy: Shop) -> None:
    """Film in metres, goods in numbers; the sentence as people read it."""
    blades, film = busy.values("buying")["materials"]

    assert (film["material"], film["fit_m"], film["position_m"]) == (FILM, 2.74, 2.74)
    assert (film["order_rolls"], film["why"], film["one_roll_or_box_m"]) == (1, "below", 15.24)
    assert (film["lead_days"], film["lead_basis"], film["service"]) == (8, "default", 0.95)
    assert film["sentence"].startswith("Order 1 roll: it covers ")
    assert (blades["fit_count"], blades["pattern"], blades["order_rolls"]) == (100, "new", 0)


def test_how_a_material_is_bought_is_entered_shown_and_taken_away(busy: Shop) -> None:
    """And decides what is ordered, from whom."""
    entered = ("--supplier", "Film house", "--lead", "2w", "--lead-spread", "2d", "--pack", "3")
    busy.lines("material", "change", FILM, *entered, "--why", "their list")

    assert busy.values("material", "show", FILM)["terms"] == {
        "supplier": "Film house",
        "lead": "14d",
        "spread": "2d",
        "pack": "3",
    }
    assert "lead time         14d" in busy.lines("material", "show", FILM)
    sentence = busy.lines("buying")[1]
    assert sentence.startswith(f"{FILM} from Film house: 2.7 m to draw on, ordered below ")
    assert ", here in 15 days. Order 3 rolls" in sentence
    assert [
        one["material"] for one in busy.values("buying", "--supplier", "film")["materials"]
    ] == [FILM]
    assert busy.values("buying", "--supplier", "glass")["materials"] == []
    busy.lines("material", "change", FILM, "--pack", "none", "--lead", "none", "--why", "gone")
    assert set(busy.values("material", "show", FILM)["terms"]) == {"supplier", "spread"}


def test_an_empty_shop_has_nothing_to_buy(empty_shop: Shop) -> None:
    """Once it has a book."""
    assert empty_shop.run("buying").code == 5
    empty_shop.lines("place", "add", "A1")

    assert empty_shop.lines("buying")[1:] == ["Nothing is to be ordered."]
    assert empty_shop.values("buying")["materials"] == []


@pytest.mark.parametrize("wrong", [("--lead", "soon"), ("--pack", "0"), ("--least", "-1")])
def test_terms_that_cannot_be_are_refused(shop: Shop, wrong: tuple[str, str]) -> None:
    """Nothing is written."""
    before = shop.dump()

    assert shop.run("material", "change", FILM, *wrong).code == 2
    assert shop.dump() == before
