"""Every command as a person types it and as a script reads it, on a book made by commands."""

import json
import os
from pathlib import Path

import pytest
import zxingcpp
from PIL import Image

from tests.cli.conftest import BLADES, EARLY, FILM, Shop

ROW = {
    *("code", "form", "material", "lot", "place", "width_mm", "left_mm", "made_on"),
    *("received_on", "printed_on", "shelf_days", "wound_days", "verdict", "wait_until"),
    *("reasons", "thickness_um", "mass_kg"),
}
LIFTING = "two people"
BY = "\N{MULTIPLICATION SIGN}"


def test_receive_gives_each_roll_a_code_and_says_how_to_label_them(shop: Shop) -> None:
    """Several rolls of one length are one delivery; a wide roll is lifted by two."""
    ran = shop.run("receive", FILM, "--length", "15.24m", "--rolls", "2", "--place", "{place}")

    first, *codes, label = ran.out.splitlines()
    assert first == f"received 2 rolls of {FILM}, 15.24 m each"
    assert len(codes) == 2
    assert label.startswith("labels: stockroom label R")
    assert LIFTING in ran.err


def test_a_heavy_roll_is_lifted_by_two_its_core_counted_too(shop: Shop) -> None:
    """14.3 kg of film on a core of 1.1 kg."""
    narrow = ("receive", FILM, "--width", "1200mm", "--core", "76.2mm", "--wall", "5mm")

    assert LIFTING in shop.run(*narrow, "--length", "38.6m").err
    assert LIFTING not in shop.run(*narrow, "--length", "36m").err


def test_receive_as_json_says_what_came_in(shop: Shop) -> None:
    """What was not typed comes from the material, or is unknown."""
    values = shop.values(
        *("receive", FILM, "--length", "50 ft", "--width", "760mm", "--made", "2026-09"),
        *("--shipped", "2026-10-01", "--received", "2026-10-04", "--lot", "L-9", "--place", "a1"),
    )

    (piece,) = values["pieces"]
    assert piece == {
        "code": piece["code"],
        "form": "roll",
        "material": FILM,
        "lot": "L-9",
        "place": "A1",
        "job": None,
        "width_mm": 760,
        "left_mm": 15_240,
        "made_on": "2026-09",
        "shipped_on": "2026-10-01",
        "received_on": "2026-10-04",
        "printed_on": None,
        "cost_minor": 48_000,
    }


def test_receive_of_a_printed_roll_lets_it_rest(shop: Shop) -> None:
    """A print of this morning waits, by its ink."""
    shop.lines("material", "add", "white cast", "--kind", "print-vinyl", "--width", "1370")
    printed = ("--printed", "2026-11-25", "--ink", "SOLVENT", "--job", "{clinic}")
    came = shop.values("receive", "white cast", "--length", "3m", *printed)["pieces"][0]
    code = came["code"]

    values = shop.values("piece", code)

    assert (values["verdict"], values["wait_until"]) == ("USE", "2026-11-26T09:00:00+00:00")
    assert came["job"] == values["job"] == shop.codes["clinic"]
    assert shop.lines("piece", code)[0].endswith("white cast, 1370 mm, printed, for J000 0019")
    assert "◷ WAIT until 2026-11-26 09:00" in "\n".join(shop.lines("piece", code))
    assert [one["code"] for one in shop.values("rack", "--verdict", "wait")["pieces"]] == [code]


def test_cut_says_what_is_left_what_was_kept_and_what_to_mind(shop: Shop) -> None:
    """Data on stdout; the caution beside it."""
    ran = shop.run(
        *("cut", "{roll}", "3.2m", "--job", "{clinic}", "--waste", "200mm"),
        *("--offcut", "600x900", "--offcut", "700x1000"),
    )

    first, *kept, waste = ran.out.splitlines()
    assert first == f"cut 3.2 m for J000 0019 from R000 002J, {FILM}; 12.04 m left"
    assert [line.split(", ", 1)[1] for line in kept] == [
        f"600 {BY} 900 mm: it needs a label",
        f"700 {BY} 1000 mm: it needs a label",
    ]
    assert waste == "waste 0.3 m²"
    assert ran.err == "Caution: blade and edge.\n"


