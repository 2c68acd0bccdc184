"""A sheet of an XLSX workbook, line by line; loaded only where there is a workbook, for it takes half a second.

What stands in one cell for several (merged cells) and which formulas have no value is looked up in the sheet's
own part of the file, for the reader that streams lines tells neither. Parts: ECMA-376, 18.3.1.
"""

import re
import warnings
import zlib
from collections.abc import Iterator, Mapping
from datetime import date, datetime
from decimal import Decimal
from io import BytesIO
from typing import IO, Any
from zipfile import BadZipFile, ZipFile

from openpyxl.reader.excel import ExcelReader
from openpyxl.utils.cell import range_boundaries
from openpyxl.utils.datetime import CALENDAR_MAC_1904
from openpyxl.utils.exceptions import InvalidFileException

from stockroom.errors import Code, Refusal, clean_text
from stockroom.feeds.sheet import MOST_CELLS, Formula, Line, Place, Sheet, checked_lines, plain_cell

_DAMAGED = (
    *(BadZipFile, InvalidFileException, zlib.error, EOFError, OSError, SyntaxError),
    *(ArithmeticError, AttributeError, LookupError, RuntimeError, TypeError, ValueError),
)
"""What the library was seen to end with, or may, for it checks little of what it reads."""

_MOST_UNPACKED = 2**29
_BOOK = "xl/workbook.xml"
_FORMULA = b"<f"
_MERGED = re.compile(rb'<mergeCell\s+ref="([A-Z]{1,3}\d{1,7}:[A-Z]{1,3}\d{1,7})"')
_READ_AT_ONCE = 2**20
_OVERLAP = 60
_MOST_MERGED = 50_000
_DIGITS = 15
"""How many digits of a number a spreadsheet keeps: common practice, no source."""


def read_workbook(raw: bytes, name: str | None) -> Sheet:
    """The sheet of that name, else the first; whatever is no workbook is refused."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of what it passes over: pictures, rules, styles
            return _read(raw, name)
    except _DAMAGED as error:
        raise Refusal(
            Code.BAD_FILE, "The workbook is damaged: open it in its program and save it as .xlsx."
        ) from error


def _read(raw: bytes, name: str | None) -> Sheet:
    with ZipFile(BytesIO(raw)) as packed:
        if _BOOK not in packed.namelist():
            raise Refusal(Code.BAD_FILE, "This is no .xlsx workbook: save it as .xlsx or as CSV.")
        if sum(part.file_size for part in packed.infolist()) > _MOST_UNPACKED:
            raise Refusal(
                Code.BAD_FILE,
                f"The workbook unpacks to more than {_MOST_UNPACKED // 2**20} MB: divide it.",
            )
        values = _opened(raw, data_only=True)
        parts = {sheet.name: relation.target for sheet, relation in values.parser.find_sheets()}
        sheets = [sheet.title for sheet in values.wb.worksheets]
        title = _chosen(sheets, name)
        with packed.open(parts[title]) as part:
            merged, has_formulas = _looked_through(part)
    rows = values.wb[title]
    rows.reset_dimensions()  # what the file says of its size may be a million empty columns
    formulas = _formulas(raw, title) if has_formulas else None
    return Sheet(
        lines=checked_lines(_spread(_lines(rows, formulas), merged)),
        written=f"XLSX, sheet “{clean_text(title, 40)}”",
        name=title,
        others=[one for one in sheets if one != title],
        merged=merged,
        counts_from_1904=values.wb.epoch == CALENDAR_MAC_1904,
    )


def _opened(raw: bytes, *, data_only: bool) -> ExcelReader:
    reader = ExcelReader(BytesIO(raw), read_only=True, data_only=data_only, keep_links=False)
    reader.read()
    return reader


def _chosen(sheets: list[str], name: str | None) -> str:
    if not sheets:
        raise Refusal(Code.BAD_FILE, "The workbook has no sheet with cells.")
    wanted = None if name is None else name.strip().casefold()
    found = [sheet for sheet in sheets if wanted in (None, sheet.strip().casefold())]
    if not found:
        named = ", ".join(clean_text(sheet, 40) for sheet in sheets)
        raise Refusal(
            Code.BAD_USAGE, f"No sheet is called “{clean_text(name or '', 40)}”: there is {named}."
        )
    return found[0]


def _looked_through(part: IO[bytes]) -> tuple[Mapping[Place, Place], bool]:
    """Which cells are one with another, and whether there are formulas."""
    merged: dict[Place, Place] = {}
    has_formulas, before = False, b""
    while read := part.read(_READ_AT_ONCE):
        text = before + read
        has_formulas = has_formulas or _FORMULA in text
        for found in _MERGED.finditer(text):
            _merge(merged, found[1].decode("ascii"))
        before = text[-_OVERLAP:]
    return merged, has_formulas


def _merge(merged: dict[Place, Place], area: str) -> None:
    left, top, right, bottom = (int(edge or 0) for edge in range_boundaries(area))
    if (bottom - top + 1) * (right - left + 1) + len(merged) > _MOST_MERGED:
        raise Refusal(Code.BAD_FILE, f"{area} are one cell, which is too large: divide it.")
    first = top, left - 1
    for line in range(top, bottom + 1):
        for place in range(left - 1, right):
            if (line, place) != first:
                merged[line, place] = first


def _formulas(raw: bytes, title: str) -> Iterator[tuple[Any, ...]]:
    sheet = _opened(raw, data_only=False).wb[title]
    sheet.reset_dimensions()
    return iter(sheet.iter_rows())


def _lines(rows: Any, formulas: Iterator[tuple[Any, ...]] | None) -> Iterator[Line]:
    for number, cells in enumerate(rows.iter_rows(), start=1):
        texts = [_text(cell) for cell in cells[:MOST_CELLS]]
        if formulas is not None:
            asked = next(formulas, ())
            for place, cell in enumerate(asked[: len(texts)]):
                if cell.data_type == "f" and not texts[place]:
                    texts[place] = Formula("=")
        yield number, tuple(texts)


def _spread(lines: Iterator[Line], merged: Mapping[Place, Place]) -> Iterator[Line]:
    """The lines with what stands in one cell for several in each of them."""
    places: dict[int, list[int]] = {}
    for line, place in merged:
        places.setdefault(line, []).append(place)
    firsts = set(merged.values())
    shown: dict[Place, str] = {}
    for number, cells in lines:
        texts = list(cells)
        for place, text in enumerate(cells):
            if (number, place) in firsts:
                shown[number, place] = text
        for place in sorted(places.get(number, ())):
            texts += [""] * (place + 1 - len(texts))
            texts[place] = shown.get(merged[number, place], "")
        yield number, tuple(texts)


def _text(cell: Any) -> str:
    """What a cell holds, as a person would type it."""
    match cell.value:
        case None:
            return ""
        case str() as text:
            return str(plain_cell(text))  # a formula would have its value
        case int() | float() as number:
            return _number(number)
        case datetime() | date() as day:
            is_of_a_day = "d" in str(cell.number_format).casefold()
            return f"{day:%Y-%m-%d}" if is_of_a_day else f"{day:%Y-%m}"
        case other:
            return plain_cell(str(other))


def _number(number: float) -> str:
    if isinstance(number, int):
        return str(number) if not isinstance(number, bool) else ("yes" if number else "no")
    shown = f"{Decimal(f'{number:.{_DIGITS}g}'):f}"
    return shown.rstrip("0").rstrip(".") if "." in shown else shown
