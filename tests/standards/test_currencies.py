"""The currencies of ISO 4217 and their decimals, against the list its maintainers publish.

Source: ISO 4217, list one, published 2026-01-01, as it stands in the package iso4217.
"""

import pytest
from iso4217 import Currency

from stockroom.units.money import DECIMALS, parse_money, show_money

LISTED = {one.code: one.exponent for one in Currency if one.exponent is not None}


def test_the_currencies_and_their_decimals_are_those_of_the_list() -> None:
    """None is missing and none is ours alone; gold and units of account are no prices."""
    assert DECIMALS == LISTED
    assert len(LISTED) > 150
    assert not {"XAU", "XDR", "XTS", "XXX"} & DECIMALS.keys()


@pytest.mark.parametrize("currency", sorted(LISTED))
def test_an_amount_in_any_currency_is_read_as_it_is_shown(currency: str) -> None:
    """To the last decimal the currency has, and one more is refused in another test."""
    for minor in (0, 1, 9, 10, 999, 1_000, 48_050, 10**12):
        shown = show_money(minor, currency)

        assert parse_money(shown, currency) == minor
        assert len(shown.removesuffix(f" {currency}").partition(".")[2]) == LISTED[currency]
