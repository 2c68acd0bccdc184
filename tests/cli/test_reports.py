"""The reports, as a person types them and as a script reads them."""

import pytest

from tests.cli.conftest import FILM, Shop

ROW = {
    *("code", "form", "material", "lot", "place", "width_mm", "left_mm", "made_on"),
    *("received_on", "printed_on", "shelf_days", "wound_days", "verdict", "wait_until"),
    *("reasons", "thickness_um", "mass_kg"),
}
BY = "\N{MULTIPLICATION SIGN}"


def test_today_leads_with_what_needs_a_hand(shop: Shop) -> None:
    """Counts, the worst piece with its reason, the jobs of the coming days."""
    lines = shop.lines("today")
    values = shop.values("today")

    assert lines[:2] == ["Quay Street · Wed 2026-11-25", "✕ 1 stopped    ● 2 to use"]
    assert "    ✕ held: edge dented" in lines
    assert lines[-2] == "Open jobs of the next 7 days, and overdue ones"
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
    assert [one["rule"] for one in values["reasons"]] == ["held", "shelf", "wound", "memory"]
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
