"""Running sums: any stretch of time, as if it had been added reading by reading."""

from collections.abc import Sequence

import pytest

from stockroom.film.course import Course, Measure, above, below, course, outside, under_line
from tests.film.histories import HOUR_S

GAP_S = HOUR_S
# Hours and levels: two readings, a gap of five hours, a lone reading, another gap, two more.
PATCHY = ((0, 20.0), (1, 22.0), (6, 30.0), (12, 40.0), (13, 36.0))


def _made(
    readings: Sequence[tuple[int, float]],
    measure: Measure = under_line,
    longest_gap_s: int | None = None,
) -> Course:
    at_s, levels = [at for at, _ in readings], [level for _, level in readings]
    return course(at_s, levels, measure, longest_gap_s)


def _course(
    readings: Sequence[tuple[float, float]],
    measure: Measure = under_line,
    longest_gap_s: int | None = None,
) -> Course:
    """The same, for readings at hours."""
    at_hours = [(round(hours * HOUR_S), level) for hours, level in readings]
    return _made(at_hours, measure, longest_gap_s)


def _hours(amount: float) -> float:
    return amount / 3_600


def test_a_short_stretch_late_in_a_long_course_is_as_exact() -> None:
    """Three years of readings, the last of them cold: the sum before must not blur the seconds after."""
    count = 300_000
    readings = [(number * 300, 60.0) for number in range(count)]
    readings += [((count + number) * 300, 0.01) for number in range(200)]
    made = _made(readings)
    end_s = readings[-1][0]

    for back_s in (1, 299, 3_000, 40_000):
        start_s = end_s - back_s

        assert made.between(start_s, end_s).amount == pytest.approx(back_s * 0.01, rel=1e-9)


@pytest.mark.parametrize(
    ("start", "end", "amount", "measured"),
    [
        (0, 1, 21.0, 1),
        (0.5, 1, 10.75, 0.5),
        (0, 0.5, 10.25, 0.5),
        (0.25, 0.75, 10.5, 0.5),
        (-3, 0.5, 10.25, 0.5),
        (0.5, 3, 10.75, 0.5),
        (3, 4, 0, 0),
        (3, 12.5, 19.5, 0.5),
        (3, 9, 0, 0),
        (6, 12, 0, 0),
        (12, 20, 38, 1),
        (13, 20, 0, 0),
        (-5, -1, 0, 0),
        (-5, 99, 59.0, 2),
        (0.5, 0.5, 0, 0),
    ],
)
def test_a_gap_adds_nothing_wherever_the_stretch_begins_or_ends(
    start: float, end: float, amount: float, measured: float
) -> None:
    """Degree hours and hours, by hand; an instant inside a gap belongs to no line."""
    found = _course(PATCHY, longest_gap_s=GAP_S).between(round(start * HOUR_S), round(end * HOUR_S))

    assert _hours(found.amount) == pytest.approx(amount)
    assert found.measured_s == measured * HOUR_S


@pytest.mark.parametrize(
    ("hours", "level"),
    [(-1, None), (0, 20.0), (0.5, 21.0), (1, 22.0), (3, None), (6, 30.0), (12.5, 38.0), (14, None)],
)
def test_the_level_is_known_where_readings_are_near_enough(
    hours: float, level: float | None
) -> None:
    """A lone reading tells its own instant."""
    made = _course(PATCHY, longest_gap_s=GAP_S)

    assert made.level_at(round(hours * HOUR_S)) == level


def test_without_a_longest_gap_all_between_readings_counts() -> None:
    """From the first to the last."""
    made = _course(PATCHY)

    assert made.between(0, 13 * HOUR_S).measured_s == 13 * HOUR_S
    assert made.level_at(9 * HOUR_S) == pytest.approx(35.0)


def test_a_gap_as_long_as_the_limit_still_counts() -> None:
    """Only a longer one is unknown."""
    exact = _course([(0, 20.0), (1, 20.0)], longest_gap_s=GAP_S)
    longer = _course([(0, 20.0), (3_601 / 3_600, 20.0)], longest_gap_s=GAP_S)

    assert exact.between(0, GAP_S).measured_s == GAP_S
    assert longer.between(0, GAP_S).measured_s == 0


@pytest.mark.parametrize(
    ("limit", "hours_above", "hours_below"),
    [(19, 4, 0), (20, 4, 0), (25, 2, 2), (30, 0, 4), (31, 0, 4), (22.5, 3, 1)],
)
def test_a_limit_is_crossed_at_one_instant(
    limit: float, hours_above: float, hours_below: float
) -> None:
    """Two hours up from 20 to 30, two down again."""
    readings = [(0, 20.0), (2, 30.0), (4, 20.0)]

    over = _course(readings, measure=above(limit)).between(0, 4 * HOUR_S)
    under = _course(readings, measure=below(limit)).between(0, 4 * HOUR_S)

    assert _hours(over.amount) == pytest.approx(hours_above)
    assert _hours(under.amount) == pytest.approx(hours_below)


def test_what_stays_at_a_limit_is_neither_above_nor_below_it() -> None:
    """Wherever the stretch is cut: 25 °C all day is no hour above 25 °C."""
    for limit in (25.0, 0.1, 24.3):
        readings = [(0, limit), (3, limit)]
        for measure in (above(limit), below(limit), outside(limit, limit)):
            made = _course(readings, measure=measure)

            assert made.between(HOUR_S // 7, HOUR_S * 2 // 3).amount == 0


def test_a_course_of_no_readings_tells_nothing() -> None:
    """And of one, nothing but its instant."""
    for made in (_course([]), _course([(1, 20.0)])):
        assert made.between(-HOUR_S, 5 * HOUR_S) == (0.0, 0)
        assert list(made.lines(0, HOUR_S)) == []
    assert _course([(1, 20.0)]).level_at(HOUR_S) == 20.0


@pytest.mark.parametrize(
    "readings",
    [
        [(1, 20.0), (1, 21.0)],
        [(2, 20.0), (1, 21.0)],
        [(0, float("nan"))],
        [(0, 20.0), (1, float("inf"))],
    ],
)
def test_readings_that_cannot_be_in_order_are_an_error(
    readings: list[tuple[float, float]],
) -> None:
    """Whoever reads them sorts them, and drops what is no number."""
    with pytest.raises(ValueError, match="in order of time"):
        _course(readings)


@pytest.mark.parametrize("hours", [-1, 0, 0.5, 1, 3, 6, 12.5, 13, 20])
def test_what_came_together_up_to_an_instant_is_a_stretch_without_a_beginning(hours: float) -> None:
    """Inside a gap and outside of all readings as well."""
    made = _course(PATCHY, longest_gap_s=GAP_S)
    instant_s = round(hours * HOUR_S)

    assert made.upto(instant_s) == made.between(min(0, instant_s), instant_s)


def test_a_course_is_not_continued_into_its_past() -> None:
    """A late reading is put in where it belongs, from there on anew."""
    with pytest.raises(ValueError, match="in order of time"):
        _course(PATCHY).followed_by([13 * HOUR_S], [20.0])


def test_a_stretch_that_ends_before_it_starts_is_an_error() -> None:
    """There is no time to ask about."""
    with pytest.raises(ValueError, match="ends before it starts"):
        _course(PATCHY).between(HOUR_S, 0)
