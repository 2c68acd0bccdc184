"""Panels laid freely, for those who have a cutting machine: no cut need go from edge to edge.

The film that is taken has a skyline. Its lowest place is filled with the panel that suits it best:
one that fills it from wall to wall and ends level with a wall leaves no step; the first in the
order wins where several suit it alike.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from stockroom.plan.guillotine import Filled, Spot
from stockroom.plan.panels import Ways

_NO_WALL = 1 << 62
_PERFECT = 5


@dataclass(slots=True)
class _Skyline:
    """Steps from one edge to the other: how wide each is, and how far along the film is taken."""

    wide: list[int]
    along: list[int]

    def lowest(self) -> int:
        """The step at which the least is taken."""
        return self.along.index(min(self.along))

    def walls(self, step: int) -> tuple[int, int]:
        """How far the film on either side stands above a step."""
        level = self.along[step]
        before = self.along[step - 1] - level if step else _NO_WALL
        after = self.along[step + 1] - level if step + 1 < len(self.along) else _NO_WALL
        return before, after

    def lay(self, step: int, across: int, along: int, *, at_end: bool) -> None:
        """Take film at one end of a step."""
        rest = self.wide[step] - across
        level = self.along[step]
        if rest:
            taken = step + at_end
            self.wide.insert(step + 1, across if at_end else rest)
            self.wide[step] = rest if at_end else across
            self.along.insert(step + 1, level)
            step = taken
        self.along[step] = level + along
        self._join(step)

    def close(self, step: int, cap: int) -> None:
        """Give up a step up to its lower wall, or to the cap where it has none."""
        wall = min(self.walls(step))
        self.along[step] = cap if wall == _NO_WALL else self.along[step] + wall
        self._join(step)

    def _join(self, step: int) -> None:
        """Make steps of one level one."""
        for left in (step, step - 1):
            if 0 <= left < len(self.along) - 1 and self.along[left] == self.along[left + 1]:
                self.wide[left] += self.wide.pop(left + 1)
                del self.along[left + 1]


def fill(ways: Sequence[Ways], order: Sequence[int], room: tuple[int, int]) -> Filled:
    """Lay panels into a room, across by along; the order decides between those that suit alike."""
    width, cap = room
    line = _Skyline([width], [0])
    left = list(order)
    spots: list[Spot] = []
    while left:
        step = line.lowest()
        level = line.along[step]
        if level >= cap:
            break
        walls = line.walls(step)
        wide = line.wide[step]
        found = _best(ways, left, (wide, cap - level), walls)
        if found is None:
            line.close(step, cap)
            continue
        place, across, along = found
        at_end = _at_end(walls, along)
        begins = sum(line.wide[:step]) + (wide - across if at_end else 0)
        spots.append((left.pop(place), begins, level, across, along))
        line.lay(step, across, along, at_end=at_end)
    return Filled(spots, sum(_area(ways[index]) for index in left))


def _best(
    ways: Sequence[Ways], left: list[int], room: tuple[int, int], walls: tuple[int, int]
) -> tuple[int, int, int] | None:
    """The place in the order of the panel that suits a step best, and how it lies."""
    best: tuple[int, int, int] | None = None
    most = -1
    for place, across, along in _fitting(ways, left, room):
        suits = _suits(room[0] == across, along, walls)
        if suits > most:
            best, most = (place, across, along), suits
            if most == _PERFECT:
                break
    return best


def _fitting(
    ways: Sequence[Ways], left: list[int], room: tuple[int, int]
) -> Iterator[tuple[int, int, int]]:
    wide, long = room
    for place, index in enumerate(left):
        for across, along in ways[index]:
            if across <= wide and along <= long:
                yield place, across, along


def _suits(fills: bool, along: int, walls: tuple[int, int]) -> int:  # noqa: FBT001 - in the innermost loop
    """From 0, a new step on the skyline, to 5, a hole filled without a trace."""
    before, after = walls
    if not fills:
        return along in walls
    if along in walls:
        return _PERFECT if before == after else 4
    return 3 if along < min(before, after) else 2


def _at_end(walls: tuple[int, int], along: int) -> bool:
    """Whether a panel goes to the far end of its step: to the wall it is level with, or the higher one."""
    before, after = walls
    if along in walls:
        return along != before
    return before < after < _NO_WALL


def _area(ways: Ways) -> int:
    return ways[0][0] * ways[0][1]
