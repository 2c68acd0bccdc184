"""A shop's working day has a beginning and an end, in its own time zone, on every day."""

from datetime import UTC, date, datetime, timedelta

import pytest

from stockroom.books.values import Shop

INSTANT = timedelta(microseconds=1)
# Zones and days on which the clock jumps, by the rules of the IANA time zone database.
JUMPS = [
    ("Europe/Lisbon", date(2026, 3, 29)),  # 01:00 becomes 02:00
    ("Europe/Lisbon", date(2026, 10, 25)),  # 02:00 becomes 01:00
    ("Atlantic/Azores", date(2026, 3, 29)),  # 00:00 becomes 01:00
    ("Atlantic/Azores", date(2026, 10, 25)),  # 01:00 becomes 00:00
    ("America/New_York", date(2026, 3, 8)),  # 02:00 becomes 03:00
    ("America/New_York", date(2026, 11, 1)),  # 02:00 becomes 01:00
    ("Australia/Lord_Howe", date(2026, 4, 5)),  # 02:00 becomes 01:30
    ("Pacific/Auckland", date(2026, 9, 27)),  # 02:00 becomes 03:00
    ("Asia/Kathmandu", date(2026, 6, 1)),  # never, and 5:45 ahead
    ("UTC", date(2028, 2, 29)),
]


@pytest.mark.parametrize("hour", [0, 1, 2, 3, 5, 23])
@pytest.mark.parametrize(("zone", "day"), JUMPS)
def test_days_follow_each_other_without_gap_or_overlap(zone: str, day: date, hour: int) -> None:
    """Each instant belongs to one working day, on days when the clock jumps as well."""
    shop = Shop(zone=zone, day_start_hour=hour)

    for one in (day - timedelta(days=1), day, day + timedelta(days=1)):
        begin, end = shop.begin_of(one).astimezone(UTC), shop.end_of(one).astimezone(UTC)
        assert shop.begin_of(one + timedelta(days=1)).astimezone(UTC) - end == INSTANT
        assert shop.day_of(begin) == shop.day_of(end) == one
        assert shop.day_of(begin - INSTANT) == one - timedelta(days=1)
        halves = (begin + timedelta(minutes=30 * n) for n in range(60))
        assert {shop.day_of(half) for half in halves if half <= end} == {one}


def test_a_cut_at_half_past_one_belongs_to_last_nights_job() -> None:
    """The working day begins at five."""
    shop = Shop(zone="Europe/Lisbon")

    assert shop.day_of(datetime(2026, 7, 2, 0, 30, tzinfo=UTC)) == date(2026, 7, 1)
    assert shop.day_of(datetime(2026, 7, 2, 4, 0, tzinfo=UTC)) == date(2026, 7, 2)
    assert shop.local(datetime(2026, 7, 2, 0, 30, tzinfo=UTC)).hour == 1
