"""What the air was like over a stretch of time."""

from math import nan

import pytest

from stockroom.film.climate import Band, Climate, climate, is_humidity, is_temperature
from stockroom.film.course import course
from tests.film.histories import HOUR_S

# Two hours up, a gap of eight, a lone hot reading, another gap, an hour of 20 °C.
AT_S = [hour * HOUR_S for hour in (0, 1, 2, 10, 20, 21)]
LEVELS = [20.0, 24.0, 28.0, 41.0, 20.0, 20.0]
LINE = course(AT_S, LEVELS, longest_gap_s=HOUR_S)


def _between(start_hour: float, end_hour: float, band: Band | None = None) -> Climate | None:
    return climate(LINE, round(start_hour * HOUR_S), round(end_hour * HOUR_S), band or Band())


def test_the_mean_is_weighted_by_duration_and_leaves_gaps_out() -> None:
    """Two hours at 24 °C on average, one at 20."""
    found = _between(-5, 30)

    assert found is not None
    assert found.mean == pytest.approx(68 / 3)
    assert found.hours_measured == pytest.approx(3)


def test_a_reading_alone_between_gaps_is_still_the_hottest() -> None:
    """It tells nothing of any time, but it was read."""
    found = _between(0, 21)

    assert found is not None
    assert (found.lowest, found.highest) == (20.0, 41.0)


def test_where_only_a_lone_reading_tells_there_is_no_mean() -> None:
    """A mean over no time would be a guess."""
    assert _between(9, 11) == Climate(
        mean=None, lowest=41.0, highest=41.0, hours_outside=0, hours_measured=0
    )


@pytest.mark.parametrize("stretch", [(-9, -1), (3, 9), (22, 30)])
def test_where_nothing_tells_nothing_is_said(stretch: tuple[float, float]) -> None:
    """Unknown is none, not zero."""
    assert _between(*stretch) is None


def test_a_stretch_between_readings_has_the_levels_of_the_line() -> None:
    """From 21 to 23 °C in half an hour."""
    found = _between(0.25, 0.75)

    assert found is not None
    assert found.lowest == pytest.approx(21)
    assert found.highest == pytest.approx(23)
    assert found.mean == pytest.approx(22)


@pytest.mark.parametrize(
    ("band", "hours"),
    [
        (Band(), 0),
        (Band(high=24), 1),
        (Band(low=24), 2),
        (Band(22, 26), 2),
        (Band(20, 28), 0),
        (Band(30, 35), 3),
        (Band(high=10), 3),
    ],
)
def test_hours_outside_a_band_end_where_its_limit_is_crossed(band: Band, hours: float) -> None:
    """By a straight line between readings; gaps count neither in nor out."""
    found = _between(0, 21, band)

    assert found is not None
    assert found.hours_outside == pytest.approx(hours)


@pytest.mark.parametrize(("low", "high"), [(25.0, 15.0), (nan, 20.0), (20.0, nan)])
def test_a_band_goes_from_low_to_high(low: float, high: float) -> None:
    """Turned round it would always be left."""
    with pytest.raises(ValueError, match="no band"):
        Band(low, high)


@pytest.mark.parametrize(
    ("temperature_c", "is_one"),
    [(-60, True), (-60.1, False), (100, True), (100.5, False), (-127, False), (nan, False)],
)
def test_what_a_broken_sensor_says_is_no_temperature(temperature_c: float, *, is_one: bool) -> None:
    """From -60 to 100 °C: stores and test ovens."""
    assert is_temperature(temperature_c) is is_one


@pytest.mark.parametrize(
    ("humidity_pct", "is_one"),
    [(0, True), (100, True), (-0.1, False), (100.1, False), (nan, False)],
)
def test_what_a_broken_sensor_says_is_no_humidity(humidity_pct: float, *, is_one: bool) -> None:
    """From 0 to 100 %."""
    assert is_humidity(humidity_pct) is is_one
