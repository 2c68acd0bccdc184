"""What the room is worth, against sums that the database makes by itself and days counted by hand."""

from datetime import timedelta

import pytest
from sqlalchemy import text

from stockroom.film.kinds import Kind
from stockroom.units import MM, M
from stockroom.work.stock import stock
from stockroom.work.value import Value, Wanted, value
from stockroom.work.worth import Band, Worth
from tests.builders import BLADES, BLANK, FILM, ON_ONE_ENGINE, PRICE, Station

# Written without the program; every amount in the tests is whole.
WORTH = """
SELECT COALESCE(SUM(cost_minor * balance / "full"), 0), COUNT(*),
       SUM(CASE WHEN cost_minor IS NULL THEN 1 ELSE 0 END)
FROM piece WHERE ended IS NULL AND owner = 'ours' AND (:lot = '' OR lot = :lot)
"""


def _worth(station: Station, lot: str = "") -> Worth:
    with station.book.reading() as connection:
        row = connection.execute(text(WORTH), {"lot": lot}).one()
    return Worth(value_minor=int(row[0]), pieces=int(row[1]), unpriced=int(row[2]))


def _found(station: Station, **asked: int) -> Value:
    return value(station.book, now=station.now, wanted=Wanted(**asked))


def _busy(station: Station) -> str:
    """A shop at work: its job."""
    job = station.job()
    first, second = station.rolls(pieces=2, lot="L-1")
    station.roll(owner="client", cost_minor=None)
    station.roll(cost_minor=None, lot="L-2")
    box = station.box()
    station.cut(first, 4 * M, job=job, waste_nm=500 * MM, offcuts=((1_000 * MM, 3 * M),))
    station.cut(second, 3 * M)
    station.take(box, 10, job=job)
    station.back(first, job, amount=500 * MM)
    station.discard(station.cut(second, M, offcuts=((1_500 * MM, M),)).offcuts[0].code)
    station.wait(days=1)
    station.count(second, length_nm=24 * M, replace=True)
    station.print(station.blank(), 2 * M, leader_nm=M, job=job)
    station.cut(first, 9 * M, job=job)
    station.undo(first)
    return job


def test_worth_is_what_sql_adds_up_in_all_and_by_lot(station: Station) -> None:
    """And the parts of it, by age and by verdict, are the whole again."""
    _busy(station)
    found = _found(station)

    assert found.total == _worth(station)
    assert {one.lot: one.worth for one in found.lots}["L-1"] == _worth(station, "L-1")
    for parts in (found.ages, found.verdicts):
        assert sum(one.value_minor for _, one in parts) == found.total.value_minor
        assert sum(one.pieces for _, one in parts) == found.total.pieces
    assert found.total.value_minor == stock(station.book, now=station.now).value_minor


def test_what_was_written_off_is_money_that_nobody_used(station: Station) -> None:
    """A discarded offcut of 1 m cost 15.00; the count missed 2 m; a sample of 3 m."""
    _busy(station)
    taken = _found(station).taken

    assert taken.discarded_minor == 1_500
    assert taken.counted_minor == -3_000
    assert taken.without_job_minor == 4_500
    assert _found(station, days=1).taken.discarded_minor == 0


def test_waste_is_a_share_of_what_jobs_took(station: Station) -> None:
    """Of 4 m cut, 0.5 m was waste, 2 m² was kept and 0.5 m came back; the print is not used yet."""
    _busy(station)
    found = _found(station)

    shares = {one.of.name: one.share for one in found.film_waste}
    assert shares[FILM] == pytest.approx(0.75 / (6 - 3 - 0.75))
    assert shares[BLANK] is None
    assert [(one.of.name, one.amounts.wasted) for one in found.job_waste] == [
        ("harbour office", 750_000 + 1_500_000)
    ]


def test_turnover_is_what_was_taken_over_the_mean_worth_by_time(station: Station) -> None:
    """Ten days at 450.00, then ten at 300.00 after a cut of 150.00: mean 375.00."""
    job, roll = station.job(), station.roll()
    station.wait(days=10)
    station.cut(roll, 10 * M, job=job)
    station.wait(days=10)

    turnover = _found(station).turnover

    assert turnover.taken_minor == 15_000
    assert turnover.mean_minor == pytest.approx(37_500)
    assert turnover.times_a_year == pytest.approx(15_000 / 37_500 * 365 / 20)


def test_what_the_room_was_worth_ends_in_what_it_is_worth(station: Station) -> None:
    """Week by week, with the least and the most of each."""
    job, roll = station.job(), station.roll()
    station.wait(days=10)
    station.cut(roll, 10 * M, job=job)

    weeks = _found(station).weeks

    assert weeks[-3:] == ((0, 0, 0), (0, PRICE, PRICE), (30_000, 30_000, PRICE))
    assert len(weeks) == 52


def test_all_changes_together_are_what_is_there(station: Station) -> None:
    """While nothing happens, the mean is the worth."""
    _busy(station)
    station.wait(days=30)

    found = _found(station, days=20)

    assert found.turnover.mean_minor == pytest.approx(found.total.value_minor)
    assert found.turnover.times_a_year == 0


@ON_ONE_ENGINE
def test_slow_is_what_nothing_was_taken_of_for_long(station: Station) -> None:
    """Film that is cut is not, nor what is empty; a print waits for its job; else from its receipt."""
    job = station.job()
    roll = station.roll()
    station.print(station.blank(length_nm=2 * M), 2 * M, job=job)
    station.box()
    station.wait(days=100)
    station.cut(roll, M, job=job)
    station.wait(days=100)

    assert [one.material.name for one in _found(station).slow] == [BLADES]
    assert [
        (one.material.name, one.worth.value_minor) for one in _found(station, slow_days=90).slow
    ] == [
        (FILM, PRICE - 1_500),
        (BLADES, 2_000),
    ]
    assert _found(station, slow_days=90).slow[0].since == (station.now - timedelta(days=100)).date()
    station.undo(roll)
    assert _found(station).slow[0].worth.value_minor == PRICE


@ON_ONE_ENGINE
def test_age_has_bands_and_an_empty_room_is_worth_nothing(station: Station) -> None:
    """By months since film was made; and nothing turns over where nothing is."""
    empty = _found(station)
    assert (empty.total, empty.turnover.times_a_year) == (
        Worth(pieces=0, value_minor=0, unpriced=0),
        None,
    )

    station.material("old", Kind.WINDOW_FILM)
    for made in ("2026-06-01", "2026-05-01", "2025-11-25", "2025-05-01", "2024-11-25"):
        station.roll(material="old", made=made)

    found = _found(station)
    assert [band for band, _ in found.ages] == [one for one in Band if one is not Band.UNKNOWN]
    assert all(one.pieces == 1 for _, one in found.ages)
