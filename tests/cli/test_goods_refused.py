"""What goods commands refuse once something is out, mixed, a kit or sent back; and their keys."""

from collections.abc import Iterator
from typing import Any

import pytest

from tests.cli.conftest import BLADES, EARLY, FILM, Shop, set_up_once

UNITS = ("_mm", "_mm2", "_minor", "_count", "_days")
NAMED = {"act", "pieces", "parts"}
"""Numbers that are no quantity: which act, how many pieces, and a kit's parts by their names."""


def _numbers(values: Any, name: str = "") -> Iterator[str]:
    """The key of each number, at any depth."""
    if isinstance(values, dict):
        for key, value in values.items():
            yield from _numbers(value, key if name not in NAMED else name)
    elif isinstance(values, list):
        for value in values:
            yield from _numbers(value, name)
    elif isinstance(values, int | float) and not isinstance(values, bool):
        yield name


@pytest.fixture
def floor(
    shop: Shop, tmp_path_factory: pytest.TempPathFactory, request: pytest.FixtureRequest
) -> Shop:
    """A roll out with the van, a bottle past its days, a kit with a part out, a claim, offcuts."""
    return set_up_once(shop, _put_about, tmp_path_factory, request)


def _put_about(shop: Shop) -> None:
    codes = shop.codes
    out = shop.values("receive", FILM, "--length", "15m", "--lot", "L-23")["pieces"]
    codes["out"] = out[0]["code"]
    shop.lines("out", "{out}", "--to", "van 2")
    shop.lines("material", "add", "soap", "--kind", "liquid")
    typed = ("--contents", "water, soap", "--hazard", "keep from eyes", "--keeps", "7d")
    codes["bottle"] = shop.values("mix", "soap", *typed, "--at", EARLY)["codes"][0]
    codes["kit"] = shop.values("receive", BLADES, "--count", "1")["pieces"][0]["code"]
    shop.lines("kit", "{kit}", "--part", "squeegee:2", "--part", "knife")
    shop.lines("take", "{kit}", "--part", "squeegee")
    codes["sent"] = shop.values("receive", FILM, "--length", "15m")["pieces"][0]["code"]
    shop.lines("send-back", "{sent}", "--why", "wet", "--claim", "RMA-7")
    cut = shop.values("cut", "{roll}", "2m", "--for", "sample", "--offcut", "700x1500")
    codes["sheet"] = cut["offcuts"][0]["code"]


