"""Winding, trials and flaws, as a person types them and as a script reads them."""

import pytest

from stockroom.errors import Exit
from tests.cli.conftest import Shop


def test_a_piece_is_laid_flat_and_wound_again(shop: Shop) -> None:
    """Said in one line each; the card says which way its face lies."""
    (flat,) = shop.lines("layflat", "{roll}")
    (wound,) = shop.lines("rewind", "{roll}", "--core", "152mm", "--wall", "6mm", "--face", "out")
    card = "\n".join(shop.lines("piece", "{roll}"))

    assert flat.endswith("lay flat, 261 d wound before; 15.24 m left")
    assert wound.endswith("rewind, on a core of 152 mm inside, face out; 15.24 m left")
    assert "152 mm inside, wall 6 mm" in card
    assert "its face out" in card
    assert shop.values("piece", "{roll}")["wound_days"] == 261


def test_a_trial_that_passes_extends_the_shelf_limit(shop: Shop) -> None:
    """The verdict follows, and the limit rests on the shop's own trial."""
    film = "urethane clear 200"
    old = shop.values("receive", film, "--length", "5m", "--made", "2024-10-01")
    code = old["pieces"][0]["code"]
    before = shop.values("piece", code)["verdict"]

    ran = shop.run("trial", "adhesion", code, "--pass", "--note", "peeled clean")
    after = shop.values("piece", code)

    assert ran.out.strip().endswith("adhesion trial passed; 5 m left")
    assert "scrap glass" in ran.err
    assert (before, after["verdict"]) == ("TEST", "USE FIRST")
    (shelf,) = (one for one in after["reasons"] if one["rule"] == "shelf")
    assert shelf["basis"] == "own trial"
    assert after["acts"][0]["note"] == "peeled clean"


def test_a_trial_that_fails_holds_the_piece(shop: Shop) -> None:
    """Until somebody releases it."""
    done = shop.values("trial", "adhesion", "{roll}", "--fail")

    assert done["kind"] == "trial"
    assert shop.values("piece", "{roll}")["held"] == "failed adhesion trial"
    assert shop.run("cut", "{roll}", "1m", "--for", "sample").code == Exit.REFUSED


def test_a_curl_trial_that_passes_says_how_far_it_reaches(shop: Shop) -> None:
    """The circle, the limit, what the limit rests on, and the diameter of the strip."""
    typed = ("trial", "curl", "{roll}", "--chord", "200mm", "--height", "19mm")
    ran = shop.run(*typed, "--arc", "205mm", "--note", "stood on its edge")

    lead, reach = ran.out.splitlines()
    assert lead.endswith(
        "curl trial passed, curls to a 545 mm circle, limit 150 mm (default); 15.24 m left"
    )
    assert reach == (
        "good until 2026-12-25 for wraps outside 110.8 mm; further in it is tried again"
    )
    assert "blade" in ran.err
    done = shop.values(*typed, "--at-diameter", "90mm", "--other-way")
    assert {name: done[name] for name in done if name not in ("act", "code")} == {
        "kind": "trial",
        "left_mm": 15_240,
        "passed": True,
        "circle_mm": 545.315789,
        "curl_per_m": -3.667599656,
        "limit_mm": 150,
        "basis": "default",
        "at_diameter_mm": 90,
        "good_until": "2026-12-25",
    }


def test_a_curl_trial_that_fails_holds_the_piece(shop: Shop) -> None:
    """By the limit of the maker, once it is entered."""
    shop.lines("material", "change", "urethane clear 200", "--curl", "250mm")

    ran = shop.run("trial", "curl", "{roll}", "--chord", "0", "--height", "120mm")
    done = shop.values("trial", "curl", "{roll}", "--arc", "200mm", "--height", "45mm")

    (line,) = ran.out.splitlines()
    assert line.endswith(
        "curl trial failed: held, curls to a 120 mm circle, limit 250 mm (maker's sheet); "
        "15.24 m left"
    )
    assert (done["passed"], done["good_until"], done["at_diameter_mm"]) == (False, None, 110.821851)
    assert shop.values("piece", "{roll}")["held"] == (
        "failed curl trial: curls to 205 mm, limit 250 mm"
    )
    assert shop.run("cut", "{roll}", "1m", "--for", "sample").code == Exit.REFUSED


