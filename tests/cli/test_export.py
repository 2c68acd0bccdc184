"""Tables for a spreadsheet, as they are asked for."""

from pathlib import Path

from tests.cli.conftest import Shop


def test_acts_and_pieces_are_written_to_new_files(shop: Shop, tmp_path: Path) -> None:
    """And how many rows there are is said."""
    acts, pieces = tmp_path / "acts.csv", tmp_path / "pieces.csv"

    assert shop.lines("export", "acts", str(acts)) == [f"{acts}: 10 rows"]
    assert shop.values("export", "pieces", str(pieces)) == {"file": str(pieces), "rows": 4}
    assert len(pieces.read_text("utf-8").splitlines()) == 5
    again = shop.run("export", "acts", str(acts))
    assert (again.code, again.out, again.err.count("\n")) == (5, "", 1)
