"""Stock: how much of each material there is, what it is worth, and what its verdicts are."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from itertools import groupby

from stockroom.books.opening import Book
from stockroom.books.values import Material
from stockroom.film.verdict import Verdict
from stockroom.work.charging import area_left_mm2, cost_between
from stockroom.work.judging import Judged, View
from stockroom.work.look import Wanted, rack
from stockroom.work.receive import OURS


@dataclass(frozen=True, slots=True, kw_only=True)
class StockOf:
    """What there is of one material; prints serve their jobs and are no free stock."""

    material: Material
    pieces: int
    number: int
    """How many goods, of what is counted."""
    area_mm2: int
    printed_mm2: int
    """The part of the area that is printed."""
    value_minor: int
    unpriced: int
    """How many pieces have no price, and are not in the value."""
    verdicts: Mapping[Verdict, int]


@dataclass(frozen=True, slots=True)
class Stock:
    """All that is ours, by material."""

    view: View
    rows: tuple[StockOf, ...]

    @property
    def value_minor(self) -> int:
        """What all of it is worth, as far as prices are known."""
        return sum(row.value_minor for row in self.rows)


def stock(book: Book, *, now: datetime, today: date | None = None, material: str = "") -> Stock:
    """Only what is ours counts, wherever it is; what belongs to a client or a supplier does not."""
    found = rack(book, now=now, today=today, wanted=Wanted(material=material))
    ours = (one for one in found.pieces if one.standing.state.owner == OURS)
    by_name = sorted(ours, key=lambda one: one.standing.material.name.casefold())
    groups = groupby(by_name, key=lambda one: one.standing.material.id)
    return Stock(found.view, tuple(_row(pieces) for _, pieces in groups))


def _row(pieces: Iterable[Judged]) -> StockOf:
    known = tuple(pieces)
    states = [one.standing.state for one in known]
    return StockOf(
        material=known[0].standing.material,
        pieces=len(known),
        number=sum(state.balance for state in states if state.form == "box"),
        area_mm2=sum(area_left_mm2(state) for state in states),
        printed_mm2=sum(area_left_mm2(state) for state in states if state.printed is not None),
        value_minor=sum(cost_between(state, state.balance, 0) for state in states),
        unpriced=sum(state.cost_minor is None for state in states),
        verdicts=Counter(one.judgement.verdict for one in known),
    )
