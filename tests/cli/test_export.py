"""Tables for a spreadsheet, as they are asked for."""

from pathlib import Path

import pytest

from tests.cli.conftest import Shop


def test_acts_and_pieces_are_written_to_new_files(shop: Shop, tmp_path: Path) -> None:
    """And how many rows there are is said."""
    acts, pieces = tmp_path / "acts.csv", tmp_path / "pieces.csv"

    assert shop.lines("export", "acts", str(acts)) == [f"{acts}: 10 rows"]
    assert shop.values("export", "pieces", str(pieces)) == {"file": str(pieces), "rows": 4}
    assert len(pieces.read_text("utf-8").splitlines()) == 5
    again = shop.run("export", "acts", str(acts))
    assert (again.code, again.out, again.err.count("\n")) == (5, "", 1)


@pytest.mark.parametrize(
    ("table", "rows", "head"),
    [
        ("materials", 2, "name,kind,width_mm,"),
        ("jobs", 2, "code,name,site,on,"),
        ("places", 1, "code,name,zone,pieces"),
        ("readings", 0, "zone,at_utc,temperature_c,rh_pct"),
        ("use", 1, "material,kind,begins,for_jobs_m,"),
        ("value", 3, "code,material,kind,lot,"),
        ("buying", 2, "material,kind,supplier,pattern,"),
    ],
)
def test_every_report_is_a_table_too(
    shop: Shop, tmp_path: Path, table: str, rows: int, head: str
) -> None:
    """With headings, and as a workbook where its name ends so."""
    text, book = tmp_path / "x.csv", tmp_path / "x.xlsx"

    assert shop.values("export", table, str(text))["rows"] == rows
    assert shop.values("export", table, str(book))["rows"] == rows
    assert text.read_text("utf-8").startswith(head)
    assert book.read_bytes().startswith(b"PK")


def test_use_is_added_up_by_what_is_asked_for(shop: Shop, tmp_path: Path) -> None:
    """By week, by month, or not at all."""
    ran = shop.run("export", "use", str(tmp_path / "x.csv"), "--by", "year")

    assert (ran.code, ran.err) == (2, "Use is added up --by week or --by month.\n")
    assert shop.values("export", "use", str(tmp_path / "x.csv"), "--by", "week")["rows"] == 1
