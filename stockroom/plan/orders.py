"""Orders in which panels are laid: by rule, near a rule, and one change further.

orders(found)             the largest first, by each rule
near_a_rule(found, …)     an order by some rule, with every panel off it a little
moved(order, alike, …)    two things swapped, or one moved
ordered(found, fill, …)   an arrangement that lays panel by panel
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias, TypeVar

from stockroom.plan.guillotine import Filled, Style
from stockroom.plan.panels import Rectangle
from stockroom.plan.search import Chance

_SPREAD = 0.25
"""How far a new beginning strays from a rule."""
_TRIES = 5
_STYLE_MOVES = 0.1

Fill: TypeAlias = Callable[[Sequence[int], Style, int], Filled]
"""Lays panels in an order and a style into film of a length."""

_Thing = TypeVar("_Thing")

_RULES: tuple[Callable[[int, int], float], ...] = (
    lambda across, along: across * along,
    max,
    min,
    lambda across, along: across + along,
    lambda _across, along: along,
    lambda across, _along: across,
)


def orders(found: Sequence[Rectangle]) -> Iterator[tuple[int, ...]]:
    """The largest first, by each rule."""
    for rule in _RULES:
        worth = [rule(*one.ways[0]) for one in found]
        yield tuple(sorted(range(len(found)), key=lambda index: -worth[index]))


def near_a_rule(found: Sequence[Rectangle], chance: Chance) -> tuple[int, ...]:
    """An order by some rule, with every panel off it a little."""
    rule = _RULES[chance.randrange(len(_RULES))]
    worth = [rule(*one.ways[0]) * (1 + _SPREAD * (2 * chance.random() - 1)) for one in found]
    return tuple(sorted(range(len(found)), key=lambda index: -worth[index]))


def moved(
    order: Sequence[_Thing], are_alike: Callable[[_Thing, _Thing], bool], chance: Chance
) -> tuple[_Thing, ...]:
    """Two things that differ, if chance finds them soon, swapped, or one in the place of the other."""
    changed = list(order)
    one = other = 0
    for _ in range(_TRIES):
        one, other = chance.randrange(len(changed)), chance.randrange(len(changed))
        if not are_alike(changed[one], changed[other]):
            break
    if chance.random() < 1 / 2:
        changed[one], changed[other] = changed[other], changed[one]
    else:
        changed.insert(other, changed.pop(one))
    return tuple(changed)


@dataclass(frozen=True, slots=True)
class Order:
    """An arrangement that lays panel by panel: their order decides, and a style, where there are some."""

    found: Sequence[Rectangle]
    fill: Fill
    styles: Sequence[Style]
    order: tuple[int, ...]
    style: Style

    def lay(self, cap: int) -> Filled:
        """All panels in film of a length."""
        return self.fill(self.order, self.style, cap)

    def changed(self, chance: Chance, cap: int) -> "Order":  # noqa: ARG002 - one of several arrangements
        """The same with one change."""
        if len(self.styles) > 1 and chance.random() < _STYLE_MOVES:
            return replace(self, style=self.styles[chance.randrange(len(self.styles))])
        return replace(self, order=moved(self.order, self._are_alike, chance))

    def _are_alike(self, one: int, other: int) -> bool:
        return self.found[one].ways == self.found[other].ways


def ordered(
    found: Sequence[Rectangle], fill: Fill, styles: Sequence[Style], chance: Chance
) -> Order:
    """An order near some rule, in some style."""
    style = styles[chance.randrange(len(styles))]
    return Order(found, fill, styles, near_a_rule(found, chance), style)
