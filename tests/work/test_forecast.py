"""The day on which each piece is to be used first, tested or stopped."""

from datetime import date, timedelta

import pytest

from stockroom.errors import Code, Refusal
from stockroom.film.verdict import Verdict
from stockroom.work.forecast import forecast
from stockroom.work.look import piece
from tests.floor import Floor


def test_each_step_is_told_with_its_day_and_why(floor: Floor) -> None:
    """A roll of 24 months: to be used first in its last 30 days, then tested."""
    roll = floor.roll(made="2024-12-30")
    floor.roll(made="2026-06-01")

    found = forecast(floor.book, now=floor.now, days=60)

    assert [(one.then.code, one.on, one.before) for one in found.changes] == [
        (roll, date(2026, 12, 1), Verdict.USE),
        (roll, date(2026, 12, 31), Verdict.USE_FIRST),
    ]
    last = found.changes[-1].then
    assert last.judgement.verdict is Verdict.TEST


def test_the_day_before_a_change_has_the_verdict_of_before(floor: Floor) -> None:
    """And no change is told that is not there on its day."""
    roll = floor.roll(made="2024-12-30")
    for one in forecast(floor.book, now=floor.now, days=90).changes:
        eve = piece(floor.book, roll, now=floor.now, today=one.on - timedelta(days=1))
        day = piece(floor.book, roll, now=floor.now, today=one.on)
        assert eve.judged.judgement.verdict is one.before
        assert day.judged.judgement.verdict is one.then.judgement.verdict


def test_it_goes_from_any_day_and_only_so_far(floor: Floor) -> None:
    """A day to come may be the first one."""
    floor.roll(made="2024-12-30")
    assert forecast(floor.book, now=floor.now, days=5).changes == ()
    later = forecast(floor.book, now=floor.now, today=date(2026, 12, 2), days=30)
    assert [one.on for one in later.changes] == [date(2026, 12, 31)]


@pytest.mark.parametrize("days", [0, -1, 401])
def test_a_forecast_of_no_days_or_too_many_is_refused(floor: Floor, days: int) -> None:
    """In one sentence."""
    with pytest.raises(Refusal) as caught:
        forecast(floor.book, now=floor.now, days=days)
    assert caught.value.code is Code.BAD_SPAN