def test_cut_as_json_adds_up_to_the_area_that_left(shop: Shop) -> None:
    """Charged, wasted and kept areas are the cut, to the square millimetre."""
    values = shop.values(
        *("cut", "{roll}", "3.2m", "--job", "{clinic}"),
        *("--waste", "200mm", "--offcut", "600x900"),
    )

    (offcut,) = values["offcuts"]
    assert values["code"] == shop.codes["roll"]
    assert values["left_mm"] == 12_040
    assert (offcut["across_mm"], offcut["along_mm"]) == (600, 900)
    assert values["wasted_area_mm2"] == 1524 * 200
    assert values["charged_area_mm2"] == 1524 * 3200 - 1524 * 200 - 600 * 900
    assert values["cost_minor"] == pytest.approx(48_000 * (4_876_800 - 540_000) / 23_225_760, abs=1)
    assert (values["verdict"], values["warning"]) == ("USE", None)
    assert values["act"] == shop.values("log")["acts"][0]["act"]


def test_a_request_asked_again_gives_the_same_answer_and_cuts_once(shop: Shop) -> None:
    """A commit whose answer was lost is asked for again, also after other acts."""
    asked = ("cut", "{roll}", "2m", "--job", "{clinic}", "--offcut", "600x900")
    for at in ("2026-11-20", "2026-11-25T08:30"):
        request = ("--request", f"q-{at}", "--at", at)
        first = shop.values(*asked, *request)
        shop.lines("hold", "{roll}", "--why", "dent", "--at", at)
        shop.lines("release", "{roll}", "--why", "none", "--at", at)

        assert shop.values(*asked, *request) == first

    assert shop.values("piece", "{roll}")["left_mm"] == 11_240


def test_the_same_request_with_other_content_is_refused(shop: Shop) -> None:
    """An id stands for one thing."""
    shop.lines("cut", "{roll}", "2m", "--for", "sample", "--request", "q1")

    ran = shop.run("cut", "{roll}", "3m", "--for", "sample", "--request", "q1")

    assert (ran.code, ran.out, ran.err.count("\n")) == (3, "", 1)


def test_cut_of_more_than_the_books_say_counts_and_cuts(shop: Shop) -> None:
    """Only where it is said so, and it is said what the books were."""
    lines = shop.lines("cut", "{roll}", "16m", "--for", "spoiled", "--overrun")

    assert lines[0].endswith("nothing left")
    assert lines[1] == "counted 16 m, books said 15.24 m"


def test_cut_of_aged_film_says_the_verdict_and_why(shop: Shop) -> None:
    """A warning in words, kept in the act."""
    old = shop.values("receive", FILM, "--length", "9m", "--made", "2024-10-01")
    code = old["pieces"][0]["code"]

    ran = shop.run("cut", code, "1m", "--for", "sample")
    values = shop.values("cut", code, "1m", "--for", "sample")

    assert ran.out.splitlines()[-1].startswith("▲ TEST: 25 months, limit 24 (maker's sheet)")
    assert values["verdict"] == "TEST"
    assert values["warning"].startswith("25 months")


def test_cut_of_a_newer_roll_names_the_older_one(shop: Shop) -> None:
    """Beside the answer: the cut is done, the next one may be the better one."""
    new = shop.values("receive", FILM, "--length", "9m", "--made", "2026-11-01")["pieces"][0]

    ran = shop.run("cut", new["code"], "1m", "--for", "sample")

    assert ran.err.startswith("An older sound piece would do: R000 002J at A1, 15.24 m.\n")


def test_take_counts_the_box_down(shop: Shop) -> None:
    """Counted goods, charged to a job; blades come with their caution."""
    ran = shop.run("take", "{box}", "12", "--job", "{clinic}")
    values = shop.values("take", "{box}", "8", "--for", "training")

    assert ran.out == "B000 004S: take 12 pcs for J000 0019; 88 pcs left\n"
    assert "tin" in ran.err
    assert (values["left_count"], values["cost_minor"]) == (80, 160)


def test_back_of_film_never_severed_joins_its_piece(shop: Shop) -> None:
    """The job is charged less, by as much."""
    cut = shop.values("cut", "{roll}", "3m", "--job", "{clinic}")

    lines = shop.lines("back", "{roll}", "1m", "--job", "{clinic}")
    values = shop.values("back", "{roll}", "2m", "--job", "{clinic}")

    assert lines == ["R000 002J: back 1 m from J000 0019; 13.24 m left"]
    assert values["left_mm"] == 15_240
    assert values["cost_minor"] == pytest.approx(-cut["cost_minor"] * 2 / 3, abs=1)


