"""How a material is bought, as entered for it: each term has a name, and is kept as a person types it.

supplier    who sells it
lead        from the order to the shelf, as a span of time
spread      how much that varies: its standard deviation, as a span
pack        rolls or boxes that are sold together
least       the fewest that are sold
expect      what a month is expected to draw while nobody knows better: 8x3m, eight times three metres
breaks      what one costs from so many on: 10:460 20:440
series      the film, whatever its width: materials of one series serve the same panels

parse_term(name, text, …)    the term as it is kept; what it cannot be is refused
show_term(name, kept)        as people read it
terms_of(entered)            Terms, in days, metres and numbers
price_of(terms, one, pieces) what one costs where so many are ordered
"""

from collections.abc import Mapping
from dataclasses import dataclass

from stockroom.errors import Code, Refusal, clean_text
from stockroom.film.dates import parse_span
from stockroom.film.kinds import Kind
from stockroom.plan.demand import Demand
from stockroom.plan.quantity import Break, checked
from stockroom.units import MM, M, System
from stockroom.units.money import parse_money, show_money
from stockroom.units.shown import show_length
from stockroom.units.typed import parse_count, parse_length

TERMS = ("supplier", "lead", "spread", "pack", "least", "expect", "breaks", "series")
_NAME = 60
_DAYS_A_MONTH = 365.25 / 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """How a material is bought; None is not entered."""

    supplier: str | None = None
    lead_days: float | None = None
    spread_days: float | None = None
    pack: int = 1
    least: int = 1
    expected: Demand | None = None
    """In metres of full width, or numbers of goods."""
    breaks: tuple[Break, ...] = ()
    """The price of one from so many on, in minor units, the fewest first."""
    series: str | None = None
    """What it is called whatever its width."""


def parse_term(
    name: str, text: str, kind: Kind, system: System = System.METRIC, currency: str = "EUR"
) -> str:
    """A term as it is kept, of a material of a kind; a bare length has the book's unit."""
    match name:
        case "supplier" if supplier := clean_text(text, _NAME):
            return supplier
        case "series" if series := clean_text(text, _NAME):
            return series
        case "lead" | "spread":
            return str(parse_span(text))
        case "pack" | "least":
            return str(parse_count(text))
        case "expect":
            return _expect(text, kind, system)
        case "breaks":
            return _breaks(text, currency)
        case _:
            asked = "who sells it" if name == "supplier" else "what it is called in every width"
            raise Refusal(Code.BAD_NAME, f"A {name} needs a name: write {asked}.")


def show_term(name: str, kept: str, system: System = System.METRIC, currency: str = "EUR") -> str:
    """A term as people read it."""
    if name == "breaks":
        found = _priced(kept)
        return ", ".join(
            f"{show_money(int(one.price), currency)} from {one.least:g}" for one in found
        )
    times, _, amount = kept.partition("x")
    if name != "expect" or not amount.endswith("mm"):
        return kept
    each_nm = round(float(amount.removesuffix("mm")) * MM)
    return f"{times} x {show_length(each_nm, system)}"


def terms_of(entered: Mapping[str, str]) -> Terms:
    """What was entered, in days and numbers."""
    return Terms(
        supplier=entered.get("supplier"),
        lead_days=_days(entered.get("lead")),
        spread_days=_days(entered.get("spread")),
        pack=int(entered.get("pack", "1")),
        least=int(entered.get("least", "1")),
        expected=_expected(entered.get("expect")),
        breaks=_priced(entered.get("breaks", "")),
        series=entered.get("series"),
    )


def price_of(terms: Terms, one_minor: int | None, pieces: int) -> int | None:
    """What one costs where so many are ordered, in minor units; None where no price is known."""
    reached = [int(one.price) for one in terms.breaks if one.least <= pieces]
    return reached[-1] if reached else one_minor


def _breaks(text: str, currency: str) -> str:
    """Prices by number as they are kept: 10:46000 20:44000; a larger number never costs more."""
    found: list[Break] = []
    for part in text.replace(";", " ").split():
        least, by, price = part.partition(":")
        if not by:
            raise Refusal(
                Code.BAD_MONEY,
                f"“{clean_text(text, 40)}” says not from how many on: write 10:460 20:440.",
            )
        found.append(Break(parse_count(least), parse_money(price, currency)))
    if not found:
        raise Refusal(Code.BAD_MONEY, "A price needs a number it begins at: write 10:460 20:440.")
    first = Break(0, max(one.price for one in found))
    return " ".join(f"{one.least:g}:{one.price:.0f}" for one in checked([first, *found])[1:])


def _priced(kept: str) -> tuple[Break, ...]:
    pairs = (part.partition(":") for part in kept.split())
    return tuple(Break(int(least), int(price)) for least, _, price in pairs)


def _expect(text: str, kind: Kind, system: System) -> str:
    """How often a month, and how much at a time: 8x3000mm, or 8x2 of goods."""
    times, by, amount = text.casefold().replace("\N{MULTIPLICATION SIGN}", "x").partition("x")
    if not by:
        raise Refusal(
            Code.BAD_NUMBER,
            f"“{clean_text(text, 40)}” says not how often and how much: write 8x3m for eight times "
            "three metres a month, or 8x2 of goods.",
        )
    if not kind.comes_in_rolls:
        return f"{parse_count(times)}x{parse_count(amount)}"
    return f"{parse_count(times)}x{parse_length(amount, system) / MM:g}mm"


def _expected(kept: str | None) -> Demand | None:
    """The demand of what is kept; draws nobody has seen are taken to vary as much as they are long."""
    if kept is None:
        return None
    times, _, amount = kept.partition("x")
    is_film = amount.endswith("mm")
    each = float(amount.removesuffix("mm")) * MM / M if is_film else float(amount)
    return Demand(
        draws_per_day=int(times) / _DAYS_A_MONTH, draw_mean_m=each, draw_variance_m2=each**2
    )


def _days(span: str | None) -> float | None:
    if span is None:
        return None
    found = parse_span(span)
    return found.months * _DAYS_A_MONTH + found.days
