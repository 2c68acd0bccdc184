"""The reports before closing, of closed days and of stock, as they are typed."""

import pytest

from tests.cli.conftest import BLADES, FILM, Shop


def test_closing_says_what_lies_out_and_what_is_half_typed(shop: Shop) -> None:
    """Then the days that begin tomorrow."""
    shop.lines("delivery", "add", FILM)
    shop.lines("closed", "add", "2026-11-26..2026-11-27", "--why", "town fair")

    lines = shop.lines("closing")

    assert lines[:2] == ["Quay Street · Wed 2026-11-25", ""]
    assert lines[lines.index("Not in a place") + 1].split()[:2] == ["B000", "004S"]
    assert "  delivery “goods in”, Ida M., 2026-11-25 09:00" in lines
    assert lines[-2:] == [
        "  Thu 2026-11-26 to Fri 2026-11-27, town fair, open again Sat 2026-11-28",
        "  no verdict changes meanwhile",
    ]
    values = shop.values("closing")
    assert [one["code"] for one in values["nowhere"]] == [shop.codes["box"]]
    assert values["closed"]["opens_on"] == "2026-11-28"
    assert (values["out"], values["drafts"][0]["name"]) == ([], "goods in")


def test_closing_of_a_tidy_shop_is_one_line(shop: Shop) -> None:
    """Everybody can go home."""
    shop.lines("put", "{box}", "A1")

    assert shop.lines("closing")[1:] == ["Nothing lies out, waits or was left half typed."]


def test_closed_days_are_written_listed_and_dropped(shop: Shop) -> None:
    """One day or several; each with the verdicts that change."""
    assert shop.lines("closed", "list")[0].startswith("No closed days are to come")
    days = "2028-03-01..2028-03-20"
    assert shop.lines("closed", "add", days, "--why", "rebuilding") == [
        "closed: Wed 2028-03-01 to Mon 2028-03-20, rebuilding"
    ]
    shop.lines("closed", "add", "2026-12-25")

    assert shop.lines("closed", "list")[3:] == [
        "Wed 2028-03-01 to Mon 2028-03-20, rebuilding, open again Tue 2028-03-21",
        f"R000 002J  ◐ USE FIRST → ▲ TEST  {FILM}, A1",
    ]
    last = shop.values("closed", "list")["closed"][1]
    assert last["changes"][0] == {
        "code": shop.codes["roll"],
        "material": FILM,
        "before": "USE FIRST",
        "after": "TEST",
    }
    assert shop.values("closed", "list", "--today", "2027-01-01")["closed"] == [last]
    assert shop.values("closed", "drop", days)["is_closed"] is False
    assert [one["first"] for one in shop.values("closed", "list")["closed"]] == ["2026-12-25"]


@pytest.mark.parametrize("days", ["christmas", "2026-12", "2026-12-24..", "2027-01-02..2026-12-24"])
def test_days_that_cannot_be_read_are_refused(shop: Shop, days: str) -> None:
    """In one line, and nothing is written."""
    before = shop.dump()

    ran = shop.run("closed", "add", days)

    assert (ran.code, ran.out, ran.err.count("\n")) == (2, "", 1)
    assert shop.dump() == before


def test_stock_says_area_in_both_units_and_value(shop: Shop) -> None:
    """What has no price is said, and not in the value."""
    shop.lines("receive", BLADES, "--count", "5")

    lines = shop.lines("stock")
    values = shop.values("stock", "--material", "urethane")

    assert lines[0].split() == ["material", "pieces", "m²", "sq", "ft", "value", "verdicts"]
    assert lines[1].split() == [
        *BLADES.split(),
        "2",
        "105",
        "pcs",
        "20.00",
        "EUR",
        "+",
        "?",
        "●",
        "2",
    ]
    assert lines[2].split()[3:] == ["2", "46.45", "500.0", "960.00", "EUR", "✕", "1", "●", "1"]
    assert lines[-2:] == [
        "980.00 EUR in all on 2026-11-25",
        "1 piece without a price, not in the value",
    ]
    assert values["materials"][0]["area_mm2"] == 2 * 1_524 * 15_240
    assert values["materials"][0]["verdicts"] == {"USE": 1, "USE FIRST": 0, "TEST": 0, "STOP": 1}
    assert shop.lines("stock", "--material", "x")[0].startswith("Nothing of ours")
