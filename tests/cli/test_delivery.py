"""Goods in, as they are typed."""

from tests.cli.conftest import BLADES, FILM, Shop


def test_a_delivery_is_typed_line_by_line_and_received(shop: Shop) -> None:
    """What is missing is said with what it usually is; then all codes, in one act."""
    assert shop.lines("delivery", "list")[0].startswith("No delivery is being built")
    shop.lines("delivery", "add", BLADES, "--count", "50", "--rolls", "2")
    lines = shop.lines("delivery", "add", FILM, "--lot", "L-9", "--place", "a1", "--rolls", "2")
    assert lines[0] == "goods in, Ida M., 2026-11-25 09:00"
    assert "line 2: length is usually 15.24 m" in lines
    assert shop.lines("delivery", "list") == ["goods in  2 lines"]
    ran = shop.run("delivery", "receive")
    assert (ran.code, ran.err) == (
        3,
        "Line 2: length not known yet: fill in what is missing, or drop the line.\n",
    )

    typed = shop.values("delivery", "add", "--line", "2", "--length", "15.24m", "--made", "2026-10")
    assert typed["is_ready"]
    assert typed["lines"][1]["lot"] == "L-9"
    assert typed["lines"][1]["usual_length_mm"] == [15_240]
    received = shop.run("delivery", "receive")

    assert received.out.splitlines()[:6] == [
        "received 4 pieces in one act",
        f"{BLADES}, 50 pcs, lot ?",
        "  B000 008K",
        "  B000 012S",
        f"{FILM}, 15.24 m, 1524 mm, lot L-9",
        "  R000 005D",
    ]
    assert received.err.startswith("Caution: two people")
    assert received.err.count("\n") == 1


def test_a_delivery_has_a_name_where_there_are_several(shop: Shop) -> None:
    """Each is built and forgotten by itself."""
    shop.lines("delivery", "add", FILM, "--name", "opening stock", "--made", "2024")
    shop.lines("delivery", "add", FILM)

    names = [one["name"] for one in shop.values("delivery", "list")["deliveries"]]
    assert names == ["opening stock", "goods in"]
    assert shop.values("delivery", "show", "--name", "Opening  Stock")["lines"][0]["pieces"] == 1
    assert shop.lines("delivery", "drop-line", "1")[-1] == "no line yet"
    assert shop.lines("delivery", "forget") == ["goods in: forgotten"]
    assert shop.run("delivery", "show").code == 4
    assert shop.run("delivery", "add", "--line", "2").code == 4
    assert shop.run("delivery", "add", "--line", "2", "--name", "opening stock").code == 2
