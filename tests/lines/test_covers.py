"""What a job covers, and the film for it, in words and pictures."""

from itertools import product

from stockroom.lines import covers as lines
from stockroom.lines.covers import PlannedFilm
from stockroom.lines.laid import Part
from stockroom.units import MM, M, System
from stockroom.work.look import materials, piece
from stockroom.work.panels import covering
from stockroom.work.plan_job import HowToPlan, JobPlan, plan_job
from stockroom.work.planned import planned_cuts
from stockroom.work.setup import settings
from tests.builders import Station


def planned(station: Station, job: str) -> tuple[JobPlan, tuple[PlannedFilm, ...]]:
    """A plan of little effort, and its films."""
    plan = plan_job(station.book, job, now=station.now, how=HowToPlan(effort=0))
    return plan, tuple(
        PlannedFilm(cut, piece(station.book, cut.piece, now=station.now).judged.standing)
        for cut in planned_cuts(plan)
    )


def test_each_panel_says_how_much_of_it_is_cut_and_on_which_film_it_lies(station: Station) -> None:
    """A panel in strips lies where its strips lie."""
    job, code = station.job(), station.roll(length_nm=20 * M)
    station.panels(job, (800, 1_000), (2_200, 1_900), seams=True, number=2)
    plan, films = planned(station, job)
    shop, known = (
        settings(station.book, now=station.now)[0],
        materials(station.book, now=station.now),
    )
    cells = lines.panel_cells(covering(station.book, job), known, films, shop)

    assert [cells[name][3] for name in ("P1", "P2")] == ["0 of 2", "0 of 2"]
    assert [cells[name][4].replace(" ", "") for name in ("P1", "P2")] == [code, code]
    assert lines.lit("P2", films) == {"P2 1/2", "P2 2/2"}
    assert lines.lit("P1", films) == {"P1"}
    assert lines.lit(None, films) == frozenset()
    assert lines.planned_said(plan, shop)[0].startswith("planned, not reserved: 6 of 6 panels")


def test_what_no_film_covers_is_said_with_what_could_not_be_taken(station: Station) -> None:
    """And a job all of which is cut needs no plan."""
    job, held = station.job(), station.roll(length_nm=20 * M)
    station.panels(job, (800, 1_000), number=3)
    station.hold(held, "dropped")
    plan, films = planned(station, job)
    shop = settings(station.book, now=station.now)[0]

    assert films == ()
    assert lines.planned_said(plan, shop)[1] == "▲ short: 3 P1; not taken: 1 held"
    assert lines.planning_said(covering(station.book, job)).startswith("… planning 3 panels")
    assert "3 panels of it not cut" in lines.install_question(covering(station.book, job))


def test_films_are_drawn_in_the_room_there_is_the_one_that_is_asked_for_first(
    station: Station,
) -> None:
    """Whatever the room, and only the panel under the cursor is lit."""
    job = station.job()
    for length in (3, 4, 5):
        station.roll(length_nm=length * M)
    station.panels(job, (1_200, 1_800), (1_100, 1_500), number=3)
    _, films = planned(station, job)
    lit = lines.lit("P2", films)
    first = lines.first_with(lit, films)

    assert len(films) > 1
    for room in product((12, 38, 78), (6, 9, 30)):
        rows = lines.pictures(films, first, lit, room, System.METRIC)
        assert len(rows) <= room[1]
        assert max(len("".join(run.text for run in row)) for row in rows) <= room[0]
        assert rows[0][0].text.startswith(f"{first + 1} of {len(films)}:")
    rows = lines.pictures(films, first, lit, (78, 60), System.METRIC)
    runs = [run for row in rows for run in row]
    texts = [run.text for run in runs]
    assert "P2" in "".join(run.text for run in runs if run.part is Part.LIT)
    assert "P1" not in "".join(run.text for run in runs if run.part is Part.LIT)
    assert sum(text.startswith(("1 of", "2 of", "3 of")) for text in texts) > 1
    assert lines.pictures(films, 0, lit, (5, 9), System.METRIC) == ()


def test_a_kept_film_says_until_when(station: Station) -> None:
    """With the length of each piece."""
    job, code = station.job(), station.roll(length_nm=20 * M)
    station.panels(job, (800, 1_000))
    _, films = planned(station, job)
    shop = settings(station.book, now=station.now)[0]
    said = lines.reserved_said(films, "2026-12-09", shop)

    assert said.startswith("reserved until 2026-12-09: ")
    assert said.replace(" ", "").count(code) == 1
    assert films[0].film.width == films[0].cut.width_nm < 1_500 * MM
