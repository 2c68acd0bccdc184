"""An older sound piece of the same film is used first."""

from typing import Any

import pytest

from stockroom.books.pieces import standings_like
from stockroom.film.kinds import Kind
from stockroom.units import MM, M
from stockroom.work.older import older_sound
from tests.builders import FILM, ON_ONE_ENGINE, Station


def _older(station: Station, code: str, length_nm: int = M) -> str | None:
    found = older_sound(station.book, code, length_nm, now=station.now)
    return found.code if found else None


def test_the_oldest_sound_roll_is_named(station: Station) -> None:
    """Of several older ones the oldest; for the oldest itself nothing."""
    newest = station.roll(made="2026-06-01")
    middle = station.roll(made="2026-03")
    oldest = station.roll(made=None, shipped="2026-02-01")

    assert _older(station, newest) == oldest
    assert _older(station, middle) == oldest
    assert _older(station, oldest) is None


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    "given",
    [
        {"length_nm": 2 * M},
        {"width_nm": 1_200 * MM},
        {"made": "2023-01-10"},
        {"printed": "2026-11-25", "ink": "solvent"},
        {"material": "another film"},
    ],
)
def test_an_older_one_that_would_not_do_is_not_named(
    station: Station, given: dict[str, Any]
) -> None:
    """Too short, too narrow, past its limit, still resting, of another film."""
    station.material("another film")
    this = station.roll(made="2026-06-01")
    station.roll(**{"made": "2026-03-01"} | given)

    assert _older(station, this, 3 * M) is None


def test_a_held_an_ended_and_a_cut_piece_are_not_named(station: Station) -> None:
    """Nobody is sent to a roll that cannot be used."""
    this = station.roll(made="2026-06-01")
    held, ended, sheet = (station.roll(made="2026-03-01") for _ in range(3))
    station.hold(held)
    station.discard(ended)
    station.cut(sheet, 29 * M, offcuts=((1_500 * MM, 20 * M),))

    assert _older(station, this, 3 * M) is None
    station.release(held)
    assert _older(station, this, 3 * M) == held


def test_a_print_for_another_job_is_not_named(station: Station) -> None:
    """Nor is blank film named for a print, which is the only one of its kind."""
    station.material("white vinyl", Kind.PRINT_VINYL)
    job = station.job()
    vinyl: dict[str, Any] = {"material": "white vinyl"}
    blank = station.roll(made="2026-06-01", **vinyl)
    station.roll(made="2026-03-01", printed="2026-10-20", ink="latex", job=job, **vinyl)

    assert _older(station, blank) is None


def test_only_pieces_of_the_same_material_are_read(station: Station) -> None:
    """However many others the rack holds; those that have ended are not read either."""
    this, gone = station.roll(), station.roll()
    offcut = station.cut(this, M, offcuts=((600 * MM, M),)).offcuts[0].code
    station.blank()
    station.box()
    station.discard(gone)

    with station.book.reading() as connection:
        found = standings_like(connection, this, station.now)
        nobody = standings_like(connection, "R0009994", station.now)

    assert {one.code for one in found} == {this, offcut}
    assert {one.material.name for one in found} == {FILM}
    assert nobody == ()


def test_a_box_and_an_unknown_code_have_nothing_older(station: Station) -> None:
    """A question without an answer is no error at the bench."""
    assert _older(station, station.box()) is None
    assert _older(station, "R0009994") is None
