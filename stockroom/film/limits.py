"""How long film may be kept, what a limit rests on, and the house's own values.

    Limit                  a span, and its basis
    Basis                  maker's sheet, house, default, own trial
    CountedFrom            made, shipped or received: where a maker starts the shelf age
    House                  every value a shop can set; House() holds the defaults
      .shelf(kind)         Limit, or None where no default exists
      .wound(tight=…)      Limit of printed or laminated film
      .rest_hours(ink)     hours a print lies before it is laminated, cut or rolled tight
      .near_days(days)     how long before a limit its piece is to be used first
      .agrees(one, other)  whether a count is near enough to a figure
      .keeps(…)            whether an offcut is worth a label
      .changed(name, text) the same house with one value of its own
    HOUSE_NAMES            the names that can be set

All defaults are common practice, no source.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from difflib import get_close_matches
from enum import Enum, StrEnum
from functools import lru_cache
from types import MappingProxyType

from stockroom.errors import Code, Refusal, clean_text
from stockroom.film.dates import Span, parse_span
from stockroom.film.kinds import Ink, Kind
from stockroom.units import MM, M, System
from stockroom.units.shown import show_length
from stockroom.units.typed import parse_length


class Basis(StrEnum):
    """What a limit rests on."""

    MAKER = "maker's sheet"
    HOUSE = "house"
    DEFAULT = "default"
    TRIAL = "own trial"


class CountedFrom(StrEnum):
    """The event from which a maker counts the shelf age, in the order in which they happen."""

    MADE = "made"
    SHIPPED = "shipped"
    RECEIVED = "received"


@dataclass(frozen=True, slots=True)
class Limit:
    """How long, and who says so."""

    span: Span
    basis: Basis


@lru_cache(maxsize=1_000)
def _limit(span: Span, basis: Basis) -> Limit:
    """One value for all pieces it holds for."""
    return Limit(span, basis)


class _Measure(Enum):
    """What a number of the house counts."""

    HOURS = "h"
    DAYS = "d"
    PERCENT = "%"
    LENGTH_NM = "nm"


# Common practice, no source, all of it. The extension periods are ours: the pattern of an initial
# period and an extension after inspection is that of ISO 2230 for rubber, its years are not.
_SPANS: Mapping[str, Span] = MappingProxyType(
    {
        "shelf.window-film": Span(months=24),
        "shelf.protective-film": Span(months=24),
        "shelf.print-vinyl": Span(months=24),
        "shelf.calendered-vinyl": Span(months=12),
        "wound.printed": Span(days=90),
        "wound.tight": Span(days=30),
        "extension.shelf": Span(months=6),
        "extension.wound": Span(days=30),
    }
)
_NUMBERS: Mapping[str, tuple[int, _Measure]] = MappingProxyType(
    {
        "wound.tight-below": (100 * MM, _Measure.LENGTH_NM),
        "rest.solvent": (24, _Measure.HOURS),
        "rest.eco-solvent": (24, _Measure.HOURS),
        "rest.latex": (0, _Measure.HOURS),
        "rest.uv": (0, _Measure.HOURS),
        "rest.unknown": (24, _Measure.HOURS),
        "near.days": (30, _Measure.DAYS),
        "near.percent": (20, _Measure.PERCENT),
        "keep.across": (300 * MM, _Measure.LENGTH_NM),
        "keep.along": (1 * M, _Measure.LENGTH_NM),
        "keep.protective-film-across": (600 * MM, _Measure.LENGTH_NM),
        "keep.protective-film-along": (600 * MM, _Measure.LENGTH_NM),
        "core.unusable": (500 * MM, _Measure.LENGTH_NM),
        "count.tolerance-percent": (3, _Measure.PERCENT),
    }
)

# Shelf limits may be set for kinds that have no default, too.
HOUSE_NAMES = tuple(dict.fromkeys([*(f"shelf.{kind}" for kind in Kind), *_SPANS, *_NUMBERS]))


@dataclass(frozen=True, slots=True)
class House:
    """Every value a shop can set for itself; the ones it has not set are defaults."""

    spans: Mapping[str, Span] = field(default_factory=lambda: _SPANS)
    numbers: Mapping[str, int] = field(
        default_factory=lambda: {name: number for name, (number, _) in _NUMBERS.items()}
    )
    own: frozenset[str] = frozenset()

    def basis(self, name: str) -> Basis:
        """Whether a value was set by the shop or reads as a default."""
        return Basis.HOUSE if name in self.own else Basis.DEFAULT

    def shelf(self, kind: Kind) -> Limit | None:
        """The shelf limit of a kind whose maker's is not known."""
        name = f"shelf.{kind}"
        span = self.spans.get(name)
        return None if span is None else _limit(span, self.basis(name))

    def wound(self, *, tight: bool) -> Limit:
        """The limit of printed or laminated film that is wound."""
        name = "wound.tight" if tight else "wound.printed"
        return _limit(self.spans[name], self.basis(name))

    def extension(self, rule: str) -> Span:
        """How long a passed trial extends the limit of `shelf` or `wound`."""
        return self.spans[f"extension.{rule}"]

    @property
    def tight_below_mm(self) -> float:
        """The outside diameter of a core below which film counts as wound tight."""
        return self.numbers["wound.tight-below"] / MM

    @property
    def core_unusable_nm(self) -> int:
        """The length at the core that cannot be used."""
        return self.numbers["core.unusable"]

    def agrees(self, one: int, other: int) -> bool:
        """Whether two figures are near enough to be the same, the second one being believed."""
        return abs(one - other) * 100 <= other * self.numbers["count.tolerance-percent"]

    def rest_hours(self, ink: Ink) -> tuple[int, Basis]:
        """How many hours a print rests, and what that rests on."""
        name = f"rest.{ink}"
        return self.numbers[name], self.basis(name)

    def near_days(self, limit_days: int) -> int:
        """How many days before the end of a limit its piece is to be used first."""
        return min(self.numbers["near.days"], limit_days * self.numbers["near.percent"] // 100)

    def keeps(self, kind: Kind, across_nm: int, along_nm: int) -> bool:
        """Whether an offcut is big enough to keep, whichever way it is turned."""
        prefix = "keep.protective-film-" if kind is Kind.PROTECTIVE_FILM else "keep."
        least = sorted((self.numbers[f"{prefix}across"], self.numbers[f"{prefix}along"]))
        return all(
            side >= low for side, low in zip(sorted((across_nm, along_nm)), least, strict=True)
        )

    def shown(self, name: str, system: System = System.METRIC) -> str | None:
        """A value as a person would type it, or None where none is set."""
        if name in self.numbers:
            number, measure = self.numbers[name], _NUMBERS[name][1]
            return (
                show_length(number, system)
                if measure is _Measure.LENGTH_NM
                else f"{number}{measure.value}"
            )
        span = self.spans.get(name)
        return None if span is None else str(span)

    def changed(self, name: str, text: str, system: System = System.METRIC) -> "House":
        """The same house with one value of its own; a wrong name is refused with the nearest."""
        if name not in HOUSE_NAMES:
            near = get_close_matches(name, HOUSE_NAMES, n=1, cutoff=0.4)
            hint = (
                f"did you mean {near[0]}?" if near else "use one of " + ", ".join(HOUSE_NAMES) + "."
            )
            raise Refusal(Code.BAD_SETTING, f"'{clean_text(name, 40)}' is no house value: {hint}")
        own = self.own | {name}
        if name in _NUMBERS:
            number = _parse_number(name, text, system)
            return replace(self, numbers={**self.numbers, name: number}, own=own)
        return replace(self, spans={**self.spans, name: parse_span(text)}, own=own)


_WRITTEN: Mapping[_Measure, tuple[tuple[str, ...], int]] = MappingProxyType(
    {
        _Measure.HOURS: (("h", "hour", "hours"), 24 * 90),
        _Measure.DAYS: (("d", "day", "days"), 365),
        _Measure.PERCENT: (("%",), 100),
    }
)


def _parse_number(name: str, text: str, system: System) -> int:
    """A number of the house from what a person typed; it may be none."""
    measure = _NUMBERS[name][1]
    if measure is _Measure.LENGTH_NM:
        return parse_length(text, system, zero=True)
    units, most = _WRITTEN[measure]
    written = re.fullmatch(r"\s*(\d{1,4})\s*([a-z%]*)\s*", text.lower(), re.ASCII)
    if written is not None and written[2] in ("", *units) and int(written[1]) <= most:
        return int(written[1])
    raise Refusal(
        Code.BAD_SETTING,
        f"'{clean_text(text, 40)}' does not suit {name}: write a whole number from 0 to {most}{units[0]}.",
    )
