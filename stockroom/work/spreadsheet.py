"""Writing a table to a new file any spreadsheet opens: CSV, or an XLSX workbook where its name ends so.

    write_table(target, table)   Exported; whole or not at all
    defused(text)                text that no spreadsheet takes for a formula
    a_day(text)                  the day a text is, where it is known in full

CSV is that of RFC 4180 in UTF-8; headings carry the unit, instants are in UTC. In a workbook numbers are numbers
and days are days; text is text, whatever it begins with. In CSV text that would be a formula is put behind an
apostrophe.
"""

import csv
import os
from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, date, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any, NamedTuple

from stockroom.books.backup import refuse_taken
from stockroom.errors import Code, Refusal, clean_text

WORKBOOK = ".xlsx"
MOST_ROWS = 2**20 - 1
"""What a sheet holds below its headings: ECMA-376 leaves it open, common practice, no source."""

_FORMULA = frozenset("\t\r\n=+-@|%\uff1d\uff0b\uff0d\uff20\uff5c\uff05")
"""What a formula begins with, and the same signs in their full width."""

_LONGEST_CELL = 32_000
_FULL_DAY = len("2025-03-14")
_INSTANT, _DAY = "yyyy-mm-dd hh:mm:ss", "yyyy-mm-dd"
_NARROWEST, _WIDEST = 10, 40


class Table(NamedTuple):
    """What is written: headings, and rows of None, text, numbers, days and instants."""

    heads: Sequence[str]
    rows: Iterable[Sequence[object]]


@dataclass(frozen=True, slots=True)
class Exported:
    """The file that was written, and how many rows it has below its headings."""

    path: Path
    rows: int


def write_table(target: Path, table: Table) -> Exported:
    """Write a table to a new file, whole or not at all."""
    refuse_taken(target)
    half = target.with_name(f".{target.name}.{os.getpid()}.part")
    write = _write_workbook if target.suffix.casefold() == WORKBOOK else _write_text
    try:
        number = write(half, table)
        half.replace(target)
    except OSError as error:
        raise Refusal(
            Code.FILE_UNWRITABLE,
            f"The file {clean_text(str(target))} was not written: {error.strerror}.",
        ) from error
    finally:
        half.unlink(missing_ok=True)
    return Exported(target, number)


def heads_of(names: Iterable[str], currency: str) -> list[str]:
    """The headings; money names its currency."""
    return [f"{name}_{currency}" if name.endswith("_minor") else name for name in names]


def defused(text: str) -> str:
    """Text that no spreadsheet takes for a formula."""
    return f"'{text}" if _runs(text) else text


def exact(number: int | None, unit: int) -> Decimal | None:
    """A whole number in a unit that is a power of ten, to its last digit."""
    return None if number is None else (Decimal(number) / unit).normalize()


def a_day(text: str | None) -> date | str | None:
    """The day a text is; one known in part stays as it is written."""
    if text is not None and len(text) == _FULL_DAY:
        with suppress(ValueError):
            return date.fromisoformat(text)
    return text


def _runs(text: str) -> bool:
    return text.lstrip(" ")[:1] in _FORMULA


def _write_text(target: Path, table: Table) -> int:
    number = 0
    with target.open("w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file, lineterminator="\r\n")
        rows.writerow(table.heads)
        for row in table.rows:
            rows.writerow([_cell(value) for value in row])
            number += 1
    return number


def _cell(value: object) -> object:
    """A value as it stands in a text: nothing for what is unknown, text made harmless."""
    match value:
        case None:
            return ""
        case bool():
            return "true" if value else "false"
        case int() | float():
            return value
        case Decimal():
            return f"{value:f}"
        case datetime():
            return value.astimezone(UTC).isoformat()
        case _:
            return defused(str(value))


def _write_workbook(target: Path, table: Table) -> int:
    """A workbook is written row by row; its library takes half a second to load."""
    from openpyxl import Workbook  # noqa: PLC0415
    from openpyxl.cell import WriteOnlyCell  # noqa: PLC0415

    book = Workbook(write_only=True)
    book.properties.creator = "stockroom"
    sheet = book.create_sheet("stockroom")
    sheet.freeze_panes = "A2"
    for place, head in enumerate(table.heads):
        width = min(max(len(head) + 2, _NARROWEST), _WIDEST)
        sheet.column_dimensions[_letters(place)].width = width
    try:
        sheet.append(list(table.heads))
        number = 0
        for row in table.rows:
            number += 1
            if number > MOST_ROWS:
                raise Refusal(
                    Code.TOO_MANY, f"A workbook holds {MOST_ROWS} rows: write the table as .csv."
                )
            sheet.append([_typed(value, lambda held: WriteOnlyCell(sheet, held)) for value in row])
    finally:
        sheet.close()
    book.save(target)
    return number


def _typed(value: object, cell_of: Callable[[Any], Any]) -> object:
    """A value as it stands in a workbook: a number, a day, or text that is never run."""
    match value:
        case None | bool() | int() | float():
            return value
        case Decimal():
            return int(value) if value == value.to_integral_value() else float(value)
        case datetime():
            cell = cell_of(value.astimezone(UTC).replace(tzinfo=None, microsecond=0))
            cell.number_format = _INSTANT
            return cell
        case date():
            cell = cell_of(value)
            cell.number_format = _DAY
            return cell
        case _:
            text = clean_text(str(value), _LONGEST_CELL)
            if not _runs(text):
                return text
            cell = cell_of(text)
            cell.data_type = "s"
            cell.quotePrefix = True  # stays text when somebody edits it
            return cell


def _letters(place: int) -> str:
    """The letters of a column, from 0: A, Z, AA."""
    from openpyxl.utils import get_column_letter  # noqa: PLC0415

    return get_column_letter(place + 1)
