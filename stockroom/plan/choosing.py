"""Which film to cut for a job: all its panels, the oldest sound film first, little waste.

choose(wanted, films, rules)     Choice: what is cut from which film, and what no film covers
layout_of(choice, place)         Layout of one part, with its cuts and the offcut that stays

In this order: as many panels as can be covered; the oldest film, where that wastes little more
than the best; offcuts before rolls, opened rolls before full ones; the least film drawn; the
pieces it fits best; the largest offcut that stays. The order in which panels and films are named
does not count, and the same input gives the same choice.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import permutations

from stockroom.plan.covering import Cover, Part, Rules, Workshop, fewer
from stockroom.plan.cuts import cuts
from stockroom.plan.layout import Knife, Layout, Placement, Stopped
from stockroom.plan.offcut import Rectangle as Kept
from stockroom.plan.offcut import offcut
from stockroom.plan.panels import Panel, Rectangle, least_length, ways_of
from stockroom.plan.stock import Age, Film, Form

_FEW = 4
"""So few films are tried in every order; more by rule."""
_MOST_FILMS = 40
_EFFORT = 1_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A panel, or several alike; those of one `group` must be of one lot, where it is not empty."""

    panel: Panel
    group: str = ""


@dataclass(frozen=True)
class Option:
    """One way to cover panels, with what it is judged by."""

    cover: Cover
    workshop: Workshop

    @property
    def parts(self) -> tuple[Part, ...]:
        """What is laid where."""
        return self.cover.parts

    @cached_property
    def missing(self) -> int:
        """The area of the panels that are left."""
        return self.workshop.area(self.cover.left)

    @cached_property
    def covered(self) -> int:
        """The area of the panels that are laid."""
        return sum(_area(part) for part in self.parts)

    @cached_property
    def offcuts(self) -> tuple[Kept | None, ...]:
        """The offcut that stays of each part; None where none is worth keeping."""
        rules = self.workshop.rules
        return tuple(
            offcut(
                part.spots,
                part.film.width,
                part.length,
                rules.keep,
                by_knife=rules.knife is Knife.STRAIGHT,
            )
            for part in self.parts
        )

    @cached_property
    def drawn(self) -> int:
        """The area of film that is drawn."""
        return sum(part.film.width * drawn for part, drawn in _drawn(self.parts))

    @cached_property
    def waste(self) -> int:
        """The area that is neither panel nor worth keeping, of the rest of an offcut too."""
        kept = sum(one[2] * one[3] for one in self.offcuts if one is not None)
        return self.drawn - self.covered - kept + sum(self._lost(part) for part in self.parts)

    def _lost(self, part: Part) -> int:
        """What is left of an offcut and too small to keep."""
        rest = max((ends for _, ends in part.film.stretches), default=0) - part.ends
        sides = sorted((part.film.width, rest))
        too_small = any(
            side < least
            for side, least in zip(sides, sorted(self.workshop.rules.keep), strict=True)
        )
        return part.film.width * rest if part.film.form is Form.OFFCUT and too_small else 0

    @cached_property
    def key(self) -> tuple[object, ...]:
        """What options are compared by; the least is the best."""
        parts = self.parts
        return (
            tuple(-sum(_area(part) for part in parts if part.film.age is age) for age in Age),
            tuple(
                sum(part.film.width * part.length for part in parts if part.film.form is form)
                for form in (Form.FULL, Form.OPENED)
            ),
            self.drawn,
            sum(part.film.width * part.film.length for part in parts),
            -max((one[2] * one[3] for one in self.offcuts if one is not None), default=0),
            len(parts),
            tuple((part.film.code, part.begins) for part in parts),
        )


@dataclass(frozen=True, slots=True)
class Choice:
    """What is cut, and the items no film covers; `items` are the panels, each singly."""

    items: tuple[Panel, ...]
    parts: tuple[Part, ...]
    offcuts: tuple[Kept | None, ...]
    left: tuple[int, ...]
    waste: int
    drawn: int


def choose(
    wanted: Iterable[Wanted], films: Iterable[Film], rules: Rules, *, effort: int | None = None
) -> Choice:
    """Choose film for panels and lay them out; `effort` evaluations are spent on short layouts."""
    ordered = sorted(
        (one for line in wanted for one in [line] * line.panel.number),
        key=lambda one: (
            -one.panel.across * one.panel.along,
            -one.panel.along,
            one.panel.name,
            one.panel.turns,
            one.group,
        ),
    )
    workshop = Workshop(tuple(replace(one.panel, number=1) for one in ordered), rules)
    groups = {
        name: tuple(place for place, one in enumerate(ordered) if one.group == name)
        for name in sorted({one.group for one in ordered})
    }
    stock = sorted(films, key=lambda one: (one.age, one.form, one.length, one.code))[:_MOST_FILMS]
    best = _best(_options(workshop, groups, stock), rules)
    most = fewer(_EFFORT, len(ordered)) if effort is None else effort
    share = most // max(1, len(best.parts))
    parts = tuple(workshop.shorter(part, share) for part in best.parts)
    final = Option(Cover(parts, best.cover.left), workshop)
    return Choice(
        items=tuple(workshop.items),
        parts=parts,
        offcuts=final.offcuts,
        left=final.cover.left,
        waste=final.waste,
        drawn=final.drawn,
    )


