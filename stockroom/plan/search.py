"""Looking for a short layout: many starts by rule, then a walk over orders, within a number of evaluations.

An evaluation lays all panels once, into film a little shorter than the best layout so far; the
less is missing, the better. The walk swaps two panels, moves one or changes the style, keeps what
is no worse, and begins elsewhere when it has stood still for long. The same input and the same
chance give the same layout.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple, Protocol, TypeAlias

from stockroom.plan.guillotine import Filled, Spot, Style
from stockroom.plan.panels import Rectangle, least_length

Lay: TypeAlias = Callable[[Sequence[int], Style, int], Filled]
"""Lays panels in an order and a style into film of a length."""

_PATIENCE = 1_500
"""Evaluations without a gain after which the walk begins elsewhere."""
_WORSE = 0.002
"""How often something worse is kept."""
_STYLE_MOVES = 0.1
_SPREAD = 0.25
"""How far a new beginning strays from a rule."""


class Chance(Protocol):
    """What `random.Random` gives."""

    def random(self) -> float:
        """From 0 up to 1."""
        ...

    def randrange(self, stop: int, /) -> int:
        """A whole number from 0 up to one less."""
        ...


class _State(NamedTuple):
    order: tuple[int, ...]
    style: Style
    missing: int


@dataclass(slots=True)
class Search:
    """One search: `run` carries it on, and what was found so far can be read at any time."""

    found: Sequence[Rectangle]
    width: int
    lay: Lay
    styles: Sequence[Style]
    chance: Chance
    spots: list[Spot] = field(default_factory=list[Spot])
    length: int = 0
    bound: int = 0
    evaluations: int = 0
    _best: _State | None = None
    _steps: Iterator[None] | None = None

    def __post_init__(self) -> None:
        self.bound = least_length(self.found, self.width)
        self._steps = self._whole()

    @property
    def is_done(self) -> bool:
        """Whether nothing shorter can be found."""
        return bool(self.spots) and self.length <= self.bound

    def run(self, evaluations: int) -> bool:
        """Go on for so many evaluations; False when nothing shorter can be found."""
        last = self.evaluations + evaluations
        steps = self._steps
        while self.evaluations < last and steps is not None and not self.is_done:
            if next(steps, steps) is steps:
                break
        return not self.is_done

    def _whole(self) -> Iterator[None]:
        yield from self._by_rule()
        yield from self._walk()

    def _by_rule(self) -> Iterator[None]:
        """Every order and style that common sense would try, each made as short as it gets."""
        for order in orders(self.found):
            for style in self.styles:
                yield from self._shorten(order, style)

    def _shorten(self, order: tuple[int, ...], style: Style) -> Iterator[None]:
        """Lay into less and less film, halving what is not known yet."""
        short = self.bound - 1
        cap = self.length - 1 if self.spots else self._more_than_any()
        while short < cap:
            state = self._try(order, style, cap)
            yield
            if state.missing:
                short = cap
            if self.length - 1 <= short:
                return
            cap = (short + self.length) // 2

    def _more_than_any(self) -> int:
        """More film than any style needs: panels one after the other, and room to part the last."""
        return self.width + sum(max(along for _, along in one.ways) for one in self.found)

    def _walk(self) -> Iterator[None]:
        """From the best order on, one change at a time."""
        if self._best is None:
            return
        state = self._try(self._best.order, self._best.style, self.length - 1)
        idle = 0
        while True:
            yield
            idle += 1
            if idle > _PATIENCE:
                state, idle = self._elsewhere(), 0
                continue
            tried = self._changed(state)
            if not tried.missing:
                tried = self._try(tried.order, tried.style, self.length - 1)
                idle = 0
            elif tried.missing > state.missing and self.chance.random() >= _WORSE:
                continue
            elif tried.missing < state.missing:
                idle = 0
            state = tried

    def _changed(self, state: _State) -> _State:
        """The same with one change, laid into film shorter than the best."""
        order, style = list(state.order), state.style
        what = self.chance.random()
        if what < _STYLE_MOVES and len(self.styles) > 1:
            style = self.styles[self.chance.randrange(len(self.styles))]
        else:
            one, other = self._unlike(order)
            if what < (1 + _STYLE_MOVES) / 2:
                order[one], order[other] = order[other], order[one]
            else:
                order.insert(other, order.pop(one))
        return self._try(tuple(order), style, self.length - 1)

    def _unlike(self, order: list[int]) -> tuple[int, int]:
        """Two places in the order with panels that differ, if chance finds them soon."""
        one = other = 0
        for _ in range(5):
            one, other = self.chance.randrange(len(order)), self.chance.randrange(len(order))
            if self.found[order[one]].ways != self.found[order[other]].ways:
                break
        return one, other

    def _elsewhere(self) -> _State:
        """A new beginning: an order by some rule, with every panel off it a little."""
        rule = _RULES[self.chance.randrange(len(_RULES))]
        worth = [
            rule(*one.ways[0]) * (1 + _SPREAD * (2 * self.chance.random() - 1))
            for one in self.found
        ]
        order = tuple(sorted(range(len(self.found)), key=lambda index: -worth[index]))
        style = self.styles[self.chance.randrange(len(self.styles))]
        return self._try(order, style, self.length - 1)

    def _try(self, order: tuple[int, ...], style: Style, cap: int) -> _State:
        """Lay once; what leaves nothing missing is the best so far."""
        filled = self.lay(order, style, cap)
        self.evaluations += 1
        state = _State(order, style, filled.missing)
        if not filled.missing:
            self.spots = filled.spots
            self.length = max((y + long for _, _, y, _, long in filled.spots), default=0)
            self._best = state
        return state


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
