"""What was taken of each material, against sums that the database makes by itself."""

from datetime import date, timedelta

import pytest
from sqlalchemy import text

from stockroom.units import MM, M
from stockroom.work.use import NOTHING, Amounts, By, Use, full_width_m, use
from tests.builders import BLADES, BLANK, CLEAR, FILM, ON_ONE_ENGINE, Station

# Written without the program. All sizes are whole millimetres, so an area is a product of two.
STANDS = """
act.reverses IS NULL
AND NOT EXISTS (SELECT 1 FROM act AS undoing WHERE undoing.reverses = act.id)
AND piece.owner = 'ours'
"""
JOINED = """
FROM move
JOIN act ON act.id = move.act_id
JOIN piece ON piece.id = move.piece_id
JOIN material ON material.id = piece.material_id
WHERE material.name = :material AND
"""
CHANGE = "(move.delta / 1000000) * (piece.width_nm / 1000000)"
BY_JOBS = "('cut', 'in', 'back', 'severed', 'charge', 'print', 'laminate')"
SUMS = {
    "used": f"SELECT SUM(move.used_mm2) {JOINED} {STANDS} "
    f"AND act.job_id IS NOT NULL AND move.kind IN {BY_JOBS}",
    "wasted": f"SELECT SUM(move.wasted_mm2) {JOINED} {STANDS} "
    f"AND act.job_id IS NOT NULL AND move.kind IN {BY_JOBS}",
    "without_job": f"SELECT SUM(move.used_mm2 + move.wasted_mm2) {JOINED} {STANDS} "
    f"AND act.job_id IS NULL AND move.kind IN {BY_JOBS}",
    "discarded": f"SELECT -SUM({CHANGE}) {JOINED} {STANDS} AND move.kind IN ('discard', 'scrap')",
    "counted": f"SELECT SUM({CHANGE} + CASE move.kind WHEN 'charge' THEN move.used_mm2 ELSE 0 END) "
    f"{JOINED} {STANDS} AND move.kind IN ('count', 'finished', 'charge')",
    "cost_minor": f"SELECT SUM(move.cost_minor) {JOINED} {STANDS} "
    f"AND act.job_id IS NOT NULL AND move.kind IN {BY_JOBS}",
    "without_job_minor": f"SELECT SUM(move.cost_minor) {JOINED} {STANDS} "
    f"AND act.job_id IS NULL AND move.kind IN {BY_JOBS}",
    "discarded_minor": f"SELECT SUM(move.cost_minor) {JOINED} {STANDS} "
    "AND move.kind IN ('discard', 'scrap')",
    "counted_minor": f"SELECT -SUM(move.cost_minor) {JOINED} {STANDS} "
    "AND move.kind IN ('count', 'finished', 'variance')",
}


def _summed(station: Station, material: str) -> Amounts:
    with station.book.reading() as connection:
        sums = {
            name: int(connection.execute(text(query), {"material": material}).scalar() or 0)
            for name, query in SUMS.items()
        }
    return Amounts(**sums)


def _found(station: Station, **asked: object) -> Use:
    return use(station.book, now=station.now, **asked)  # type: ignore[arg-type]


def _by_name(found: Use) -> dict[str, Amounts]:
    return {row.material.name: row.amounts for row in found.rows}


def test_use_is_what_sql_adds_up(station: Station) -> None:
    """Cuts with waste and offcuts, without a job, back, severed, late, lost, counted; and undone."""
    job, other = station.job(), station.job("clinic")
    first, second = station.roll(), station.roll(length_nm=17 * M, cost_minor=31_337)
    client = station.roll(owner="client", cost_minor=None)
    kept = station.cut(
        first, 4 * M, job=job, waste_nm=300 * MM, offcuts=((600 * MM, 1_100 * MM),)
    ).offcuts[0]
    station.cut(second, 3_333 * MM, job=other)
    station.cut(second, M)
    station.cut(client, 5 * M, job=job)
    station.back(first, job, amount=500 * MM)
    station.back(second, other, size=(700 * MM, M))
    station.cut(first, 2 * M, job=job)
    station.undo(first)
    station.discard(kept.code)
    station.wait(days=1)
    station.count(first, length_nm=20 * M)
    station.charge(first, M, job, at=station.now)
    printed = station.print(station.blank(), 2 * M, leader_nm=400 * MM, job=job).code
    station.cut(printed, M, job=job)

    found = _by_name(_found(station))

    assert found[FILM] == _summed(station, FILM)
    assert found[BLANK] == _summed(station, BLANK)
    assert all(getattr(found[FILM], name) for name in SUMS)
    assert found[FILM].discarded == 660_000


