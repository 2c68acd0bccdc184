"""Panels covered with films taken in an order: from each as many panels as it holds, in little length.

Workshop(items, rules)      lays panels quickly, and never the same ones twice
  .cover(films, which)      Cover: which panels lie where on which film, and which are left
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import islice
from random import Random  # noqa: TID251 - seeded: a plan can be repeated
from typing import TypeAlias

from stockroom.plan.guillotine import Spot
from stockroom.plan.layout import Knife, search_of, starts
from stockroom.plan.panels import Panel, Rectangle, ways_of
from stockroom.plan.stock import Film
from stockroom.plan.strips import fullest_strips

_Laid: TypeAlias = tuple[int, tuple[Spot, ...]]
"""How long a layout is, and its spots."""

_QUICK = 48
"""Evaluations for a first idea of how long a layout is."""
_PARTLY = 24
"""Starts by rule of a layout that cannot hold all panels."""
_EASY = 20
"""So many panels get all these; more get fewer, for each takes longer."""
_BATCH = 48
"""More panels than these are laid in batches one behind the other: the time grows with the square."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """How film is cut, what is worth keeping, and how much more waste older film may cost.

    `keep` are the least sides of an offcut; `extra_waste` is a part of the area of the panels.
    """

    knife: Knife = Knife.STRAIGHT
    table: int | None = None
    keep: tuple[int, int] = (0, 0)
    extra_waste: float = 0.1
    seed: int = 1


@dataclass(frozen=True, slots=True)
class Part:
    """What is laid on one stretch of film: spots are numbered by item, from where the stretch begins."""

    film: Film
    begins: int
    length: int
    spots: tuple[Spot, ...]

    @property
    def ends(self) -> int:
        """How much is drawn off the film, from its outer end."""
        return self.begins + self.length


@dataclass(frozen=True, slots=True)
class Cover:
    """Where panels lie, and the items that are left."""

    parts: tuple[Part, ...]
    left: tuple[int, ...]


@dataclass(slots=True)
class Workshop:
    """Lays items, each a single panel, on film; what was laid once is remembered."""

    items: Sequence[Panel]
    rules: Rules
    _short: dict[tuple[tuple[int, ...], int], _Laid | None] = field(
        default_factory=dict[tuple[tuple[int, ...], int], "_Laid | None"]
    )
    _full: dict[tuple[tuple[int, ...], int, int], tuple[Spot, ...]] = field(
        default_factory=dict[tuple[tuple[int, ...], int, int], tuple[Spot, ...]]
    )

    def area(self, which: Sequence[int]) -> int:
        """The area of items."""
        return sum(self.items[one].across * self.items[one].along for one in which)

    def cover(self, films: Sequence[Film], which: Sequence[int]) -> Cover:
        """Cover items with films in their order, from the outer end of each on."""
        left = tuple(which)
        parts: list[Part] = []
        for film in films:
            for begins, ends in film.stretches:
                if not left:
                    return Cover(tuple(parts), ())
                spots = self.fullest(left, film.width, ends - begins)
                if spots:
                    parts.append(Part(film, begins, _reach(spots), spots))
                    laid = {spot[0] for spot in spots}
                    left = tuple(one for one in left if one not in laid)
        return Cover(tuple(parts), left)

    def shortest(self, which: tuple[int, ...], width: int) -> _Laid | None:
        """How long film of a width must be for all items, and where they lie; None: one is too wide."""
        key = which, width
        if key not in self._short:
            self._short[key] = self._laid_short(which, width, fewer(_QUICK, len(which)))
        return self._short[key]

    def fullest(self, which: tuple[int, ...], width: int, cap: int) -> tuple[Spot, ...]:
        """As many of the items as a stretch holds, by area, in little length."""
        if self.area(which) <= width * cap:
            whole = self.shortest(which, width)
            if whole is not None and whole[0] <= cap:
                return whole[1]
        key = which, width, cap
        if key not in self._full:
            self._full[key] = self._laid_full(which, width, cap)
        return self._full[key]

    def shorter(self, part: Part, effort: int) -> Part:
        """The same items on the same stretch, after a longer search for a shorter layout."""
        which = tuple(sorted(spot[0] for spot in part.spots))
        if not effort or len(which) > _BATCH:
            return part
        found = self._laid_short(which, part.film.width, effort)
        if found is None or found[0] >= part.length:
            return part
        return Part(part.film, part.begins, *found)

    def _laid_short(self, which: tuple[int, ...], width: int, effort: int) -> _Laid | None:
        if len(which) > _BATCH:
            batches = [self.shortest(batch, width) for batch in self._batches(which)]
            known = [one for one in batches if one is not None]
            return _behind(known) if len(known) == len(batches) else None
        found = self._rectangles(which, width)
        if len(found) < len(which):
            return None
        chance = Random(self.rules.seed)  # noqa: S311
        search = search_of(found, width, self.rules.knife, self.rules.table, chance)
        search.run(effort)
        return search.length, tuple((which[spot[0]], *spot[1:]) for spot in search.spots)

    def _laid_full(self, which: tuple[int, ...], width: int, cap: int) -> tuple[Spot, ...]:
        fitting = tuple(one for one in which if self._fits(one, width, cap))
        if len(fitting) > _BATCH:
            return self._full_of_batches(fitting, width, cap)
        found = self._rectangles(fitting, width)
        if not found:
            return ()
        if all(across * 2 > width for one in found for across, _ in one.ways):
            return tuple((fitting[spot[0]], *spot[1:]) for spot in fullest_strips(found, cap))
        ways_to_lay = starts(found, width, self.rules.knife, self.rules.table)
        tried = (lay(cap) for lay in islice(ways_to_lay, fewer(_PARTLY, len(found))))
        best = min(tried, key=lambda filled: (filled.missing, _reach(filled.spots)))
        return tuple((fitting[spot[0]], *spot[1:]) for spot in best.spots)

    def _full_of_batches(self, which: tuple[int, ...], width: int, cap: int) -> tuple[Spot, ...]:
        laid: list[_Laid] = []
        for batch in self._batches(which):
            room = cap - sum(length for length, _ in laid)
            spots = self.fullest(batch, width, room)
            laid.append((_reach(spots), spots))
        return _behind(laid)[1]

    def _batches(self, which: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
        """The items in batches, the longest panels first: those of one length lie well together."""
        ordered = sorted(which, key=lambda one: (-self.items[one].along, one))
        for first in range(0, len(ordered), _BATCH):
            yield tuple(sorted(ordered[first : first + _BATCH]))

    def _fits(self, one: int, width: int, cap: int) -> bool:
        return any(along <= cap for _, along in ways_of(self.items[one], width))

    def _rectangles(self, which: Sequence[int], width: int) -> tuple[Rectangle, ...]:
        return tuple(self._fitting(which, width))

    def _fitting(self, which: Sequence[int], width: int) -> Iterator[Rectangle]:
        for one in which:
            panel = self.items[one]
            if ways := ways_of(panel, width):
                yield Rectangle(panel.name, (panel.across, panel.along), ways)


def fewer(evaluations: int, number: int) -> int:
    """As many evaluations as are worth their time for so many panels."""
    return max(2, round(evaluations * min(1.0, (_EASY / max(1, number)) ** 2)))


def _behind(laid: Sequence[_Laid]) -> _Laid:
    """Layouts one behind the other, as one."""
    begins = 0
    spots: list[Spot] = []
    for length, batch in laid:
        spots += ((one, x, y + begins, across, along) for one, x, y, across, along in batch)
        begins += length
    return begins, tuple(spots)


def _reach(spots: Sequence[Spot]) -> int:
    return max((spot[2] + spot[4] for spot in spots), default=0)
