"""How a piece was kept: heat, air, the curl of its wraps, and cold that draws moisture."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from stockroom.film.dates import PartialDate, parse_partial_date
from stockroom.film.kinds import Kind
from stockroom.film.limits import Basis, Figure, House
from stockroom.film.rules import judge
from stockroom.film.verdict import Air, Curl, Heat, Reason, Storage, TimeFactor, Verdict, WarmUp

TODAY = date(2026, 11, 25)
NOW = datetime(2026, 11, 25, 9, tzinfo=UTC)
HOUSE = House()
DEFAULT_LIMIT = Figure(150.0, Basis.DEFAULT)
MILD = Air(hot_hours=3, too_hot_hours=0, dry_or_damp_hours=0, coverage=0.9)
OWN = TimeFactor(factor=1.3, low=0.9, high=1.85, trials=4, basis=Basis.TRIAL)
LOOSE = Curl(outer_mm=180, inner_mm=160, tight_m=0, limit=DEFAULT_LIMIT, model=TimeFactor())


def _film(made: str = "2025-11-20", kind: Kind = Kind.WINDOW_FILM) -> Storage:
    return Storage(kind=kind, made=_day(made), received=_day(made))


def _day(text: str) -> PartialDate:
    return parse_partial_date(text)


def _reason(storage: Storage, rule: str, house: House = HOUSE) -> Reason:
    found = judge(storage, today=TODAY, moment=NOW, house=house)
    return next(reason for reason in found.reasons if reason.rule == rule)


@pytest.mark.parametrize(
    ("like_days", "verdict"),
    [(300.0, Verdict.USE), (710.0, Verdict.USE_FIRST), (800.0, Verdict.TEST)],
)
def test_heat_asks_the_same_limits_in_days_at_23_degrees(
    like_days: float, verdict: Verdict
) -> None:
    """A year old by the calendar, its limit 24 months; near is the last 30 days of it."""
    hot = _film()._replace(shelf_heat=Heat(like_days, 0.91))

    reason = _reason(hot, "heat")

    assert reason.verdict is verdict
    assert (reason.measured, reason.limit, reason.unit) == (round(like_days), 730, "days")
    assert reason.due is None
    assert "at 23 °C (91 % measured)" in reason.text
    assert _reason(hot, "shelf").verdict is Verdict.USE


def test_heat_says_months_and_the_trial_that_is_asked_for() -> None:
    """As the card says it."""
    reason = _reason(_film()._replace(shelf_heat=Heat(945.0, 0.91)), "heat")
    assert reason.text == (
        "aged like 31 months at 23 °C (91 % measured), limit 24 (default): adhesion trial"
    )


def test_a_passed_adhesion_trial_extends_heat_as_it_does_the_shelf() -> None:
    """Until its day; after it the piece is stopped."""
    hot = _film()._replace(shelf_heat=Heat(800.0, 1.0))
    passed = hot._replace(passed={"shelf": TODAY + timedelta(days=10)})
    over = hot._replace(passed={"shelf": TODAY - timedelta(days=1)})

    assert _reason(passed, "heat").verdict is Verdict.USE_FIRST
    assert _reason(over, "heat").verdict is Verdict.STOP


def test_wound_days_are_warmed_too_and_the_worse_of_both_is_said() -> None:
    """A print wound for two months in a hot room, 90 days the limit."""
    wound = _film(kind=Kind.PRINT_VINYL)._replace(
        laminated=True,
        wound_since=TODAY - timedelta(days=60),
        shelf_heat=Heat(100.0, 1.0),
        wound_heat=Heat(120.0, 1.0),
    )
    reason = _reason(wound, "heat")
    assert (reason.verdict, reason.measured, reason.limit) == (Verdict.TEST, 120, 90)
    assert "curl trial" in reason.text


@pytest.mark.parametrize(
    ("air", "verdict", "says"),
    [
        (MILD, Verdict.USE, "3 h above 30 °C, limit 48 h (default)"),
        (MILD._replace(hot_hours=49), Verdict.USE_FIRST, "49 h above 30 °C"),
        (MILD._replace(too_hot_hours=0.2), Verdict.TEST, "12 min above 40 °C: adhesion trial"),
        (MILD._replace(dry_or_damp_hours=90), Verdict.USE, "90 h outside 35 to 65 % humidity"),
    ],
)
def test_heat_above_a_limit_is_counted_in_hours(air: Air, verdict: Verdict, says: str) -> None:
    """Two days above 30 °C in all, or a minute above 40."""
    reason = _reason(_film()._replace(air=air), "climate")
    assert reason.verdict is verdict
    assert says in reason.text


def test_damp_air_counts_for_print_media_only() -> None:
    """Its liner is mostly of paper."""
    damp = MILD._replace(dry_or_damp_hours=90)
    assert _reason(_film(kind=Kind.PRINT_VINYL)._replace(air=damp), "climate").verdict is (
        Verdict.USE_FIRST
    )


def test_the_limits_of_the_air_can_be_set() -> None:
    """And then read as the house's."""
    house = HOUSE.changed("climate.hot-hours", "2h")
    reason = _reason(_film()._replace(air=MILD), "climate", house)
    assert (reason.verdict, reason.limit, reason.basis) == (Verdict.USE_FIRST, 2, Basis.HOUSE)


