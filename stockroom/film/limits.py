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
      .air                 what the climate of a store should be, and how its gaps are filled
      .energy()            Figure, in kJ/mol; .curl(kind) Figure, in mm of the circle
      .changed(name, text) the same house with one value of its own
    HOUSE_NAMES            the names that can be set

All defaults are common practice, no source.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from difflib import get_close_matches
from enum import StrEnum
from functools import lru_cache
from typing import NamedTuple

from stockroom.errors import Code, Refusal, clean_text
from stockroom.film.dates import Span, parse_span
from stockroom.film.house import NUMBERS, SPANS, parse_number, show_number
from stockroom.film.kinds import Ink, Kind
from stockroom.units import MM, System


class Basis(StrEnum):
    """What a limit rests on."""

    MAKER = "maker's sheet"
    HOUSE = "house"
    DEFAULT = "default"
    TRIAL = "own trial"
    ORDERS = "own orders"


@dataclass(frozen=True, slots=True)
class Figure:
    """A number that describes film, and what it rests on; each name has its own unit."""

    value: float
    basis: Basis


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


# Shelf limits may be set for kinds that have no default, too.
HOUSE_NAMES = tuple(dict.fromkeys([*(f"shelf.{kind}" for kind in Kind), *SPANS, *NUMBERS]))

_LOW_TO_HIGH = (
    ("climate.cold", "climate.hot"),
    ("climate.hot", "climate.too-hot"),
    ("climate.rh-low", "climate.rh-high"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Air:
    """What the air of a store should be: from cold to hot, from dry to damp; and what fills a gap."""

    gap_s: int
    """Readings further apart tell nothing of the time between them."""
    assumed_c: float
    """How warm a zone is taken to be while nobody measured, where nothing else is said of it."""
    cold_c: float
    hot_c: float
    hot_hours: int
    too_hot_c: float
    rh_low_pct: int
    rh_high_pct: int


class Near(NamedTuple):
    """So many days before the end of a limit, or so much of it, whichever is less."""

    days: int
    percent: int

    def of(self, limit_days: int) -> int:
        """In days of a limit."""
        return min(self.days, limit_days * self.percent // 100)


def _air(numbers: Mapping[str, int]) -> Air:
    return Air(
        gap_s=numbers["climate.gap"] * 3_600,
        assumed_c=numbers["climate.assumed"] / 1_000,
        cold_c=numbers["climate.cold"] / 1_000,
        hot_c=numbers["climate.hot"] / 1_000,
        hot_hours=numbers["climate.hot-hours"],
        too_hot_c=numbers["climate.too-hot"] / 1_000,
        rh_low_pct=numbers["climate.rh-low"],
        rh_high_pct=numbers["climate.rh-high"],
    )


@dataclass(frozen=True, slots=True)
class House:
    """Every value a shop can set for itself; the ones it has not set are defaults."""

    spans: Mapping[str, Span] = field(default_factory=lambda: SPANS)
    numbers: Mapping[str, int] = field(
        default_factory=lambda: {name: number for name, (number, _) in NUMBERS.items()}
    )
    own: frozenset[str] = frozenset()
    air: Air = field(init=False, repr=False, compare=False)
    """What the climate of a store should be."""
    near: Near = field(init=False, repr=False, compare=False)
    """How long before a limit its piece is to be used first."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "air", _air(self.numbers))
        near = Near(self.numbers["near.days"], self.numbers["near.percent"])
        object.__setattr__(self, "near", near)

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

    def energy(self) -> Figure:
        """The activation energy of film whose own is not known, in kJ/mol."""
        return Figure(self.numbers["energy"] / 1_000, self.basis("energy"))

    def curl(self, kind: Kind) -> Figure | None:
        """The circle in mm that film of a kind may curl to; None where it is not wound to be applied."""
        name = f"curl.{kind}"
        number = self.numbers.get(name)
        return None if number is None else Figure(number / MM, self.basis(name))

    def agrees(self, one: int, other: int) -> bool:
        """Whether two figures are near enough to be the same, the second one being believed."""
        return abs(one - other) * 100 <= other * self.numbers["count.tolerance-percent"]

    def rest_hours(self, ink: Ink) -> tuple[int, Basis]:
        """How many hours a print rests, and what that rests on."""
        name = f"rest.{ink}"
        return self.numbers[name], self.basis(name)

    def near_days(self, limit_days: int) -> int:
        """How many days before the end of a limit its piece is to be used first."""
        return self.near.of(limit_days)

    def keeps(self, kind: Kind, across_nm: int, along_nm: int) -> bool:
        """Whether an offcut is big enough to keep, whichever way it is turned."""
        least = sorted(self.keep(kind))
        return all(
            side >= low for side, low in zip(sorted((across_nm, along_nm)), least, strict=True)
        )

    def keep(self, kind: Kind) -> tuple[int, int]:
        """The least sides of an offcut worth a label, in nm."""
        prefix = "keep.protective-film-" if kind is Kind.PROTECTIVE_FILM else "keep."
        return self.numbers[f"{prefix}across"], self.numbers[f"{prefix}along"]

    def shown(self, name: str, system: System = System.METRIC) -> str | None:
        """A value as a person would type it, or None where none is set."""
        if name in self.numbers:
            return show_number(name, self.numbers[name], system)
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
        if name in NUMBERS:
            numbers = {**self.numbers, name: parse_number(name, text, system)}
            _refuse_crossed(name, numbers)
            return replace(self, numbers=numbers, own=own)
        return replace(self, spans={**self.spans, name: parse_span(text)}, own=own)


def _refuse_crossed(name: str, numbers: Mapping[str, int]) -> None:
    """Refuse a value that would put a low limit above the high one."""
    for low, high in _LOW_TO_HIGH:
        if name in (low, high) and numbers[low] > numbers[high]:
            raise Refusal(
                Code.BAD_SETTING, f"{low} cannot be above {high}: change the other first."
            )
