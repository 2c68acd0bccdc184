"""Prints and laminates, as a person types them and as a script reads them."""

import pytest

from stockroom.errors import Exit
from tests.cli.conftest import Shop


@pytest.fixture
def printer(shop: Shop) -> Shop:
    """The shop with a roll to print on and one of laminate."""
    media = (("white cast", "print-vinyl", "blank"), ("gloss", "laminate", "clear"))
    for name, kind, called in media:
        shop.lines(
            *("material", "add", name, "--kind", kind, "--width", "1370mm"),
            *("--thickness", "140um", "--applied", "80um", "--cost-unit", "300"),
        )
        came = shop.values("receive", name, "--length", "30m", "--made", "2026-06", "--lot", called)
        shop.codes[called] = came["pieces"][0]["code"]
    return shop


def test_a_print_as_a_person_types_it(printer: Shop) -> None:
    """It says what became of both, and that a fresh print is ventilated."""
    ran = printer.run(
        *("print", "{blank}", "4m", "--job", "{clinic}", "--artwork", "door", "--tile", "1/2"),
        *("--ink", "SOLVENT", "--leader", "500mm", "--warm", "31C"),
    )

    made, left, waste = ran.out.splitlines()
    assert ran.code == Exit.DONE
    assert made.startswith("print 4 m, leader 500 mm for J000 0019: C000 001H, 1370 ")
    assert made.endswith("printed door 1/2, for J000 0019: it needs a label")
    assert left.endswith("25.5 m left")
    assert waste.endswith("waste 0.68 m²")
    assert "ventilate" in ran.err
    card = "\n".join(printer.lines("piece", "C000001H"))
    assert "door 1/2, solvent ink" in card
    assert "wound at 31 °C" in card
    assert "◷ WAIT until 2026-11-26 09:00" in card


def test_a_print_as_a_script_reads_it(printer: Shop) -> None:
    """Areas and money of what it was taken from; the piece knows its artwork."""
    done = printer.values("print", "{blank}", "4m", "--leader", "1m", "--core", "3in")

    assert (done["length_mm"], done["job"]) == (4_000, None)
    assert done["from"] == [
        {
            "code": printer.codes["blank"],
            "left_mm": 25_000,
            "rest": [],
            "kept_area_mm2": 5_480_000,
            "wasted_area_mm2": 1_370_000,
            "cost_minor": 1_000,
            "verdict": "USE",
            "warning": None,
            "flaws": [],
        }
    ]
    piece = printer.values("piece", done["code"])
    assert (piece["form"], piece["artwork"], piece["tile"]) == ("offcut", None, None)
    assert (piece["wound_days"], piece["wound_days_basis"]) == (0, "dated")
    assert (piece["thickness_um"], piece["thickness_basis"]) == (140, "material")


def test_a_laminate_carries_both_lots(printer: Shop) -> None:
    """Two films in, one piece out, as thick as both without the liner that was pulled."""
    code = printer.values("print", "{blank}", "4m", "--job", "{clinic}")["code"]
    ran = printer.run("laminate", code, "{clear}", "4m", "--tube")
    said = ran.out.splitlines()
    laminated = next(
        one for one in printer.values("rack")["pieces"] if one["laminate_lot"] is not None
    )

    assert ran.code == Exit.DONE
    assert said[0].endswith("printed, laminated, for J000 0019: it needs a label")
    assert said[1].endswith("nothing left")
    assert "no open solvent" in ran.err
    assert (laminated["lot"], laminated["laminate_lot"]) == ("blank", "clear")
    assert (laminated["thickness_um"], laminated["thickness_basis"]) == (220, "summed")
    assert laminated["job"] == printer.codes["clinic"]
    assert printer.values("piece", code)["ended"] == "laminated"
    assert "laminate lot" in "\n".join(printer.lines("piece", laminated["code"]))


def test_a_laminate_as_a_script_reads_it(printer: Shop) -> None:
    """The film below first, then the one laid over it."""
    done = printer.values("laminate", "{blank}", "{clear}", "2m", "--waste", "500mm")

    below, over = done["from"]
    assert done["length_mm"] == 1_500
    assert (below["code"], over["code"]) == (printer.codes["blank"], printer.codes["clear"])
    assert (over["left_mm"], over["wasted_area_mm2"], over["cost_minor"]) == (28_000, 685_000, 500)


def test_undo_of_a_laminate_gives_both_back(printer: Shop) -> None:
    """By the code of any of the three."""
    printer.lines("laminate", "{blank}", "{clear}", "2m")

    printer.lines("undo", "{clear}")

    left = [printer.values("piece", one)["left_mm"] for one in ("{blank}", "{clear}")]
    assert left == [30_000, 30_000]
    assert printer.lines("verify")


@pytest.mark.parametrize(
    ("typed", "code", "says"),
    [
        ("print {blank} 31m", Exit.REFUSED, "30 m"),
        ("print {blank} 30m --leader 1m", Exit.REFUSED, "31 m"),
        ("print {roll} 1m", Exit.REFUSED, "not printed on"),
        ("print {held} 1m", Exit.REFUSED, "held"),
        ("print {blank} 0m", Exit.NOT_UNDERSTOOD, ""),
        ("print {blank} 1m --ink pencil", Exit.NOT_UNDERSTOOD, "eco-solvent"),
        ("print {blank} 1m --tile 3/2", Exit.NOT_UNDERSTOOD, "2/4"),
        ("print {blank} 1m --warm boiling", Exit.NOT_UNDERSTOOD, "temperature"),
        ("print {blank} 1m --wall 5mm", Exit.NOT_UNDERSTOOD, "--core"),
        ("print {blank} 1m --job {bus}", Exit.REFUSED, "closed"),
        ("laminate {roll} {clear} 1m", Exit.REFUSED, "1370 mm"),
        ("laminate {clear} {blank} 1m", Exit.REFUSED, "protective-film"),
        ("laminate {blank} {blank} 1m", Exit.NOT_UNDERSTOOD, "itself"),
        ("laminate {blank} R0009998 1m", Exit.NOT_FOUND, "R0009998"),
        ("laminate {blank} {clear} 1m --waste 1m", Exit.REFUSED, "nothing would be left"),
    ],
)
def test_what_cannot_be_is_refused_in_one_line(
    printer: Shop, typed: str, code: Exit, says: str
) -> None:
    """And nothing is written."""
    before = printer.dump()

    ran = printer.run(*typed.split())

    assert (ran.code, ran.out, len(ran.err.splitlines())) == (code, "", 1)
    assert says in ran.err
    assert printer.dump() == before


def test_an_older_sound_roll_is_named_before_a_newer_one_is_printed(printer: Shop) -> None:
    """As for a cut."""
    newer = printer.values("receive", "white cast", "--length", "30m", "--made", "2026-10")
    code = newer["pieces"][0]["code"]

    assert "An older sound piece would do" in printer.run("print", code, "4m").err
