"""When something happened, as people say it."""

from datetime import UTC, datetime

import pytest

from stockroom.books.values import Shop
from stockroom.errors import Code, Refusal
from stockroom.lines.when import is_day, read_instant
from tests.cli.conftest import Shop as Typed

LISBON = Shop(zone="Europe/Lisbon")
WEDNESDAY = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)
PAST_MIDNIGHT = datetime(2026, 11, 26, 1, 30, tzinfo=UTC)


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("8:59", "2026-11-25T08:59"),
        ("08:59", "2026-11-25T08:59"),
        ("8am", "2026-11-25T08:00"),
        ("8:15 am", "2026-11-25T08:15"),
        ("today 9:00", "2026-11-25T09:00"),
        ("yesterday 16:00", "2026-11-24T16:00"),
        ("Yesterday  4:30 PM", "2026-11-24T16:30"),
        ("yesterday 12pm", "2026-11-24T12:00"),
        ("mon 9:15", "2026-11-23T09:15"),
        ("thurs 9:15", "2026-11-19T09:15"),
        ("wednesday 8:00", "2026-11-25T08:00"),
        ("wed 16:00", "2026-11-18T16:00"),
        ("yesterday", "2026-11-24T05:00"),
        ("fri", "2026-11-20T05:00"),
        ("2026-11-20", "2026-11-20T05:00"),
        ("2026-11-20T16:30", "2026-11-20T16:30"),
        ("2026-11-20 16:30", "2026-11-20T16:30"),
        ("2026-11-20T16:30+01:00", "2026-11-20T15:30"),
    ],
)
def test_a_time_is_said_as_people_say_it(text: str, meant: str) -> None:
    """A weekday is the newest one that is not still to come."""
    assert read_instant(text, LISBON, WEDNESDAY) == datetime.fromisoformat(f"{meant}:00Z")


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("16:00", Code.FUTURE),
        ("today 16:00", Code.FUTURE),
        ("1:30", Code.FUTURE),
        ("yesterday 1:30", Code.BAD_DATE),
        ("mon 4:59", Code.BAD_DATE),
        ("tomorrow 9:00", Code.BAD_DATE),
        ("mo 9:00", Code.BAD_DATE),
        ("25:00", Code.BAD_DATE),
        ("9:60", Code.BAD_DATE),
        ("13pm", Code.BAD_DATE),
        ("0am", Code.BAD_DATE),
        ("9", Code.BAD_DATE),
        ("yesterday yesterday 9:00", Code.BAD_DATE),
        ("yesterday at nine", Code.BAD_DATE),
        ("", Code.BAD_DATE),
        ("2026-03-29T01:30", Code.BAD_DATE),
    ],
)
def test_a_time_that_is_to_come_or_can_be_two_is_refused(text: str, code: Code) -> None:
    """Nobody guesses; 01:30 on the last Sunday of March never was in Lisbon."""
    with pytest.raises(Refusal) as caught:
        read_instant(text, LISBON, WEDNESDAY)

    assert caught.value.code is code


def test_past_midnight_the_working_day_still_runs() -> None:
    """A time alone is on last evening's day; yesterday could be two days."""
    assert read_instant("16:00", LISBON, PAST_MIDNIGHT) == datetime(2026, 11, 25, 16, tzinfo=UTC)
    assert read_instant("1:15", LISBON, PAST_MIDNIGHT) == datetime(2026, 11, 26, 1, 15, tzinfo=UTC)
    with pytest.raises(Refusal, match="past midnight"):
        read_instant("yesterday 16:00", LISBON, PAST_MIDNIGHT)


@pytest.mark.parametrize("text", ["yesterday", "TUE", "2026-11-25"])
def test_a_day_alone_is_told_from_a_time(text: str) -> None:
    """It fits in behind what was done on it before."""
    assert is_day(text)
    assert not is_day(f"{text} 9:00")


def test_a_late_entry_is_written_at_its_time(shop: Typed) -> None:
    """And not at the time somebody remembered it."""
    shop.lines("cut", "{roll}", "1m", "--for", "sample", "--at", "yesterday 16:00")

    at = shop.values("log", "--piece", "{roll}")["acts"][0]["at"]
    assert at == "2026-11-24T16:00:00+00:00"
