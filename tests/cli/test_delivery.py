"""Goods in, as they are typed."""

from pathlib import Path

import pytest

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


def test_the_labels_of_a_delivery_are_the_pages_of_one_file(shop: Shop, tmp_path: Path) -> None:
    """As the label command writes them, in the order of the lines; asked again, the same file."""
    target, again = tmp_path / "new.pdf", tmp_path / "again.pdf"
    shop.lines("delivery", "add", FILM, "--length", "15.24m", "--rolls", "2")
    shop.lines("delivery", "add", BLADES, "--count", "50")

    asked = ("delivery", "receive", "--request", "pallet 3", "--labels", str(target))
    came = shop.values(*asked)
    codes = [one["code"] for one in came["pieces"]]
    shop.lines("label", *codes, "-o", str(again))

    assert came["labels_file"] == str(target)
    assert target.read_bytes() == again.read_bytes()
    target.unlink()
    assert shop.lines(*asked)[-1].startswith(f"{target}: 3 labels, 62x29 mm at 203 dpi")
    assert target.read_bytes() == again.read_bytes()


@pytest.mark.parametrize(
    ("name", "code", "says"),
    [("new.png", 2, "to a .pdf file"), ("nowhere/new.pdf", 5, "cannot be written there")],
)
def test_nothing_is_received_whose_labels_cannot_be_written(
    shop: Shop, tmp_path: Path, name: str, code: int, says: str
) -> None:
    """It is found out before."""
    shop.lines("delivery", "add", BLADES, "--count", "50")
    before = shop.dump()

    ran = shop.run("delivery", "receive", "--labels", str(tmp_path / name))

    assert (ran.code, ran.out, len(ran.err.splitlines())) == (code, "", 1)
    assert says in ran.err
    assert shop.dump() == before


def test_a_delivery_stands_where_its_labels_fail_at_the_last_moment(
    shop: Shop, tmp_path: Path
) -> None:
    """The codes are said, and that the labels are still to be written."""
    target = tmp_path / "new.pdf"
    target.mkdir()
    shop.lines("delivery", "add", BLADES, "--count", "50")

    ran = shop.run("delivery", "receive", "--labels", str(target))

    hint = "labels: stockroom label B000008K -o label.png"
    assert (ran.code, ran.out.splitlines()[-1]) == (5, hint)
    assert ran.err.startswith("It came in, but its labels are not written: ")
    assert len(ran.err.splitlines()) == 1
    assert shop.values("piece", "B000008K")["left_count"] == 50


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
