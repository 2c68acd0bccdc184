"""Tables for a spreadsheet, read back as any program would."""

import csv
from datetime import datetime
from decimal import Decimal
from pathlib import Path

import pytest
from sqlalchemy import text

from stockroom.errors import Code
from stockroom.units import MM, M
from stockroom.work import export, spreadsheet
from stockroom.work.export import export_acts, export_pieces
from stockroom.work.setup import SetValue, set_value
from stockroom.work.spreadsheet import defused
from tests.builders import ON_ONE_ENGINE, Station, refused


def _read(path: Path) -> list[dict[str, str]]:
    """As Python's own reader has it, which knows nothing of how the file was written."""
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_acts_are_all_there_when_they_are_read_back(
    station: Station, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each move once, newest first, however many are fetched at a time."""
    monkeypatch.setattr(export, "_AT_ONCE", 2)
    job = station.job('harbour, east "pier"')
    roll, box = station.roll(), station.box()
    station.cut(roll, 3_200_000_001, job=job, offcuts=((600 * MM, M),), note="zweite Tür")
    station.take(box, 3)
    station.undo(box)
    file = tmp_path / "acts.csv"

    done = export_acts(station.book, file, now=station.now)

    rows = _read(file)
    with station.book.reading() as connection:
        moves = connection.execute(text("SELECT count(*), sum(used_mm2) FROM move")).one()
        opened = connection.execute(
            text("SELECT count(*) FROM act WHERE kind = 'open'")
        ).scalar_one()
    assert done.rows == len(rows) == moves[0] + opened
    assert sum(int(row["used_area_mm2"] or 0) for row in rows) == moves[1]
    assert [int(row["act"]) for row in rows] == sorted(
        (int(row["act"]) for row in rows), reverse=True
    )
    cut = next(row for row in rows if row["move"] == "cut")
    assert (cut["piece"], cut["change_mm"], cut["left_mm"]) == (
        roll,
        "-3200.000001",
        "26799.999999",
    )
    assert (cut["job"], cut["note"], cut["change_count"]) == (job, "zweite Tür", "")
    assert datetime.fromisoformat(cut["at_utc"]) == station.now
    taken = next(row for row in rows if row["move"] == "take")
    assert (taken["change_count"], taken["left_count"], taken["change_mm"]) == ("-3", "97", "")
    assert (taken["is_reversed"], cut["is_reversed"]) == ("true", "false")


def test_pieces_are_all_there_with_their_verdict(station: Station, tmp_path: Path) -> None:
    """Ended ones too; what is unknown is nothing, not zero; money names its currency."""
    currency = SetValue(**station.asked(name="currency", value="CHF", why="where we are"))
    set_value(currency, book=station.book, now=station.now)
    roll, gone = station.rolls(pieces=2, lot="L-1")
    station.discard(gone)
    offcut = station.cut(roll, 2 * M, offcuts=((600 * MM, 2 * M),)).offcuts[0].code
    station.box(40, cost_minor=None)
    file = tmp_path / "pieces.csv"

    done = export_pieces(station.book, file, now=station.now)

    rows = {row["code"]: row for row in _read(file)}
    assert done.rows == len(rows) == 4
    assert Decimal(rows[roll]["left_mm"]) == 28_000
    assert (rows[roll]["width_mm"], rows[roll]["thickness_um"]) == ("1500", "75")
    assert (rows[roll]["value_minor_CHF"], rows[roll]["verdict"]) == ("42000", "USE")
    assert (rows[gone]["ended"], rows[gone]["verdict"]) == ("discarded", "")
    assert (rows[offcut]["parent"], rows[offcut]["full_mm"]) == (roll, "2000")
    box = next(row for row in rows.values() if row["form"] == "box")
    assert (box["left_count"], box["left_mm"], box["cost_minor_CHF"], box["lot"]) == (
        "40",
        "",
        "",
        "",
    )


def test_a_book_without_acts_has_headings_all_the_same(station: Station, tmp_path: Path) -> None:
    """An empty table is a table."""
    done = export_acts(station.book, tmp_path / "acts.csv", now=station.now)

    assert done.rows == 0
    assert (tmp_path / "acts.csv").read_bytes().startswith(b"act,at_utc,recorded_at_utc,kind,")


# Signs a spreadsheet takes for the beginning of a formula: common practice, no source.
@pytest.mark.parametrize("sign", "=+-@|%\N{FULLWIDTH EQUALS SIGN}\N{FULLWIDTH COMMERCIAL AT}\t\r\n")
def test_no_text_is_a_formula(sign: str) -> None:
    """A name that begins like one stands behind an apostrophe."""
    assert defused(f"{sign}1+1") == f"'{sign}1+1"
    assert defused(f" {sign}1+1").startswith("'")
    assert defused(f"1{sign}1") == f"1{sign}1"


def test_what_people_typed_is_no_formula_in_the_file(station: Station, tmp_path: Path) -> None:
    """Numbers below nothing stay numbers."""
    roll = station.roll(lot='=HYPERLINK("x")', note="@SUM(1)")
    station.cut(roll, M, note="-1+1", operator="+Ida")

    export_pieces(station.book, tmp_path / "pieces.csv", now=station.now)
    export_acts(station.book, tmp_path / "acts.csv", now=station.now)

    assert _read(tmp_path / "pieces.csv")[0]["lot"] == '\'=HYPERLINK("x")'
    cut, received = _read(tmp_path / "acts.csv")
    assert (cut["note"], cut["operator"], received["note"]) == ("'-1+1", "'+Ida", "'@SUM(1)")
    assert cut["change_mm"] == "-1000"


@ON_ONE_ENGINE
def test_no_file_is_overwritten_and_none_is_left_half_written(
    station: Station, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whole or not at all."""
    station.roll()
    taken = tmp_path / "taken.csv"
    taken.write_text("mine")
    with refused(station.book, Code.FILE_UNWRITABLE, "it is there already"):
        export_pieces(station.book, taken, now=station.now)
    with refused(station.book, Code.FILE_UNWRITABLE, "its folder is not there"):
        export_pieces(station.book, tmp_path / "none" / "x.csv", now=station.now)

    def full(_value: object) -> object:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(spreadsheet, "_cell", full)
    with refused(station.book, Code.FILE_UNWRITABLE, "No space left"):
        export_acts(station.book, tmp_path / "new.csv", now=station.now)
    assert taken.read_text() == "mine"
    assert [path.name for path in tmp_path.glob("*.csv*")] == ["taken.csv"]
    assert not list(tmp_path.glob(".*.part"))
