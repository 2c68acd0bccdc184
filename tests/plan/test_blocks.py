"""Panels joined into blocks: whatever the walk does to them, all are laid, and a knife parts them."""

from itertools import pairwise
from random import Random  # noqa: TID251 - seeded

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from stockroom.plan.blocks import Arranged, Block, arranged, joins
from stockroom.plan.guillotine import SPLITS, Filled
from stockroom.plan.panels import Panel, Rectangle, rectangles
from stockroom.plan.regions import LOOKS, Manner, fill
from stockroom.plan.search import Search
from tests.plan.checking import Laid, comes_apart, overlaps, sizes, sticks_out

WIDTH = 1_500
PANELS = st.lists(
    st.builds(
        Panel,
        name=st.just("p"),
        across=st.integers(1, WIDTH),
        along=st.integers(1, 3_000),
        number=st.integers(1, 4),
        turns=st.booleans(),
    ),
    min_size=1,
    max_size=8,
)
NEWEST, BY_LESS_LEFT = LOOKS[0], SPLITS[0]


def laid(filled: Filled) -> list[Laid]:
    """Spots as a stranger reads them."""
    return [("p", *spot[1:]) for spot in filled.spots]


def asked(found: tuple[Rectangle, ...]) -> list[Laid]:
    """The panels, nowhere yet."""
    return [("p", 0, 0, *one.size) for one in found]


def walked(found: tuple[Rectangle, ...], seed: int, changes: int) -> Arranged:
    """Where chance leads after so many changes."""
    chance = Random(seed)  # noqa: S311
    here = arranged(found, WIDTH, None, chance)
    for _ in range(changes):
        here = here.changed(chance, 4_000)
    return here


@given(PANELS, st.integers(0, 1_000), st.integers(0, 80))
@settings(max_examples=40, deadline=None)
def test_after_any_changes_every_panel_is_laid_and_a_knife_parts_them(
    panels: list[Panel], seed: int, changes: int
) -> None:
    """However blocks were joined and parted meanwhile."""
    found = rectangles(panels, WIDTH)
    more_than_enough = 4_000 * len(found) + WIDTH
    filled = walked(found, seed, changes).lay(more_than_enough)
    spots = laid(filled)

    assume(
        not filled.missing
    )  # film cut into strips along may hold nothing wide, however long it is
    assert sorted(spot[0] for spot in filled.spots) == list(range(len(found)))
    assert overlaps(spots) == []
    assert sticks_out(spots, WIDTH, more_than_enough) == []
    assert sizes(spots, turns=True) == sizes(asked(found), turns=True)
    assert comes_apart(spots)


def test_what_finds_no_room_is_missing_and_lies_nowhere() -> None:
    """A layout with a panel too few is none."""
    found = rectangles([Panel(name="p", across=800, along=500, number=3)], WIDTH)
    filled = walked(found, 1, 0).lay(1_000)
    assert (filled.missing, filled.spots) == (800 * 500, [])


def test_blocks_are_joined_side_by_side_or_one_behind_the_other() -> None:
    """What is wasted is the step between them; what does not fit the room is no join."""
    tall, flat = Block(((4, 9),), panel=0), Block(((6, 2), (2, 6)), panel=1)
    assert [(join.size, join.waste) for join in joins(tall, flat, (10, 14))] == [
        ((10, 9), 7 * 6),
        ((6, 11), 2 * 9),
        ((6, 9), 3 * 2),
    ]


def test_what_fills_a_region_goes_before_what_is_first_in_the_order() -> None:
    """From edge to edge in both ways first, then across, then along, then whatever fits."""
    ways = [((3, 3),), ((4, 8),), ((10, 2),), ((4, 6),), ((6, 8),)]
    manner = Manner(NEWEST, [BY_LESS_LEFT] * len(ways))
    filled = fill(ways, range(len(ways)), manner, (10, 10))
    assert [spot[0] for spot in filled.spots] == [2, 1, 4]
    assert filled.missing == 3 * 3 + 4 * 6


def test_of_two_ways_to_lie_only_one_is_taken() -> None:
    """A panel that may be turned is still one panel."""
    ways = [((2, 5), (5, 2)), ((5, 2), (2, 5))]
    manner = Manner(NEWEST, [BY_LESS_LEFT] * 2)
    filled = fill(ways, (1, 0), manner, (5, 4))
    assert sorted(spot[0] for spot in filled.spots) == [0, 1]
    assert {spot[3:] for spot in filled.spots} == {(5, 2)}


def test_a_walk_goes_on_from_the_best_that_was_found() -> None:
    """Each layout is shorter than the one before, and it ends at the bound."""
    sizes_of = [(2, 7)] * 2 + [(1, 8)] * 3 + [(1, 3)] * 4 + [(3, 2)] * 2 + [(2, 1)] * 4
    found = rectangles([Panel(name="p", across=a, along=b) for a, b in sizes_of], 6)
    chance = Random(1)  # noqa: S311
    start = arranged(found, 6, None, chance)
    search = Search(found, 6, (start.lay,), lambda chance: arranged(found, 6, None, chance), chance)
    lengths: list[int] = []
    while search.run(50) and search.evaluations < 20_000:
        lengths.append(search.length)
    assert all(later <= earlier for earlier, later in pairwise(lengths))
    assert search.length == search.bound == 14
    assert comes_apart([("p", *spot[1:]) for spot in search.spots])
