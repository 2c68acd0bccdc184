"""Our own CSV of readings: every line is good, or the first bad one is named."""

from datetime import UTC, datetime

import pytest

from stockroom.errors import Code, Refusal
from stockroom.feeds.series import Series, read_series

NOON_S = int(datetime(2026, 6, 1, 12, tzinfo=UTC).timestamp())
HEADING = "at,temperature_c,rh_pct"


def _read(*lines: str, heading: str = HEADING) -> Series:
    return read_series("\n".join((heading, *lines, "")).encode())


def test_readings_come_back_in_seconds_degrees_and_per_cent() -> None:
    """A humidity that is not known is not known, and not 0."""
    found = _read("2026-06-01T12:00Z,22.5,48", "2026-06-01T12:10:30Z,-3,", "2026-06-01T13:00Z,30,0")

    assert found == Series(
        at_s=[NOON_S, NOON_S + 630, NOON_S + 3_600],
        temperatures_c=[22.5, -3.0, 30.0],
        humidities_pct=[48.0, None, 0.0],
    )


def test_humidity_may_be_left_out_and_columns_turned_round() -> None:
    """The heading says what is where."""
    found = _read("22.5,2026-06-01T12:00Z", "23,2026-06-01T13:00Z", heading=" Temperature_C , AT")

    assert found.temperatures_c == [22.5, 23.0]
    assert found.humidities_pct == [None, None]


@pytest.mark.parametrize(
    "clocks",
    [
        ("2026-06-01T12:00Z", "2026-06-01T13:00Z"),
        ("2026-06-01T14:00+02:00", "2026-06-01 15:00:00+02:00"),
        ("2026-06-01T14:00+02:00", "2026-06-01T12:00-01:00"),
        ("2026-06-01T12:00", "2026-06-01T13:00"),
        ("20260601T120000Z", "2026-06-01T13:00:00.250Z"),
    ],
)
def test_instants_are_those_of_the_standard(clocks: tuple[str, str]) -> None:
    """ISO 8601; without an offset they are taken as they stand."""
    found = _read(*(f"{clock},22,50" for clock in clocks))

    assert found.at_s == [NOON_S, NOON_S + 3_600]


def test_where_a_clock_is_set_back_offsets_tell_the_hours_apart() -> None:
    """25 October 2026, 2 o'clock twice."""
    found = _read("2026-10-25T02:30+02:00,20,", "2026-10-25T02:00+01:00,20,")

    assert found.at_s[1] - found.at_s[0] == 1_800


@pytest.mark.parametrize("mark", [b"\xef\xbb\xbf", b""])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_marks_line_ends_blank_lines_and_quotes_do_not_matter(mark: bytes, end: str) -> None:
    """As a spreadsheet writes it."""
    lines = (HEADING, "", '"2026-06-01T12:00Z","22.5","48"', ",,", "2026-06-01T13:00Z, 23 ,", "")

    assert read_series(mark + end.join(lines).encode()).temperatures_c == [22.5, 23.0]


GOOD = ("2026-06-01T12:00Z,22,50", "2026-06-01T13:00Z,23,50")


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("2026-06-01T13:00Z,24,50", "the same second as the line above"),
        ("2026-06-01T13:00:00.9Z,24,50", "the same second as the line above"),
        ("2026-06-01T12:59Z,24,50", "before the line above; sort the lines"),
        ("2026-06-01T15:00+02:01,24,50", "set back write offsets from UTC"),
        ("2026-06-01T14:00,24,50", "an offset from UTC at every instant, or at none"),
        ("2026-02-30T14:00Z,24,50", "“2026-02-30T14:00Z” is no instant"),
        ("01.06.2026 14:00,24,50", "is no instant"),
        (",24,50", "is no instant"),
        ("2026-06-01T14:00Z,NaN,50", "“NaN” is no temperature"),
        ("2026-06-01T14:00Z,inf,50", "is no temperature"),
        ("2026-06-01T14:00Z,,50", "leave a line out that has none"),
        ("2026-06-01T14:00Z,-127,50", "is no temperature of a store"),
        ("2026-06-01T14:00Z,100.1,50", "is no temperature of a store"),
        ('2026-06-01T14:00Z,"22,5",50', "write °C with a point"),
        ("2026-06-01T14:00Z,1e1,50", "is no temperature"),
        ("2026-06-01T14:00Z,2_2,50", "is no temperature"),
        (f"2026-06-01T14:00Z,{'9' * 9_999},50", "is no temperature"),
        ("2026-06-01T14:00Z,22,101", "“101” is no humidity"),
        ("2026-06-01T14:00Z,22,-1", "is no humidity"),
        ("2026-06-01T14:00Z,22,wet", "is no humidity; write 0 to 100"),
        ("2026-06-01T14:00Z,22", "has 2 cells, the heading 3"),
        ("2026-06-01T14:00Z,22,50,7", "has 4 cells, the heading 3"),
        ('2026-06-01T14:00Z,"22"5,50', "is no line of a CSV file"),
        ("\x1b[2J\u202e,22,50", "is no instant"),
    ],
)
def test_a_bad_line_is_named_with_its_number(line: str, says: str) -> None:
    """In one sentence; nothing is taken from a file that has one."""
    with pytest.raises(Refusal) as caught:
        _read(*GOOD, line)

    assert caught.value.code is Code.BAD_FILE
    assert caught.value.sentence.startswith("Line 4")
    assert says in caught.value.sentence
    assert caught.value.sentence.isprintable()
    assert len(caught.value.sentence) < 300


@pytest.mark.parametrize(
    "heading",
    [
        "",
        "2026-06-01T12:00Z,22,50",
        "at,temperature",
        "at,temperature_c,rh",
        "at,at,temperature_c",
        "at;temperature_c",
        "temperature_c,rh_pct",
    ],
)
def test_another_heading_is_not_guessed_at(heading: str) -> None:
    """A column whose name is misspelt would be a silent loss."""
    with pytest.raises(Refusal, match="at,temperature_c and, where it is known, rh_pct") as caught:
        _read(*GOOD, heading=heading)

    assert caught.value.code is Code.BAD_FILE


@pytest.mark.parametrize("raw", [b"", b"\n\n", b"\xff\xfe\x00\x01\x02", b"PK\x03\x04rest"])
def test_what_is_no_such_file_is_refused(raw: bytes) -> None:
    """Empty, or no text at all."""
    with pytest.raises(Refusal) as caught:
        read_series(raw)

    assert caught.value.code is Code.BAD_FILE


@pytest.mark.parametrize("lines", [(), GOOD[:1]])
def test_time_lies_between_two_readings(lines: tuple[str, ...]) -> None:
    """With fewer nothing can be said of any."""
    with pytest.raises(Refusal, match="fewer than two readings"):
        _read(*lines)
