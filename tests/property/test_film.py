"""Laws of rolls, dates and verdicts."""

from contextlib import suppress
from datetime import UTC, date, datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import Refusal
from stockroom.film import roll
from stockroom.film.dates import PartialDate, Span, parse_partial_date, parse_span
from stockroom.film.kinds import Ink, Kind
from stockroom.film.limits import Basis, CountedFrom, House, Limit
from stockroom.film.rules import judge
from stockroom.film.verdict import Judgement, Print, Storage, Verdict, worst
from tests.film.builders import a_storage

CORES_MM = st.floats(20, 200)
THICKNESSES_UM = st.floats(10, 1_000)
LENGTHS_M = st.floats(0.1, 500)
LAYERS = st.lists(
    st.builds(roll.Layer, st.floats(1, 500), st.floats(100, 3_000)), min_size=1, max_size=4
)
DAYS = st.dates(date(2015, 1, 1), date(2035, 12, 31))
SPANS = st.builds(Span, st.integers(0, 48), st.integers(1, 400)) | st.builds(
    Span, st.integers(1, 48)
)
PARTIAL_DATES = st.builds(
    lambda day, parts: PartialDate(*(day.year, day.month, day.day)[:parts]),
    DAYS,
    st.integers(1, 3),
)
LIMITS = st.builds(Limit, SPANS, st.just(Basis.MAKER))
PRINTS = st.builds(
    lambda day, ink: Print(day, datetime.combine(day, time(23), UTC), ink),
    DAYS,
    st.sampled_from(Ink),
)
STORAGES = st.builds(
    a_storage,
    kind=st.sampled_from(Kind),
    counted_from=st.sampled_from(CountedFrom),
    made=st.none() | PARTIAL_DATES,
    shipped=st.none() | PARTIAL_DATES,
    received=st.none() | PARTIAL_DATES,
    printed=st.none() | PRINTS,
    laminated=st.booleans(),
    is_wound=st.booleans(),
    in_tube=st.booleans(),
    core_outside_mm=st.none() | st.floats(20, 200),
    wound_since=st.none() | DAYS,
    wound_days_before=st.integers(0, 500),
    held=st.none() | st.just("torn"),
    shelf_limit=st.none() | LIMITS,
    wound_limit=st.none() | LIMITS,
)
RANKS = {verdict: rank for rank, verdict in enumerate(Verdict)}


def _judged(storage: Storage, today: date) -> Judgement:
    moment = datetime.combine(today, time(12), UTC)
    return judge(storage, today=today, moment=moment, house=House())


@given(LENGTHS_M, CORES_MM, THICKNESSES_UM)
def test_length_and_outside_are_each_others_inverse(
    length_m: float, core_mm: float, thickness_um: float
) -> None:
    """There and back again."""
    outside_mm = roll.outside_mm(length_m, core_mm, thickness_um)

    assert roll.length_m(outside_mm, core_mm, thickness_um) == pytest.approx(length_m, rel=1e-6)
    assert roll.calibrated_thickness_um(outside_mm, core_mm, length_m) == pytest.approx(
        thickness_um, rel=1e-6
    )


@given(LENGTHS_M, st.floats(0.01, 100), CORES_MM, THICKNESSES_UM)
def test_more_film_is_a_thicker_roll_and_a_thinner_film_a_longer_one(
    length_m: float, more_m: float, core_mm: float, thickness_um: float
) -> None:
    """Outside grows with length; length grows with outside, and falls with thickness."""
    outside_mm = roll.outside_mm(length_m, core_mm, thickness_um)
    bigger_mm = roll.outside_mm(length_m + more_m, core_mm, thickness_um)

    assert core_mm < outside_mm < bigger_mm
    assert roll.length_m(bigger_mm, core_mm, thickness_um) > roll.length_m(
        bigger_mm, core_mm, thickness_um * 1.01
    )


@given(LENGTHS_M, CORES_MM, THICKNESSES_UM)
def test_a_millimetre_of_diameter_is_the_slope_of_the_length(
    length_m: float, core_mm: float, thickness_um: float
) -> None:
    """Against a difference over two hundredths of a millimetre."""
    outside_mm = roll.outside_mm(length_m, core_mm, thickness_um) + 0.01
    longer, shorter = (
        roll.length_m(outside_mm + step, core_mm, thickness_um) for step in (0.01, -0.01)
    )

    assert (longer - shorter) / 0.02 * 1_000 == pytest.approx(
        roll.length_mm_per_mm_outside(outside_mm, thickness_um), rel=1e-5
    )


@given(st.floats(100, 2_000), LENGTHS_M, LAYERS, st.floats(0, 5))
def test_length_from_mass_undoes_mass(
    width_mm: float, length_m: float, layers: list[roll.Layer], core_kg: float
) -> None:
    """Weigh it, take the core off, and the length is back."""
    film_kg = roll.mass_kg(width_mm, length_m, layers)

    measured_m = roll.length_from_mass_m(film_kg + core_kg, core_kg, width_mm, layers)

    assert measured_m == pytest.approx(length_m, rel=1e-6, abs=1e-6)


