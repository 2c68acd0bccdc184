"""Money as whole minor units, typed and shown with as many decimals as its currency has.

The currencies and their decimals are those of ISO 4217, as published on 2026-01-01. Its codes
without decimals of their own (metals, units of account, for tests) are no money to buy film with.
"""

import re

from stockroom.errors import Code, Refusal, clean_text

_TWO_DECIMALS = """
AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE
CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD
HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK
MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD
RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH
USD USN UYU UZS VED VES WST XAD XCD XCG YER ZAR ZMW ZWG
"""
_NO_DECIMALS = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"
_THREE_DECIMALS = "BHD IQD JOD KWD LYD OMR TND"
_FOUR_DECIMALS = "CLF UYW"
_ROWS = ((_TWO_DECIMALS, 2), (_NO_DECIMALS, 0), (_THREE_DECIMALS, 3), (_FOUR_DECIMALS, 4))
DECIMALS = {currency: decimals for row, decimals in _ROWS for currency in row.split()}
"""How many decimals each currency is written with."""
_AMOUNT = re.compile(r"(?P<whole>\d{1,13})(?:[.,](?P<part>\d+))?", re.ASCII)
_THOUSANDS = re.compile(r"[1-9]\d{0,2},\d{3}", re.ASCII)
_MOST_MINOR = 10**12


def decimals_of(currency: str) -> int:
    """How many decimals the currency is written with; one that is no more had two, mostly."""
    return DECIMALS.get(currency, 2)


def parse_money(text: str, currency: str) -> int:
    """Minor units in a typed amount, which may name the book's currency; zero is an amount."""
    shown = clean_text(text, 40)
    plain = text.strip().upper().removesuffix(currency).removeprefix(currency).strip()
    amount = _AMOUNT.fullmatch(plain)
    if not amount:
        raise Refusal(
            Code.BAD_MONEY, f"“{shown}” is not an amount in {currency}; write it like 480."
        )
    if _THOUSANDS.fullmatch(plain):
        raise Refusal(
            Code.BAD_MONEY, f"“{shown}” can be read in two ways; write it without the comma."
        )
    decimals = decimals_of(currency)
    part = amount["part"] or ""
    if len(part) > decimals:
        raise Refusal(
            Code.BAD_MONEY, f"“{shown}” has more than the {decimals} decimals of {currency}."
        )
    minor = int(amount["whole"] + part.ljust(decimals, "0"))
    if minor > _MOST_MINOR:
        raise Refusal(Code.BAD_MONEY, f"“{shown}” is too much money; check the amount.")
    return minor


def show_money(minor: int, currency: str) -> str:
    """An amount with all its decimals and its currency."""
    decimals = decimals_of(currency)
    digits = f"{abs(minor):0{decimals + 1}d}"
    whole, part = digits[: len(digits) - decimals], digits[len(digits) - decimals :]
    return f"{'-' if minor < 0 else ''}{whole}{'.' if part else ''}{part} {currency}"
