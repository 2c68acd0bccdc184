"""Panels on film: none is lost, none overlaps, a straight knife parts them, and it repeats."""

from itertools import pairwise
from random import Random  # noqa: TID251 - seeded

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.errors import Code, Refusal
from stockroom.plan.cuts import Way, cuts
from stockroom.plan.layout import Knife, Layout, Stopped, lay_out, usual_effort
from stockroom.plan.panels import Panel, least_length, rectangles
from tests.plan.checking import Laid, comes_apart, overlaps, sizes, sticks_out

WIDTH = 1_500
EFFORT = 60

PANELS = st.lists(
    st.builds(
        Panel,
        name=st.sampled_from(["hall", "stairs", "front", "back"]),
        across=st.integers(1, WIDTH),
        along=st.integers(1, 3_000),
        number=st.integers(1, 4),
        turns=st.booleans(),
    ),
    min_size=1,
    max_size=8,
)
WAYS_TO_CUT = st.sampled_from([(Knife.STRAIGHT, None), (Knife.STRAIGHT, 900), (Knife.FREE, None)])


def chance(seed: int = 1) -> Random:
    """The same chance for the same seed."""
    return Random(seed)  # noqa: S311


def laid(layout: Layout) -> list[Laid]:
    """The layout as a stranger reads it."""
    return [(one.name, one.x, one.y, one.across, one.along) for one in layout.placements]


def asked(panels: list[Panel]) -> list[Laid]:
    """The panels singly, nowhere yet."""
    return [(one.name, 0, 0, one.across, one.along) for one in panels for _ in range(one.number)]


def planned(panels: list[Panel], seed: int = 1, effort: int = EFFORT) -> Layout:
    """Panels laid for a straight knife."""
    return lay_out(panels, WIDTH, chance=chance(seed), effort=effort)


def longest_segment(layout: Layout) -> int:
    """Between the cuts that go from one edge of the film to the other."""
    assert layout.cuts is not None
    across = [cut for cut in layout.cuts if cut.way is Way.ACROSS]
    whole = {cut.at for cut in across if (cut.begins, cut.ends) == (0, WIDTH)}
    return max(after - before for before, after in pairwise(sorted({0, *whole, layout.length})))


@given(PANELS, WAYS_TO_CUT, st.integers(0, 100))
@settings(max_examples=60, deadline=None)
def test_every_panel_is_laid_once_on_the_film(
    panels: list[Panel], how: tuple[Knife, int | None], seed: int
) -> None:
    """Whatever the panels, the knife and the chance."""
    knife, table = how
    found = lay_out(panels, WIDTH, chance=chance(seed), knife=knife, table=table, effort=EFFORT)
    spots = laid(found)

    assert overlaps(spots) == []
    assert sticks_out(spots, WIDTH, found.length) == []
    assert sizes(spots, turns=True) == sizes(asked(panels), turns=True)
    assert found.bound <= found.length
    assert 0 <= found.waste < 1
    if knife is Knife.STRAIGHT:
        assert comes_apart(spots)
        assert found.cuts is not None


@given(PANELS)
@settings(max_examples=25, deadline=None)
def test_a_panel_that_may_not_turn_lies_as_it_was_given(panels: list[Panel]) -> None:
    """A pattern, or metal in the film, has a direction."""
    fixed = [Panel(name=one.name, across=one.across, along=one.along) for one in panels]
    spots = laid(planned(fixed))
    assert sizes(spots, turns=False) == sizes(asked(fixed), turns=False)


@given(PANELS, st.randoms(use_true_random=False))
@settings(max_examples=25, deadline=None)
def test_the_order_in_which_panels_are_named_does_not_count(
    panels: list[Panel], hands: Random
) -> None:
    """The same panels, effort and seed give the same layout."""
    mixed = list(panels)
    hands.shuffle(mixed)
    assert planned(panels) == planned(panels)
    assert sorted(laid(planned(mixed))) == sorted(laid(planned(panels)))


@given(PANELS)
@settings(max_examples=25, deadline=None)
def test_more_effort_never_makes_it_longer(panels: list[Panel]) -> None:
    """The search keeps the best it found."""
    assert planned(panels, effort=2 * EFFORT).length <= planned(panels).length


def test_with_a_table_no_segment_is_longer_than_it() -> None:
    """Film is cut across first: nothing lies over a cut that goes from edge to edge."""
    panels = [
        Panel(name="hall", across=680, along=430, number=4),
        Panel(name="front", across=785, along=790, number=3),
        Panel(name="small", across=345, along=515, number=5),
    ]
    found = lay_out(panels, WIDTH, chance=chance(), table=1_000, effort=400)

    assert longest_segment(found) <= 1_000


