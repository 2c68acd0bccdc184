"""Panels laid out on film of one width, with as little length as a search of given effort finds.

lay_out(panels, width, …)    Layout: where each panel lies, the cuts, how near to the bound it is
usual_effort(panels)         how many evaluations are worth their time
search_of(found, …)          a search that has yet to run
starts(found, …)             the ways to lay them that come before any search
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import partial

from stockroom.errors import Code, Refusal
from stockroom.plan import guillotine, segments, skyline
from stockroom.plan.blocks import arranged, by_region
from stockroom.plan.cuts import Cut, cuts
from stockroom.plan.guillotine import STYLES, Filled, Style
from stockroom.plan.orders import Fill, ordered, orders
from stockroom.plan.panels import Panel, Rectangle, rectangles
from stockroom.plan.search import Chance, Lay, Search

USUAL_EFFORT = 20_000
MOST_PANELS = 2_000
_SLICE = 5_000
"""So many panels are laid before a search is asked whether it is late."""
_LEAST_EFFORT = 100
_SMALL = 50
_MANY = 100


class Knife(StrEnum):
    """What film is cut with."""

    STRAIGHT = "straight"  # by hand: from edge to edge
    FREE = "free"  # by a machine, round each panel


class Stopped(StrEnum):
    """Why the search ended."""

    BOUND = "bound"  # nothing shorter can be
    EFFORT = "effort"
    SECONDS = "seconds"


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """Where one panel lies on the film: its corner, and its size as it lies."""

    name: str
    x: int
    y: int
    across: int
    along: int
    turned: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """Every panel's place, in whole units; `cuts` is None where only a machine can cut it."""

    placements: tuple[Placement, ...]
    cuts: tuple[Cut, ...] | None
    width: int
    length: int
    bound: int
    evaluations: int
    stopped_by: Stopped

    @property
    def waste(self) -> float:
        """The part of the film taken that is no panel, from 0 to 1."""
        taken = self.width * self.length
        return 1 - sum(one.across * one.along for one in self.placements) / taken


def usual_effort(panels: Sequence[Panel]) -> int:
    """Evaluations worth their time: fewer where each takes long, for it grows with the square."""
    number = sum(panel.number for panel in panels)
    return max(_LEAST_EFFORT, round(USUAL_EFFORT / max(1, number / _SMALL) ** 2))


def lay_out(  # noqa: PLR0913 - what a search needs to be repeated
    panels: Sequence[Panel],
    width: int,
    *,
    chance: Chance,
    knife: Knife = Knife.STRAIGHT,
    table: int | None = None,
    effort: int | None = None,
    is_late: Callable[[], bool] = lambda: False,
) -> Layout:
    """Lay panels on film of a width; the same panels, effort and chance give the same layout.

    With a `table`, film is first cut across into segments no longer than that. `is_late` ends the
    search early. Refuses (TOO_NARROW, BAD_USAGE) what cannot be laid.
    """
    found = rectangles(panels, width)
    if not 0 < len(found) <= MOST_PANELS:
        raise Refusal(
            Code.BAD_USAGE, f"{len(found)} panels to lay: give from 1 to {MOST_PANELS:,}."
        )
    search = search_of(found, width, knife, table, chance)
    most = usual_effort(panels) if effort is None else effort
    stopped = _run(search, most, is_late)
    return Layout(
        placements=_placements(search, found),
        cuts=cuts(search.spots, width, search.length),
        width=width,
        length=search.length,
        bound=search.bound,
        evaluations=search.evaluations,
        stopped_by=stopped,
    )


def _run(search: Search, effort: int, is_late: Callable[[], bool]) -> Stopped:
    """In slices, so that the search can be ended, and drawn, while it runs; the first always runs."""
    each = max(1, _SLICE // len(search.found))
    while search.run(min(each, max(1, effort - search.evaluations))):
        if search.evaluations >= effort:
            return Stopped.EFFORT
        if is_late():
            return Stopped.SECONDS
    return Stopped.BOUND


def search_of(
    found: Sequence[Rectangle], width: int, knife: Knife, table: int | None, chance: Chance
) -> Search:
    """A search for a short layout, which has yet to run."""
    by_rule = starts(found, width, knife, table)
    if knife is Knife.STRAIGHT and (table is None or len(found) > _MANY):
        begin = partial(arranged, found, width, _longest(found, table))
        return Search(found, width, by_rule, begin, chance)
    fill = _filling(found, width, knife, table)
    return Search(found, width, by_rule, partial(ordered, found, fill, _styles(knife)), chance)


def starts(
    found: Sequence[Rectangle], width: int, knife: Knife, table: int | None
) -> Iterator[Lay]:
    """Every order and style that common sense would try; many panels by region, which takes less time."""
    if knife is Knife.STRAIGHT and len(found) > _MANY:
        yield from by_region(found, width, _longest(found, table))
        return
    fill = _filling(found, width, knife, table)
    for order in orders(found):
        yield from (partial(fill, order, style) for style in _styles(knife))


def _styles(knife: Knife) -> Sequence[Style]:
    """The styles that differ for a knife: a machine has no cuts to part film by."""
    return STYLES if knife is Knife.STRAIGHT else STYLES[:1]


def _filling(found: Sequence[Rectangle], width: int, knife: Knife, table: int | None) -> Fill:
    """How panels are laid one by one."""
    ways = [one.ways for one in found]
    if knife is Knife.FREE:

        def freely(order: Sequence[int], _style: Style, cap: int) -> Filled:
            return skyline.fill(ways, order, (width, cap))

        return freely
    if table is None:

        def whole(order: Sequence[int], style: Style, cap: int) -> Filled:
            return guillotine.fill(ways, order, style, (width, cap))

        return whole
    longest = _longest(found, table) or 0

    def in_segments(order: Sequence[int], style: Style, cap: int) -> Filled:
        return segments.fill(ways, order, style, (width, cap), longest)

    return in_segments


def _longest(found: Sequence[Rectangle], table: int | None) -> int | None:
    """The longest segment: as the table, or as the longest panel, which hangs over."""
    if table is None:
        return None
    return max(table, *(min(along for _, along in one.ways) for one in found))


def _placements(search: Search, found: Sequence[Rectangle]) -> tuple[Placement, ...]:
    """From the outer end on, and from edge to edge."""
    laid = sorted(search.spots, key=lambda spot: (spot[2], spot[1]))
    return tuple(
        Placement(
            name=found[index].name,
            x=x,
            y=y,
            across=across,
            along=along,
            turned=(across, along) != found[index].size,
        )
        for index, x, y, across, along in laid
    )
