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
