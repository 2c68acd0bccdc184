"""What a clock on the wall showed, as an instant; also where it jumped."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from stockroom.feeds.days import Order
from stockroom.feeds.instants import Epochs, Instants
from stockroom.feeds.reading import Unread, Wrong
from tests.feeds.files import at, found, log_of


def _utc(day: str, clock: str, zone: str = "UTC") -> str:
    instants = Instants(Order.DMY, ZoneInfo(zone), is_newest_first=False)
    moment = datetime.fromtimestamp(instants.at_s(day, clock, None, 1), UTC)
    return f"{moment:%Y-%m-%d %H:%M:%S}"


@pytest.mark.parametrize(
    ("clock", "shown"),
    [
        ("16:30", "16:30:00"),
        ("6:05", "06:05:00"),
        ("16:30:15", "16:30:15"),
        ("16:30:15.999", "16:30:15"),
        ("16:30:15,5", "16:30:15"),
        ("16.30.15", "16:30:15"),
        ("16h30", "16:30:00"),
        ("4:30 PM", "16:30:00"),
        ("04:30:15pm", "16:30:15"),
        ("12:05 AM", "00:05:00"),
        ("12:05 p. m.", "12:05:00"),
        ("16:30Z", "16:30:00"),
        ("16:30:15 UTC", "16:30:15"),
        ("18:30+02:00", "16:30:00"),
        ("11:30:15 -0500", "16:30:15"),
        (" 16:30 ", "16:30:00"),
    ],
)
def test_a_time_of_day_is_read(clock: str, shown: str) -> None:
    """Of 24 hours or of twice 12, with its own distance from UTC or without."""
    assert _utc("14.03.2025", clock) == f"2025-03-14 {shown}"


@pytest.mark.parametrize(
    "clock", ["", "25:00", "12:60", "13:30 PM", "0:30 AM", "16", "noon", "12:30:60"]
)
def test_what_is_no_time_of_day_is_not_read(clock: str) -> None:
    """It becomes a finding of its line."""
    with pytest.raises(Unread) as caught:
        _utc("14.03.2025", clock)

    assert caught.value.wrong is Wrong.NO_INSTANT


def test_a_clock_with_its_own_distance_needs_no_zone() -> None:
    """What the line says goes over the zone."""
    assert _utc("14.03.2025", "16:30Z", "America/New_York") == "2025-03-14 16:30:00"


def test_seconds_and_milliseconds_since_1970() -> None:
    """Both stand for the same second."""
    assert Epochs().at_s("1741966200", "", None, 1) == 1_741_966_200
    assert Epochs().at_s(" 1741966200999.5 ", "", None, 1) == 1_741_966_200


@pytest.mark.parametrize("text", ["", "17419662", "-1741966200", "soon"])
def test_what_are_no_seconds_is_not_read(text: str) -> None:
    """It becomes a finding of its line."""
    with pytest.raises(Unread):
        Epochs().at_s(text, "", None, 1)


def test_the_hour_that_comes_twice_is_told_by_the_order_of_the_lines() -> None:
    """Berlin, 26 October 2025: 03:00 is 02:00 again."""
    log = log_of(
        "at;temperature_c",
        "2025-10-26 01:30;19",
        "2025-10-26 02:00;20",
        "2025-10-26 02:30;21",
        "2025-10-26 02:00;22",
        "2025-10-26 02:30;23",
        "2025-10-26 03:00;24",
        shop="Europe/Berlin",
    )

    assert list(log.readings) == [
        at("2025-10-25 23:30", 19),
        at("2025-10-26 00:00", 20),
        at("2025-10-26 00:30", 21),
        at("2025-10-26 01:00", 22),
        at("2025-10-26 01:30", 23),
        at("2025-10-26 02:00", 24),
    ]
    assert log.findings == []


def test_the_same_where_the_newest_line_is_the_first() -> None:
    """Some loggers write backwards."""
    log = log_of(
        "at;temperature_c",
        "2025-10-26 03:00;24",
        "2025-10-26 02:30;23",
        "2025-10-26 02:30;21",
        "2025-10-26 01:30;19",
        shop="Europe/Berlin",
    )

    assert list(log.readings) == [
        at("2025-10-25 23:30", 19),
        at("2025-10-26 00:30", 21),
        at("2025-10-26 01:30", 23),
        at("2025-10-26 02:00", 24),
    ]
    assert log.understood.is_newest_first
    assert log.findings == []


def test_an_hour_that_came_twice_and_is_told_once_is_said_to_be_taken_for_the_first() -> None:
    """Nothing in the file tells which it was; it is kept, and said."""
    log = log_of(
        "at;temperature_c", "2025-10-26 02:30;20", "2025-10-26 04:30;20", shop="Europe/Berlin"
    )

    assert log.readings[0] == at("2025-10-26 00:30", 20)
    assert found(log) == [(2, 2, Wrong.REPEATED_HOUR)]


def test_a_time_the_clock_jumped_over_is_no_instant() -> None:
    """Berlin, 30 March 2025: 02:00 is 03:00; the lines before and after stand."""
    log = log_of(
        "at;temperature_c",
        "2025-03-30 01:59;20",
        "2025-03-30 02:00;20",
        "2025-03-30 02:59;20",
        "2025-03-30 03:00;20",
        shop="Europe/Berlin",
    )

    assert list(log.readings) == [at("2025-03-30 00:59", 20), at("2025-03-30 01:00", 20)]
    assert found(log) == [(3, 4, Wrong.SKIPPED_HOUR)]


def test_a_logger_whose_clock_is_never_set_has_a_zone_of_its_own() -> None:
    """Etc/GMT-1 is an hour ahead all year."""
    log = log_of(
        "at;temperature_c", "2025-03-30 02:30;20", "2025-07-01 12:00;20", clock="Etc/GMT-1"
    )

    assert list(log.readings) == [at("2025-03-30 01:30", 20), at("2025-07-01 11:00", 20)]


@pytest.mark.parametrize(
    ("zone", "shown", "utc"),
    [
        ("Asia/Kathmandu", "2025-06-01 12:00", "2025-06-01 06:15"),
        ("Australia/Lord_Howe", "2025-10-05 02:30", "2025-10-04 15:30"),
        ("America/Sao_Paulo", "2018-11-04 01:00", "2018-11-04 03:00"),
        ("Pacific/Apia", "2011-12-31 12:00", "2011-12-30 22:00"),
    ],
)
def test_clocks_elsewhere(zone: str, shown: str, utc: str) -> None:
    """Quarter hours, half-hour jumps, jumps at midnight, a day left out; offsets of the IANA table."""
    log = log_of("at;temperature_c", f"{shown};20", clock=zone)

    assert list(log.readings) == [at(utc, 20)]
