"""A backup is put back by one command."""

from pathlib import Path

from tests.cli.conftest import Shop


def test_a_backup_is_restored_and_what_was_there_is_kept(shop: Shop, tmp_path: Path) -> None:
    """Even where the book cannot be read any more."""
    copy = tmp_path / "copy.db"
    shop.lines("backup", str(copy))
    shop.lines("hold", "{roll}", "--why", "water")

    lines = shop.lines("restore", str(copy))

    kept = tmp_path / "book.db.before-restore-20261125T090000Z"
    assert lines == [
        f"restored from {copy}: 4 pieces, 7 moves, verified",
        f"what was there before is kept in {kept}",
    ]
    assert shop.values("piece", "{roll}")["held"] is None
    kept.unlink()
    shop.book.write_bytes(b"film " * 3_000)
    values = shop.values("restore", str(copy))
    assert values["kept"] == str(kept)
    assert shop.values("verify")["findings"] == []


def test_a_file_that_is_no_backup_is_refused_in_one_line(shop: Shop, tmp_path: Path) -> None:
    """And the book stays."""
    before = shop.dump()

    ran = shop.run("restore", str(tmp_path / "none.db"))

    assert (ran.code, ran.out, ran.err.count("\n")) == (5, "", 1)
    assert shop.dump() == before
