"""Orders on the command line: drafted, sent, received, shown, and written for the supplier."""

import csv
from io import StringIO
from pathlib import Path

import pypdfium2
import pytest

from tests.cli.conftest import BLADES, FILM, Shop

SUPPLIER = "Northlight Films"


@pytest.fixture
def buyer(shop: Shop) -> Shop:
    """A shop that has sent an order: two rolls and a box."""
    draft = shop.values(
        *("order", "draft", SUPPLIER, FILM, "2", BLADES, "1", "--cost", "455", "--at", "2026-11-20")
    )
    shop.codes["order"] = draft["code"]
    shop.values("order", "send", "{order}", "--expect", "2026-11-24", "--at", "2026-11-20")
    return shop


def test_an_order_is_drafted_sent_and_received(shop: Shop) -> None:
    """From the words that are typed to the rack; the number that came last is open."""
    assert shop.lines("order", "show") == [
        "Nothing is on order: `order draft` writes an order down, `order show --all` lists the old ones."
    ]
    drafted = shop.values("order", "draft", SUPPLIER, FILM, "3", "--cost", "455")
    shop.codes["order"] = code = drafted["code"]
    assert (drafted["state"], drafted["supplier"], drafted["cost_minor"]) == (
        "draft",
        SUPPLIER,
        136_500,
    )
    assert drafted["lines"][0]["length_mm"] == 15_240

    sent = shop.lines("order", "send", "{order}")
    assert sent[0] == f"D000 0010  {SUPPLIER}  sent, due Wed 2026-12-02"

    came = shop.values("order", "receive", "{order}", "--rolls", "2", "--lot", "L-31")
    assert [one["lot"] for one in came["pieces"]] == ["L-31", "L-31"]
    assert (came["order"]["state"], came["order"]["to_come"]) == ("part received", 1)
    last = shop.lines("order", "receive", "{order}")
    assert last[-1] == f"D000 0010  {SUPPLIER}  received"
    assert shop.run("order", "receive", "{order}").code == 3
    assert code in [one["code"] for one in shop.values("order", "show", "--all")["orders"]]
    assert shop.values("verify")["findings"] == []


def test_what_is_late_is_said(buyer: Shop) -> None:
    """A day after it was expected."""
    row = buyer.lines("order", "show")[1]

    assert row.startswith(f"D000 0010  {SUPPLIER}  1 day late, sent, due Tue 2026-11-24")
    assert buyer.values("order", "show", "{order}")["is_late"] is True


def test_the_plan_becomes_an_order_of_its_supplier_once(shop: Shop) -> None:
    """Without a material it is what buying says; asked again with the same id, the same order."""
    shop.lines("material", "change", FILM, "--supplier", SUPPLIER, "--price-breaks", "2:440")
    nothing = shop.run("order", "draft")
    assert (nothing.code, "The plan orders nothing" in nothing.err) == (2, True)
    shop.lines("cut", "{roll}", "14m", "--job", "{clinic}")
    planned = shop.values("buying")["orders"][0]["items"][0]
    assert "by 0 orders" not in shop.run("buying").out

    first = shop.values("order", "draft", "--request", "plan-1")
    again = shop.values("order", "draft", "--request", "plan-1")

    assert first == again
    assert first["supplier"] == SUPPLIER
    assert first["lines"][0]["pieces"] == planned["rolls"] > 1
    assert first["lines"][0]["cost_minor"] == 44_000
    assert len(shop.values("order", "show")["orders"]) == 1
    shop.lines("hold", "{roll}", "--why", "creased", "--request", "hold-1")
    assert "for something else" in shop.run("order", "draft", "--request", "hold-1").err


def test_an_order_is_written_for_its_supplier_without_money(buyer: Shop, tmp_path: Path) -> None:
    """A page, a table a spreadsheet runs nothing of, and text; money only where it is asked for."""
    buyer.lines("material", "add", "=cmd() film", "--kind", "other")
    buyer.codes["odd"] = buyer.values(
        "order", "draft", SUPPLIER, "=cmd() film", "2", "--count", "5", "--cost", "7"
    )["code"]
    page, table, text, priced = (tmp_path / name for name in ("o.pdf", "o.csv", "o.txt", "p.txt"))

    buyer.lines("order", "sheet", "{order}", "-o", str(page))
    buyer.lines("order", "sheet", "{odd}", "-o", str(table))
    buyer.lines("order", "sheet", "{order}", "-o", str(text))
    buyer.lines("order", "sheet", "{order}", "-o", str(priced), "--money")

    said = pypdfium2.PdfDocument(page)[0].get_textpage().get_text_range()
    assert f"Order to {SUPPLIER}" in said
    assert "D000 0010" in said
    assert FILM in said
    assert "455" not in said
    assert list(csv.reader(StringIO(table.read_text("utf-8")))) == [
        ["line", "material", "pieces", "width_mm", "length_mm", "count"],
        ["1", "'=cmd() film", "2", "", "", "5"],
    ]
    assert text.read_text("utf-8").splitlines()[:6] == [
        f"Order D000 0010 to {SUPPLIER}",
        "from Quay Street",
        "ordered on 2026-11-20",
        "wanted by 2026-11-24",
        "",
        f"1. 2 rolls of {FILM}, 1524 mm, 15.24 m",
    ]
    assert "EUR" not in text.read_text("utf-8")
    assert "In all 1365.00 EUR, before carriage." in priced.read_text("utf-8")
    wrong = buyer.run("order", "sheet", "{order}", "-o", str(tmp_path / "o.doc"))
    assert (wrong.code, wrong.err.count("\n")) == (2, 1)


