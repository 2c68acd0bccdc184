"""Factors and currencies against what is published.

Lengths, masses and areas: the international yard and pound agreement of 1959 (1 yd = 0.9144 m and
1 lb = 0.453 592 37 kg, exactly) and the same factors in pint 0.25.3, a reference library for units,
asked with exact fractions. Gauge: a packaging laboratory's glossary and a public table of film gauges.
Fahrenheit: by its definition, rows computed; 104 F and 75 F also by pint 0.25.3.
"""

import pytest

from stockroom.units import System
from stockroom.units.money import decimals_of
from stockroom.units.shown import show_area
from stockroom.units.typed import parse_density, parse_length, parse_mass, parse_temperature


@pytest.mark.parametrize(
    ("text", "length_nm"),
    [
        ("1 in", 25_400_000),  # agreement of 1959; pint
        ("1 ft", 304_800_000),  # agreement of 1959; pint
        ("1 yd", 914_400_000),  # agreement of 1959; pint
        ("1 mil", 25_400),  # a thousandth of an inch; pint, there called thou
        ("60 in", 1_524_000_000),  # computed
        ("100 ft", 30_480_000_000),  # computed
        ("100 ga", 25_400),  # glossary: 100 gauge = 1 mil
        ("48 ga", 12_192),  # gauge table, computed
        ("92 ga", 23_368),  # gauge table, computed
        ("200 ga", 50_800),  # gauge table, computed
    ],
)
def test_lengths_agree_with_the_published_factors(text: str, length_nm: int) -> None:
    """A unit of length is worth exactly what its definition says."""
    assert parse_length(text) == length_nm


def test_masses_agree_with_the_published_factors() -> None:
    """A pound is 0.453 592 37 kg, an ounce its sixteenth, to the nearest milligram."""
    assert parse_mass("100 lb") == 45_359_237
    assert parse_mass("1 oz") == 28_350


def test_a_density_in_pounds_agrees_with_a_reference_library() -> None:
    """One pound to the cubic foot is 16.018 463 373 960 kg/m3 (pint)."""
    assert parse_density("1 lb/ft3") == pytest.approx(16.018463373960138, rel=1e-15)


def test_a_square_foot_agrees_with_the_published_factor() -> None:
    """A square foot is 0.092 903 04 square metres, exactly (the foot of 1959, squared)."""
    assert show_area(92_903_040_000, System.US) == "1000000 sq ft"


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    [(40, 4.4444), (70, 21.1111), (75, 23.8889), (77, 25.0), (104, 40.0), (150, 65.5556)],
)
def test_temperatures_agree_with_the_definition(fahrenheit: int, celsius: float) -> None:
    """Celsius is (F - 32) / 1.8; rows computed to four decimals."""
    assert parse_temperature(f"{fahrenheit} F") == pytest.approx(celsius, abs=5e-5)


@pytest.mark.parametrize(
    ("decimals", "currencies"),
    [
        (0, "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"),
        (2, "AUD CAD CHF CNY CZK DKK EUR GBP HUF INR MXN NOK NZD PLN SEK SGD TRY USD ZAR"),
        (3, "BHD IQD JOD KWD LYD OMR TND"),
        (4, "CLF UYW"),
    ],
)
def test_decimals_agree_with_the_list_of_currencies(decimals: int, currencies: str) -> None:
    """Minor units as in the ISO 4217 list one of 2026-01-01 (iso4217 1.16, public domain)."""
    assert {decimals_of(currency) for currency in currencies.split()} == {decimals}
