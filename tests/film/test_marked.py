"""A course of which every fourth sum is known says what one says that knows them all."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.film.course import Course, above, course, under_line
from stockroom.film.marked import EACH, marked

GAP_S = 600
READINGS = st.lists(
    st.tuples(st.integers(1, 900), st.floats(-20, 60)), min_size=2, max_size=3 * EACH + 1
)


def _courses(steps: list[tuple[int, float]], limit_c: float | None) -> tuple[Course, Course]:
    """All sums known, and every fourth."""
    at_s = [sum(step for step, _ in steps[: place + 1]) for place in range(len(steps))]
    measure = under_line if limit_c is None else above(limit_c)
    whole = course(at_s, [level for _, level in steps], measure, GAP_S)
    few = marked(
        at_s=whole.at_s,
        levels=whole.levels,
        known=whole.amounts[::EACH] if whole.amounts[-1] else (),
        measured_s=whole.measured_s,
        measure=measure,
        longest_gap_s=GAP_S,
    )
    return whole, few


@given(READINGS, st.sampled_from([None, 20.0, 70.0]))
def test_each_sum_is_the_one_that_was_left_out(
    steps: list[tuple[int, float]], limit_c: float | None
) -> None:
    """Gaps that tell nothing among them; those counted from the end, and several at once, too."""
    whole, few = _courses(steps, limit_c)

    assert list(few.amounts) == pytest.approx(list(whole.amounts), rel=1e-12, abs=1e-9)
    assert few.amounts[-1] == pytest.approx(whole.amounts[-1], rel=1e-12, abs=1e-9)
    assert few.amounts[1:3] == pytest.approx(whole.amounts[1:3], rel=1e-12, abs=1e-9)
    assert len(few.amounts) == len(steps)


@given(READINGS, st.integers(0, 12_000))
def test_what_came_together_up_to_an_instant_is_the_same(
    steps: list[tuple[int, float]], instant_s: int
) -> None:
    """Before the first reading, between two, in a gap and after the last."""
    whole, few = _courses(steps, None)

    assert few.upto(instant_s) == pytest.approx(whole.upto(instant_s), rel=1e-12, abs=1e-9)


@given(st.lists(st.floats(-20, 60), min_size=2, max_size=3 * EACH + 1), st.integers(-90, 900))
def test_among_even_readings_it_is_the_same(levels: list[float], instant_s: int) -> None:
    """As most loggers read; there it is found in one go."""
    at_s = range(60, 60 + 50 * len(levels), 50)
    whole = course(at_s, levels, under_line, GAP_S)
    few = marked(
        at_s=at_s,
        levels=levels,
        known=whole.amounts[::EACH],
        measured_s=range(0, 50 * len(levels), 50),
        measure=under_line,
        longest_gap_s=GAP_S,
    )

    assert few.upto(instant_s) == pytest.approx(whole.upto(instant_s), rel=1e-12, abs=1e-9)