def test_goods_in_says_which_order_waits_and_takes_its_lines(buyer: Shop) -> None:
    """A hint beside the list, and one command."""
    hint = buyer.run("delivery", "add", FILM).err
    assert "Order D000 0010 of Northlight Films is on its way" in hint
    buyer.lines("delivery", "drop-line", "1")
    came = buyer.run("receive", BLADES, "--count", "100").err
    assert "if this came of it, undo and `order receive D0000010`" in came

    shown = buyer.values("delivery", "order", "{order}")
    assert [(one["material"], one["order_line"]) for one in shown["lines"]] == [
        (FILM, 1),
        (BLADES, 2),
    ]
    buyer.lines("delivery", "drop-line", "2")
    buyer.lines("delivery", "receive")
    assert buyer.values("order", "show", "{order}")["to_come"] == 1


def test_orders_are_a_table_for_a_spreadsheet(buyer: Shop, tmp_path: Path) -> None:
    """A row for each line, with what came of it."""
    buyer.lines("order", "receive", "{order}", "--line", "1", "--rolls", "1")

    assert buyer.values("export", "orders", str(tmp_path / "o.csv"))["rows"] == 2

    rows = list(csv.DictReader(StringIO((tmp_path / "o.csv").read_text("utf-8"))))
    assert [(row["order_code"], row["material"], row["pieces"], row["came"]) for row in rows] == [
        ("D0000010", FILM, "2", "1"),
        ("D0000010", BLADES, "1", "0"),
    ]
    assert rows[0]["cost_minor_EUR"] == "45500"


def test_suppliers_and_what_was_agreed(shop: Shop) -> None:
    """Amounts and closed days, taken away again; and they push the day an order comes."""
    shop.lines(
        *("supplier", "change", SUPPLIER, "--carriage-paid", "800", "--carriage", "25"),
        *("--closed", "2026-11-27..2026-11-29", "--why", "stocktake"),
    )
    one = shop.values("supplier", "list")["suppliers"][0]
    assert (one["name"], one["carriage_paid_from_minor"], one["carriage_minor"]) == (
        SUPPLIER,
        80_000,
        2_500,
    )
    shop.codes["order"] = shop.values("order", "draft", SUPPLIER, FILM, "1")["code"]
    assert shop.values("order", "send", "{order}")["expected_on"] == "2026-12-05"

    shop.lines(
        "supplier", "change", SUPPLIER, "--carriage", "none", "--open", "2026-11-27..2026-11-29"
    )
    one = shop.values("supplier", "list")["suppliers"][0]
    assert (one["carriage_minor"], one["closed"]) == (None, [])
    for wrong in (["--carriage", "much"], [], ["--open", "2026-11-27"], ["--closed", "soon"]):
        ran = shop.run("supplier", "change", SUPPLIER, *wrong)
        assert (ran.code in (2, 3), ran.err.count("\n")) == (True, 1)


REFUSED = (
    (["draft", FILM], 2),
    (["draft", SUPPLIER, FILM, "two"], 2),
    (["draft", SUPPLIER, FILM, "-1"], 2),
    (["draft", SUPPLIER, FILM, "0"], 2),
    (["draft", " ", FILM, "1"], 2),
    (["draft", SUPPLIER, "no such film", "1"], 4),
    (["draft", FILM, "1"], 2),
    (["send", "D0000010"], 4),
    (["send", "{roll}"], 2),
    (["send", "D0000011"], 2),
    (["receive", "D0000010", "--line", "0"], 2),
    (["show", "D0000010"], 4),
    (["cancel", "D0000010"], 4),
)


def test_what_cannot_be_done_is_one_line(shop: Shop) -> None:
    """The right code, and nothing written."""
    before = shop.dump()

    for words, code in REFUSED:
        ran = shop.run("order", *words)
        assert (ran.code, ran.err.count("\n")) == (code, 1), (words, ran)

    assert shop.dump() == before
