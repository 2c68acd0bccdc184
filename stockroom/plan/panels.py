"""What is to be covered, as the layout sees it: rectangles across by along, in whole units of length.

Panel                    one rectangle, or several alike, by name
Ways                     how a rectangle may lie: one size, or two where it may be turned
ways_of(panel, width)    how one may lie
rectangles(panels, …)    every panel singly, with the ways it fits, the largest first
least_length(…)          no layout is shorter
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from stockroom.errors import Code, Refusal, clean_text

Ways: TypeAlias = tuple[tuple[int, int], ...]
"""The sizes in which one rectangle may lie, across by along."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """So many rectangles alike; `turns` when the pattern and the film allow a quarter turn."""

    name: str
    across: int
    along: int
    number: int = 1
    turns: bool = False


@dataclass(frozen=True, slots=True)
class Rectangle:
    """One panel to lay, and the ways in which it fits the film."""

    name: str
    size: tuple[int, int]
    ways: Ways

    @property
    def area(self) -> int:
        """Its area, in square units."""
        return self.size[0] * self.size[1]


def rectangles(panels: Iterable[Panel], width: int) -> tuple[Rectangle, ...]:
    """Every panel singly, the largest first: the order in which they were named does not count.

    Refuses (TOO_NARROW) a panel that fits the film in no way it may lie.
    """
    ordered = sorted(panels, key=lambda one: (-one.across * one.along, -one.along, one.name))
    found: list[Rectangle] = []
    for panel in ordered:
        one = Rectangle(panel.name, (panel.across, panel.along), ways_of(panel, width))
        if not one.ways:
            name = clean_text(panel.name, 40)
            raise Refusal(
                Code.TOO_NARROW,
                f"'{name}' fits the film in no way it may lie: allow a seam, a turn or wider film.",
            )
        found += [one] * panel.number
    return tuple(found)


def ways_of(panel: Panel, width: int) -> Ways:
    """The sizes in which a panel may lie on film of a width; none where it is too wide."""
    sizes = [(panel.across, panel.along)]
    if panel.turns and panel.across != panel.along:
        sizes.append((panel.along, panel.across))
    return tuple(size for size in sizes if size[0] <= width)


def least_length(found: Sequence[Rectangle], width: int) -> int:
    """A length below which no layout can be: the area, the longest panel, and those that lie alone.

    Panels wider than half the film cannot lie beside one another, so their lengths add up.
    """
    area = -(-sum(one.area for one in found) // width)
    longest = max((min(along for _, along in one.ways) for one in found), default=0)
    wide = (one for one in found if all(across * 2 > width for across, _ in one.ways))
    return max(area, longest, sum(min(along for _, along in one.ways) for one in wide))