def test_back_of_a_severed_part_becomes_an_offcut(shop: Shop) -> None:
    """It gets a code of its own."""
    shop.lines("cut", "{roll}", "3m", "--job", "{clinic}")
    severed = ("back", "--from", "{roll}", "--size", "600x900", "--job", "{clinic}")

    (line,) = shop.lines(*severed)
    values = shop.values(*severed)

    assert line.startswith(f"back: 600 {BY} 900 mm of R000 002J is now C000 ")
    assert (values["code"][0], values["left_mm"]) == ("C", 900)


def test_back_of_goods_is_a_number(shop: Shop) -> None:
    """A box takes back what was taken out of it."""
    shop.lines("take", "{box}", "12", "--job", "{clinic}")

    assert shop.values("back", "{box}", "2", "--job", "{clinic}")["left_count"] == 90


def test_finished_ends_a_roll(shop: Shop) -> None:
    """What the books still had is variance."""
    lines = shop.lines("finished", "{roll}")

    assert lines == ["R000 002J: finished, books 15.24 m; nothing left"]
    assert shop.values("piece", "{roll}")["ended"] == "finished"
    assert shop.values("finished", "{box}")["left_count"] == 0


def test_count_confirms_what_the_measurement_allows(shop: Shop) -> None:
    """A diameter is not exact: books within its band are right."""
    by_diameter = ("count", "{roll}", "--outside", "111mm")
    values = shop.values(*by_diameter)

    assert values["confirmed"]
    assert values["low_mm"] < values["left_mm"] == 15_240 < values["high_mm"]
    assert "the books are right" in shop.lines(*by_diameter)[0]


def test_count_corrects_the_books(shop: Shop) -> None:
    """A length along the film is exact; so is a number; --replace takes the measured value."""
    lines = shop.lines("count", "{roll}", "--length", "14m")
    number = shop.values("count", "{box}", "--number", "90")
    replaced = shop.values("count", "{roll}", "--round", "345mm", "--replace")
    weighed = shop.values("count", "{roll}", "--mass", "8.4kg")

    assert lines == ["R000 002J: 14 m left, the books said 15.24 m"]
    assert (number["before_count"], number["left_count"]) == (100, 90)
    assert not replaced["confirmed"]
    assert replaced["left_mm"] == pytest.approx(14_600, abs=300)
    assert weighed["high_mm"] > weighed["low_mm"]


def test_put_hold_release_and_discard_say_what_was_done(shop: Shop) -> None:
    """Each in one line, with what is left."""
    why = ("--why", "dented")

    assert shop.lines("put", "{held}", "a1") == ["R000 003H: put in A1; 15.24 m left"]
    assert shop.lines("release", "{held}", *why) == ["R000 003H: release: dented; 15.24 m left"]
    assert shop.lines("hold", "{held}", *why) == ["R000 003H: hold: dented; 15.24 m left"]
    assert shop.lines("discard", "{held}", *why) == ["R000 003H: discard: dented; nothing left"]
    values = shop.values("put", "{roll}", "{place}")
    assert (values["code"], values["kind"]) == (shop.codes["roll"], "put")


def test_charge_is_late_and_leaves_the_balance(shop: Shop) -> None:
    """The count has already seen the cut."""
    shop.lines("count", "{roll}", "--length", "14m")

    values = shop.values("charge", "{roll}", "1m", "--job", "{clinic}", "--at", "2026-11-10")

    assert (values["left_mm"], values["charged_area_mm2"]) == (14_000, 1_524_000)
    late = shop.values("log", "--job", "{clinic}")["acts"][0]
    assert (late["kind"], late["at"]) == ("charge", "2026-11-10T05:00:00+00:00")


def test_undo_takes_back_the_last_act_and_then_the_one_before(shop: Shop) -> None:
    """Never the undo; `--act` says which one is meant."""
    cut = shop.values("cut", "{roll}", "3m", "--job", "{clinic}")
    shop.lines("count", "{roll}", "--length", "9m")

    lines = shop.lines("undo", "{roll}")
    values = shop.values("undo", "{roll}", "--act", str(cut["act"]))

    assert lines[0].endswith("; 12.24 m left")
    assert (values["undone"], values["left_mm"]) == (cut["act"], 15_240)
    assert any("(undone)" in line for line in shop.lines("log"))


