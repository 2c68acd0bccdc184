"""Lists as people keep them: titles, two headings, merged cells, numbers for days, and what is none of it."""

from collections import Counter
from datetime import date, datetime
from io import BytesIO
from typing import Any
from zipfile import ZipFile

import pytest
from openpyxl import Workbook
from openpyxl.utils.datetime import CALENDAR_MAC_1904, to_excel

from stockroom.errors import Code, Refusal
from stockroom.feeds.columns import STOCK, column_of
from stockroom.feeds.days import Order, Shown
from stockroom.feeds.heading import Told
from stockroom.feeds.listing import Asked, Listed, read_list
from stockroom.units import FOOT, INCH, MM, M, System

TODAY = date(2026, 11, 26)


def _read(raw: bytes | str, **given: Any) -> Listed:
    facts: dict[str, Any] = {
        "told": Told(),
        "system": System.METRIC,
        "currency": "EUR",
        "today": TODAY,
    }
    content = raw.encode() if isinstance(raw, str) else raw
    return read_list(Asked(raw=content, **facts | given))


def _workbook(
    *rows: list[Any], merged: tuple[str, ...] = (), epoch: datetime | None = None
) -> bytes:
    """A workbook of one sheet, as its own program would write it."""
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    for row in rows:
        sheet.append(row)
    for area in merged:
        sheet.merge_cells(area)
    if epoch is not None:
        book.epoch = epoch
    file = BytesIO()
    book.save(file)
    return file.getvalue()


def _says(listed: Listed, name: str) -> list[object]:
    return [line.says.get(name) for line in listed.lines]


def _holds(listed: Listed) -> dict[str, str | None]:
    return {one.field.name: one.unit for one in listed.headed.columns}


@pytest.mark.parametrize(
    ("heading", "name", "unit"),
    [
        ("Material", "material", None),
        ("Film type", "material", None),
        ("Länge [m]", "length", "m"),
        ("Longueur (m)", "length", "m"),
        ("Largo, m", "length", "m"),
        ("left_mm", "length", "mm"),
        ("Remaining length in feet", "length", "feet"),
        ("Width (in.)", "width", "in"),
        ("Breite mm", "width", "mm"),
        ("Charge", "lot", None),
        ("Batch no.", "lot", None),
        ("Qty", "count", None),
        ("Rollen", "rolls", None),
        ("Mfg date", "made", None),
        ("Eingang", "received", None),
        ("value_minor_EUR", "cost", "minor"),
        ("Lagerplatz", "place", None),
        ("core_wall_mm", "wall", "mm"),
        ("laminate_lot", "laminate_lot", None),
        ("keeps_days", "keeps_days", None),
    ],
)
def test_a_heading_is_understood_by_its_words(heading: str, name: str, unit: str | None) -> None:
    """Whatever else stands there; the unit is read from it."""
    found = column_of(0, heading, STOCK)

    assert found is not None
    assert (found.field.name, found.unit) == (name, unit)


@pytest.mark.parametrize(
    "heading",
    [
        *("full_mm", "code", "shelf_days", "verdict", ""),
        *(
            "Item no.",
            "Artikelnummer",
            "Total cost",
            "Gesamtpreis",
            "Price per m²",
            "Preis/lfm",
            "Date",
        ),
    ],
)
def test_a_heading_of_something_else_is_passed_over(heading: str) -> None:
    """Columns of our own tables that only sound alike."""
    assert column_of(0, heading, STOCK) is None


def test_titles_blank_lines_and_sums_are_no_lines() -> None:
    """The lines keep the numbers they have in the file."""
    listed = _read(
        "Stock of the harbour shop;;\n;;\n\nFilm;Length m;Lot\n\nclear 50;30;L-1\n;;\n"
        'grey;"12,5";\nTotal;42,5;\n'
    )

    assert listed.headed.heading_line == 4
    assert [line.line for line in listed.lines] == [6, 8]
    assert _says(listed, "length") == [30 * M, 12_500 * MM]
    assert listed.headed.sheet.written == "UTF-8, columns between semicolons"
    assert not listed.findings


def test_two_heading_lines_with_merged_cells_and_a_line_of_units_are_one_heading() -> None:
    """As a person lays a table out for the eye."""
    listed = _read(
        _workbook(
            ["All we have"],
            ["Film", "Roll", None, "Dates", None, "Price"],
            [None, "length", "width", "made", "received", "each"],
            [None, "m", "mm", None, None, "EUR"],
            ["clear 50", 30, 1524, date(2025, 3, 14), date(2025, 4, 1), 480.1],
            merged=("A1:F1", "B2:C2", "D2:E2"),
        )
    )

    assert _holds(listed) == {
        "material": None, "length": "m", "width": "mm", "made": None, "received": None, "cost": None,
    }  # fmt: skip
    assert listed.headed.heading_line == 4
    assert listed.lines[0].says == {
        "material": "clear 50",
        "length": 30 * M,
        "width": 1_524 * MM,
        "made": "2025-03-14",
        "received": "2025-04-01",
        "cost": 48_010,
    }