def test_film_that_is_laid_over_other_film_is_used(station: Station) -> None:
    """The print it lies on is kept until it is cut."""
    job, blank, clear = station.job(), station.blank(), station.clear()
    printed = station.print(blank, 4 * M, job=job).code
    laminated = station.laminate(printed, clear, 4 * M, waste_nm=200 * MM).code

    assert _by_name(_found(station)) == {
        BLANK: Amounts(wasted=300_000, cost_minor=300),
        CLEAR: Amounts(used=5_700_000, wasted=300_000, cost_minor=300),
    }
    station.cut(laminated, 2 * M, job=job)
    assert _by_name(_found(station))[BLANK].used == 3_000_000


def test_goods_are_numbers(station: Station) -> None:
    """Taken for a job, back, taken as a sample, and thrown away."""
    job, box, spare = station.job(), station.box(), station.box(8)
    station.take(box, 7, job=job)
    station.back(box, job, amount=2)
    station.take(box, 3)
    station.discard(spare)

    assert _by_name(_found(station)) == {
        BLADES: Amounts(
            used=5,
            without_job=3,
            discarded=8,
            cost_minor=100,
            without_job_minor=60,
            discarded_minor=2_000,
        )
    }


def test_weeks_begin_on_monday_and_months_on_the_first(station: Station) -> None:
    """Of the shop's days: a cut at 01:30 belongs to the night before."""
    job, roll = station.job(), station.roll()
    station.cut(roll, M, job=job)  # Wednesday 25 November 2026
    station.now = station.now.replace(day=29, hour=23)
    station.cut(roll, 2 * M, job=job)  # Sunday
    station.wait(hours=2, minutes=30)
    station.cut(roll, 4 * M, job=job)  # Monday 01:30
    station.wait(days=1)
    station.cut(roll, 8 * M, job=job)  # Tuesday 01:30, which is Monday

    weeks = [(row.begins, row.amounts.used) for row in _found(station, by=By.WEEK).rows]
    months = [(row.begins, row.amounts.used) for row in _found(station, by=By.MONTH).rows]

    assert weeks == [(date(2026, 11, 23), 10_500_000), (date(2026, 11, 30), 12_000_000)]
    assert months == [(date(2026, 11, 1), 22_500_000)]


@ON_ONE_ENGINE
def test_a_day_gone_by_does_not_know_what_came_later(station: Station) -> None:
    """Not the next cut, and not that this one was undone."""
    job, roll = station.job(), station.roll()
    station.cut(roll, M, job=job)
    then = station.now.date()
    station.wait(days=2)
    station.undo(roll)
    station.cut(roll, 4 * M, job=job)

    assert _by_name(_found(station, today=then))[FILM].used == 1_500_000
    assert _by_name(_found(station))[FILM].used == 6_000_000
    assert _found(station, since=station.now.date() + timedelta(days=1)).rows == ()


@ON_ONE_ENGINE
def test_a_material_is_found_by_a_part_of_its_name(station: Station) -> None:
    """In any case; what nothing was taken of is left out."""
    station.cut(station.roll(), M)
    station.roll(material=station.material("clear 75"))

    assert set(_by_name(_found(station, material="CLEAR"))) == {FILM}
    assert _found(station, material="frosted").rows == ()


@ON_ONE_ENGINE
def test_lengths_are_of_full_width(station: Station) -> None:
    """3 m² of film 1.5 m wide are 2 m; goods have no length."""
    station.cut(station.roll(), 2 * M)
    station.take(station.box(), 2)

    rows = {row.material.name: row for row in _found(station).rows}

    film, blades = rows[FILM], rows[BLADES]
    assert full_width_m(film.amounts.without_job, film.material) == pytest.approx(2)
    assert full_width_m(blades.amounts.without_job, blades.material) is None
    assert NOTHING.for_jobs == 0
