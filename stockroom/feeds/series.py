"""A series of readings as our own CSV: at,temperature_c and, where it is known, rh_pct.

    read_series(raw)    Series, or a refusal (BAD_FILE) that names the first bad line

Instants are ISO 8601, each later than the one before. All of them have an offset from UTC, or none
has; without one they are taken as they stand, so a clock that is changed with the seasons needs
offsets. Nothing is guessed and nothing passed over: files of loggers are read elsewhere.
"""

import csv
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from io import StringIO

from stockroom.errors import Code, Refusal, clean_text
from stockroom.feeds.decoding import decoded
from stockroom.film.climate import is_humidity, is_temperature

_AT, _TEMPERATURE, _HUMIDITY = "at", "temperature_c", "rh_pct"
_HEADING = f"{_AT},{_TEMPERATURE} and, where it is known, {_HUMIDITY}"
_NUMBER = re.compile(r"[+-]?\d+(?:\.\d+)?", re.ASCII)
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_FEWEST = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """Readings in order of time: seconds UTC, °C, per cent. There are at least two."""

    at_s: Sequence[int]
    temperatures_c: Sequence[float]
    humidities_pct: Sequence[float | None]


def read_series(raw: bytes) -> Series:
    """The readings of a file; every line is good, or the file is refused."""
    moments: list[datetime] = []
    temperatures_c: list[float] = []
    humidities_pct: list[float | None] = []
    for line, cells in _lines(decoded(raw).text):
        moments.append(_moment(line, cells[_AT], moments))
        temperatures_c.append(_temperature(line, cells[_TEMPERATURE]))
        humidities_pct.append(_humidity(line, cells.get(_HUMIDITY, "")))
    if len(moments) < _FEWEST:
        raise _refused("The file has fewer than two readings, and between them lies the time.")
    return Series(
        at_s=[_second(moment) for moment in moments],
        temperatures_c=temperatures_c,
        humidities_pct=humidities_pct,
    )


def _lines(text: str) -> Iterator[tuple[int, dict[str, str]]]:
    """Each line below the heading by its number, its cells by the names of their columns."""
    rows = _rows(text)
    _, first = next(rows, (1, list[str]()))
    heading = _heading(first)
    for line, cells in rows:
        if len(cells) != len(heading):
            raise _refused(f"Line {line} has {len(cells)} cells, the heading {len(heading)}.")
        yield line, dict(zip(heading, cells, strict=True))


def _rows(text: str) -> Iterator[tuple[int, list[str]]]:
    """Each line that is not blank, by its number."""
    rows = csv.reader(StringIO(text, newline=""), strict=True)
    try:
        for row in rows:
            if any(cells := [cell.strip() for cell in row]):
                yield rows.line_num, cells
    except csv.Error as error:
        raise _refused(f"Line {rows.line_num} is no line of a CSV file: {error}.") from error


def _heading(row: Sequence[str]) -> list[str]:
    heading = [cell.casefold() for cell in row]
    if sorted(heading) in (sorted((_AT, _TEMPERATURE)), sorted((_AT, _TEMPERATURE, _HUMIDITY))):
        return heading
    raise _refused(f"The first line is not the heading: it is {_HEADING}.")


def _moment(line: int, cell: str, before: Sequence[datetime]) -> datetime:
    """The instant of a line, which comes after those before and is written like them."""
    try:
        moment = datetime.fromisoformat(cell)
    except ValueError:
        raise _refused(
            f"Line {line}: “{clean_text(cell, 40)}” is no instant; write it like 2026-11-25T09:00Z."
        ) from None
    if before and (moment.tzinfo is None) is not (before[-1].tzinfo is None):
        raise _refused(
            f"Line {line}: write an offset from UTC at every instant, or at none, like 09:00+01:00."
        )
    if before and _second(moment) <= _second(before[-1]):
        is_same = _second(moment) == _second(before[-1])
        raise _refused(
            f"Line {line}: {moment.isoformat()} is {'the same second as' if is_same else 'before'} "
            "the line above; sort the lines, and where a clock was set back write offsets from UTC."
        )
    return moment


def _second(moment: datetime) -> int:
    """Seconds since 1970; an instant without an offset is taken as it stands."""
    aware = moment if moment.tzinfo is not None else moment.replace(tzinfo=UTC)
    return (aware - _EPOCH) // timedelta(seconds=1)


def _temperature(line: int, cell: str) -> float:
    if _NUMBER.fullmatch(cell) and is_temperature(float(cell)):
        return float(cell)
    raise _refused(
        f"Line {line}: “{clean_text(cell, 40)}” is no temperature of a store; write °C with a point, "
        "like 22.5, and leave a line out that has none."
    )


def _humidity(line: int, cell: str) -> float | None:
    if not cell:
        return None
    if _NUMBER.fullmatch(cell) and is_humidity(float(cell)):
        return float(cell)
    raise _refused(
        f"Line {line}: “{clean_text(cell, 40)}” is no humidity; write 0 to 100, or leave it empty."
    )


def _refused(sentence: str) -> Refusal:
    return Refusal(Code.BAD_FILE, sentence)
