"""Dates known in part, and spans of time."""

from datetime import date, timedelta

import pytest

from stockroom.errors import Code, Refusal
from stockroom.film.dates import (
    PartialDate,
    Span,
    parse_partial_date,
    parse_span,
    whole_months,
)


@pytest.mark.parametrize(
    ("text", "first", "last", "is_exact"),
    [
        ("2025-03-14", date(2025, 3, 14), date(2025, 3, 14), True),
        ("2025-02", date(2025, 2, 1), date(2025, 2, 28), False),
        ("2024-02", date(2024, 2, 1), date(2024, 2, 29), False),
        ("2025-12", date(2025, 12, 1), date(2025, 12, 31), False),
        ("2025", date(2025, 1, 1), date(2025, 12, 31), False),
        (" 2024-02-29\n", date(2024, 2, 29), date(2024, 2, 29), True),
    ],
)
def test_a_partial_date_spans_the_days_it_can_mean(
    text: str, first: date, last: date, *, is_exact: bool
) -> None:
    """First and last day, and whether they are the same by knowledge."""
    read = parse_partial_date(text)

    assert (read.first, read.last, read.is_exact) == (first, last, is_exact)
    assert str(read) == text.strip()


@pytest.mark.parametrize(
    "text",
    [
        "", "2025-13", "2025-02-29", "2025-00", "2025-3-1", "25-03-14", "14.03.2025", "2025-03-14T10",
        "0001-01-01", "9999", "nan", "-2025", "20250314", "\u0662\u0660\u0662\u0665", "2025-04-31",
    ],
)  # fmt: skip
def test_what_is_no_date_is_refused_with_one_sentence(text: str) -> None:
    """Days that do not exist, other orders and slips of the finger."""
    with pytest.raises(Refusal) as refused:
        parse_partial_date(text)

    assert refused.value.code is Code.BAD_DATE
    assert "2025-03-14" in refused.value.sentence


def test_a_known_day_becomes_an_exact_date() -> None:
    """From a calendar day and back."""
    assert PartialDate.of(date(2025, 3, 4)) == parse_partial_date("2025-03-04")


def test_a_day_without_its_month_is_a_mistake_of_the_program() -> None:
    """It cannot be typed, so it is no refusal."""
    with pytest.raises(ValueError, match="month"):
        PartialDate(2025, None, 3)


@pytest.mark.parametrize(
    ("text", "span", "shown"),
    [
        ("24mo", Span(24), "24mo"),
        ("24 months", Span(24), "24mo"),
        ("1 Month", Span(1), "1mo"),
        ("90d", Span(days=90), "90d"),
        ("90 days", Span(days=90), "90d"),
        ("6w", Span(days=42), "42d"),
        ("2y", Span(24), "24mo"),
        ("2 years", Span(24), "24mo"),
        ("1y 6mo", Span(18), "18mo"),
        ("1y6mo10d", Span(18, 10), "18mo 10d"),
        (" 18mo, 10d ", Span(18, 10), "18mo 10d"),
    ],
)
def test_a_span_is_read_as_sheets_write_it_and_shown_one_way(
    text: str, span: Span, shown: str
) -> None:
    """Days, weeks, months and years; what is shown can be read again."""
    assert parse_span(text) == span
    assert str(span) == shown
    assert parse_span(shown) == span


@pytest.mark.parametrize(
    "text",
    ["", "24", "0d", "0mo", "-3d", "1.5y", "3 fortnights", "5m", "nan", "99999y", "99999999d", "d",
     "1mo" * 10_000, "90d x", "2y-1d", "\u0669d"],
)  # fmt: skip
def test_what_is_no_span_is_refused_with_one_sentence(text: str) -> None:
    """No unit, an unclear one, none at all, and more than a century."""
    with pytest.raises(Refusal) as refused:
        parse_span(text)

    assert refused.value.code is Code.BAD_SPAN
    assert "24mo" in refused.value.sentence
    assert len(refused.value.sentence) < 160


def test_a_span_of_nothing_is_a_mistake_of_the_program() -> None:
    """A limit of no time is no limit."""
    with pytest.raises(ValueError, match="longer"):
        Span()


def test_days_from_counts_the_days_of_those_very_months() -> None:
    """February makes the difference."""
    assert Span(1).days_from(date(2025, 2, 1)) == 28
    assert Span(1).days_from(date(2024, 2, 1)) == 29
    assert Span(24).days_from(date(2023, 3, 1)) == 731
    assert Span(1, 5).days_from(date(2025, 1, 31)) == 33


@pytest.mark.parametrize("start", [date(2024, 1, 31), date(2024, 2, 29), date(2023, 12, 15)])
def test_months_passed_are_those_a_span_would_have_ended_in(start: date) -> None:
    """Ages and limits count the same months, whatever the day of the month."""
    for days in range(800):
        end = start + timedelta(days=days)
        passed = whole_months(start, end)

        assert passed == max(
            [0, *(months for months in range(1, 28) if Span(months=months).after(start) <= end)]
        )
