"""Jobs in words."""

from stockroom.lines import jobs as lines
from stockroom.units import M
from stockroom.work.job_use import job_use
from stockroom.work.look import jobs
from stockroom.work.setup import settings
from tests.builders import Station


def test_open_jobs_come_by_their_day_and_closed_ones_last(station: Station) -> None:
    """A job without a day comes after those that have one."""
    later, never, soon = (
        station.job("pier", on_day="2026-12"),
        station.job("canteen", site="Mill Lane"),
        station.job("kiosk", on_day="2026-11-27"),
    )
    closed = station.job("lobby", on_day="2026-11-01")
    station.close(closed)
    known = jobs(station.book)

    def codes(find: str = "", *, only_open: bool = False) -> list[str]:
        return [one.code for one in lines.ordered(known, find, only_open=only_open)]

    assert codes() == [soon, later, never, closed]
    assert codes(only_open=True) == [soon, later, never]
    assert codes("lane CANT") == [never]
    assert [lines.cells(one, {soon: "planned"})[4] for one in known] == [
        *("open", "open", "planned", "closed"),
    ]


def test_a_job_adds_up_to_what_its_pieces_used(station: Station) -> None:
    """Money only where it may be seen; a piece without a price leaves the cost open."""
    job, code = station.job(), station.roll()
    station.cut(code, 2 * M, job=job, waste_nm=1 * M)
    station.cut(station.roll(cost_minor=None), 1 * M, job=job)
    use, shop = (
        job_use(station.book, job, now=station.now),
        settings(station.book, now=station.now)[0],
    )

    assert lines.summary(use, shop, shows_money=False) == "2 pieces · used 3 m² · waste 1.5 m²"
    assert lines.summary(use, shop, shows_money=True).endswith("cost 30.00 EUR + ?")
    assert lines.piece_cells(use.pieces[0], shop, shows_money=True) == (
        "R000 002J",
        "clear 50, 1500 mm",
        "1.5 m²",
        "1.5 m²",
        "28 m at ?",
        "30.00 EUR",
    )
    assert lines.piece_cells(use.pieces[0], shop, shows_money=False)[-1] == ""


def test_a_job_that_used_nothing_says_so(station: Station) -> None:
    """An empty sum would look like a fault."""
    code = station.job()
    use = job_use(station.book, code, now=station.now)

    assert "nothing was used" in lines.summary(
        use, settings(station.book, now=station.now)[0], shows_money=True
    )