@given(LENGTHS_M, CORES_MM, THICKNESSES_UM)
def test_an_estimate_holds_the_length_and_never_goes_below_nothing(
    length_m: float, core_mm: float, thickness_um: float
) -> None:
    """Low, likely, high; a surer measurement has a narrower band."""
    outside_mm = roll.outside_mm(length_m, core_mm, thickness_um)
    wide = roll.estimate_by_outside(outside_mm, core_mm, thickness_um)
    narrow = roll.estimate_by_outside(
        outside_mm,
        core_mm,
        thickness_um,
        outside_error_mm=roll.TAPE_ERROR_MM,
        thickness_error=roll.CALIBRATED_THICKNESS_ERROR,
    )

    assert 0 <= wide.low_m <= narrow.low_m <= wide.length_m <= narrow.high_m < wide.high_m


@given(PARTIAL_DATES)
def test_a_partial_date_reads_back_as_it_is_written(partial: PartialDate) -> None:
    """And its first day is never after its last."""
    assert parse_partial_date(str(partial)) == partial
    assert partial.first <= partial.last
    assert partial.is_exact == (str(partial) == partial.first.isoformat())


@given(SPANS)
def test_a_span_reads_back_as_it_is_written(span: Span) -> None:
    """What is shown can be typed."""
    assert parse_span(str(span)) == span


@given(DAYS, DAYS, SPANS)
def test_a_later_start_never_ends_earlier(one: date, other: date, span: Span) -> None:
    """Month ends press days together, never out of order, for spans of months alone."""
    months = Span(span.months or 1)
    early, late = sorted((one, other))

    assert months.after(early) <= months.after(late)
    assert span.after(early) > early


@given(st.text())
def test_any_text_is_read_or_refused(text: str) -> None:
    """No other error escapes."""
    for parse in (parse_partial_date, parse_span):
        with suppress(Refusal):
            assert parse(str(parse(text))) == parse(text)


@given(STORAGES, DAYS, st.integers(0, 900))
def test_a_verdict_never_improves_as_days_pass(storage: Storage, today: date, days: int) -> None:
    """Without trials, time only makes things worse; each rule and the whole."""
    now, later = _judged(storage, today), _judged(storage, today + timedelta(days=days))

    assert RANKS[now.verdict] <= RANKS[later.verdict]
    for before, after in zip(now.reasons, later.reasons, strict=True):
        if before.verdict is None or after.verdict is None:
            assert before.verdict is after.verdict
        elif before.rule != "rest":
            assert RANKS[before.verdict] <= RANKS[after.verdict]


@given(STORAGES, DAYS)
def test_the_verdict_is_the_worst_of_its_reasons(storage: Storage, today: date) -> None:
    """And a wait is there exactly when the rest rule waits."""
    judgement = _judged(storage, today)
    verdicts = [reason.verdict for reason in judgement.reasons]

    assert judgement.verdict is worst(verdicts)
    assert judgement.verdict is not Verdict.WAIT
    assert (judgement.wait_until is not None) == (Verdict.WAIT in verdicts)


@given(STORAGES, DAYS, DAYS)
def test_held_stops_and_a_hold_changes_no_other_rule(
    storage: Storage, today: date, until: date
) -> None:
    """Whatever else is true."""
    free = storage._replace(held=None, passed={"shelf": until, "wound": until})
    held = _judged(free._replace(held="torn"), today)

    assert held.verdict is Verdict.STOP
    assert held.reasons[1:] == _judged(free, today).reasons[1:]


@given(STORAGES, DAYS, DAYS)
def test_a_passed_trial_never_makes_a_verdict_worse_before_it_runs_out(
    storage: Storage, today: date, until: date
) -> None:
    """An extension only extends."""
    extended = storage._replace(passed={"shelf": until, "wound": until})

    if today <= until:
        assert RANKS[_judged(extended, today).verdict] <= RANKS[_judged(storage, today).verdict]


@given(STORAGES, DAYS)
def test_the_last_day_of_a_limit_is_the_last_before_its_trial(
    storage: Storage, today: date
) -> None:
    """To the day, for every rule that names one."""
    once = storage._replace(wound_days_before=0)
    for place, reason in enumerate(_judged(once, today).reasons):
        if reason.due is not None and reason.due >= today:
            last_day = _judged(once, reason.due).reasons[place]
            day_after = _judged(once, reason.due + timedelta(days=1)).reasons[place]

            assert last_day.verdict in (Verdict.USE, Verdict.USE_FIRST)
            assert day_after.verdict is Verdict.TEST
