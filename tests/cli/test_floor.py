"""Vans, claims, recalls, stocktakes, blind counts, kits, bottles and scrap, as commands."""

from typing import Any

import pytest

from tests.cli.conftest import FILM, Shop

VAN = ("--to", "van 2", "--with", "Tom R.")


def test_a_roll_goes_out_and_what_was_used_of_it_is_charged(shop: Shop) -> None:
    """The rack says where it is and since when."""
    out = shop.values("out", "{roll}", *VAN)
    rack = shop.values("rack", "--out")["pieces"]
    line = next(one for one in shop.lines("rack", "--out") if "OUT" in one)
    back = shop.values("in", "{roll}", "--length", "10m", "--job", "{clinic}")

    assert (out["kind"], out["left_mm"]) == ("out", 15_240)
    assert [one["code"] for one in rack] == [shop.codes["roll"]]
    assert (rack[0]["out_to"], rack[0]["out_by"]) == ("van 2", "Tom R.")
    assert rack[0]["out_since"] == "2026-11-25T09:00:00+00:00"
    assert "OUT van 2" in line
    assert "since 2026-11-25" in line
    assert back == {
        "code": shop.codes["roll"],
        "act": back["act"],
        "job": shop.codes["clinic"],
        "before_mm": 15_240,
        "left_mm": 10_000,
        "rest": [],
        "used_area_mm2": 7_985_760,
        "cost_minor": 16_504,
    }
    assert "OUT" not in "".join(shop.lines("rack"))


def test_a_roll_in_the_van_is_cut_when_it_is_in(shop: Shop) -> None:
    """The refusal says who has it and what to type."""
    shop.lines("out", "{roll}", *VAN)

    refused = shop.run("cut", "{roll}", "2m", "--job", "{clinic}")

    assert refused.code == 3
    assert "is out with van 2 since 2026-11-25 09:00: bring it in first" in refused.err
    assert shop.lines("in", "{roll}")[0].endswith("in from van 2, nothing used; 15.24 m left")


def test_goods_that_came_in_damaged_go_back_and_their_credit_is_awaited(shop: Shop) -> None:
    """Held on arrival, a claim with its value, settled once."""
    came = shop.values("receive", FILM, "--length", "15.24m", "--damaged", "core crushed")
    code = came["pieces"][0]["code"]
    shop.lines("send-back", code, "--why", "core crushed", "--claim", "RMA-7")

    listed = shop.values("claim", "list")
    said = shop.lines("claim", "list")
    settled = shop.lines("claim", "credit", code, "400.00")

    assert came["pieces"][0]["held"] == "came in damaged: core crushed"
    assert listed["value_minor"] == 48_000
    assert {name: listed["claims"][0][name] for name in ("claim", "code", "sent_mm", "why")} == {
        "claim": "RMA-7",
        "code": code,
        "sent_mm": 15_240,
        "why": "core crushed",
    }
    assert "RMA-7  2026-11-25" in said[1]
    assert said[-1] == "awaited 480.00 EUR"
    assert "claim RMA-7 settled, 400.00 EUR credited" in settled[0]
    assert shop.lines("claim", "list")[0].startswith("No claim is open")


def test_a_clients_film_is_shown_with_a_word_and_is_no_stock(shop: Shop) -> None:
    """On the rack and on the piece; in a delivery too."""
    before = shop.values("stock")["value_minor"]
    came = shop.values("receive", FILM, "--length", "5m", "--owner", "client")
    code = came["pieces"][0]["code"]
    shop.lines("delivery", "add", FILM, "--length", "5m", "--owner", "sample", "--damaged", "wet")
    sample = shop.values("delivery", "receive")["pieces"][0]

    assert came["pieces"][0]["cost_minor"] is None
    assert shop.values("stock")["value_minor"] == before
    assert shop.values("piece", code)["owner"] == "client"
    assert any("a client's" in line for line in shop.lines("rack", "--find", code))
    assert "belongs to   a client's" in shop.lines("piece", code)
    assert (sample["owner"], sample["held"]) == ("sample", "came in damaged: wet")


