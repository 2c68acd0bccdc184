"""What is done to pieces, as a person types it and as a script reads it."""

import pytest

from tests.cli.conftest import FILM, Shop

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
        "owner": "ours",
        "held": None,
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
