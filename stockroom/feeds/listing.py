"""A stock list or a list of materials as somebody keeps it: what each line says, and what is wrong with it.

    read_list(raw, asked)   Listed
      .headed               which columns were understood as what
      .lines                what each line says, by the names of the fields
      .findings             lines that say what cannot be, and why

What the file leaves open is asked before anything is written: `assumed` says what was only assumed.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from statistics import median
from typing import NamedTuple

from stockroom.errors import Refusal
from stockroom.feeds.columns import Column, Reads
from stockroom.feeds.days import Decided, Order, order_of
from stockroom.feeds.heading import Headed, Told, find_heading
from stockroom.feeds.reading_cells import AMOUNTS, APART, BARE, Cells, Local, is_serial, reader_of
from stockroom.feeds.sheet import Formula, Sheet, read_sheets
from stockroom.units import MM, UM, M, System

_LEAST_NM = {
    "length": M,
    "width": 50 * MM,
    "core": 10 * MM,
    "thickness": 10 * UM,
    "applied": 5 * UM,
}
"""Below it the middle of a column was meant in another unit: common practice, no source."""

_SUMS = re.compile(r"(?:grand |sub)?total|summe|gesamt|sum|somme", re.IGNORECASE)


_NO_VALUE = "a formula whose value the file does not hold: open it in its program, save it, and import it again"


class LineFinding(NamedTuple):
    """What is wrong with a line; one that is kept all the same is only to be known."""

    line: int
    text: str
    is_kept: bool = False


class ListedLine(NamedTuple):
    """What a line says, by the names of its fields; what it does not say is left out."""

    line: int
    says: Mapping[str, object]


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A file, and what is known of it without looking."""

    raw: bytes
    told: Told
    system: System
    currency: str
    today: date
    sheet: str | None = None
    order: Order | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """What a file says; `bare` are the columns of sizes of which nobody says in which unit they are."""

    headed: Headed
    order: Decided | None
    serials: Mapping[str, str]
    """Of columns whose days are numbers, the first of them."""
    bare: tuple[Column, ...]
    assumed: tuple[str, ...]
    lines: Sequence[ListedLine]
    findings: Sequence[LineFinding]


def read_list(asked: Asked) -> Listed:
    """What a file says. Refuses (BAD_FILE, BAD_USAGE) one whose columns cannot be told."""
    headed = find_heading(read_sheets(asked.raw, asked.sheet), asked.told)
    days = [column for column in headed.columns if column.field.reads is Reads.DAY]
    order = _order(headed, days, asked)
    local = Local(
        system=asked.system,
        currency=asked.currency,
        order=Order.DMY if order is None else order.order,
        counts_from_1904=headed.sheet.counts_from_1904,
    )
    readers = [(column, reader_of(column, local)) for column in headed.columns]
    lines: list[ListedLine] = []
    findings: list[LineFinding] = []
    for line, cells in headed.lines:
        says, wrong = _read(headed.sheet, (line, cells), readers)
        if wrong:
            findings += (LineFinding(line, text) for text in wrong)
        elif says:
            lines.append(ListedLine(line, says))
    bare = tuple(column for column in headed.columns if _is_bare(column, headed))
    return Listed(
        headed=headed,
        order=order,
        serials=dict(_serials(headed, days)),
        bare=bare,
        assumed=tuple(_too_small(bare, lines)),
        lines=lines,
        findings=findings,
    )


def _read(
    sheet: Sheet, line: tuple[int, Sequence[str]], readers: Sequence[tuple[Column, Cells]]
) -> tuple[dict[str, object], list[str]]:
    """What a line says, and what of it cannot be read; a line of sums says nothing."""
    number, cells = line
    says: dict[str, object] = {}
    wrong: list[str] = []
    for column, reader in readers:
        text = cells[column.place] if column.place < len(cells) else ""
        if text and _is_shared(sheet, number, column):
            wrong.append(_said(column, "one cell with the line above: write it in each line"))
            continue
        if isinstance(text, Formula):
            wrong.append(_said(column, _NO_VALUE))
            continue
        match reader[text]:
            case None:
                pass
            case Refusal() as refusal:
                wrong.append(_said(column, refusal.sentence.rstrip(".")))
            case value:
                says[column.field.name] = value
    if any(_SUMS.fullmatch(cell) for cell in cells[:1] if cell) and len(says) < len(readers):
        return {}, []
    return says, wrong


def _is_shared(sheet: Sheet, line: int, column: Column) -> bool:
    """Whether an amount stands in one cell with that of a line above it."""
    above = sheet.merged.get((line, column.place))
    return above is not None and above[0] != line and column.field.name in AMOUNTS


def _said(column: Column, what: str) -> str:
    return f"{column.field.name}: {what}"


def _order(headed: Headed, days: Sequence[Column], asked: Asked) -> Decided | None:
    """The order of the numbers of the days; None where all are written so that there is one only."""
    texts = (
        text.partition(" ")[0]
        for text in _texts(headed, days)
        if APART.fullmatch(text.partition(" ")[0])
    )
    first = next(texts, None)
    if first is None:
        return None
    return order_of([first, *texts], asked.today, told=asked.order, usual=Order.DMY)


def _serials(headed: Headed, days: Sequence[Column]) -> Iterator[tuple[str, str]]:
    for column in days:
        found = next((text for text in _texts(headed, [column]) if is_serial(text)), None)
        if found is not None:
            yield column.field.name, found


def _texts(headed: Headed, columns: Sequence[Column]) -> Iterator[str]:
    for _, cells in headed.lines:
        for column in columns:
            if column.place < len(cells):
                yield cells[column.place]


def _is_bare(column: Column, headed: Headed) -> bool:
    """Whether sizes stand in a column without any unit."""
    if column.unit is not None or column.field.reads not in (Reads.LENGTH, Reads.THICKNESS):
        return False
    return any(BARE.fullmatch(text) for text in _texts(headed, [column]))


def _too_small(bare: Sequence[Column], lines: Sequence[ListedLine]) -> Iterator[str]:
    """The columns whose sizes are too small for the unit they were taken to be in."""
    for column in bare:
        name = column.field.name
        sizes = [size for line in lines if isinstance(size := line.says.get(name), int)]
        if sizes and median(sizes) < _LEAST_NM.get(name, 0):
            yield name