def test_a_stocktake_names_what_is_missing_elsewhere_and_unexpected(shop: Shop) -> None:
    """Read at a glance, and as a report of all places afterwards."""
    other = shop.values("place", "add", "B2")["code"]
    shop.lines("put", "{held}", other)

    seen = shop.values("seen", "A1", "{held}", "{gone}")
    report = shop.values("stocktake", "--place", "A1")["places"][0]
    said = shop.lines("stocktake")

    assert seen == {
        "act": seen["act"],
        "place": "A1",
        "here": [],
        "elsewhere": [{"code": shop.codes["held"], "place": "B2"}],
        "unexpected": [shop.codes["gone"]],
        "missing": [shop.codes["roll"]],
    }
    assert (report["missing"], report["pieces"], report["seen_by"]) == (
        [shop.codes["roll"]],
        2,
        "Ida M.",
    )
    assert (report["variance_area_mm2"], report["variance_minor"]) == (0, 0)
    assert said[1].split()[:2] == ["A1", "2"]
    assert said[2].split()[:3] == ["B2", "0", "?"]
    assert "A1, missing" in said


def test_a_stocktake_is_read_line_by_line(shop: Shop) -> None:
    """Each finding under what is to be done about it."""
    said = shop.lines("seen", "A1", "{roll}", "{box}", "{gone}")

    assert said[0] == "A1: 1 piece as the books have it"
    assert said[1:] == [
        "  the books had it elsewhere",
        f"    {_grouped(shop, 'box')}  ?",
        "  the books say it is no more: look at it",
        f"    {_grouped(shop, 'gone')}",
        "  missing",
        f"    {_grouped(shop, 'held')}",
    ]


def test_a_blind_count_hides_the_books_and_three_people_settle_it(shop: Shop) -> None:
    """Two who disagree end with 3, and both figures are kept."""
    first = shop.run("count", "{roll}", "--length", "12m", "--blind")
    second = shop.run("count", "{roll}", "--length", "10m", "--blind", "--by", "Tom R.")
    again = shop.run("count", "{roll}", "--length", "10m", "--blind", "--by", "Tom R.")
    waiting = shop.values("piece", "{roll}")["counts_waiting"]
    third = shop.values("count", "{roll}", "--length", "10.1m", "--blind", "--by", "Ana P.")

    assert (first.code, second.code, again.code) == (0, 3, 3)
    assert "15.24" not in first.out + first.err
    assert "12 m by Ida M., 10 m by Tom R." in second.err
    assert "somebody else" in again.err
    assert waiting == 2
    assert (third["settled"], third["left_mm"]) == (True, 10_100)


def test_the_first_of_two_counts_says_as_json_that_it_waits(shop: Shop) -> None:
    """Without what the books say."""
    said = shop.values("count", "{roll}", "--length", "12m", "--blind")

    assert said == {
        "code": shop.codes["roll"],
        "act": said["act"],
        "found_mm": 12_000,
        "settled": False,
        "differs": False,
        "counters": ["Ida M."],
    }


def test_a_lot_is_held_and_released_in_one_act(shop: Shop) -> None:
    """What was held for itself stays held."""
    held = shop.values("hold", "--lot", "l-22", "--why", "maker's notice")
    said = shop.lines("release", "--lot", "L-22", "--why", "sound")

    assert set(held["codes"]) == {shop.codes["roll"], shop.codes["held"]}
    assert said[0] == "release: 2 pieces of lot L-22"
    assert shop.values("piece", "{held}")["held"] == "edge dented"


def test_a_kit_says_what_it_lacks(shop: Shop) -> None:
    """Until the part is back."""
    code = shop.values("receive", "snap blades 9 mm", "--count", "1")["pieces"][0]["code"]
    shop.lines("kit", code, "--part", "squeegee:2", "--part", "knife")
    shop.lines("take", code, "--part", "Squeegee")
    lacking = shop.values("piece", code)
    row = next(line for line in shop.lines("rack", "--find", code) if "incomplete" in line)
    back = shop.lines("back", code, "--part", "squeegee")

    assert lacking["parts"] == {"knife": 1, "squeegee": 2}
    assert lacking["parts_missing"] == {"squeegee": 1}
    assert row.endswith("incomplete: squeegee")
    assert "squeegee back in the kit" in back[0]
    assert shop.values("piece", code)["parts_missing"] is None


