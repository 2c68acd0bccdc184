"""Setting a shop up, its files and labels, as a person types it and as a script reads it."""

import json
import os
from pathlib import Path

import pytest
import zxingcpp
from PIL import Image

from tests.cli.conftest import BLADES, EARLY, FILM, Shop


def test_material_is_entered_listed_shown_and_changed(shop: Shop) -> None:
    """A limit taken away falls back to the default, which reads as one."""
    added = shop.values("material", "add", "frosted", "--kind", "window_film", "--wound", "90d")
    changed = shop.values(
        *(
            "material",
            "change",
            FILM,
            "--width",
            "1220mm",
            "--shelf",
            "none",
            "--layer",
            "1mil:1.4g/cc",
        ),
        *("--counted-from", "received", "--cost-unit", "500.50", "--note", "new sheet"),
        *("--energy", "Q10 3", "--curl", "180mm", "--bond", "0.5", "--modulus", "none"),
    )

    assert added["name"] == "frosted"
    assert added["limits"] == {"wound": {"span": "90d", "basis": "maker's sheet"}}
    assert (changed["width_mm"], changed["limits"], changed["cost_minor"]) == (1220, {}, 50_050)
    assert changed["figures"] == {
        "energy_kj_mol": {"value": pytest.approx(81.1757, abs=1e-4), "basis": "maker's sheet"},
        "curl_mm": {"value": 180, "basis": "maker's sheet"},
        "bond_j_m2": {"value": 0.5, "basis": "maker's sheet"},
    }
    assert changed["layers"] == [{"thickness_um": 25.4, "density_kg_m3": 1400}]
    names = [one["name"] for one in shop.values("material", "list")["materials"]]
    assert names == ["frosted", BLADES, FILM]
    shown = shop.lines("material", "show", FILM.upper())
    assert "shelf limit  24mo (default), counted from received" in shown
    assert "layers       25.4 µm of 1400 kg/m³" in shown
    assert "heat         81.1757 kJ/mol (maker's sheet)" in shown
    assert "curl limit   180 mm (maker's sheet)" in shown
    assert "bond         0.5 J/m² (maker's sheet)" in shown
    assert shop.lines("material", "list")[0].startswith("material")


def test_places_and_jobs_are_entered_and_listed(shop: Shop) -> None:
    """Each gets a code."""
    place = shop.values("place", "add", "van")
    job = shop.values("job", "add", "tram shelter 4", "--site", "Mill Lane", "--kind", "graphic")

    assert (place["code"][0], place["zone"]) == ("P", None)
    assert (job["code"][0], job["site"], job["on_day"]) == ("J", "Mill Lane", None)
    assert [one["name"] for one in shop.values("place", "list")["places"]] == ["A1", "van"]
    assert len(shop.values("job", "list")["jobs"]) == 3
    assert shop.lines("place", "list")[1] == "A1     P000 002G  North"
    assert shop.lines("job", "list")[2].startswith("J000 0027  bus depot ")
    assert shop.lines("job", "list")[2].endswith("2026-11-03  closed")


def test_a_place_lies_in_another_zone_from_then_on(shop: Shop) -> None:
    """By name or code, or in none that is known; all its zones are told, and what is not measured."""
    moved = shop.values("place", "zone", "a1", "attic", "--at", "2026-11-24T08:00")
    assert (moved["name"], moved["zone"], moved["unmeasured"]) == ("A1", "attic", "attic")
    assert [one["zone"] for one in moved["zones"]] == ["North", "attic"]
    assert moved["zones"][0]["since"] is None
    assert shop.lines("place", "zone", "P000002G", "--none")[-1].endswith("  no zone")
    shown = shop.lines("place", "zone", "A1", "cellar", "--at", "2026-11-24T07:00")
    assert [line.split("  ")[-1].strip() for line in shown] == [
        *("A1", "North", "cellar", "attic", "no zone"),
        "No sensor ever spoke for cellar: see `climate sensors`.",
    ]


def test_a_job_is_shown_closed_and_reopened(shop: Shop) -> None:
    """With what was done for it."""
    shop.lines("cut", "{roll}", "2m", "--job", "{clinic}")

    assert shop.lines("job", "close", "{clinic}") == ["J000 0019  clinic partition: closed"]
    assert not shop.values("job", "reopen", "{clinic}")["is_closed"]
    acts = [one["kind"] for one in shop.values("job", "show", "{clinic}")["acts"]]
    assert acts == ["reopen", "close", "cut", "open"]
    assert "cut 2 m for J000 0019" in "\n".join(shop.lines("job", "show", "{clinic}"))


def test_book_show_says_what_each_limit_rests_on(shop: Shop) -> None:
    """A default reads as a default, and a value of the house names who and why."""
    shop.lines("book", "set", "near.days", "20", "--why", "we are quick")

    lines = shop.lines("book", "show")
    limits = {one["name"]: one for one in shop.values("book", "show")["limits"]}

    assert lines[0] == "name       Quay Street"
    assert any(line.split() == ["wound.printed", "90d", "default"] for line in lines)
    assert any(line.endswith("house, Ida M.: we are quick") for line in lines)
    assert limits["near.days"] == {"name": "near.days", "value": "20d", "basis": "house"}
    assert limits["shelf.laminate"] == {"name": "shelf.laminate", "value": None, "basis": None}


def test_book_set_changes_what_bare_numbers_mean(shop: Shop) -> None:
    """In inches from now on, and shown so."""
    assert shop.lines("book", "set", "units", "us") == ["units is us from 2026-11-25 09:00 on"]
    shop.lines("material", "change", FILM, "--wall", "3/16", "--layer", "8mil:1390")

    assert shop.values("cut", "{roll}", "120", "--for", "sample")["left_mm"] == 15_240 - 3_048
    assert "cut 10'" in shop.lines("cut", "{roll}", "10'", "--for", "sample")[0]
    shown = shop.lines("material", "show", FILM)
    assert "core         3 in inside, wall 0.1875 in" in shown
    assert "layers       8 mil of 1390 kg/m³" in shown
    assert "price        480.00 EUR" in shown