def test_a_name_may_stand_in_one_cell_for_several_lines_and_an_amount_may_not() -> None:
    """Nobody can tell whether 30 m are there once or twice."""
    listed = _read(
        _workbook(
            ["Film", "Length m", "Lot"],
            ["clear 50", 30, "L-1"],
            [None, 25, None],
            [None, None, "L-2"],
            merged=("A2:A4", "B3:B4", "C2:C3"),
        )
    )

    assert _says(listed, "material") == ["clear 50", "clear 50"]
    assert _says(listed, "lot") == ["L-1", "L-1"]
    assert [(one.line, one.text) for one in listed.findings] == [
        (4, "length: one cell with the line above: write it in each line")
    ]


def test_a_formula_without_a_value_and_one_that_failed_are_found() -> None:
    """The library that writes these workbooks reckons nothing, so no value is in the file."""
    listed = _read(
        _workbook(
            ["Film", "Length m", "Cost"], ["a", "=15*2", 480], ["b", 30, "#N/A"], ["c", 30, 1]
        )
    )

    assert [line.line for line in listed.lines] == [4]
    assert [one.line for one in listed.findings] == [2, 3]
    assert "a formula whose value the file does not hold" in listed.findings[0].text
    assert "a formula that failed" in listed.findings[1].text


# Reference: openpyxl's own reckoning of ECMA-376's two calendars.
@pytest.mark.parametrize("day", [date(1999, 12, 31), date(2024, 2, 29), date(2026, 11, 26)])
def test_a_number_in_a_column_of_days_counts_days(day: date) -> None:
    """From 1900 or 1904, as the workbook says; in a text file from 1900."""
    number = int(to_excel(day))  # type: ignore[no-untyped-call]
    later = int(to_excel(day, CALENDAR_MAC_1904))  # type: ignore[no-untyped-call]
    rows: list[list[Any]] = [["Film", "Length m", "Made"], ["a", 1, number]]
    old: list[list[Any]] = [["Film", "Length m", "Made"], ["a", 1, later]]

    assert _says(_read(_workbook(*rows)), "made") == [day.isoformat()]
    assert _says(_read(_workbook(*old, epoch=CALENDAR_MAC_1904)), "made") == [day.isoformat()]
    assert _says(_read(f"Film,Length m,Made\na,1,{number}\n"), "made") == [day.isoformat()]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("2025", "2025"),
        ("2025-03", "2025-03"),
        ("03/2025", "2025-03"),
        ("2025/3", "2025-03"),
        ("14.03.2025", "2025-03-14"),
        ("2025-03-14 00:00:00", "2025-03-14"),
        ("Mar 2025", "2025-03"),
        ("14 March 2025", "2025-03-14"),
        ("March 14, 2025", "2025-03-14"),
        ("14-Mar-25", "2025-03-14"),
    ],
)
def test_days_are_read_as_people_write_them(text: str, said: str) -> None:
    """Known in part or in full."""
    assert _says(_read(f'Film,Length m,Made\na,1,"{text}"\n'), "made") == [said]


@pytest.mark.parametrize("text", ["soon", "31.02.2025", "99999999", "1905", "2025-13", "12345"])
def test_what_is_no_day_is_a_finding(text: str) -> None:
    """And nothing of its line is taken."""
    listed = _read(f'Film,Length m,Made\na,1,"{text}"\n')

    assert not listed.lines
    assert "is no date" in listed.findings[0].text


def test_days_that_can_be_read_in_two_ways_say_so_until_somebody_decides() -> None:
    """One day that cannot be a month shows the order of all."""
    text = "Film,Length m,Made\na,1,03/04/2025\n"

    unsure, told = _read(text), _read(text, order=Order.MDY)
    shown = _read(f"{text}b,1,03/14/2025\n")

    assert unsure.order is not None
    assert unsure.order.shown is Shown.ASSUMED
    assert _says(told, "made") == ["2025-03-04"]
    assert _says(shown, "made") == ["2025-03-04", "2025-03-14"]