def test_today_leads_with_what_needs_a_hand(shop: Shop) -> None:
    """Counts, the worst piece with its reason, the jobs of the coming days."""
    lines = shop.lines("today")
    values = shop.values("today")

    assert lines[:2] == ["Quay Street · Wed 2026-11-25", "✕ 1 stopped    ● 2 to use"]
    assert "    ✕ held: edge dented" in lines
    assert lines[-1] == "Fri 2026-11-27  J000 0019  clinic partition"
    assert values["counts"] == {"USE": 2, "USE FIRST": 0, "TEST": 0, "STOP": 1}
    assert [one["code"] for one in values["pieces"]] == [shop.codes["held"]]
    assert [one["code"] for one in values["jobs"]] == [shop.codes["clinic"]]


def test_today_of_an_empty_book_says_what_to_do_next(shop: Shop, empty_shop: Shop) -> None:
    """Nobody is left before an empty page."""
    shop.book.unlink()
    empty_shop.run("place", "add", "A1")

    assert "`stockroom receive`" in shop.lines("today")[-1]
    assert "`stockroom receive`" in shop.lines("rack")[0]
    assert "`stockroom receive`" in shop.lines("log")[0]
    assert "`stockroom material add" in shop.lines("material", "list")[0]
    assert "`stockroom job add" in shop.lines("job", "list")[0]


def test_rack_lists_what_is_on_hand_by_material(shop: Shop) -> None:
    """Each line carries verdict, code, what is left, age and place, within 80 columns."""
    lines = shop.lines("rack")
    rows = shop.values("rack")["pieces"]

    assert FILM in lines
    assert "● USE    R000 002J  15.24 m  8 mo           A1     1524 mm" in lines
    assert lines[-1] == "3 pieces on 2026-11-25"
    assert max(map(len, lines)) <= 80
    assert [one["code"] for one in rows] == [shop.codes[one] for one in ("box", "roll", "held")]
    assert set(rows[1]) >= ROW
    assert set(rows[0]) >= ROW - {"left_mm"} | {"left_count"}


@pytest.mark.parametrize(
    ("options", "found"),
    [
        (("--verdict", "stop"), ["held"]),
        (("--verdict", "USE FIRST"), []),
        (("--material", "URETHANE"), ["roll", "held"]),
        (("--place", "a1"), ["roll", "held"]),
        (("--place", "{place}"), ["roll", "held"]),
        (("--find", "{box}"), ["box"]),
        (("--find", "r000 002j"), ["roll"]),
        (("--find", "l-22"), ["roll", "held"]),
        (("--today", "2026-11-02"), ["box", "roll", "held", "gone"]),
        (("--today", "2026-11-01"), []),
    ],
)
def test_rack_is_narrowed_by_what_is_asked(
    shop: Shop, options: tuple[str, ...], found: list[str]
) -> None:
    """Verdict, material, place, any text, another day."""
    rows = shop.values("rack", *options)["pieces"]

    assert [one["code"] for one in rows] == [shop.codes[name] for name in found]


def test_piece_says_everything_and_why(shop: Shop) -> None:
    """The card as lines, its acts newest first."""
    lines = shop.lines("piece", "r000-002j")
    values = shop.values("piece", "{roll}")

    assert lines[0] == f"R000 002J  {FILM}, 1524 mm"
    assert lines[1] == "● USE"
    assert "● 8 months, limit 24 (maker's sheet)" in lines
    assert lines[-2] == "2026-11-20 16:30  put in A1  (Ida M.)"
    assert values["thickness_um"] == 250
    assert values["mass_kg"] == pytest.approx(1.524 * 15.24 * (0.2 * 1.2 + 0.05 * 1.39), abs=1e-6)
    assert [one["rule"] for one in values["reasons"]] == ["held", "shelf", "wound"]
    assert values["reasons"][1] == {
        "rule": "shelf",
        "verdict": "USE",
        "measured": 261,
        "limit": 731,
        "unit": "days",
        "basis": "maker's sheet",
        "text": "8 months, limit 24 (maker's sheet)",
    }
    assert [one["kind"] for one in values["acts"]] == ["put", "receive"]


