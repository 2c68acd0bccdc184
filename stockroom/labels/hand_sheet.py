"""Sheets to fill by hand: a table with room for a pen, and below it what to type later."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from stockroom.codes.own import grouped
from stockroom.labels.drawing import Drawing, fitting
from stockroom.labels.paper import Paper
from stockroom.labels.symbol import MODULES, QUIET

_MARGIN_MM: Final = 12.0
_TABLE_MM: Final = 34.0
_NOTE_MM: Final = 4.6
_GAP_MM: Final = 3.0
_TITLE_PT, _BOLD_PT, _SMALL_PT = 18, 11, 9


@dataclass(frozen=True, slots=True)
class Column:
    """The head of a column, and its share of the width."""

    head: str
    share: int


@dataclass(frozen=True, slots=True)
class Row:
    """A piece by its code, and for each further column a line in bold and one below it."""

    code: str = ""
    cells: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class HandSheet:
    """What stands on a sheet; the last page is filled up with empty rows."""

    title: str
    subtitle: str
    columns: tuple[Column, ...]
    row_mm: float
    rows: tuple[Row, ...] = ()
    notes: tuple[str, ...] = ()


def hand_sheet(sheet: HandSheet, paper: Paper) -> bytes:
    """The sheet as PDF, lying."""
    drawing = Drawing(sheet.title, paper, lies=True)
    foot = drawing.height_mm - _MARGIN_MM - _NOTE_MM * len(sheet.notes)
    a_page = int((foot - _TABLE_MM) / sheet.row_mm)
    pages = max(1, -(-len(sheet.rows) // a_page))
    for page in range(pages):
        _head(drawing, sheet, f"page {page + 1} of {pages}")
        rows = sheet.rows[page * a_page : (page + 1) * a_page]
        empty = [Row()] * (a_page - len(rows))
        for number, row in enumerate((*rows, *empty)):
            _row(drawing, sheet, row, _TABLE_MM + number * sheet.row_mm)
        for number, note in enumerate(sheet.notes, 1):
            drawing.text(_MARGIN_MM, foot + number * _NOTE_MM, note, _SMALL_PT)
        drawing.end_page()
    return drawing.content()


def _head(drawing: Drawing, sheet: HandSheet, page: str) -> None:
    room = drawing.width_mm - 2 * _MARGIN_MM
    title = fitting(sheet.title, _TITLE_PT, room, bold=True)
    drawing.text(_MARGIN_MM, _MARGIN_MM + 5, title, _TITLE_PT, bold=True)
    below = fitting(f"{sheet.subtitle} \N{MIDDLE DOT} {page}", _SMALL_PT, room)
    drawing.text(_MARGIN_MM, _MARGIN_MM + 11, below, _SMALL_PT)
    for column, (x, width) in zip(sheet.columns, _places(drawing, sheet), strict=True):
        head = fitting(column.head, _SMALL_PT, width, bold=True)
        drawing.text(x, _TABLE_MM - 2, head, _SMALL_PT, bold=True)
    drawing.rule(_MARGIN_MM, _TABLE_MM, room, points=0.8)


def _places(drawing: Drawing, sheet: HandSheet) -> Iterator[tuple[float, float]]:
    """Where each column begins, and how wide it is."""
    x, whole = _MARGIN_MM, sum(column.share for column in sheet.columns)
    for column in sheet.columns:
        width = (drawing.width_mm - 2 * _MARGIN_MM) * column.share / whole
        yield x, width - _GAP_MM
        x += width


def _row(drawing: Drawing, sheet: HandSheet, row: Row, y: float) -> None:
    """One line of the table, with what is known, or with nothing but room."""
    first, *others = _places(drawing, sheet)
    middle = y + sheet.row_mm / 2
    if row.code:
        side = sheet.row_mm - 1
        drawing.symbol(row.code, first[0] - side * QUIET / MODULES, y + 0.5, side)
        drawing.text(first[0] + side, middle + 1.4, grouped(row.code), _BOLD_PT, bold=True)
    for x, _ in others:
        drawing.rule(x - _GAP_MM / 2, y, 0, points=0.2, drop_mm=sheet.row_mm)
    for (x, width), (bold, plain) in zip(others, row.cells, strict=False):
        shown = fitting(bold, _BOLD_PT, width, bold=True)
        drawing.text(x, middle + (-0.4 if plain else 1.4), shown, _BOLD_PT, bold=True)
        drawing.text(x, middle + 4, fitting(plain, _SMALL_PT, width), _SMALL_PT)
    drawing.rule(_MARGIN_MM, y + sheet.row_mm, drawing.width_mm - 2 * _MARGIN_MM, points=0.2)
