"""What was drawn of a film, as a spreadsheet has it: CSV with at, length and, where it is known, job.

    read_draws(raw, units)    History: every draw, and from the first to the last day

A length below zero came back; a line of nothing says that nothing was drawn on that day. Days are
ISO 8601, with or without a time; every line is good, or the file is refused (BAD_FILE).
"""

import csv
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from stockroom.errors import Code, Refusal, clean_text
from stockroom.feeds.decoding import decoded
from stockroom.film.dates import parse_partial_date
from stockroom.plan.demand import Draw, net
from stockroom.units import M, System
from stockroom.units.typed import parse_length

_NEEDED = frozenset({"at", "length"})
_SEPARATORS = ",;\t"
_MINUS = "-\N{MINUS SIGN}"


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """Net draws by day, and the days they were looked for on, both ends among them."""

    draws: tuple[Draw, ...]
    first: date
    last: date

    @property
    def days(self) -> int:
        """How many days that is."""
        return (self.last - self.first).days + 1


def read_draws(raw: bytes, units: System = System.METRIC) -> History:
    """The draws of a file; one in which nothing was drawn, or of a single day, tells no demand."""
    lines = [_draw(number, row, units) for number, row in _rows(decoded(raw).text)]
    days = [one.day for one in lines]
    if len(set(days)) < len(("first", "last")):
        raise _refused("Draws of a single day tell no demand: give those of some weeks.")
    found = History(
        draws=net(one for one in lines if one.length_m), first=min(days), last=max(days)
    )
    if not found.draws:
        raise _refused("Nothing was drawn in this file, so it tells no demand.")
    return found


def _rows(text: str) -> Iterator[tuple[int, Mapping[str, str]]]:
    """Each line below the heading by its number, its cells by the names of their columns."""
    heading: list[str] = []
    separator = ","
    for number, line in enumerate(text.splitlines(), start=1):
        if not line.strip():
            continue
        if not heading:
            separator = max(_SEPARATORS, key=line.count)
            heading = [cell.casefold() for cell in _cells(line, separator)]
            if not set(heading) >= _NEEDED:
                raise _refused(
                    "The first line is not the heading: it is at,length or at,length,job."
                )
            continue
        cells = _cells(line, separator)
        if len(cells) != len(heading):
            raise _refused(f"Line {number} has {len(cells)} cells, the heading {len(heading)}.")
        yield number, dict(zip(heading, cells, strict=True))
    if not heading:
        raise _refused("The file is empty: its first line is at,length or at,length,job.")


def _cells(line: str, separator: str) -> list[str]:
    return [cell.strip() for cell in next(csv.reader([line], delimiter=separator))]


def _draw(number: int, row: Mapping[str, str], units: System) -> Draw:
    try:
        typed = row["length"]
        length_nm = parse_length(typed.lstrip(_MINUS).lstrip(), units, zero=True)
        is_back = typed.startswith(tuple(_MINUS))
        return Draw(
            day=_day(row["at"]),
            length_m=(-length_nm if is_back else length_nm) / M,
            whom=clean_text(row.get("job", "")),
        )
    except Refusal as refusal:
        raise _refused(f"Line {number}: {refusal.sentence}") from refusal


def _day(text: str) -> date:
    """The day of an instant, on the clock it was written by."""
    try:
        day = datetime.fromisoformat(text).date()
    except ValueError:
        raise _refused(
            f"“{clean_text(text, 40)}” is no day: write it like 2026-11-25, or 2026-11-25T16:30."
        ) from None
    return parse_partial_date(day.isoformat()).first


def _refused(sentence: str) -> Refusal:
    return Refusal(Code.BAD_FILE, sentence)
