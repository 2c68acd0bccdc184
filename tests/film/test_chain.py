"""A course in links tells what one course of all its readings tells."""

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.film.chain import Chain, Link
from stockroom.film.course import Course, course
from stockroom.film.exposure import History
from stockroom.film.heat import Rates, ageing_rate
from tests.film.integrating import directly

GAP_S = 50


def _chained(at_s: Sequence[int], levels: Sequence[float], each: int) -> tuple[Chain, list[int]]:
    """The chain of these readings with so many intervals a link, and the links that were fetched."""
    starts = range(0, max(len(at_s) - 1, 0), each)
    courses = [
        course(
            at_s[start : start + each + 1], levels[start : start + each + 1], longest_gap_s=GAP_S
        )
        for start in starts
    ]
    fetched: list[int] = []

    def fetch(place: int) -> Course:
        fetched.append(place)
        return courses[place]

    links = [Link(c.at_s[0], c.at_s[-1], c.amounts[-1], c.measured_s[-1]) for c in courses]
    return Chain(links, fetch), fetched


READINGS = st.lists(
    st.tuples(st.integers(1, 2 * GAP_S), st.floats(0.001, 50)), min_size=0, max_size=30
)


@given(READINGS, st.integers(1, 7), st.integers(-5, 1_700), st.integers(0, 1_700))
def test_any_stretch_is_that_of_direct_integration(
    steps: list[tuple[int, float]], each: int, start_s: int, length_s: int
) -> None:
    """Wherever it begins and ends: in a gap, at a joint, outside of all readings."""
    at_s = [sum(step for step, _ in steps[: count + 1]) for count in range(len(steps))]
    levels = [level for _, level in steps]
    chain, _ = _chained(at_s, levels, each)

    for _ in range(2):  # asked again, what is kept says the same
        found = chain.between(start_s, start_s + length_s)

        amount, measured_s = directly(
            list(zip(at_s, levels, strict=True)), start_s, start_s + length_s, GAP_S
        )
        assert found.amount == pytest.approx(amount, rel=1e-9, abs=1e-9)
        assert found.measured_s == measured_s


def test_only_the_links_at_the_ends_are_fetched_and_an_end_is_kept() -> None:
    """What lies between is told by the links themselves."""
    chain, fetched = _chained(range(0, 1_000, 10), [1.0] * 100, each=10)

    assert chain.between(55, 905) == (850, 850)
    assert chain.between(155, 905) == (750, 750)
    assert fetched == [0, 9, 1]


def test_a_short_stretch_about_a_joint_is_exact() -> None:
    """Long sums on both sides must not blur a second of little."""
    at_s = list(range(0, 3_000_000, 10))
    levels = [60.0] * 150_000 + [0.01] * 150_000
    chain, _ = _chained(at_s, levels, each=150_100)
    joint_s = at_s[150_100]

    for seconds in (1, 10, 500):
        found = chain.between(joint_s - seconds, joint_s + seconds)
        assert found.amount == pytest.approx(2 * seconds * 0.01, rel=1e-9)


def test_a_stretch_that_ends_before_it_starts_is_an_error() -> None:
    """There is no time to ask about."""
    chain, _ = _chained([], [], each=1)

    with pytest.raises(ValueError, match="ends before it starts"):
        chain.between(1, 0)


def test_rates_are_worked_out_one_by_one() -> None:
    """A history of a chain ages film like one of a course."""
    temperatures_c = [20.0, 25.0, 30.0]
    rates = Rates(temperatures_c, 60.0)

    assert list(rates) == [ageing_rate(one, 60.0) for one in temperatures_c]
    assert list(rates[1:]) == list(rates)[1:]
    chain, _ = _chained([0, 10, 20], rates, each=1)
    history = History(rates=chain, energy_kj=60.0, reference_c=23.0)
    whole = History(rates=course([0, 10, 20], list(rates)), energy_kj=60.0, reference_c=23.0)
    assert history.between(5, 15) == pytest.approx(whole.between(5, 15), rel=1e-12)
