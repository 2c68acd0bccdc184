"""What a shop set up, in workbooks and as text, and back again."""

import csv
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest
from openpyxl import load_workbook

from stockroom.books.opening import Book
from stockroom.errors import Code
from stockroom.film.figures import FIGURES
from stockroom.film.roll import Layer
from stockroom.plan.terms import TERMS
from stockroom.units import MM, M
from stockroom.work import spreadsheet
from stockroom.work.export import export_acts, export_pieces, export_readings
from stockroom.work.export_shop import export_jobs, export_materials, export_places
from stockroom.work.import_list import Imported, ImportList, keep, look_into
from stockroom.work.list_stock import StockListed
from stockroom.work.look import materials, rack
from stockroom.work.setup import settings
from stockroom.work.spreadsheet import Table, write_table
from tests.builders import ON_ONE_ENGINE, Station, refused
from tests.engines import new_book
from tests.weather import NOW_S, Weather

EXPORTS = {"materials": export_materials, "places": export_places, "pieces": export_pieces}

KNOWN_OF_OTHERS = frozenset({"memory"})
"""What trials fit, and nobody enters."""


def _read(path: Path) -> list[dict[str, Any]]:
    """The rows of a file by their headings, as another program has them."""
    if path.suffix == ".csv":
        with path.open(encoding="utf-8", newline="") as file:
            return list(csv.DictReader(file))
    sheet = load_workbook(path).active
    assert sheet is not None
    heads, *rows = sheet.iter_rows(values_only=True)
    return [dict(zip(map(str, heads), row, strict=True)) for row in rows]


def _import(station: Station, file: Path) -> Imported:
    request = ImportList(**station.asked(raw=file.read_bytes()))
    shop, _ = settings(station.book, now=station.now)
    looked = look_into(request, book=station.book, shop=shop, now=station.now)
    assert [one for one in looked.findings if not one.is_kept] == []
    return keep(request, looked, book=station.book, now=station.now)


@pytest.fixture
def other(tmp_path: Path) -> Any:
    """A second shop, with an empty book."""
    made = new_book(f"sqlite:///{tmp_path / 'other.db'}")
    yield Station(made)
    made.close()


@pytest.mark.parametrize("suffix", [".csv", ".xlsx"])
def test_what_is_exported_can_be_imported_again(
    station: Station, other: Station, tmp_path: Path, suffix: str
) -> None:
    """Materials with all that is in force of them; pieces by what is left of them and what that is worth."""
    station.material(
        layers=(Layer(50.8, 1390), Layer(25, 900)),
        limits={"shelf": "24mo", "wound": "90d"},
        figures={"energy": "60 kJ/mol", "curl": "180mm", "bond": "0.5", "modulus": "4.5"},
        terms={"supplier": "=Quay", "lead": "7d", "spread": "2d", "pack": "2", "least": "4", "expect": "8x3m", "breaks": "10:400"},
        finish="coloured",
        counted_from="shipped",
        note="-5 °C is too cold for it",
    )  # fmt: skip
    roll, gone, held = station.rolls(pieces=3, lot="=1+1", shipped="2026-07", received="2026-08-01")
    station.hold(held)
    station.discard(gone)
    offcut = station.cut(roll, 2 * M, offcuts=((600 * MM, 2 * M),)).offcuts[0].code
    empty, box = station.box(5), station.box(40)
    station.take(empty, 5)
    station.take(box, 10)
    station.put(roll, station.place("A1", zone="north"))
    station.place("-B2", zone="")
    for name, export in EXPORTS.items():
        export(station.book, tmp_path / f"{name}{suffix}", now=station.now)

    for name in ("materials", "places"):
        _import(other, tmp_path / f"{name}{suffix}")
    done = _import(other, tmp_path / f"pieces{suffix}")

    mine, theirs = (materials(one.book, now=one.now) for one in (station, other))
    for their, my in zip(theirs, mine, strict=True):
        assert _plain(their) == _plain(my)
    assert isinstance(done, StockListed)
    kept = {"roll": (roll, 2), "held": (held, 3), "offcut": (offcut, 1), "box": (box, 4)}
    assert len(done.codes) == len(kept)
    before = sorted(_standing(station, code) for code, _ in kept.values())
    assert sorted(_standing(other, codes[0]) for codes in done.codes.values()) == before
    assert len(rack(other.book, now=other.now).pieces) == len(kept)
    export_places(other.book, tmp_path / f"again{suffix}", now=other.now)
    stand = [
        [(row["name"], row["zone"], row["pieces"]) for row in _read(tmp_path / f"{name}{suffix}")]
        for name in ("places", "again")
    ]
    assert stand[0] == stand[1]
    assert len(stand[0]) == 2


def _plain(material: Any) -> dict[str, Any]:
    names = ("name", "kind", "width_nm", "layers", "counted_from", "cost_minor", "note", "finish")
    held = {name: getattr(material, name) for name in names}
    return held | {
        "limits": dict(material.limits),
        "facts": dict(material.facts),
        "terms": dict(material.terms),
    }


