"""Calendar arithmetic of limits against standards, other platforms and the calendar itself."""

import csv
from calendar import monthrange
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest

from stockroom.film.dates import PartialDate, Span, parse_span


def _rows() -> Iterator[object]:
    with (Path(__file__).parent / "calendar.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            yield pytest.param(row, id=f"{row['start']} and {row['span']}")


@pytest.mark.parametrize("row", list(_rows()))
def test_every_row_of_the_vector_file_comes_out(row: dict[str, str]) -> None:
    """The source stands in the row."""
    start = date.fromisoformat(row["start"])

    assert parse_span(row["span"]).after(start) == date.fromisoformat(row["end"])
    assert row["source"]


@pytest.mark.parametrize("months", [1, 2, 6, 12, 24, 36])
def test_months_end_on_the_same_day_or_the_last_of_the_month(months: int) -> None:
    """Every day of a leap cycle, against the month lengths of Python's own calendar."""
    first = date(2023, 1, 1)
    for start in (first + timedelta(days=days) for days in range(4 * 365 + 1)):
        years, month = divmod(start.month - 1 + months, 12)
        year, month = start.year + years, month + 1
        expected = date(year, month, min(start.day, monthrange(year, month)[1]))

        assert Span(months).after(start) == expected


@pytest.mark.parametrize("year", [1999, 2000, 2023, 2024, 2100])
def test_a_month_known_without_its_day_ends_where_the_calendar_ends_it(year: int) -> None:
    """Against the month lengths of Python's own calendar; 2000 is a leap year, 2100 is not."""
    for month in range(1, 13):
        assert PartialDate(year, month).last == date(year, month, monthrange(year, month)[1])