@pytest.mark.parametrize(
    ("typed", "code", "says"),
    [
        (("in", "{out}", "--length", "16m", "--job", "{clinic}"), 3, "15 m went out"),
        (("in", "{out}", "--length", "9m"), 2, "6 m were used"),
        (("in", "{out}", "--length", "9m", "--job", "{bus}"), 3, "is closed"),
        (("in", "{out}", "--length", "9m", "--job", "{clinic}", "--for", "sample"), 2, "one of"),
        (("in", "{out}", "--length", "9m", "--round", "40cm", "--job", "{clinic}"), 2, "one"),
        (("in", "{out}", "--length", "-9m", "--job", "{clinic}"), 2, "9m"),
        (("out", "{out}", "--to", "van 1"), 3, "out already"),
        (("out", "{gone}", "--to", "van 1"), 3, "is no more"),
        (("out", "{bottle}", "--to", "van 1"), 3, "--despite"),
        (("put", "{out}", "A1"), 3, "bring it in first"),
        (("rewind", "{out}"), 3, "bring it in first"),
        (("layflat", "{out}"), 3, "bring it in first"),
        (("trial", "adhesion", "{out}", "--pass"), 3, "bring it in first"),
        (("flaw", "{out}", "2m", "--what", "splice"), 3, "bring it in first"),
        (("finished", "{out}"), 3, "bring it in first"),
        (("send-back", "{out}", "--why", "wet", "--claim", "7"), 3, "bring it in first"),
        (("laminate", "{out}", "{roll}", "1m"), 3, "bring it in first"),
        (("print", "{out}", "1m"), 3, "bring it in first"),
        (("send-back", "{roll}", "--claim", "7"), 2, "--why"),
        (("send-back", "{sent}", "--why", "wet", "--claim", "7"), 3, "is no more"),
        (("claim", "credit", "{sent}", "-5"), 2, "not an amount"),
        (("claim", "credit", "{sent}", "some"), 2, "not an amount"),
        (("take", "{bottle}", "1", "--job", "{clinic}"), 3, "--despite"),
        (("mix", "soap", "--contents", "a", "--hazard", "b", "--keeps", "soon"), 2, "span"),
        (
            ("mix", "soap", "--contents", "a", "--hazard", "b", "--keeps", "7d", "--count", "0"),
            2,
            "number",
        ),
        (
            (
                "mix",
                "soap",
                "--contents",
                "a",
                "--hazard",
                "b",
                "--keeps",
                "7d",
                "--from",
                "{roll}",
            ),
            3,
            "is a roll",
        ),
        (("take", "{kit}", "--part", "ladder"), 4, "has no part"),
        (("take", "{kit}", "2", "--part", "squeegee"), 3, "2 cannot be taken"),
        (("back", "{kit}", "2", "--part", "squeegee"), 3, "2 cannot be put back"),
        (("back", "{kit}", "--part", "knife"), 3, "cannot be put back"),
        (("scrap", "{sheet}"), 3, "is big enough to keep"),
        (("scrap", "{sheet}", "{gone}"), 3, "a roll"),
        (("hold", "--lot", "L-22", "--material", "soap", "--why", "x"), 4, "No piece on hand"),
        (("release", "--lot", "L-22", "--why", "sound"), 3, "is held with its lot"),
        (("count", "{roll}", "--blind"), 2, "--length"),
        (("count", "{sent}", "--length", "9m", "--blind"), 3, "is no more"),
        (("seen", "A1", "R000999G"), 2, "misread"),
        (("seen", "B9", "--empty"), 4, "No place"),
        (("seen", "A1"), 2, "or say --empty"),
        (("seen", "A1", "{roll}", "--empty"), 2, "or say --empty"),
    ],
)
def test_what_the_books_forbid_is_refused_in_one_line(
    floor: Shop, typed: tuple[str, ...], code: int, says: str
) -> None:
    """With its exit code, and nothing written."""
    before = floor.dump()

    ran = floor.run(*typed)

    assert (ran.code, ran.out) == (code, "")
    assert says in ran.err
    assert len(ran.err.splitlines()) == 1
    assert floor.dump() == before


def test_goods_past_their_days_are_taken_with_a_reason(floor: Shop) -> None:
    """The reason stays with the act; a hold cannot be talked away."""
    taken = floor.values("take", "{bottle}", "1", "--for", "sample", "--despite", "to rinse")
    floor.lines("undo", "{bottle}")
    out = floor.values("out", "{bottle}", "--to", "van 1", "--despite", "to rinse")

    assert (taken["left_count"], out["kind"]) == (0, "out")
    acts = floor.values("piece", "{bottle}")["acts"]
    assert [one["kind"] for one in acts][:3] == ["out", "undo", "take"]


def test_a_claim_is_settled_once(floor: Shop) -> None:
    """Nothing credited is an answer too; the second time no claim is open."""
    assert "settled" in floor.lines("claim", "credit", "{sent}", "0")[0]

    ran = floor.run("claim", "credit", "{sent}", "10")

    assert (ran.code, ran.out, len(ran.err.splitlines())) == (4, "", 1)


def test_every_number_a_script_reads_carries_its_unit(floor: Shop) -> None:
    """Of each command that moves goods, and of the reports on them."""
    for typed in (
        ("out", "{box}", "--to", "van 2"),
        ("in", "{box}", "--number", "60", "--job", "{clinic}"),
        ("in", "{out}", "--length", "9m", "--job", "{clinic}"),
        ("send-back", "{out}", "--why", "wet", "--claim", "8"),
        ("claim", "list"),
        ("claim", "credit", "{sent}", "10"),
        ("seen", "A1", "{roll}"),
        ("stocktake",),
        ("take", "{kit}", "--part", "knife"),
        ("back", "{kit}", "--part", "knife"),
        ("kit", "{kit}", "--part", "squeegee:3"),
        ("take", "{box}", "3", "--job", "{clinic}"),
        ("back", "{box}", "1", "--job", "{clinic}"),
        ("mix", "soap", "--contents", "a", "--hazard", "b", "--keeps", "7d"),
        ("count", "{roll}", "--length", "9m", "--blind"),
        ("hold", "--lot", "L-22", "--why", "notice"),
        ("release", "--lot", "L-22", "--why", "sound"),
        ("layflat", "{sheet}"),
    ):
        found = set(_numbers(floor.values(*typed))) - NAMED

        assert [name for name in found if not name.endswith(UNITS)] == [], typed
