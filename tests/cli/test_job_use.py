"""A job's film and money, as they are shown."""

from tests.cli.conftest import BLADES, FILM, Shop


def test_a_job_shows_what_it_used_and_what_that_cost(shop: Shop) -> None:
    """By piece and in all; what has no price is said."""
    assert "nothing yet" in shop.lines("job", "show", "{clinic}")
    shop.lines(
        *("cut", "{roll}", "2m", "--job", "{clinic}", "--waste", "20cm"),
        *("--offcut", "600x600mm"),
    )
    shop.lines("receive", BLADES, "--count", "10")
    shop.lines("take", "{box}", "4", "--job", "{clinic}")
    shop.lines("take", "B000008K", "1", "--job", "{clinic}")

    lines = shop.lines("job", "show", "{clinic}")
    values = shop.values("job", "show", "{clinic}")

    used = lines.index("Used")
    assert [line.split() for line in lines[used + 1 : used + 6]] == [
        ["piece", "film", "used", "waste", "kept", "cost"],
        ["R000", "002J", *FILM.split(), "2.38", "m²", "0.3", "m²", "0.36", "m²", "55.55", "EUR"],
        ["B000", "004S", *BLADES.split(), "4", "pcs", "0.80", "EUR"],
        ["B000", "008K", *BLADES.split(), "1", "pc", "?"],
        ["in", "all", "2.38", "m²", "0.3", "m²", "0.36", "m²", "56.35", "EUR", "+", "?"],
    ]
    assert [one["taken_count"] for one in values["pieces"]] == [None, 4, 1]
    assert values["pieces"][2]["cost_minor"] is None
    assert values["total"] == {
        "used_area_mm2": 1_524 * 1_800 - 360_000,
        "wasted_area_mm2": 1_524 * 200,
        "kept_area_mm2": 360_000,
        "cost_minor": 5_635,
        "unpriced_pieces": 1,
    }
    assert lines[lines.index("Acts") + 1].endswith("take 1 pc for J000 0019")