def test_a_wrap_that_curls_tighter_than_the_limit_asks_for_a_curl_trial() -> None:
    """The one that is used next; what is tighter further in is said."""
    tight = replace(LOOSE, outer_mm=103.4, inner_mm=84.0, tight_m=11.2)
    reason = _reason(_film()._replace(curl=tight), "memory")

    assert (reason.verdict, reason.measured, reason.limit) == (Verdict.TEST, 103, 150)
    assert reason.text == (
        "outer wrap curls to a 103 mm circle, limit 150 mm (default; model: default, no trials): "
        "curl trial"
    )


def test_the_inner_part_that_is_too_tight_is_said_in_metres() -> None:
    """While the outer wraps may be used."""
    reason = _reason(_film()._replace(curl=replace(LOOSE, inner_mm=140, tight_m=4.04)), "memory")
    assert reason.verdict is Verdict.USE
    assert reason.text.endswith("; the last 4.0 m curl tighter")


def test_a_passed_curl_trial_is_believed_until_its_day() -> None:
    """Then it is asked for again."""
    tight = _film()._replace(curl=replace(LOOSE, outer_mm=100, model=OWN))
    passed = tight._replace(passed={"wound": TODAY})
    over = tight._replace(passed={"wound": TODAY - timedelta(days=1)})

    assert _reason(passed, "memory").verdict is Verdict.USE
    assert "own trials: 4" in _reason(passed, "memory").text
    assert _reason(over, "memory").verdict is Verdict.TEST


@pytest.mark.parametrize(
    ("trials", "said"),
    [(0, "no trials"), (1, "1 of 3 trials"), (2, "2 of 3 trials"), (5, "5 trials leave it open")],
)
def test_a_model_that_is_a_default_says_so_whatever_was_tried(trials: int, said: str) -> None:
    """Below three trials, or with such as leave an end open."""
    curl = replace(LOOSE, outer_mm=100, model=TimeFactor(trials=trials))
    reason = _reason(_film()._replace(curl=curl), "memory")
    assert f"(default; model: default, {said})" in reason.text


def test_film_that_lies_flat_says_so() -> None:
    """No circle at all."""
    reason = _reason(_film()._replace(curl=replace(LOOSE, outer_mm=None)), "memory")
    assert (reason.verdict, reason.measured) == (Verdict.USE, None)
    assert reason.text.startswith("lies flat")


def test_a_cold_roll_waits_until_it_is_warmer_than_the_dew_point() -> None:
    """Beside its verdict, with the time."""
    ready = NOW + timedelta(hours=5, minutes=20)
    cold = _film()._replace(warm_up=WarmUp(ready, 2.0, 11.1))
    found = judge(cold, today=TODAY, moment=NOW, house=HOUSE)

    assert found.wait_until == ready
    assert found.verdict is Verdict.USE
    assert _reason(cold, "warm-up").text == (
        "came in at 2 °C, the dew point here is 11 °C: keep it wrapped, 6 h to go"
    )
    later = judge(cold, today=TODAY, moment=ready, house=HOUSE)
    assert later.wait_until is None
