"""`use` and `value`: for people, for a script and for a spreadsheet."""

import csv
from io import StringIO

from tests.cli.conftest import FILM, Shop


def _worked(shop: Shop) -> None:
    """Two cuts for a job, one with waste; blades; a sample."""
    shop.lines("cut", "{roll}", "3m", "--waste", "500mm", "--job", "{clinic}")
    shop.lines("cut", "{roll}", "1.5m", "--for", "sample")
    shop.lines("take", "{box}", "4", "--job", "{clinic}")


def test_use_says_what_was_taken_and_what_it_means(shop: Shop) -> None:
    """The meaning beside it, for it is no data."""
    _worked(shop)
    ran = shop.run("use")

    assert ran.out.splitlines() == [
        "material             used   waste  no job  discarded  counts       cost",
        "snap blades 9 mm    4 pcs       -       -          -       -   0.80 EUR",
        "urethane clear 200  2.5 m  500 mm   1.5 m    15.24 m       -  94.49 EUR",
    ]
    assert ran.err.startswith("Lengths are of full width.")


def test_use_by_week_names_the_monday(shop: Shop) -> None:
    """And by month the month."""
    _worked(shop)

    assert "2026-11-02" in shop.lines("use", "--by", "week", "--material", "urethane")[1]
    assert shop.values("use", "--by", "week", "--since", "2026-11-23")["rows"][1]["begins"] == (
        "2026-11-23"
    )
    assert " 2026-11  " in shop.lines("use", "--by", "month")[-1]


def test_use_as_a_sheet_has_the_same_figures(shop: Shop) -> None:
    """Headings carry units; a name that a spreadsheet would run is harmless."""
    shop.lines("material", "add", "=1+1", "--kind", "blade")
    box = shop.values("receive", "=1+1", "--count", "9", "--cost", "9")["pieces"][0]["code"]
    _worked(shop)
    shop.lines("take", box, "2", "--job", "{clinic}")

    rows = list(csv.DictReader(StringIO("\n".join(shop.lines("use", "--csv")))))

    values = shop.values("use")["rows"]
    assert [row["material"] for row in rows] == ["'=1+1", "snap blades 9 mm", FILM]
    for row, value in zip(rows, values, strict=True):
        assert row["cost_minor_EUR"] == str(value["cost_minor"])
        assert row["for_jobs_m"] == ("" if value["for_jobs_m"] is None else "3.0")
        assert row["for_jobs_count"] == (
            "" if value["for_jobs_count"] is None else row["used_count"]
        )


def test_nothing_taken_is_said(shop: Shop) -> None:
    """In a stretch of time in which nobody worked."""
    assert shop.run("use", "--since", "2026-11-25").out == "Nothing was taken.\n"


def test_value_says_what_the_room_is_worth(shop: Shop) -> None:
    """By verdict, age and lot; what was written off; waste."""
    _worked(shop)

    lines = shop.lines("value")

    assert lines[:2] == ["Quay Street · Wed 2026-11-25", "3 pieces worth 837.47 EUR"]
    for said in (
        "  urethane clear 200  L-22       2  818.27 EUR",
        "  discarded                          480.00 EUR",
        "  taken for jobs                     95.29 EUR",
        "  urethane clear 200  3.81 m²  0.76 m²  16.7 %",
    ):
        assert said in lines


def test_value_as_values_and_as_a_sheet_agree(shop: Shop) -> None:
    """Piece by piece, and in all."""
    _worked(shop)

    values = shop.values("value", "--days", "30")
    rows = list(csv.DictReader(StringIO("\n".join(shop.lines("value", "--csv")))))

    assert [row["code"] for row in rows] == [one["code"] for one in values["pieces"]]
    assert sum(int(row["value_minor_EUR"]) for row in rows) == values["value_minor"]
    assert values["total"] == {
        "pieces": 3,
        "value_minor": values["value_minor"],
        "unpriced_pieces": 0,
    }
    assert values["film_waste"][0]["waste_share"] == 0.166667
    assert values["discarded_minor"] == 48_000


def test_two_forms_of_one_answer_are_refused(shop: Shop) -> None:
    """And a week is a week."""
    assert shop.run("use", "--csv", "--json").code == 2
    assert shop.run("value", "--csv", "--json").code == 2
    assert shop.run("value", "--days", "0").code == 2
    ran = shop.run("use", "--by", "year")
    assert (ran.code, ran.err) == (2, "Use is added up --by week or --by month.\n")
    assert shop.run("use", "--since", "soon").code == 2
