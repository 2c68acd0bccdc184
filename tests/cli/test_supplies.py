"""Bottles that are opened and tools that fail, as they are typed."""

from tests.cli.conftest import Shop


def test_a_bottle_is_opened_and_its_card_says_how_long_it_keeps(shop: Shop) -> None:
    """As long as its material does, from the box it came in."""
    shop.lines("material", "add", "edge sealer", "--kind", "liquid", "--after-opening", "6mo")
    box = shop.values("receive", "edge sealer", "--count", "4", "--cost", "88")["pieces"][0]["code"]

    ran = shop.run("opened", box)

    assert ran.out.splitlines() == [
        "B000 012S: opened, keeps 181 d, use it by 2027-05-25: it needs a label",
        "labels: stockroom label B000012S -o label.png",
    ]
    card = shop.lines("piece", "B000012S")
    assert ["opened", "2026-11-25,", "keeps", "181", "d"] in [line.split() for line in card]
    assert shop.values("piece", "B000012S")["begun_on"] == "2026-11-25"
    assert any(
        line.startswith("once opened") and "6mo (maker's sheet)" in line
        for line in shop.lines("material", "show", "edge sealer")
    )
    again = shop.run("opened", "B000012S")
    assert (again.code, again.err.count("\n")) == (3, 1)
    assert any("one of it opened" in line for line in shop.lines("piece", box))


def test_a_tool_is_put_in_use_fails_and_has_cost_so_much_a_month(shop: Shop) -> None:
    """Before any failed nothing is said of the cost."""
    assert shop.lines("tool", "list") == ["No tool was put in use yet: `stockroom tool use BOX`."]
    shop.lines("material", "add", "hot-air tool", "--kind", "tool")
    box = shop.values(
        *("receive", "hot-air tool", "--count", "2", "--cost", "180", "--at", "2026-01-02T09:00")
    )["pieces"][0]["code"]
    tool = shop.values("tool", "use", box, "--at", "2026-05-25T09:00")["code"]

    young = shop.values("tool", "list")["tools"][0]
    ended = shop.run("tool", "failed", tool, "--why", "element burnt")
    lived = shop.values("tool", "list")["tools"][0]

    assert "failed: element burnt" in ended.out
    assert "not opened: licensed repair" in ended.err
    assert (young["in_use"], young["cost_per_month_minor"]) == (1, None)
    assert (lived["failed"], lived["in_use_days"], lived["cost_minor"]) == (1, 184, 9_000)
    assert shop.lines("tool", "list")[1].endswith("6.0     6.0 mo  14.89 EUR")
