"""Panels joined into blocks, and blocks laid region by region: what a walk for a straight knife goes over.

Each block is cut out of the film whole and parted afterwards, so every layout can be cut. The walk
moves blocks in their order, joins two whose sides are nearly as long, parts one again, or changes
how the film beside one is cut. Panels of no equal side can so still meet in one straight line.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import NamedTuple, TypeVar

from stockroom.plan import regions
from stockroom.plan.guillotine import SPLITS, Filled, Free, Split, Spot
from stockroom.plan.orders import moved, near_a_rule, orders
from stockroom.plan.panels import Rectangle, Ways
from stockroom.plan.regions import LOOKS, Look, Manner, cut_across
from stockroom.plan.search import Chance

_CANDIDATES = 8
"""So many blocks are looked at for one that another is joined with."""


class Block(NamedTuple):
    """One panel, by its number, or two blocks that lie side by side or one behind the other.

    `split` is how film is cut beside it; None: as beside the others.
    """

    ways: Ways
    split: Split | None = None
    panel: int = -1
    parts: tuple["Part", ...] = ()


class Part(NamedTuple):
    """A block inside another: where it begins there, and its size as it lies."""

    block: Block
    x: int
    y: int
    across: int
    along: int


def spots_of(part: Part) -> Iterator[Spot]:
    """Where the panels of a block lie."""
    waiting = [part]
    while waiting:
        block, x, y, across, along = waiting.pop()
        if not block.parts:
            yield block.panel, x, y, across, along
        waiting += (one._replace(x=x + one.x, y=y + one.y) for one in block.parts)


class Join(NamedTuple):
    """Two blocks as one: the film that is wasted between them, the parts, and the size of both."""

    waste: int
    parts: tuple[Part, Part]
    size: tuple[int, int]


def joins(one: Block, other: Block, room: tuple[int, int]) -> Iterator[Join]:
    """The ways in which two blocks can lie as one inside a room."""
    for a, b in one.ways:
        for c, d in other.ways:
            first = Part(one, 0, 0, a, b)
            if a + c <= room[0]:
                waste = (b - d) * c if b > d else (d - b) * a
                yield Join(waste, (first, Part(other, a, 0, c, d)), (a + c, max(b, d)))
            if b + d <= room[1]:
                waste = (a - c) * d if a > c else (c - a) * b
                yield Join(waste, (first, Part(other, 0, b, c, d)), (max(a, c), b + d))


@dataclass(frozen=True, slots=True)
class Arranged:
    """Blocks in the order in which they are laid into film of a width, and how it is cut beside them.

    With a `longest`, film is first cut across into segments no longer than that.
    """

    width: int
    blocks: tuple[Block, ...]
    look: Look
    split: Split
    longest: int | None = None

    def lay(self, cap: int) -> Filled:
        """All panels in film of a length; where some are missing, their area, and no spots."""
        ways = [block.ways for block in self.blocks]
        splits = [block.split or self.split for block in self.blocks]
        manner = Manner(self.look, splits, self.longest is not None)
        laid = regions.fill(ways, range(len(ways)), manner, (self.width, cap))
        if laid.missing:
            return Filled([], laid.missing)
        spots = (spots_of(Part(self.blocks[one], *where)) for one, *where in laid.spots)
        return Filled([spot for block in spots for spot in block], 0)

    def changed(self, chance: Chance, cap: int) -> "Arranged":
        """The same with one change."""
        where = chance.random()
        for most, change in _CHANGES:
            where -= most
            if where < 0:
                return change(self, chance, cap)
        return replace(self, blocks=moved(self.blocks, _are_alike, chance))


def by_region(
    found: Sequence[Rectangle], width: int, longest: int | None
) -> Iterator[Callable[[int], Filled]]:
    """The largest first by each rule, in each manner; in segments no longer than the `longest`."""
    blocks = _singly(found, longest)
    for order, look, split in product(orders(found), LOOKS, SPLITS):
        yield Arranged(width, tuple(blocks[index] for index in order), look, split, longest).lay


def arranged(
    found: Sequence[Rectangle], width: int, longest: int | None, chance: Chance
) -> Arranged:
    """Each panel a block, in an order near some rule."""
    blocks = _singly(found, longest)
    order = near_a_rule(found, chance)
    look, split = _one_of(LOOKS, chance), _one_of(SPLITS, chance)
    return Arranged(width, tuple(blocks[index] for index in order), look, split, longest)


def _singly(found: Sequence[Rectangle], longest: int | None) -> list[Block]:
    """Each panel a block, in the ways in which it is no longer than a segment."""
    ways = (
        tuple(size for size in one.ways if longest is None or size[1] <= longest) for one in found
    )
    return [Block(sizes, panel=index) for index, sizes in enumerate(ways)]


def _restyled(here: Arranged, chance: Chance, _cap: int) -> Arranged:
    if chance.random() < 1 / 2:
        return replace(here, split=_one_of(SPLITS, chance))
    return replace(here, look=_one_of(LOOKS, chance))


def _along(_free: Free, _across: int, _along: int) -> bool:
    return False


def _cut_otherwise(here: Arranged, chance: Chance, _cap: int) -> Arranged:
    """One block with a cut of its own beside it, or with that of the others again."""
    place = chance.randrange(len(here.blocks))
    split = _one_of((cut_across, _along, None), chance)
    return _with(here, place, here.blocks[place]._replace(split=split))


def _joined(here: Arranged, chance: Chance, cap: int) -> Arranged:
    """One block with another that leaves the least waste between them, of some."""
    place = chance.randrange(len(here.blocks))
    room = (here.width, cap if here.longest is None else min(cap, here.longest))
    best: tuple[Join, int] | None = None
    for _ in range(_CANDIDATES):
        other = chance.randrange(len(here.blocks))
        if other == place:
            continue
        for join in joins(here.blocks[place], here.blocks[other], room):
            if best is None or join.waste < best[0].waste:
                best = join, other
    if best is None:
        return here
    join, gone = best
    both = _with(here, place, Block((join.size,), parts=join.parts))
    return replace(both, blocks=both.blocks[:gone] + both.blocks[gone + 1 :])


def _parted(here: Arranged, chance: Chance, _cap: int) -> Arranged:
    """One block parted again: a part stays in its place, the other follows, or goes anywhere."""
    places = [place for place, block in enumerate(here.blocks) if block.parts]
    if not places:
        return here
    place = _one_of(places, chance)
    parts = [part.block for part in here.blocks[place].parts]
    stays = chance.randrange(2)
    blocks = list(here.blocks)
    blocks[place] = parts[stays]
    goes = place + 1 if chance.random() < 1 / 2 else chance.randrange(len(blocks) + 1)
    blocks.insert(goes, parts[1 - stays])
    return replace(here, blocks=tuple(blocks))


_CHANGES: tuple[tuple[float, Callable[[Arranged, Chance, int], Arranged]], ...] = (
    (0.05, _restyled),
    (0.1, _cut_otherwise),
    (0.1, _joined),
    (0.1, _parted),
)
"""How often each change is made; all else moves blocks in their order."""


def _with(here: Arranged, place: int, block: Block) -> Arranged:
    return replace(here, blocks=(*here.blocks[:place], block, *here.blocks[place + 1 :]))


def _are_alike(one: Block, other: Block) -> bool:
    return one.ways == other.ways and one.split is other.split


_Thing = TypeVar("_Thing")


def _one_of(things: Sequence[_Thing], chance: Chance) -> _Thing:
    return things[chance.randrange(len(things))]
