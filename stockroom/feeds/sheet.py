"""A table as somebody keeps it, from CSV or XLSX: its lines as cells of plain text.

    read_sheets(raw, name)    the sheet that is asked for; a text once for each mark that may divide its cells

Numbers and days of a workbook become the text a person would type: 1524, 12.5, 2025-03-14, or 2025-03 of a
cell that shows no day. A formula whose value the file does not hold stays a formula, with its = in front.
"""

import csv
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from io import StringIO
from itertools import islice

from stockroom.errors import Code, Refusal, clean_text
from stockroom.feeds.decoding import decoded

MARKS = (",", ";", "\t", "|")
MOST_LINES = 200_000
MOST_CELLS = 200
_LONGEST_CELL = 400
_ZIP = b"PK\x03\x04"
_OLE = b"\xd0\xcf\x11\xe0"
_DEFUSED = "'"
_BEGINS = tuple("=+-@|%")
_ITS_MARK = "sep="

Line = tuple[int, tuple[str, ...]]
"""The number of a line, and its cells."""

Place = tuple[int, int]
"""The number of a line, and the place of a cell in it, from 0."""


class Formula(str):
    """A cell that is to be reckoned, and of which nobody knows the result."""

    __slots__ = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """The lines of a table that are not blank.

    `merged` says of each cell that is one with another where that one is; the text stands in both.
    `others` are the names of the workbook's other sheets; a text file has neither.
    """

    lines: Sequence[Line]
    written: str
    name: str = ""
    others: Sequence[str] = ()
    merged: Mapping[Place, Place] = field(default_factory=dict[Place, Place])
    counts_from_1904: bool = False


def read_sheets(raw: bytes, name: str | None = None) -> Sequence[Sheet]:
    """The sheet of that name, or the first; a text file once for each mark that may divide its cells."""
    if raw.startswith(_ZIP):
        from stockroom.feeds.workbook import read_workbook  # noqa: PLC0415 - half a second

        return (read_workbook(raw, name),)
    if raw.startswith(_OLE):
        raise Refusal(
            Code.BAD_FILE,
            "This workbook is protected by a password, or of an old kind: save it as .xlsx without one.",
        )
    if name is not None:
        raise Refusal(Code.BAD_USAGE, "A text file has no sheets: leave --sheet out.")
    text, encoding = decoded(raw)
    first = text.partition("\n")[0].strip().casefold()
    if first.startswith(_ITS_MARK):  # so some programs say what divides the cells
        marks = [first[len(_ITS_MARK) :] or "\t"]
        text = text[len(text.partition("\n")[0]) :]
    else:
        marks = [mark for mark in MARKS if mark in text] or [MARKS[0]]
    return [
        Sheet(lines=checked_lines(_cells(text, mark)), written=_written(encoding, mark))
        for mark in marks
        if len(mark) == 1
    ]


def plain_cell(text: str) -> str:
    """A cell's text made harmless; what was defused for a spreadsheet is as it was before."""
    if text.isascii() and text.isprintable() and len(text) <= _LONGEST_CELL:
        clean = " ".join(text.split())
    else:
        clean = clean_text(text, _LONGEST_CELL)
    if clean.startswith("="):
        return Formula(clean)
    return clean[1:] if clean.startswith(_DEFUSED) and clean[1:2] in _BEGINS else clean


def checked_lines(lines: Iterator[Line]) -> Sequence[Line]:
    """The lines that are not blank; more than anybody keeps in one table are refused."""
    found = [line for line in islice(lines, MOST_LINES + 1) if any(line[1])]
    if len(found) > MOST_LINES:
        raise Refusal(Code.BAD_FILE, f"The table has more than {MOST_LINES} lines: divide it.")
    return found


def _cells(text: str, mark: str) -> Iterator[Line]:
    """Each line of a text; a cell in quotation marks may hold marks and go over several lines."""
    reader = csv.reader(StringIO(text, newline=""), delimiter=mark)
    begins = 1
    try:
        for cells in reader:
            yield begins, tuple(map(plain_cell, cells[:MOST_CELLS]))
            begins = reader.line_num + 1
    except csv.Error as error:
        raise Refusal(Code.BAD_FILE, f"Line {begins} cannot be read: {error}.") from error


_NAMES = {",": "commas", ";": "semicolons", "\t": "tabs", "|": "bars"}


def _written(encoding: str, mark: str) -> str:
    return f"{encoding}, columns between {_NAMES.get(mark, mark)}"
