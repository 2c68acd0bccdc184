"""The cells of one column, read: each text once, and remembered.

reader_of(column, local)   Cells: a cell's text to what it says, None for nothing, or a refusal
Local                      what the shop and a person say: units, currency, the order of a day's numbers
read_a_day(text, …)        a day or a part of one: 14.3.2025, 3/2025, Mar 2025, 45730 of a spreadsheet's calendar
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from functools import partial

from stockroom.errors import Code, Refusal, clean_text
from stockroom.feeds.columns import Column, Reads
from stockroom.feeds.days import Order, read_day
from stockroom.film.dates import PartialDate, parse_partial_date
from stockroom.units import System
from stockroom.units.money import parse_money
from stockroom.units.typed import parse_count, parse_length, parse_thickness

BARE = re.compile(r"[\d.,\s/-]*\d[.,]?", re.ASCII)
"""A number without a unit."""

APART = re.compile(r"\d{1,2}[-/.]\s?\d{1,2}[-/.]\s?(?:\d{4}|\d{2})\.?", re.ASCII)
"""A day whose numbers may stand in several orders."""

AMOUNTS = frozenset({"length", "count", "rolls"})
"""What there is of a line, which may be nothing, and is of one line only."""

_MINOR = "minor"
_SILENCE = frozenset(
    {
        "",
        "-",
        "\N{EN DASH}",
        "\N{EM DASH}",
        "?",
        "n/a",
        "na",
        "none",
        "unknown",
        "unbekannt",
        "k.a.",
    }
)
_LOST = frozenset({"#N/A", "#REF!", "#VALUE!", "#DIV/0!", "#NAME?", "#NULL!", "#NUM!", "#SPILL!"})
"""What a formula that failed leaves in its cell: ECMA-376, 18.17.3; the last from memory."""

_SERIAL = re.compile(r"(\d{5})(?:[.,]\d+)?", re.ASCII)
_MONTH = re.compile(r"(\d{1,2})[-/. ](\d{4})|(\d{4})[/. ](\d{1,2})", re.ASCII)
_NAMED = re.compile(
    r"(?:(\d{1,2})(?:st|nd|rd|th)?\.?[-/ ]+)?([a-z]{3})[a-z]*\.?[-/ ,]+(?:(\d{1,2}),? +)?(\d{4}|\d{2})",
    re.ASCII,
)
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_EPOCH_1900, _EPOCH_1904 = date(1899, 12, 30), date(1904, 1, 1)
"""Day 0 of a spreadsheet's calendar, for days after 1900-02-28: ECMA-376, 18.17.4.1."""

_DAYS = range(18_264, 109_575)  # 1950 to 2199: what a date of film can be
_CLOCK = re.compile(r"[T ]\d{1,2}:\d{2}(?::\d{2})?(?:\.\d+)?(?: ?[ap]m)?$", re.IGNORECASE)
_CENTURY = 2_000
_SIGNS = {"€": "EUR", "£": "GBP"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Local:
    """What numbers without a unit mean, and in which order the numbers of a day stand."""

    system: System
    currency: str
    order: Order
    counts_from_1904: bool = False


class Cells(dict[str, object]):
    """What each text of a column says; None where it says nothing, a refusal where it cannot be read."""

    def __init__(self, read: Callable[[str], object]) -> None:
        super().__init__()
        self._read = read

    def __missing__(self, text: str) -> object:
        try:
            found = None if text.casefold() in _SILENCE else self._read(text)
        except Refusal as refusal:
            found = refusal
        self[text] = found
        return found


def reader_of(column: Column, local: Local) -> Cells:
    """What reads the cells of a column."""
    unit = column.unit or ""
    read: dict[Reads, Callable[[str], object]] = {
        Reads.TEXT: _text,
        Reads.LENGTH: lambda text: parse_length(
            _with(text, unit), local.system, zero=column.field.name in AMOUNTS
        ),
        Reads.THICKNESS: lambda text: parse_thickness(_with(text, unit), local.system),
        Reads.NUMBER: lambda text: 0 if text == "0" else parse_count(text),
        Reads.MONEY: partial(_money, column=column, currency=local.currency),
        Reads.DAY: lambda text: str(read_a_day(text, local)),
        Reads.FIGURE: lambda text: _with(text, unit),
    }
    of = read[column.field.reads]
    return Cells(lambda text: of(_known(text)))


def read_a_day(text: str, local: Local) -> PartialDate:
    """A day as people and spreadsheets write it, known in part or in full."""
    plain = _CLOCK.sub("", text.strip())
    if found := _SERIAL.fullmatch(plain):
        return _of_serial(plain, int(found[1]), local)
    try:
        if APART.fullmatch(plain):
            return PartialDate.of(read_day(plain, local.order))
        if found := _MONTH.fullmatch(plain):
            return PartialDate(int(found[2] or found[3]), int(found[1] or found[4]))
        if found := _NAMED.fullmatch(plain.casefold()):
            return _named(found)
        return parse_partial_date(plain.replace("/", "-"))
    except ValueError as error:
        raise _no_day(text) from error


def is_serial(text: str) -> bool:
    """Whether a cell counts days as a spreadsheet does."""
    found = _SERIAL.fullmatch(text)
    return found is not None and int(found[1]) in _DAYS


def _of_serial(text: str, days: int, local: Local) -> PartialDate:
    if days not in _DAYS:
        raise _no_day(text)
    start = _EPOCH_1904 if local.counts_from_1904 else _EPOCH_1900
    return PartialDate.of(start + timedelta(days=days))


def _named(found: re.Match[str]) -> PartialDate:
    """14 Mar 2025, March 14, 2025 or Mar-25; ValueError for no month."""
    year = int(found[4]) if len(found[4]) > len("25") else _CENTURY + int(found[4])
    day = found[1] or found[3]
    return PartialDate(year, _MONTHS.index(found[2]) + 1, None if day is None else int(day))


def _no_day(text: str) -> Refusal:
    return Refusal(
        Code.BAD_DATE,
        f"“{clean_text(text, 40)}” is no date: write 2025-03-14, or 2025-03 or 2025 for one known in part.",
    )


def _known(text: str) -> str:
    """The text of a cell that holds one; what a failed formula left is refused."""
    if text in _LOST:
        raise Refusal(Code.BAD_FILE, f"“{text}” is what a formula that failed left there.")
    return text


def _text(text: str) -> str:
    return text


def _with(text: str, unit: str) -> str:
    """The text with the unit of its column, unless it has one of its own."""
    return f"{text} {unit}" if unit and BARE.fullmatch(text) else text


def _money(text: str, *, column: Column, currency: str) -> int:
    if column.unit == _MINOR:
        return parse_count(text) if text != "0" else 0
    for sign, code in _SIGNS.items():
        text = text.replace(sign, code)
    return parse_money(text, currency)
