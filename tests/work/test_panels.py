"""The panels of a job: what is written down, what is cut, what is spoiled, how far the job is."""

import pytest

from stockroom.books.job_entries import JobPanel
from stockroom.errors import Code
from stockroom.units import MM
from stockroom.work.panels import (
    InstallJob,
    SetPanels,
    SpoilPanels,
    covering,
    install,
    left_of,
    set_panels,
    spoil,
)
from stockroom.work.wanted import within
from tests.builders import ON_ONE_ENGINE, Station, refused


def panel(name: str = "W1", number: int = 1, **given: object) -> JobPanel:
    """A pane of 900 by 2100 mm."""
    facts = {"width_nm": 900 * MM, "height_nm": 2_100 * MM, "material_id": 1, **given}
    return JobPanel(name=name, number=number, **facts)  # type: ignore[arg-type]


def test_the_panels_written_last_are_those_of_the_job(station: Station) -> None:
    """Each is as it was written; what was before stays on record."""
    station.material()
    job = station.job()
    station.panels(job, (900, 2_100))
    written = (
        panel("W1", 3, group="a", trims_nm=(MM, MM, 2 * MM, 0), turns=False),
        panel("D1", seams=True, overlap_nm=12 * MM, layers=2),
    )
    request = SetPanels(**station.asked(job=job, panels=written))

    found = set_panels(request, book=station.book, now=station.now)

    assert found == set_panels(request, book=station.book, now=station.now)
    assert found.panels == written == covering(station.book, job).panels
    assert (found.stage, found.done) == ("asked", {})
    assert [one.number for one in found.left()] == [3, 2]


def test_the_panels_of_one_job_are_not_those_of_another(station: Station) -> None:
    """Nor does a job that has none say any."""
    station.material()
    one, other = station.job(), station.job("clinic")
    station.panels(one, (900, 2_100))

    assert covering(station.book, other).panels == ()
    assert covering(station.book, other).stage == "asked"


@pytest.mark.parametrize(
    ("done", "left"),
    [
        ({}, [("W1", 3), ("D1", 2)]),
        ({"W1": 2}, [("W1", 1), ("D1", 2)]),
        ({"W1": 3, "D1": 1}, [("D1", 1)]),
        ({"W1": 9, "D1": 2}, []),
    ],
)
@ON_ONE_ENGINE
def test_what_is_left_is_what_is_not_cut(
    done: dict[str, int], left: list[tuple[str, int]], station: Station
) -> None:
    """Of two layers each is cut by itself."""
    panels = [panel("W1", 3), panel("D1", layers=2)]

    assert [(one.name, one.number) for one in left_of(panels, done)] == left


@pytest.mark.parametrize(
    ("panels", "code"),
    [
        ((), Code.BAD_USAGE),
        ((panel("W1"), panel("W1")), Code.BAD_NAME),
        ((panel("W1", 2_001),), Code.BAD_USAGE),
        ((panel("door 1/2"),), Code.BAD_NAME),
        ((panel("W1", material_id=7),), Code.NO_MATERIAL),
    ],
)
def test_panels_nobody_can_plan_are_refused(
    station: Station, panels: tuple[JobPanel, ...], code: Code
) -> None:
    """None, too many, two of one name, of a film the book does not know."""
    station.material()
    job = station.job()

    with refused(station.book, code):
        request = SetPanels(**station.asked(job=job, panels=panels))
        set_panels(request, book=station.book, now=station.now)


def test_a_closed_job_gets_no_panels(station: Station) -> None:
    """It is reopened first."""
    station.material()
    job = station.job()
    station.close(job)

    with refused(station.book, Code.JOB_CLOSED):
        station.panels(job, (900, 2_100))


def test_what_was_not_cut_cannot_be_spoiled(station: Station) -> None:
    """Neither one of a name the job has, nor of another."""
    station.material()
    job = station.job()
    station.panels(job, (900, 2_100))

    for name in ("P1", "P9"):
        with refused(station.book, Code.BAD_NUMBER):
            request = SpoilPanels(**station.asked(job=job, name=name))
            spoil(request, book=station.book, now=station.now)


def test_an_installed_job_is_so_once_until_it_is_closed(station: Station) -> None:
    """Asked again with the same id it is done once; closed is further on."""
    station.material()
    job = station.job()
    request = InstallJob(**station.asked(job=job))

    assert install(request, book=station.book, now=station.now).stage == "installed"
    assert install(request, book=station.book, now=station.now).stage == "installed"
    with refused(station.book, Code.ALREADY_THERE):
        install(InstallJob(**station.asked(job=job)), book=station.book, now=station.now)
    station.close(job)
    assert covering(station.book, job).stage == "closed"


@pytest.mark.parametrize(
    ("line", "size", "inside"),
    [
        ("W1", (930, 2_170), (10, 30, 900, 2_100)),
        ("W1", (2_170, 930), (30, 10, 2_100, 900)),
        ("W1 1/2", (500, 2_170), (10, 30, 490, 2_100)),
        ("W1 2/2", (500, 2_170), (0, 30, 480, 2_100)),
    ],
)
def test_a_panel_lies_within_what_is_cut_for_it(
    line: str, size: tuple[int, int], inside: tuple[int, int, int, int]
) -> None:
    """Its trims around it: turned they turn, and of strips only the outer ones have one at a side."""
    found = within(
        panel(), line, (size[0] * MM, size[1] * MM), (10 * MM, 20 * MM, 30 * MM, 40 * MM)
    )

    assert [length / MM for length in found] == list(inside)