def test_a_currency_is_chosen_before_the_first_price(shop: Shop) -> None:
    """Afterwards it would turn every amount into other money."""
    refused = shop.run("book", "set", "currency", "usd", "--why", "we move")

    assert (refused.code, refused.out) == (3, "")
    assert "holds prices in EUR" in refused.err


def test_a_book_without_prices_may_change_its_currency(empty_shop: Shop) -> None:
    """Nothing is counted in it yet."""
    assert empty_shop.lines("book", "set", "currency", "usd")[0].startswith("currency is USD")


@pytest.mark.parametrize(
    ("currency", "price", "minor", "shown", "of_a_third"),
    [
        ("jpy", "48000", 48_000, "48000 JPY", "16000 JPY"),
        ("BHD", "48.005", 48_005, "48.005 BHD", "16.002 BHD"),
        ("clf", "4.8005", 48_005, "4.8005 CLF", "1.6002 CLF"),
    ],
)
def test_money_has_the_decimals_of_its_currency(
    empty_shop: Shop, currency: str, price: str, minor: int, shown: str, of_a_third: str
) -> None:
    """None, three or four: typed, charged and shown; one more than it has is refused."""
    shop = empty_shop
    shop.lines("book", "set", "currency", currency)
    material = ("material", "add", "clear 50", "--kind", "window-film", "--width", "1500mm")
    assert shop.run(*material, "--cost-unit", f"{price}{'' if '.' in price else '.'}5").code == 2
    shop.lines(*material, "--cost-unit", price)
    roll = shop.values("receive", "clear 50", "--length", "30m")["pieces"][0]["code"]
    job = shop.values("job", "add", "clinic")["code"]
    shop.lines("cut", roll, "10m", "--job", job)

    assert shop.values("material", "show", "clear 50")["cost_minor"] == minor
    assert f"price        {shown}" in shop.lines("material", "show", "clear 50")
    assert any(line.endswith(of_a_third) for line in shop.lines("job", "show", job))


def test_verify_and_backup_agree(shop: Shop, tmp_path: Path) -> None:
    """The copy is a book, and a file that is there stays."""
    target = tmp_path / "copy.db"
    values = shop.values("backup", str(target))

    assert (values["pieces"], len(values["heads"])) == (4, 64)
    assert shop.lines("verify") == ["The book agrees with itself."]
    assert shop.values("verify", "--book", str(target)) == {"findings": []}
    assert shop.run("backup", str(target)).code == 5


@pytest.mark.parametrize("dpi", ["203", "300"])
def test_a_label_that_is_scanned_and_cut_takes_film_from_the_right_piece(
    shop: Shop, tmp_path: Path, dpi: str
) -> None:
    """Drawn, decoded by an independent reader, fed to cut."""
    target = tmp_path / "label.png"
    drawn = shop.values("label", "{roll}", "-o", str(target), "--dpi", dpi)

    with Image.open(target) as image:
        (scan,) = zxingcpp.read_barcodes(image)
    cut = shop.values("cut", scan.text, "2m", "--job", "{clinic}")

    assert drawn["codes"] == [shop.codes["roll"]]
    assert (cut["code"], cut["left_mm"]) == (shop.codes["roll"], 13_240)


def test_labels_of_several_pieces_are_the_pages_of_one_file(shop: Shop, tmp_path: Path) -> None:
    """The same pieces always give the same file."""
    first, again = tmp_path / "a.pdf", tmp_path / "b.pdf"
    lines = shop.lines("label", "{roll}", "{held}", "-o", str(first), "--size", "90x38")
    shop.lines("put", "{roll}", "A1")
    shop.lines("label", "{roll}", "{held}", "-o", str(again), "--size", "90x38")

    assert lines == [f"{first}: 2 labels, 90x38 mm at 203 dpi; print it at its own size"]
    assert first.read_bytes() == again.read_bytes()


def test_demo_makes_a_book_to_try_everything_on(empty_shop: Shop, tmp_path: Path) -> None:
    """A new file, whole; one that is there is not touched."""
    target = tmp_path / "demo.db"
    shop = Shop(target, empty_shop.capture)
    ran = empty_shop.run("demo", "--into", str(target), "--today", "2026-11-25")

    assert (ran.code, ran.err) == (0, "")
    assert f"stockroom --book {target} today" in ran.out
    assert len(shop.values("rack", "--today", "2026-11-25")["pieces"]) > 20
    assert shop.run("demo", "--into", str(target)).code == 5
    assert sorted(path.name for path in tmp_path.glob("*demo*")) == ["demo.db"]


def test_demo_without_a_file_goes_where_books_are(empty_shop: Shop) -> None:
    """The folder is made; the answer for a script names the file."""
    values = empty_shop.values("demo", "--seed", "3", "--today", "2024-02-29")

    assert Path(values["file"]).name == "demo.db"
    assert os.environ["XDG_DATA_HOME"] in values["file"]
    assert values | {"file": ""} == {"file": "", "seed": 3, "today": "2024-02-29"}


def test_json_is_one_line_of_plain_ascii(shop: Shop) -> None:
    """It survives any terminal and any locale."""
    shop.lines("job", "add", "Überdachung “Süd” ▲", "--at", EARLY)

    ran = shop.run("job", "list", "--json")

    assert ran.out.isascii()
    assert ran.out.count("\n") == 1
    assert json.loads(ran.out)["jobs"][-1]["name"] == "Überdachung “Süd” ▲"
