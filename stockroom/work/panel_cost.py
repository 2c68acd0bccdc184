"""What the panels of a job took of film and money, and what was expected when film was kept for it.

The film of a cut is shared among its panels by their area, its waste and its cost too, so that all
panels of a cut together are the cut, to the square millimetre and to the cent.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import cast

from stockroom.books.pen import UNDO
from stockroom.books.values import Act, Move
from stockroom.work.planned import PLAN, from_facts
from stockroom.work.reserved import RESERVE

EXPECTED = "cost_minor"
"""The fact of a reservation that says what its film costs the job; None where it has no price."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelCost:
    """The panels of one name that are cut: their film with trims, their share of waste and cost."""

    name: str
    number: int = 0
    used_mm2: int = 0
    wasted_mm2: int = 0
    cost_minor: int = 0

    def plus(self, other: "PanelCost") -> "PanelCost":
        """Both together."""
        return PanelCost(
            name=self.name,
            number=self.number + other.number,
            used_mm2=self.used_mm2 + other.used_mm2,
            wasted_mm2=self.wasted_mm2 + other.wasted_mm2,
            cost_minor=self.cost_minor + other.cost_minor,
        )


def panel_costs(history: Iterable[Act]) -> tuple[PanelCost, ...]:
    """What each name took, of the planned cuts of a job that stand."""
    found: dict[str, PanelCost] = {}
    for act in _standing(history):
        for move in act.moves:
            if move.kind == "cut" and PLAN in move.facts:
                for one in _of(move):
                    found[one.name] = found.get(one.name, PanelCost(name=one.name)).plus(one)
    return tuple(found[name] for name in sorted(found))


def expected_minor(history: Sequence[Act]) -> int | None:
    """What the film first kept for a job was to cost; None where none was kept, or has no price."""
    kept = [act for act in _standing(history) if act.kind == RESERVE]
    if not kept:
        return None
    first = min(kept, key=lambda act: act.id)
    costs = [move.facts.get(EXPECTED) for move in first.moves if move.kind == RESERVE]
    return None if None in costs else sum(cast("list[int]", costs))


def _standing(history: Iterable[Act]) -> Iterator[Act]:
    return (act for act in history if not act.is_reversed and act.kind != UNDO)


def _of(move: Move) -> Iterator[PanelCost]:
    laid = from_facts(move.facts[PLAN]).laid  # type: ignore[arg-type]
    areas = [across * along for *_, across, along in laid]
    shares = (_shared(total, areas) for total in (move.used_mm2, move.wasted_mm2, move.cost_minor))
    for (name, *_), used, wasted, cost in zip(laid, *shares, strict=True):
        yield PanelCost(name=name, number=1, used_mm2=used, wasted_mm2=wasted, cost_minor=cost)


def _shared(total: int, areas: Sequence[int]) -> list[int]:
    """A total in whole parts by area that add up to it again."""
    whole, reached, marks = sum(areas), 0, [0]
    for area in areas:
        reached += area
        marks.append(total * reached // whole)
    return [after - before for before, after in pairwise(marks)]
