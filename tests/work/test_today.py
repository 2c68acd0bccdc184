"""The first minute of the morning: what needs a hand."""

from datetime import date

from stockroom.film.verdict import Verdict
from stockroom.units import MM, M
from stockroom.work.setup import SetValue, set_value
from stockroom.work.today import MOST_LINES, today
from tests.builders import Station


def test_the_worst_pieces_come_first_grouped_by_their_film(station: Station) -> None:
    """The film with the worst piece leads, and its other pieces follow it."""
    station.material("film b")
    first = station.roll(made="2023-01-10")  # past its limit
    used_first = station.roll(made="2024-12-05")  # near it
    stopped = station.roll(material="film b")
    station.hold(stopped)
    later = station.roll(material="film b", made="2024-12-10")
    station.roll()

    found = today(station.book, now=station.now)

    assert [one.code for one in found.pieces] == [stopped, later, first, used_first]
    assert found.counts == {
        Verdict.STOP: 1,
        Verdict.TEST: 1,
        Verdict.USE_FIRST: 2,
        Verdict.USE: 1,
    }


def test_a_resting_print_needs_a_hand_and_is_counted_as_waiting(station: Station) -> None:
    """It is sound, and must not be laminated yet."""
    roll = station.roll(printed="2026-11-25", ink="solvent")

    found = today(station.book, now=station.now)

    assert ([one.code for one in found.pieces], found.waiting) == ([roll], 1)


def test_a_scrap_is_no_news(station: Station) -> None:
    """Offcuts too small to keep do not crowd out the rolls."""
    scrap = station.offcut((200 * MM, M), made="2023-01-10")
    station.discard(station.state(scrap).parent or "")

    found = today(station.book, now=station.now)

    assert (found.pieces, sum(found.counts.values())) == ((), 0)


def test_a_page_holds_so_many_lines_and_counts_all(station: Station) -> None:
    """The worst of all, of whatever film: what is only to be used first waits for room."""
    station.material("film b")
    station.hold(held := station.roll())
    station.rolls(pieces=3, made="2024-12-05")
    station.rolls(material="film b", pieces=12, made="2023-01-10")

    found = today(station.book, now=station.now)

    assert len(found.pieces) == MOST_LINES
    assert [one.code for one in found.pieces if one.judgement.verdict is not Verdict.TEST] == [held]
    assert (found.counts[Verdict.TEST], found.counts[Verdict.USE_FIRST]) == (12, 3)


def test_a_piece_of_a_job_is_known_even_where_the_page_is_full(station: Station) -> None:
    """What its job still needs is said beside the job."""
    station.rolls(pieces=MOST_LINES, made="2023-01-10")
    job = station.job("shelter", on_day="2026-11-27")
    resting = station.roll(printed="2026-11-25", ink="solvent", job=job)

    found = today(station.book, now=station.now)

    assert resting not in [one.code for one in found.pieces]
    assert [one.code for one in found.of_jobs] == [resting]


def test_the_jobs_of_the_coming_week_are_listed_by_day(station: Station) -> None:
    """Overdue ones too; neither closed ones, nor undated ones, nor those of next month."""
    friday = station.job("shelter", on_day="2026-11-27")
    overdue = station.job("library", on_day="2026-11-20")
    last = station.job("marina", on_day="2026-12-02")
    station.job("school", on_day="2026-12-03")
    station.job("someday")
    station.close(station.job("done", on_day="2026-11-26"))

    found = today(station.book, now=station.now)

    assert [job.code for job in found.jobs] == [overdue, friday, last]


def test_the_day_is_that_of_the_shop(station: Station) -> None:
    """At 03:00 it is still yesterday's working day, and Auckland is half a day ahead."""
    station.now = station.now.replace(hour=3)
    assert today(station.book, now=station.now).view.today == date(2026, 11, 24)

    change = SetValue(**station.asked(name="time-zone", value="Pacific/Auckland", why="moved"))
    set_value(change, book=station.book, now=station.now)

    assert today(station.book, now=station.now).view.today == date(2026, 11, 25)
