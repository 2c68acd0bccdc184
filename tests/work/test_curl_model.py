"""A shop's own curl trials, read from its book and fitted to each material."""

from collections.abc import Mapping
from datetime import UTC, datetime
from math import sin

import pytest

from scripts.speed.replay import recorded
from stockroom.books.catalog import materials
from stockroom.books.trials import Trial, curl_trials
from stockroom.film.assumed import POLYESTER
from stockroom.film.bending import sagitta_mm
from stockroom.film.kinds import Kind
from stockroom.film.limits import Basis
from stockroom.film.memory import memory
from stockroom.film.verdict import TimeFactor
from stockroom.units import MM, M
from stockroom.work.curl_model import time_factors
from stockroom.work.winding import Core
from stockroom.work.windings import Days, stages_of
from tests.builders import ON_ONE_ENGINE, Station

STRIP_MM = 150
TRUTH = 3.0  # the film relaxes so many times slower than assumed
WIDE = {"chord_nm": 200 * MM, "height_nm": 10 * MM}


def _instant(text: str) -> datetime:
    moment = datetime.fromisoformat(text)
    return moment if moment.tzinfo else moment.replace(tzinfo=UTC)


def _days(since: str | None, until: str | None) -> float:
    """Calendar days; a trial names both ends."""
    assert since is not None
    assert until is not None
    return (_instant(until) - _instant(since)).total_seconds() / 86_400


def _factors(station: Station, days: Days = _days) -> Mapping[int, TimeFactor]:
    with station.book.reading() as connection:
        return time_factors(
            curl_trials(connection, station.now),
            materials(connection, station.now),
            lambda _trial: days,
        )


def _trials(station: Station) -> tuple[Trial, ...]:
    with station.book.reading() as connection:
        return curl_trials(connection, station.now)


def _try_truly(station: Station, code: str, *, by_chord: bool = True) -> None:
    """A strip of film that is three times slower, measured to the nanometre."""
    state = station.state(code)
    stages = stages_of(
        state, lambda since, until: _days(since or "2026-06-01", until or station.now.isoformat())
    )
    assert stages is not None
    curl = memory(stages, POLYESTER, slower=TRUTH).outermost_per_m
    radius_mm = 1_000 / abs(curl)
    measured = {"chord_nm": round(2 * radius_mm * sin(STRIP_MM / 2 / radius_mm) * MM)}
    if not by_chord:
        measured = {"arc_nm": STRIP_MM * MM}
    station.try_curl(
        code,
        round(sagitta_mm(curl, STRIP_MM) * MM),
        other_way=(curl < 0) != (state.winding == "out"),
        **measured,
    )


def test_a_book_without_trials_knows_no_factor(station: Station) -> None:
    """And an adhesion trial is none."""
    station.try_adhesion(station.roll(), passed=True)

    assert _trials(station) == ()
    assert _factors(station) == {}


def test_trials_of_slow_film_find_how_slow_it_is(station: Station) -> None:
    """Three rolls, wound this way and that, measured by chord or by length."""
    for number, face in enumerate((None, "out", "in")):
        roll = station.roll(core_inside_nm=(76 + 20 * number) * MM)
        station.rewind(roll, face=face)
        station.wait(days=40)
        _try_truly(station, roll, by_chord=number != 1)

    (found,) = _factors(station).values()

    assert (found.trials, found.basis) == (3, Basis.TRIAL)
    assert found.factor == pytest.approx(TRUTH, rel=1e-3)
    assert found.low is not None
    assert found.high is not None
    assert found.low < TRUTH < found.high


def test_trials_are_weighed_again_when_more_is_known_of_the_climate(station: Station) -> None:
    """In heat that aged film twice as fast, film that curled so is twice as slow."""
    for _ in range(3):
        roll = station.roll()
        station.wait(days=40)
        _try_truly(station, roll)

    (found,) = _factors(station, lambda since, until: 2 * _days(since, until)).values()

    assert found.factor == pytest.approx(2 * TRUTH, rel=1e-3)


def test_two_trials_leave_the_default_and_say_that_there_are_two(station: Station) -> None:
    """Of each material, that is."""
    for code in (*station.rolls(pieces=2), station.blank()):
        station.try_curl(code, **WIDE)

    assert sorted(one.trials for one in _factors(station).values()) == [1, 2]
    assert {one.factor for one in _factors(station).values()} == {1.0}


def test_a_trial_that_was_undone_does_not_count(station: Station) -> None:
    """But did, on a day when nobody knew."""
    roll = station.roll()
    station.try_curl(roll, **WIDE)
    then = station.now
    station.wait(days=1)
    station.undo(roll)

    with station.book.reading() as connection:
        before = curl_trials(connection, then)

    assert [(one.piece, one.at) for one in before] == [(roll, then)]
    assert _trials(station) == ()


@ON_ONE_ENGINE
def test_what_nobody_knows_enough_of_does_not_count(station: Station) -> None:
    """Film in a tube, film laminated, a kind that is not wound to be applied, a trial of old."""
    station.material("tape", Kind.TRANSFER_TAPE, figures={"curl": "100mm"})
    tube, tape, old = station.roll(), station.roll(material="tape"), station.roll()
    core = Core(inside_nm=76 * MM, wall_nm=5 * MM)
    two = station.laminate(station.blank(), station.clear(), 5 * M, core=core).code
    station.rewind(tube, core=Core(in_tube=True))
    for code in (tube, tape, two):
        station.try_curl(code, **WIDE)
    station.rewind(two, core=Core(in_tube=True))
    station.try_curl(two, **WIDE)
    station.trial(old, "wound", "2027-01-01")

    assert len(_trials(station)) == 5
    assert {one.trials for one in _factors(station).values()} == {0}
    assert len(_factors(station)) == 2


def test_a_strip_taken_after_the_core_was_lost_is_fitted_by_none(station: Station) -> None:
    """A roll rewound from a tube onto a core: where the film lay before is not known."""
    roll = station.roll()
    station.rewind(roll, core=Core(in_tube=True))
    station.rewind(roll, core=Core(inside_nm=76 * MM, wall_nm=5 * MM))

    station.try_curl(roll, **WIDE)

    assert {one.trials for one in _factors(station).values()} == {0}


def test_curl_trials_are_found_by_their_index(station: Station) -> None:
    """Among a million moves."""
    if station.book.url.get_backend_name() != "sqlite":
        return
    station.try_curl(station.roll(), **WIDE)
    with station.book.reading() as connection:
        with recorded(station.book) as sent:
            curl_trials(connection, station.now)
        [(sql, given)] = sent
        plan = connection.exec_driver_sql(f"EXPLAIN QUERY PLAN {sql}", given).all()
    assert any("ix_move_of_curl" in str(row) for row in plan), plan
