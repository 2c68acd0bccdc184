"""How a material is bought, as entered for it: each term has a name, and is kept as a person types it.

supplier    who sells it
lead        from the order to the shelf, as a span of time
spread      how much that varies: its standard deviation, as a span
pack        rolls or boxes that are sold together
least       the fewest that are sold

parse_term(name, text)    the term as it is kept; what it cannot be is refused
terms_of(entered)         Terms, in days and numbers
"""

from collections.abc import Mapping
from dataclasses import dataclass

from stockroom.errors import Code, Refusal, clean_text
from stockroom.film.dates import parse_span
from stockroom.units.typed import parse_count

TERMS = ("supplier", "lead", "spread", "pack", "least")
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


def parse_term(name: str, text: str) -> str:
    """A term as it is kept."""
    match name:
        case "supplier" if supplier := clean_text(text, _NAME):
            return supplier
        case "lead" | "spread":
            return str(parse_span(text))
        case "pack" | "least":
            return str(parse_count(text))
        case _:
            raise Refusal(Code.BAD_NAME, f"A {name} needs a name: write who sells it.")


def terms_of(entered: Mapping[str, str]) -> Terms:
    """What was entered, in days and numbers."""
    return Terms(
        supplier=entered.get("supplier"),
        lead_days=_days(entered.get("lead")),
        spread_days=_days(entered.get("spread")),
        pack=int(entered.get("pack", "1")),
        least=int(entered.get("least", "1")),
    )


def _days(span: str | None) -> float | None:
    if span is None:
        return None
    found = parse_span(span)
    return found.months * _DAYS_A_MONTH + found.days