def _standing(station: Station, code: str) -> tuple[object, ...]:
    """All of a piece that an export carries, in an order that sorts."""
    state = station.piece(code).state
    names = ("form", "balance", "width_nm", "lot", "made", "shipped", "received", "owner", "held")
    value = round((state.cost_minor or 0) * state.balance / state.full)
    return (*(str(getattr(state, name)) for name in names), value)


def test_every_figure_and_term_of_a_material_is_in_its_table(
    station: Station, tmp_path: Path
) -> None:
    """One that is new in the house is missed here."""
    station.material()
    file = tmp_path / "materials.csv"

    export_materials(station.book, file, now=station.now)

    heads = {head.split("_")[0] for head in _read(file)[0]}
    assert {*FIGURES, *TERMS} - heads == KNOWN_OF_OTHERS


def test_a_workbook_holds_numbers_days_and_text_that_never_runs(
    station: Station, tmp_path: Path
) -> None:
    """Read back by the library alone: a formula would be one in it."""
    roll = station.roll(lot='=HYPERLINK("x")', received="2026-08-01", made="2026-06")
    station.cut(roll, M, note="@SUM(1)")
    pieces, acts = tmp_path / "pieces.xlsx", tmp_path / "acts.XLSX"

    export_pieces(station.book, pieces, now=station.now)
    export_acts(station.book, acts, now=station.now)

    row = _read(pieces)[0]
    assert (row["left_mm"], row["width_mm"], row["cost_minor_EUR"]) == (29_000, 1_500, 45_000)
    assert (row["made_on"], row["received_on"]) == ("2026-06", datetime(2026, 8, 1))  # noqa: DTZ001
    cells: Any = load_workbook(pieces).active
    cell = next(cell for cell in cells[2] if "HYPERLINK" in str(cell.value))
    assert (cell.data_type, cell.quotePrefix, cell.value) == ("s", True, '=HYPERLINK("x")')
    cut = next(row for row in _read(acts) if row["move"] == "cut")
    assert cut["at_utc"].replace(tzinfo=UTC) == station.now
    assert (cut["change_mm"], cut["note"], cut["is_reversed"]) == (-1_000, "@SUM(1)", False)


def test_jobs_say_what_they_took_and_places_what_stands_there(
    station: Station, tmp_path: Path
) -> None:
    """Areas of film, the cost of all; what came back is not in it."""
    station.place("A1", zone="north")
    job, idle = station.job("pier", on_day="2026-12-01"), station.job("depot")
    roll, box = station.roll(place="A1"), station.box(100)
    station.cut(roll, 2 * M, job=job, waste_nm=M)
    station.take(box, 10, job=job)
    jobs, places = tmp_path / "jobs.csv", tmp_path / "places.csv"

    export_jobs(station.book, jobs, now=station.now)
    export_places(station.book, places, now=station.now)

    rows = {row["code"]: row for row in _read(jobs)}
    assert (rows[job]["on"], rows[job]["is_closed"]) == ("2026-12-01", "false")
    assert (rows[job]["used_area_mm2"], rows[job]["wasted_area_mm2"]) == ("1500000", "1500000")
    assert (rows[job]["cost_minor_EUR"], rows[idle]["cost_minor_EUR"]) == ("3200", "0")
    assert [(row["name"], row["zone"], row["pieces"]) for row in _read(places)] == [
        ("A1", "north", "1")
    ]


def test_readings_are_those_of_the_zone_as_they_were_set_right(book: Book, tmp_path: Path) -> None:
    """Oldest first, zone by zone."""
    weather = Weather(book)
    weather.sensor()
    weather.move(offset_c=-0.5, at=datetime(2026, 11, 1, tzinfo=UTC))
    weather.read((-7_200, 21.5, 48.0), (-3_600, 22.0))
    file = tmp_path / "readings.xlsx"

    done = export_readings(book, file)

    assert done.rows == 2
    assert _read(file)[0] == {
        "zone": "north",
        "at_utc": datetime.fromtimestamp(NOW_S - 7_200, UTC).replace(tzinfo=None),
        "temperature_c": 21,
        "rh_pct": 48,
    }


@ON_ONE_ENGINE
def test_more_rows_than_a_workbook_holds_are_refused_and_nothing_is_left(
    station: Station, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A text file holds them."""
    monkeypatch.setattr(spreadsheet, "MOST_ROWS", 2)
    table = Table(("on",), [[date(2026, 1, 1)]] * 3)

    with refused(station.book, Code.TOO_MANY, "as .csv"):
        write_table(tmp_path / "x.xlsx", table)

    assert write_table(tmp_path / "x.csv", table).rows == 3
    assert [path.name for path in tmp_path.glob("*x*")] == ["x.csv"]