def test_a_unit_in_a_cell_goes_over_that_of_the_heading_and_that_over_the_books() -> None:
    """In one column, and a column without any is said to be bare."""
    text = 'Film,Length m,Width\na,30,1524\nb,100 ft,60in\nc,"10\'6""",5 ft\n'

    listed, us = _read(text), _read(text.replace("1524", "60"), system=System.US)

    assert _says(listed, "length") == [30 * M, 100 * FOOT, 126 * INCH]
    assert _says(listed, "width") == [1_524 * MM, 60 * INCH, 5 * FOOT]
    assert _says(us, "width") == [60 * INCH, 60 * INCH, 5 * FOOT]
    assert [one.field.name for one in listed.bare] == ["width"]
    assert not listed.assumed


def test_sizes_too_small_for_the_books_unit_are_not_believed() -> None:
    """30 in a column of lengths without a unit is no roll of 30 mm."""
    assert _read("Film,Length,Width\na,30,1.52\nb,25,1.52\n").assumed == ("length", "width")


def test_a_person_says_what_a_column_holds() -> None:
    """Over the words of its heading, with a unit; or that it is to be passed over."""
    text = "Ware,How much,Lot,Length\na,100,L-1,junk\n"
    told = Told(columns={"ware": "material", "how much": "length_ft", "length": ""})

    listed = _read(text, told=told)

    assert listed.lines[0].says == {"material": "a", "length": 100 * FOOT, "lot": "L-1"}
    assert listed.headed.passed_over == ("Length",)


def test_a_column_nobody_can_hold_is_refused() -> None:
    """With the nearest one that is."""
    with pytest.raises(Refusal, match="did you mean length") as refused:
        _read("Film,Length m\na,1\n", told=Told(columns={"film": "lenght"}))

    assert refused.value.code is Code.BAD_USAGE


def test_a_list_of_materials_is_told_from_a_stock() -> None:
    """By what it holds, or by what is said."""
    listed = _read(
        "Name,Kind,Width mm,Thickness um,Shelf life (months),Supplier\nclear 50,window-film,1524,75,24,Quay Films\n"
    )

    assert listed.headed.of == "materials"
    assert listed.lines[0].says == {
        "name": "clear 50",
        "kind": "window-film",
        "width": 1_524 * MM,
        "thickness": 75_000,
        "shelf": "24 months",
        "supplier": "Quay Films",
    }


@pytest.mark.parametrize(
    ("raw", "said"),
    [
        (b"", "The table is empty"),
        (b"a,b\n1,2\n", "No line heads the columns"),
        (b"PK\x03\x04junk", "The workbook is damaged"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "protected by a password"),
        (b"%PDF-1.7", "This is no text"),
    ],
)
def test_what_is_no_list_is_refused_in_one_sentence(raw: bytes, said: str) -> None:
    """Whatever somebody gives it."""
    with pytest.raises(Refusal, match=said) as refused:
        _read(raw)

    assert refused.value.code is Code.BAD_FILE


def test_a_sheet_is_chosen_by_its_name() -> None:
    """Else the first; the others are named."""
    book = Workbook()
    book.create_sheet("Old").append(["nothing"])
    stock = book.create_sheet("Stock 2026")
    stock.append(["Film", "Length m"])
    stock.append(["a", 30])
    file = BytesIO()
    book.save(file)

    listed = _read(file.getvalue(), sheet="stock 2026")

    assert _says(listed, "length") == [30 * M]
    assert listed.headed.sheet.others == ["Sheet", "Old"]
    with pytest.raises(Refusal, match="there is Sheet, Old, Stock 2026"):
        _read(file.getvalue(), sheet="new")


def test_a_damaged_workbook_is_refused_or_read_and_nothing_else() -> None:
    """In each of its parts some bytes are others, or missing."""
    whole = ZipFile(BytesIO(_workbook(["Film", "Length m", "Made"], ["a", 30, date(2025, 3, 14)])))
    parts = {name: whole.read(name) for name in whole.namelist()}
    ended = Counter(
        _ended(parts | {name: content[:at] + other + content[at + 9 :]})
        for name, content in parts.items()
        for at in range(30, len(content), max(30, len(content) // 4))
        for other in (b"<", b'"', b"-1e9", b"")
    )

    assert min(ended.values()) > 10
    assert set(ended) == {"read", Code.BAD_FILE}


def _ended(parts: dict[str, bytes]) -> str:
    """How reading a workbook of these parts ends."""
    file = BytesIO()
    with ZipFile(file, "w") as packed:
        for name, content in parts.items():
            packed.writestr(name, content)
    try:
        _read(file.getvalue())
    except Refusal as refusal:
        return refusal.code
    return "read"


@pytest.mark.parametrize("cut", [-400, -80, 400])
def test_a_workbook_that_was_cut_is_refused(cut: int) -> None:
    """As by a copy that broke off."""
    with pytest.raises(Refusal) as refused:
        _read(_workbook(["Film", "Length m"], ["a", 30])[:cut])

    assert refused.value.code is Code.BAD_FILE
