"""Jobs are opened, closed and reopened; film is charged to an open one."""

from datetime import timedelta
from typing import Any

import pytest

from stockroom.codes.own import is_code
from stockroom.errors import Code
from stockroom.units import M
from stockroom.work.look import job, jobs
from tests.builders import ON_ONE_ENGINE, Station, is_sound, refused


def test_a_new_job_has_a_code_and_is_open(station: Station) -> None:
    """What was said of it stays with it."""
    code = station.job("library", site="north wing", on_day="2026-12", kind="graphic", note="early")

    found = jobs(station.book)[0]

    assert is_code(code)
    assert code.startswith("J")
    assert (found.code, found.name, found.site) == (code, "library", "north wing")
    assert (found.on_day, found.kind, found.note) == ("2026-12", "graphic", "early")
    assert not found.is_closed


def test_a_job_is_closed_and_reopened(station: Station) -> None:
    """Each is an act; doing it twice is refused."""
    code = station.job()

    with refused(station.book, Code.ALREADY_THERE, "open already"):
        station.close(code, reopen=True)
    assert station.close(code).is_closed
    with refused(station.book, Code.ALREADY_THERE, "closed already"):
        station.close(code)
    assert not station.close(code, reopen=True).is_closed
    assert [act.kind for act in job(station.book, code)[1]] == ["reopen", "close", "open"]
    assert is_sound(station.book)


def test_a_job_is_not_closed_before_it_was_opened(station: Station) -> None:
    """Nor opened again before it was closed; a clock that runs behind is no reason to refuse."""
    code = station.job()
    opened = station.now
    station.wait(hours=2)

    with refused(station.book, Code.TOO_EARLY, "later act (open, 2026-11-25 09:00)"):
        station.close(code, at=opened - timedelta(minutes=1))
    station.close(code, at=opened + timedelta(hours=1))
    with refused(station.book, Code.TOO_EARLY, "later act (close, 2026-11-25 10:00)"):
        station.close(code, reopen=True, at=opened)
    station.now = opened
    assert not station.close(code, reopen=True).is_closed
    assert [act.at for act in job(station.book, code)[1]] == [
        opened + timedelta(hours=1),
        opened + timedelta(hours=1),
        opened,
    ]
    assert is_sound(station.book)


def test_a_job_lists_all_that_was_charged_to_it(station: Station) -> None:
    """From whatever roll, newest first, and nothing of other jobs."""
    code, other = station.job(), station.job("library")
    first, second = station.roll(), station.roll()
    station.cut(first, M, job=code)
    station.cut(first, M, job=other)
    station.cut(second, M, job=code)

    found, acts = job(station.book, code)

    assert found.code == code
    assert [(act.kind, [move.piece for move in act.moves]) for act in acts] == [
        ("cut", [second]),
        ("cut", [first]),
        ("open", []),
    ]


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({"name": ""}, Code.BAD_NAME),
        ({"kind": "poem"}, Code.BAD_NAME),
        ({"on_day": "tomorrow"}, Code.BAD_DATE),
    ],
)
def test_refuses_a_job_nobody_could_find_again(
    station: Station, given: dict[str, Any], code: Code
) -> None:
    """No code is used up."""
    with refused(station.book, code):
        station.job(**given)


def test_a_job_nobody_knows_is_not_found(station: Station) -> None:
    """Neither to look at nor to close."""
    with refused(station.book, Code.NO_JOB):
        job(station.book, "J0000015")
    with refused(station.book, Code.NO_JOB):
        station.close("J0000015")


def test_a_print_serves_its_own_job_only(station: Station) -> None:
    """A printed piece is no free stock."""
    own, other = station.job(), station.job("library")
    roll = station.roll(printed="2026-11", ink="latex", job=own)

    with refused(station.book, Code.OTHER_JOB):
        station.cut(roll, M, job=other)
    assert station.cut(roll, M, job=own).left_nm == 29 * M
    assert station.cut(roll, M).left_nm == 28 * M
    station.count(roll, length_nm=20 * M)
    with refused(station.book, Code.OTHER_JOB):
        station.charge(roll, M, other, at=station.now)


def test_blank_film_belongs_to_no_job_and_a_closed_job_gets_no_print(station: Station) -> None:
    """Only a print is bought in for a job."""
    own = station.job()
    station.roll()

    with refused(station.book, Code.BAD_USAGE):
        station.roll(job=own, material="clear 50")
    station.close(own)
    with refused(station.book, Code.JOB_CLOSED):
        station.roll(job=own, printed="2026-11", material="clear 50")
