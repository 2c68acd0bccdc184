"""Today in words."""

import pytest

from stockroom.film.kinds import Kind
from stockroom.lines import today as lines
from stockroom.units import MM
from stockroom.work.judging import Judged
from stockroom.work.look import jobs, piece
from stockroom.work.today import Today, today
from tests.builders import Station
from tests.ordering import Buyer

PRINTED = {"made": "2026-07-01", "printed": "2026-08-20"}


def judged(station: Station, code: str) -> Judged:
    return piece(station.book, code, now=station.now).judged


def the_day(station: Station) -> Today:
    return today(station.book, now=station.now)


def vinyl(station: Station, **given: object) -> str:
    """A roll of print vinyl."""
    name = station.material("white cast", Kind.PRINT_VINYL, width_nm=1_370 * MM)
    return station.roll(material=name, **given)


def test_the_counts_name_the_worst_first_and_leave_out_what_there_is_none_of(
    station: Station,
) -> None:
    """An empty book has none of anything."""
    assert lines.counts(the_day(station)) == ""

    station.hold(station.roll())
    station.rolls(pieces=2)
    station.roll(made="2024-12-10")
    assert lines.counts(the_day(station)) == "✕ 1 stopped    ◐ 1 to use first    ● 2 to use"


def test_an_empty_list_says_what_to_do_or_that_there_is_nothing_to_do(station: Station) -> None:
    """Two different silences."""
    assert "stockroom receive" in lines.empty(the_day(station))

    station.roll()
    assert lines.empty(the_day(station)).startswith("Nothing needs a hand")


@pytest.mark.parametrize(
    ("facts", "says"),
    [
        ({"made": "2026-06-01"}, "● USE"),
        ({"made": "2024-12-10"}, "◐ USE FIRST 15 d left"),
        ({"made": "2024-10-20"}, "▲ TEST adhesion 36 d past"),
        ({"made": "2023-10-20"}, "▲ TEST adhesion 13 mo past"),
    ],
)
def test_what_to_do_is_the_verdict_and_how_far_it_is(
    station: Station, facts: dict[str, str], says: str
) -> None:
    """Near a limit it is what is left, past it by how much."""
    seen = the_day(station).view

    assert lines.to_do(judged(station, station.roll(**facts)), seen) == says


def test_a_print_asks_for_a_curl_trial(station: Station) -> None:
    """Wound on a core under 100 mm it has 30 days."""
    code = vinyl(station, **PRINTED, job=station.job())

    assert lines.to_do(judged(station, code), the_day(station).view) == "▲ TEST curl 67 d past"


def test_a_hold_says_why(station: Station) -> None:
    """In the words of whoever held it."""
    code = station.roll()
    station.hold(code, "creased")

    assert lines.to_do(judged(station, code), the_day(station).view) == "✕ STOP held: creased"


def test_a_wait_says_until_when_with_the_day_when_it_is_another(station: Station) -> None:
    """A print of today may be cut tomorrow."""
    code = vinyl(station, made="2026-07-01", printed="2026-11-25", job=station.job())
    seen = the_day(station).view
    assert lines.to_do(judged(station, code), seen) == "◷ WAIT until 11-26 09:00"

    station.wait(hours=17)
    assert lines.to_do(judged(station, code), the_day(station).view) == "◷ WAIT until 09:00"


def test_what_the_name_does_not_say_stands_apart_from_it(station: Station) -> None:
    """A narrow column then cuts nothing that matters."""
    job = station.job()
    one = judged(station, vinyl(station, **PRINTED, job=job))
    seen = the_day(station).view

    assert lines.cells(one, seen)[:2] == ("R000 002J", "white cast")
    assert (
        lines.more_of(one.standing, seen.shop.system)
        == f"1370 mm, printed, for {job[:4]} {job[4:]}"
    )


def test_below_the_list_stands_why_and_where(station: Station) -> None:
    """A sound piece says its age against its limit; unknown reads as unknown."""
    seen = the_day(station).view
    code = station.roll(place=station.place("B2", "South"), lot="L-7")

    assert lines.detail(judged(station, code), seen) == (
        "● 5 months, limit 24 (default)",
        "at B2, zone South · lot L-7 · age 5 mo",
    )
    box = judged(station, station.box(made="2026-01-01"))
    assert lines.detail(box, seen) == ("? no limit entered", "at ? · lot ? · age 10 mo")


def test_a_piece_of_a_job_says_when_it_is_wanted(station: Station) -> None:
    """And the job says what its piece still needs."""
    job = station.job("shelter", site="Mill Lane", on_day="2026-11-27")
    code = vinyl(station, **PRINTED, job=job)
    day = the_day(station)

    assert lines.detail(judged(station, code), day.view)[1].endswith(
        "serves J000 0019 shelter, Fri 2026-11-27"
    )
    assert lines.job_lines(day) == ("Fri 2026-11-27  J000 0019  shelter, Mill Lane  ▲ to test",)


def test_a_job_without_a_day_or_with_a_month_says_no_more_than_is_known(station: Station) -> None:
    """No weekday is made up."""
    station.job("no day")
    station.job("a month", on_day="2026-11")

    assert [lines.day_of(job) for job in jobs(station.book)] == ["?", "2026-11"]


def test_the_title_is_the_shop_and_its_day(station: Station) -> None:
    """At four in the morning it is still yesterday's."""
    assert lines.title(the_day(station).view) == "Stockroom · Wed 2026-11-25"

    station.wait(hours=19)
    assert lines.title(the_day(station).view) == "Stockroom · Wed 2026-11-25"


def test_late_orders_are_a_count_and_one_line_before_the_jobs(station: Station) -> None:
    """The one that is late the longest; none on the day it is due, nor once it has come."""
    buyer = Buyer(station.book)
    buyer.material()
    first, second = buyer.ordered(), buyer.ordered()
    buyer.job(on_day="2026-12-04")
    buyer.wait(days=7)
    assert (lines.late_line(the_day(buyer)), lines.counts(the_day(buyer))) == ((), "")

    buyer.wait(days=1)
    late = the_day(buyer)
    assert lines.counts(late) == "✕ 2 orders late"
    line = "✕ late: D000 0010 Northlight Films, due Wed 2026-12-02, and 1 more"
    assert lines.some_jobs(late, 3)[0] == line
    assert "harbour office" in lines.some_jobs(late, 3)[1]

    for code in (first, second):
        buyer.arrive(code)
    assert lines.late_line(the_day(buyer)) == ()
