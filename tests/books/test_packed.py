"""Readings take few bytes, and come back to the last bit."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.books.packed import packed, unpacked
from stockroom.film.course import measured

HEAD, HALF, WHOLE = 32, 2, 8
GAP_S = 3_600
SECONDS = st.integers(-(2**40), 2**40)
LEVELS = st.one_of(
    st.integers(-32_767, 32_767).map(lambda number: number / 100),
    st.floats(-80, 130),
    st.sampled_from([327.67, 327.68, -327.68, 21.370000000000001, -0.0]),
)
EVEN = st.integers(1, 4_000).map(lambda step: [step] * 9)
STEPS = st.one_of(EVEN, st.lists(st.integers(1, 4_000), min_size=1, max_size=12))


@given(SECONDS, STEPS, st.lists(LEVELS, min_size=13, max_size=13))
def test_what_was_packed_comes_back_as_it_was(
    first_s: int, steps: list[int], levels: list[float]
) -> None:
    """Even steps and uneven ones, hundredths and finer levels, with gaps and without."""
    at_s = [first_s]
    for step_s in steps:
        at_s.append(at_s[-1] + step_s)
    levels = levels[: len(at_s)]
    upto = measured(at_s, GAP_S)

    found_at_s, found_levels, found_upto = unpacked(packed(at_s, levels, upto))

    assert list(found_at_s) == at_s
    assert list(found_levels) == levels
    assert list(found_upto) == list(upto)
    assert [found_levels[place] for place in range(len(at_s))] == levels
    assert list(found_levels[1:3]) == levels[1:3]
    assert found_upto[-1] == upto[-1]


@pytest.mark.parametrize(
    ("at_s", "levels", "size"),
    [
        pytest.param(range(0, 6_000, 60), [21.37] * 100, HALF * 100, id="even, to a hundredth"),
        pytest.param(range(0, 6_000, 60), [21.375] * 100, WHOLE * 100, id="even, finer"),
        pytest.param(
            [*range(0, 5_940, 60), 6_000], [21.37] * 100, (WHOLE + HALF) * 100, id="one is late"
        ),
        pytest.param(
            range(0, 400_000, 4_000), [21.37] * 100, (HALF + WHOLE) * 100, id="even, all too far"
        ),
    ],
)
def test_most_readings_take_two_bytes(at_s: list[int], levels: list[float], size: int) -> None:
    """And those that are not so take what they need."""
    assert len(packed(at_s, levels, measured(at_s, GAP_S))) == HEAD + size