def test_a_bottle_has_its_label_at_once_and_its_days(shop: Shop) -> None:
    """The caution is shown where the bottle is filled."""
    shop.lines("material", "add", "soap", "--kind", "liquid")
    typed = ("--contents", "water, 1 % soap", "--hazard", "keep from eyes", "--keeps", "7d")
    ran = shop.run("mix", "soap", *typed, "--count", "2")
    mixed = shop.values("mix", "soap", *typed)
    code = mixed["codes"][0]
    later = shop.values("piece", code, "--today", "2026-12-03")

    assert "label every bottle" in ran.err
    assert ran.out.splitlines()[0] == "mix water, 1 % soap, keeps 7 d, 2 bottles"
    assert (mixed["mixed_on"], mixed["keeps_days"]) == ("2026-11-25", 7)
    assert (later["verdict"], later["hazard"]) == ("STOP", "keep from eyes")
    assert any("2026-11-25, keeps 7 d" in line for line in shop.lines("piece", code))


def test_small_offcuts_go_in_the_bin_by_the_handful(shop: Shop) -> None:
    """The size that is kept of protective film is 600 by 600 mm."""
    cut = shop.values(
        *("cut", "{roll}", "1m", "--for", "sample", "--offcut", "200x500", "--offcut", "300x500")
    )
    codes = [one["code"] for one in cut["offcuts"]]
    binned = shop.values("scrap", *codes)

    assert (binned["codes"], binned["wasted_area_mm2"]) == (codes, 250_000)
    assert shop.values("rack", "--find", codes[0])["pieces"] == []


@pytest.mark.parametrize(
    ("typed", "code", "says"),
    [
        (("out", "{roll}"), 2, "--to"),
        (("in", "{roll}", "--length", "2m", "--job", "{clinic}"), 3, "is not out"),
        (("out", "{held}", "--to", "van"), 3, "is held"),
        (("send-back", "{roll}", "--why", "wet"), 2, "--claim"),
        (("claim", "credit", "{roll}", "10"), 4, "No claim"),
        (("seen", "Z9", "{roll}"), 4, "No place"),
        (("seen", "A1", "R0000020"), 2, "misread"),
        (("stocktake", "--place", "Z9"), 4, "No place"),
        (("hold", "--why", "x"), 2, "one of the two"),
        (("hold", "{roll}", "--lot", "L-22", "--why", "x"), 2, "one of the two"),
        (("hold", "{roll}", "--material", FILM, "--why", "x"), 2, "one of the two"),
        (("hold", "--lot", "L-99", "--why", "x"), 4, "No piece on hand is of lot"),
        (("hold", "--lot", "L-22"), 2, "--why"),
        (("kit", "{box}", "--part", "a:1"), 3, "--count 1"),
        (("kit", "{box}"), 2, "--part"),
        (("kit", "{box}", "--part", ":1"), 2, "a name"),
        (("kit", "{box}", "--part", "a:0"), 2, "number"),
        (("take", "{box}", "--part", "a"), 4, "is no kit"),
        (("take", "{box}", "--part", "a", "--job", "{clinic}"), 2, "alone"),
        (("take", "{box}", "--job", "{clinic}"), 2, "how many"),
        (("scrap", "{roll}"), 3, "is a roll"),
        (("mix", FILM, "--contents", "a", "--hazard", "b", "--keeps", "7d"), 3, "liquid"),
        (("mix", FILM, "--keeps", "7d"), 2, "--contents"),
        (("receive", FILM, "--length", "5m", "--owner", "me"), 2, "no owner"),
        (("receive", FILM, "--length", "5m", "--damaged", " "), 2, "--damaged"),
        (("count", "{roll}", "--length", "9m", "--blind", "--replace"), 2, "blind"),
    ],
)
def test_what_cannot_be_is_refused_in_one_line(
    shop: Shop, typed: tuple[str, ...], code: int, says: str
) -> None:
    """With its exit code, and nothing written."""
    before = shop.dump()

    ran = shop.run(*typed)

    assert (ran.code, ran.out) == (code, "")
    assert says in ran.err
    assert len(ran.err.splitlines()) == 1
    assert shop.dump() == before


def _grouped(shop: Shop, name: str) -> Any:
    code = shop.codes[name]
    return f"{code[:4]} {code[4:]}"
