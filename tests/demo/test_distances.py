"""Days and ages as the files of the invented shop write them."""

from datetime import date

import pytest

from stockroom.demo.distances import date_before, day_of

WEDNESDAY = date(2026, 11, 25)
SUNDAY = date(2026, 11, 29)


@pytest.mark.parametrize(
    ("text", "today", "day"),
    [
        ("-1", WEDNESDAY, date(2026, 11, 24)),
        ("-3", WEDNESDAY, date(2026, 11, 20)),
        ("-5", WEDNESDAY, date(2026, 11, 18)),
        ("+2", WEDNESDAY, date(2026, 11, 27)),
        ("+3", WEDNESDAY, date(2026, 11, 30)),
        ("-1", SUNDAY, date(2026, 11, 27)),
        ("+1", SUNDAY, date(2026, 11, 30)),
        ("yesterday", date(2028, 3, 1), date(2028, 2, 29)),
        ("friday", WEDNESDAY, date(2026, 11, 27)),
        ("friday", date(2026, 11, 27), date(2026, 11, 27)),
        ("friday", SUNDAY, date(2026, 12, 4)),
    ],
)
def test_a_day_is_so_many_working_days_away(text: str, today: date, day: date) -> None:
    """Saturdays and Sundays are not counted."""
    assert day_of(text, today) == day


@pytest.mark.parametrize(
    ("text", "today", "known"),
    [
        ("97d", WEDNESDAY, "2026-08-20"),
        ("25mo", WEDNESDAY, "2024-10-25"),
        ("24mo less 12d", WEDNESDAY, "2024-12-07"),
        ("13mo (month)", WEDNESDAY, "2025-10"),
        ("26mo (year)", WEDNESDAY, "2024"),
        ("1mo", date(2027, 3, 31), "2027-02-28"),
        ("24mo", date(2028, 2, 29), "2026-02-28"),
    ],
)
def test_a_date_is_so_long_before_and_known_so_far(text: str, today: date, known: str) -> None:
    """A month that lacks the day ends on its last."""
    assert date_before(text, today) == known


def test_what_is_no_age_is_a_mistake_in_the_files() -> None:
    """A slip in the story is found when it is played, not passed over."""
    with pytest.raises(ValueError, match="is no age"):
        date_before("a while", WEDNESDAY)