def test_many_panels_are_laid_in_segments_too() -> None:
    """They are laid by region, for that takes less time; a long one is turned to fit the table."""
    hands = chance(7)
    panels = [
        Panel(name=f"p{n}", across=hands.randrange(200, 700), along=hands.randrange(300, 900))
        for n in range(110)
    ]
    long = Panel(name="long", across=400, along=1_400, turns=True)
    found = lay_out([*panels, long], WIDTH, chance=chance(), table=1_000, effort=160)

    assert overlaps(laid(found)) == []
    assert comes_apart(laid(found))
    assert sizes(laid(found), turns=True) == sizes(asked([*panels, long]), turns=True)
    assert longest_segment(found) <= 1_000


def test_a_table_shorter_than_a_panel_is_as_long_as_the_panel() -> None:
    """It hangs over the end."""
    found = lay_out(
        [Panel(name="door", across=900, along=2_100)], WIDTH, chance=chance(), table=1_000
    )
    assert found.length == 2_100


def test_what_cannot_be_shorter_stops_the_search() -> None:
    """Two strips of the whole width."""
    found = planned([Panel(name="strip", across=WIDTH, along=300, number=2)])
    assert (found.length, found.bound, found.stopped_by) == (600, 600, Stopped.BOUND)
    assert found.waste == 0
    assert found.cuts is not None
    assert [(cut.way, cut.at, cut.begins, cut.ends) for cut in found.cuts] == [
        (Way.ACROSS, 300, 0, WIDTH)
    ]


def test_time_ends_a_search_and_is_said() -> None:
    """It may not repeat, so it says so."""
    panels = [
        Panel(name="a", across=700, along=400, number=5),
        Panel(name="b", across=430, along=610, number=6),
    ]
    found = lay_out(panels, WIDTH, chance=chance(), effort=10_000_000, is_late=lambda: True)
    assert found.stopped_by is Stopped.SECONDS
    assert len(found.placements) == 11


def test_effort_is_the_number_of_layouts_tried() -> None:
    """Fewer where each takes long."""
    panels = [
        Panel(name="a", across=701, along=400, number=5),
        Panel(name="b", across=430, along=610, number=6),
    ]
    found = planned(panels, effort=150)
    assert (found.evaluations, found.stopped_by) == (150, Stopped.EFFORT)
    many = [Panel(name="a", across=700, along=400, number=1_000)]
    assert usual_effort(panels) > usual_effort(many) >= 1


@pytest.mark.parametrize(
    ("panels", "code"),
    [
        ([Panel(name="wide", across=1_600, along=1_700, turns=True)], Code.TOO_NARROW),
        ([Panel(name="wide", across=1_600, along=300)], Code.TOO_NARROW),
        ([], Code.BAD_USAGE),
        ([Panel(name="many", across=10, along=10, number=2_001)], Code.BAD_USAGE),
    ],
)
def test_what_cannot_be_laid_is_refused(panels: list[Panel], code: Code) -> None:
    """A panel wider than the film, no panel, too many."""
    with pytest.raises(Refusal) as caught:
        planned(panels)
    assert caught.value.code is code


def test_a_panel_that_fits_only_when_turned_is_turned() -> None:
    """1,600 across does not fit 1,500."""
    found = planned([Panel(name="wide", across=1_600, along=300, turns=True)])
    assert [(one.across, one.along, one.turned) for one in found.placements] == [(300, 1_600, True)]


def test_panels_that_interlock_have_no_cuts() -> None:
    """Four panels round a hole: no straight cut goes through."""
    wheel = [(0, 0, 0, 2, 1), (1, 2, 0, 1, 2), (2, 1, 2, 2, 1), (3, 0, 1, 1, 2)]
    assert cuts(wheel, 3, 3) is None
    assert not comes_apart([("p", *spot[1:]) for spot in wheel])


def test_a_strip_of_waste_between_panels_is_cut_on_both_sides() -> None:
    """And the film beyond the last panel is cut off."""
    found = cuts([(0, 0, 0, 10, 4), (1, 0, 6, 10, 4)], 12, 10)
    assert found is not None
    assert [(cut.way, cut.at) for cut in found] == [
        (Way.ACROSS, 4),
        (Way.ALONG, 10),
        (Way.ACROSS, 6),
        (Way.ALONG, 10),
    ]


def test_the_bound_counts_the_panels_that_can_only_lie_alone() -> None:
    """Two of more than half the width lie one after the other, whatever their area."""
    wide = rectangles([Panel(name="w", across=800, along=100, number=3)], WIDTH)
    assert least_length(wide, WIDTH) == 300
