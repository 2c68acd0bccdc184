"""Looking for a short layout: many starts by rule, then a walk, within a number of evaluations.

An evaluation lays all panels once, into film a little shorter than the best layout so far; the
less is missing, the better. The walk changes one thing at a time, keeps what is no worse, and
begins elsewhere when it has stood still for long. The same input and the same chance give the same
layout.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Protocol, TypeAlias

from stockroom.plan.guillotine import Filled, Spot
from stockroom.plan.panels import Rectangle, least_length

Lay: TypeAlias = Callable[[int], Filled]
"""Lays all panels into film of a length, always in the same way."""

_PATIENCE = 1_500
"""Evaluations without a gain after which the walk begins elsewhere."""


class Chance(Protocol):
    """What `random.Random` gives."""

    def random(self) -> float:
        """From 0 up to 1."""
        ...

    def randrange(self, stop: int, /) -> int:
        """A whole number from 0 up to one less."""
        ...


class Arrangement(Protocol):
    """One step of the walk: what decides how panels are laid. It never changes; a change is another."""

    def lay(self, cap: int) -> Filled:
        """All panels in film of a length; where some are missing, the spots do not count."""
        ...

    def changed(self, chance: Chance, cap: int) -> "Arrangement":
        """The same with one change."""
        ...


@dataclass(slots=True)
class Search:
    """One search: `run` carries it on, and what was found so far can be read at any time."""

    found: Sequence[Rectangle]
    width: int
    starts: Iterable[Lay]
    elsewhere: Callable[[Chance], Arrangement]
    chance: Chance
    spots: list[Spot] = field(default_factory=list[Spot])
    length: int = 0
    bound: int = 0
    evaluations: int = 0
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
        for lay in self.starts:
            yield from self._shorten(lay)
        while True:
            yield from self._walk(self.elsewhere(self.chance))

    def _shorten(self, lay: Lay) -> Iterator[None]:
        """Lay into less and less film, halving what is not known yet."""
        short = self.bound - 1
        cap = self.length - 1 if self.spots else self._more_than_any()
        while short < cap:
            if self._missing(lay, cap):
                short = cap
            yield
            if self.length - 1 <= short:
                return
            cap = (short + self.length) // 2

    def _more_than_any(self) -> int:
        """More film than any style needs: panels one after the other, and room to part the last."""
        return self.width + sum(max(along for _, along in one.ways) for one in self.found)

    def _walk(self, here: Arrangement) -> Iterator[None]:
        """One change at a time, until it has stood still for long."""
        missing = self._missing(here.lay, self.length - 1)
        yield
        idle = 0
        while idle < _PATIENCE:
            if not missing:
                missing = self._missing(here.lay, self.length - 1)
                yield
                continue
            tried = here.changed(self.chance, self.length - 1)
            left = self._missing(tried.lay, self.length - 1)
            yield
            idle = 0 if left < missing else idle + 1
            if left <= missing:
                here, missing = tried, left

    def _missing(self, lay: Lay, cap: int) -> int:
        """Lay once, and the area for which there is no room; where there is none, it is the best so far."""
        filled = lay(cap)
        self.evaluations += 1
        if not filled.missing:
            self.spots = filled.spots
            self.length = max((y + long for _, _, y, _, long in filled.spots), default=0)
        return filled.missing
