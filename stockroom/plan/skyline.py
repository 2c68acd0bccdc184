"""Panels laid freely, for those who have a cutting machine: no cut need go from edge to edge.

The film that is taken has a skyline. Its lowest place is filled with the panel that suits it best:
one that fills it from wall to wall and ends level with a wall leaves no step; the first in the
order wins where several suit it alike.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from stockroom.plan.guillotine import Filled, Spot
from stockroom.plan.panels import Ways
from stockroom.plan.sides import Lying, Sides, bits_of

_NO_WALL = 1 << 62


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
    rest = _Rest(ways, order)
    spots: list[Spot] = []
    missing = sum(_area(ways[index]) for index in order)
    while rest.left:
        step = line.lowest()
        level = line.along[step]
        if level >= cap:
            break
        walls = line.walls(step)
        wide = line.wide[step]
        found = rest.take((wide, cap - level), walls)
        if found is None:
            line.close(step, cap)
            continue
        index, across, along = found
        at_end = _at_end(walls, along)
        begins = sum(line.wide[:step]) + (wide - across if at_end else 0)
        spots.append((index, begins, level, across, along))
        missing -= across * along
        line.lay(step, across, along, at_end=at_end)
    return Filled(spots, missing)


class _Rest:
    """The panels that are left, in their order."""

    __slots__ = ("_across", "_along", "_lying", "left")

    def __init__(self, ways: Sequence[Ways], order: Sequence[int]) -> None:
        self._lying: list[Lying] = [(index, *size) for index in order for size in ways[index]]
        self._across = Sides([across for _, across, _ in self._lying])
        self._along = Sides([along for _, _, along in self._lying])
        self.left = (1 << len(self._lying)) - 1

    def take(self, room: tuple[int, int], walls: tuple[int, int]) -> Lying | None:
        """The panel that suits a step best, and how it lies; None where none fits."""
        fit = self.left & self._across.up_to(room[0]) & self._along.up_to(room[1])
        if not fit:
            return None
        best = self._suiting(fit, room[0], walls)
        place = (best & -best).bit_length() - 1
        self.left &= ~bits_of(self._lying, place)
        return self._lying[place]

    def _suiting(self, fit: int, wide: int, walls: tuple[int, int]) -> int:
        """From a hole filled without a trace to a new step on the skyline, the best that there is."""
        fills = fit & self._across.equal.get(wide, 0)
        level = self._along.equal.get(walls[0], 0) | self._along.equal.get(walls[1], 0)
        below = self._along.up_to(min(walls) - 1)
        return fills & level or fills & below or fills or fit & level or fit


def _at_end(walls: tuple[int, int], along: int) -> bool:
    """Whether a panel goes to the far end of its step: to the wall it is level with, or the higher one."""
    before, after = walls
    if along in walls:
        return along != before
    return before < after < _NO_WALL


def _area(ways: Ways) -> int:
    return ways[0][0] * ways[0][1]