def _options(
    workshop: Workshop, groups: dict[str, tuple[int, ...]], stock: Sequence[Film]
) -> Iterator[Option]:
    """Ways to cover all groups: everything of one lot, and one group after the other."""
    everything = tuple(sorted(one for which in groups.values() for one in which))
    lots = [tuple(_of_lot(stock, lot)) for lot in sorted({one.matches for one in stock})]
    must_match = sorted(
        (name for name in groups if name), key=lambda name: (-workshop.area(groups[name]), name)
    )
    if not must_match:
        yield from _covers(workshop, everything, stock)
        return
    for films in lots:
        for option in _covers(workshop, everything, films):
            yield _whole_groups(option, groups)
    left, parts, missing = list(stock), list[Part](), list[int]()
    for name in must_match:
        of_lots = (_of_lot(left, lot) for lot in sorted({one.matches for one in left}))
        found = [one for films in of_lots for one in _covers(workshop, groups[name], list(films))]
        whole = [one for one in found if not one.cover.left]
        if not whole:
            missing += groups[name]
            continue
        best = _best(whole, workshop.rules)
        parts += best.parts
        left = _after(left, best.parts)
    rest = _best(_covers(workshop, groups.get("", ()), left), workshop.rules)
    yield Option(Cover((*parts, *rest.parts), (*missing, *rest.cover.left)), workshop)


def _whole_groups(option: Option, groups: dict[str, tuple[int, ...]]) -> Option:
    """The same without panels of a group of which some are missing: others would not match them."""
    torn = {
        one
        for name, which in groups.items()
        if name and set(which) & set(option.cover.left)
        for one in which
    }
    if torn <= set(option.cover.left):
        return option
    parts = (
        Part(part.film, part.begins, part.length, kept)
        for part in option.parts
        if (kept := tuple(spot for spot in part.spots if spot[0] not in torn))
    )
    left = tuple(sorted(torn | set(option.cover.left)))
    return Option(Cover(tuple(parts), left), option.workshop)


def _covers(workshop: Workshop, which: Sequence[int], films: Sequence[Film]) -> Iterator[Option]:
    """Ways to cover items, by the orders in which films are taken."""
    wanted = tuple(which)
    yield Option(Cover((), wanted), workshop)
    for order in _orders(films, workshop.area(wanted)):
        yield Option(workshop.cover(order, wanted), workshop)


def _orders(films: Sequence[Film], area: int) -> Iterator[Sequence[Film]]:
    """The orders in which films are taken: all of few; of many those of a rule, and each film that may do alone."""
    if len(films) <= _FEW:
        for number in range(1, len(films) + 1):
            yield from permutations(films, number)
        return
    by_rule = [
        list(films),
        sorted(films, key=lambda one: (one.form, one.age, one.length, one.code)),
        sorted(films, key=lambda one: (one.age, -one.length, one.code)),
        sorted(films, key=lambda one: (-one.length, one.code)),
    ]
    yield from by_rule
    for first in films:
        if first.width * first.length >= area:
            yield [first, *(one for one in films if one is not first)]


def _best(options: Iterable[Option], rules: Rules) -> Option:
    """The best that covers most, among those that waste little more than the least."""
    found = list(options)
    least = min(one.missing for one in found)
    covering = [one for one in found if one.missing == least]
    allowed = min(one.waste for one in covering) + rules.extra_waste * covering[0].covered
    return min((one for one in covering if one.waste <= allowed), key=lambda one: one.key)


def _after(films: Sequence[Film], parts: Sequence[Part]) -> list[Film]:
    """The films after these parts were drawn off them."""
    drawn = {part.film.code: part.ends for part in parts}
    return [one.without(drawn[one.code]) if one.code in drawn else one for one in films]


def _of_lot(films: Iterable[Film], lot: str) -> Iterator[Film]:
    return (one for one in films if one.matches == lot)


def _drawn(parts: Sequence[Part]) -> Iterator[tuple[Part, int]]:
    """How much each part draws off its film, with what lies before it and was not drawn yet."""
    reached: dict[str, int] = {}
    for part in sorted(parts, key=lambda one: (one.film.code, one.begins)):
        yield part, part.ends - reached.get(part.film.code, 0)
        reached[part.film.code] = part.ends


def _area(part: Part) -> int:
    return sum(spot[3] * spot[4] for spot in part.spots)


def layout_of(choice: Choice, place: int, knife: Knife) -> Layout:
    """A part as a layout, from where its stretch begins; the offcut that stays is cut out too."""
    part, kept = choice.parts[place], choice.offcuts[place]
    spots = [*part.spots, *([(-1, *kept)] if kept else [])]
    bound = least_length(
        [
            Rectangle(item.name, (item.across, item.along), ways_of(item, part.film.width))
            for item in (choice.items[spot[0]] for spot in part.spots)
        ],
        part.film.width,
    )
    return Layout(
        placements=tuple(
            Placement(
                name=choice.items[index].name,
                x=x,
                y=y,
                across=across,
                along=along,
                turned=(across, along) != (choice.items[index].across, choice.items[index].along),
            )
            for index, x, y, across, along in sorted(part.spots, key=lambda one: (one[2], one[1]))
        ),
        cuts=cuts(spots, part.film.width, part.length) if knife is Knife.STRAIGHT else None,
        width=part.film.width,
        length=part.length,
        bound=bound,
        evaluations=0,
        stopped_by=Stopped.EFFORT,
    )