def test_a_strip_that_lies_flat_passes_and_one_of_unknown_film_reaches_all(shop: Shop) -> None:
    """In a tube nobody knows the diameter."""
    shop.lines("rewind", "{roll}", "--tube")

    lead, reach = shop.lines("trial", "curl", "{roll}", "--chord", "300mm", "--height", "0")

    assert "curl trial passed, lies flat, limit 150 mm (default)" in lead
    assert reach == "good until 2026-12-25"


def test_a_cut_through_a_flaw_says_so(shop: Shop) -> None:
    """And one that ends before it does not; scripts read it, too."""
    (marked,) = shop.lines("flaw", "{roll}", "5m", "--what", "splice")

    assert marked.endswith("flaw at 5 m: splice; 15.24 m left")
    assert "flaw" not in shop.run("cut", "{roll}", "3m", "--for", "sample").err
    assert shop.values("piece", "{roll}")["flaws"] == [{"at_mm": 2_000, "what": "splice"}]
    assert "splice at 2 m" in "\n".join(shop.lines("piece", "{roll}"))
    ran = shop.run("cut", "{roll}", "2.5m", "--for", "sample")
    assert "Mind the flaw in this length: splice at 2 m." in ran.err
    shop.lines("undo", "{roll}")
    cut = shop.values("cut", "{roll}", "2.5m", "--for", "sample")
    assert cut["flaws"] == [{"at_mm": 2_000, "what": "splice"}]


@pytest.mark.parametrize(
    ("typed", "code", "says"),
    [
        ("rewind {roll} --face up", Exit.NOT_UNDERSTOOD, "in or out"),
        ("rewind {roll} --wall 5mm", Exit.NOT_UNDERSTOOD, "--core"),
        ("rewind {box}", Exit.REFUSED, "box"),
        ("layflat {gone}", Exit.REFUSED, "no more"),
        ("trial adhesion {roll}", Exit.NOT_UNDERSTOOD, "--pass or --fail"),
        ("trial adhesion {box} --pass", Exit.REFUSED, "box"),
        ("trial curl {roll} --height 19mm", Exit.NOT_UNDERSTOOD, "--chord"),
        ("trial curl {roll} --chord 200mm", Exit.NOT_UNDERSTOOD, "--height"),
        ("trial curl {roll} --chord nan --height 1", Exit.NOT_UNDERSTOOD, "nan"),
        ("trial curl {roll} --chord 0 --height 0", Exit.NOT_UNDERSTOOD, "chord or a height"),
        ("trial curl {roll} --arc 0 --height 5mm", Exit.NOT_UNDERSTOOD, ""),
        ("trial curl {roll} --chord -5mm --height 5mm", Exit.NOT_UNDERSTOOD, ""),
        (
            "trial curl {roll} --chord 300mm --arc 200mm --height 5mm",
            Exit.NOT_UNDERSTOOD,
            "longer than its strip",
        ),
        (
            "trial curl {roll} --chord 200mm --height 19mm --at-diameter 70mm",
            Exit.NOT_UNDERSTOOD,
            "from 86.2 mm to 110.8 mm",
        ),
        ("trial curl {box} --chord 200mm --height 19mm", Exit.REFUSED, "box"),
        ("trial curl {gone} --chord 200mm --height 19mm", Exit.REFUSED, "no more"),
        ("trial curl R0009998 --chord 200mm --height 19mm", Exit.NOT_FOUND, "R0009998"),
        ("flaw {roll} 20m --what splice", Exit.REFUSED, "15.24 m"),
        ("flaw {roll} 2m", Exit.NOT_UNDERSTOOD, "--what"),
        ("flaw {roll} -2m --what splice", Exit.NOT_UNDERSTOOD, ""),
        ("flaw R0009998 2m --what splice", Exit.NOT_FOUND, "R0009998"),
    ],
)
def test_what_cannot_be_is_refused_in_one_line(
    shop: Shop, typed: str, code: Exit, says: str
) -> None:
    """And nothing is written."""
    before = shop.dump()

    ran = shop.run(*typed.split())

    assert (ran.code, ran.out, len(ran.err.splitlines())) == (code, "", 1)
    assert says in ran.err
    assert shop.dump() == before