def test_what_is_not_known_is_a_question_mark_and_null(shop: Shop) -> None:
    """Never a blank, never a guess."""
    text = "\n".join(shop.lines("piece", "{box}"))
    values = shop.values("piece", "{box}")
    shop.lines("take", "{box}", "1", "--for", "sample")

    assert "lot        ?" in text
    assert "? no limit entered" in text
    assert values["lot"] is None
    assert values["width_mm"] is None
    assert values["mass_kg"] is None
    assert values["reasons"][1]["verdict"] == "?"
    assert "left       99 pcs of 100 pcs" in shop.lines("piece", "{box}")


def test_film_of_which_nothing_was_entered_is_all_question_marks(shop: Shop) -> None:
    """Thickness, core, mass: unknown is not zero."""
    shop.lines("material", "add", "leftover", "--kind", "laminate")
    came = shop.values("receive", "leftover", "--length", "3m", "--width", "760")
    code = came["pieces"][0]["code"]

    text = "\n".join(shop.lines("piece", code))

    assert "as wound     ?\ncore         ?\nfilm weighs  ?" in text
    assert "made ?, received 2026-11-25" in text
    assert "? no limit entered" in text
    assert "core         ?" in shop.lines("material", "show", "leftover")


def test_an_offcut_names_the_roll_it_was_cut_from(shop: Shop) -> None:
    """Until it is cut up itself, and after."""
    cut = shop.values("cut", "{roll}", "2m", "--for", "sample", "--offcut", "900x1500")
    code = cut["offcuts"][0]["code"]

    before = shop.lines("piece", code)
    shop.lines("cut", code, "1m", "--for", "sample")
    after = shop.lines("piece", code)

    assert f"left         900 {BY} 1500 mm" in before
    assert "cut from     R000 002J" in before
    assert after[1] == "is no more: cut up"
    assert "left         nothing" in after


def test_a_day_without_work_says_so(shop: Shop) -> None:
    """Nothing held, nothing near a limit, no job."""
    shop.lines("release", "{held}", "--why", "only the box")
    shop.lines("job", "close", "{clinic}")

    assert shop.lines("today")[3].startswith("Nothing needs a hand")


def test_a_piece_of_a_day_gone_by_is_as_it_was(shop: Shop) -> None:
    """State, age and acts of that day."""
    values = shop.values("piece", "{gone}", "--today", "2026-11-02")

    assert (values["left_mm"], values["ended"], len(values["acts"])) == (15_240, None, 1)
    assert shop.values("piece", "{gone}")["ended"] == "discarded"


def test_log_is_newest_first_and_narrowed_by_what_is_asked(shop: Shop) -> None:
    """By piece, by job, by time."""
    kinds = [one["kind"] for one in shop.values("log", "--piece", "{held}")["acts"]]
    since = shop.values("log", "--since", "2026-11-20")["acts"]
    lines = shop.lines("log", "--job", "{bus}")

    assert kinds == ["hold", "receive"]
    assert [one["kind"] for one in since] == ["put", "close"]
    assert since[0]["moves"][0]["left_mm"] == 15_240
    assert "close job J000 0027" in lines[1]
    assert shop.lines("log")[1].endswith("Ida M.")


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
    )

    assert added["name"] == "frosted"
    assert added["limits"] == {"wound": {"span": "90d", "basis": "maker's sheet"}}
    assert (changed["width_mm"], changed["limits"], changed["cost_minor"]) == (1220, {}, 50_050)
    assert changed["layers"] == [{"thickness_um": 25.4, "density_kg_m3": 1400}]
    names = [one["name"] for one in shop.values("material", "list")["materials"]]
    assert names == ["frosted", BLADES, FILM]
    shown = shop.lines("material", "show", FILM.upper())
    assert "shelf limit  24mo (default), counted from received" in shown
    assert "layers       25.4 µm of 1400 kg/m³" in shown
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
    assert shop.lines("book", "set", "currency", "usd")[0].startswith("currency is USD")
    shop.lines("material", "change", FILM, "--wall", "3/16", "--layer", "8mil:1390")

    assert shop.values("cut", "{roll}", "120", "--for", "sample")["left_mm"] == 15_240 - 3_048
    assert "cut 10'" in shop.lines("cut", "{roll}", "10'", "--for", "sample")[0]
    shown = shop.lines("material", "show", FILM)
    assert "core         3 in inside, wall 0.1875 in" in shown
    assert "layers       8 mil of 1390 kg/m³" in shown
    assert "price        480.00 USD" in shown


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
