"""Money is typed and shown with the decimals of its currency."""

import pytest

from stockroom.errors import Code, Refusal
from stockroom.units.money import parse_money, show_money


@pytest.mark.parametrize(
    ("text", "currency", "minor"),
    [
        ("480", "EUR", 48_000),
        ("480.5", "EUR", 48_050),
        ("480,50", "EUR", 48_050),
        (" 480.00 EUR ", "EUR", 48_000),
        ("eur 480", "EUR", 48_000),
        ("0", "EUR", 0),
        ("1200", "JPY", 1200),
        ("1.250", "KWD", 1250),
    ],
)
def test_an_amount_is_whole_minor_units(text: str, currency: str, minor: int) -> None:
    """No cent is lost between what is typed and what is kept."""
    assert parse_money(text, currency) == minor


@pytest.mark.parametrize(
    ("text", "currency", "says"),
    [
        ("", "EUR", "is not an amount"),
        ("-3", "EUR", "is not an amount"),
        ("nan", "EUR", "is not an amount"),
        ("1e9", "EUR", "is not an amount"),
        ("480 USD", "EUR", "is not an amount"),
        ("9" * 10_000, "EUR", "is not an amount"),
        ("480.005", "EUR", "the 2 decimals"),
        ("1.5", "JPY", "the 0 decimals"),
        ("1,000", "EUR", "in two ways"),
        ("1,000", "KWD", "in two ways"),
        ("999999999999", "EUR", "too much"),
    ],
)
def test_an_amount_that_cannot_be_meant_is_refused(text: str, currency: str, says: str) -> None:
    """Negative, unreadable, ambiguous and huge amounts get one sentence each."""
    with pytest.raises(Refusal, match=says) as refused:
        parse_money(text, currency)

    assert refused.value.code is Code.BAD_MONEY


@pytest.mark.parametrize(
    ("minor", "currency", "shown"),
    [
        (48_000, "EUR", "480.00 EUR"),
        (5, "EUR", "0.05 EUR"),
        (0, "EUR", "0.00 EUR"),
        (-12_345, "KWD", "-12.345 KWD"),
        (5, "JPY", "5 JPY"),
    ],
)
def test_an_amount_is_shown_with_all_its_decimals(minor: int, currency: str, shown: str) -> None:
    """Money is never shortened."""
    assert show_money(minor, currency) == shown
