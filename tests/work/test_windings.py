"""What a piece keeps of how it was wound: each act that ends a stage writes it down."""

import json
from datetime import UTC, datetime
from typing import Any

import pytest

from stockroom.film.assumed import POLYESTER
from stockroom.film.memory import Flat, Memory, Stage, Stretch, Wound, memory
from stockroom.units import MM, M
from stockroom.work.winding import Core
from stockroom.work.windings import outside_nm, stages_of, wraps_of
from tests.builders import ON_ONE_ENGINE, Station, is_sound

CORE_MM = 86.2
SMALL = Core(inside_nm=50 * MM, wall_nm=5 * MM)
MADE = "2026-06-01"


def _stages(station: Station, code: str) -> tuple[Stage, ...] | None:
    """With every day as long as another, at one temperature."""

    def days(since: str | None, until: str | None) -> float:
        began, end = (_instant(text) for text in (since or MADE, until or station.now.isoformat()))
        return (end - began).total_seconds() / 86_400

    return stages_of(station.state(code), days)


def _instant(text: str) -> datetime:
    moment = datetime.fromisoformat(text)
    return moment if moment.tzinfo else moment.replace(tzinfo=UTC)


def _known(station: Station, code: str) -> tuple[Stage, ...]:
    stages = _stages(station, code)
    assert stages is not None
    return stages


def _memory(station: Station, code: str) -> Memory:
    return memory(_known(station, code), POLYESTER)


def _wound(days: float, left_m: float, **given: Any) -> Wound:
    facts: dict[str, Any] = {"core_outside_mm": CORE_MM, "thickness_um": 75, "is_turned": False}
    return Wound(days=pytest.approx(days), left_m=left_m, **facts | given)  # type: ignore[arg-type]


def test_a_roll_has_been_wound_since_it_was_made(station: Station) -> None:
    """On its core, and nothing is written of it before something else is done."""
    roll = station.roll()
    station.cut(roll, 10 * M)

    assert station.state(roll).windings is None
    assert _stages(station, roll) == (_wound(177.375, 20),)


def test_rewinding_ends_a_stage_and_a_new_core_turns_the_film(station: Station) -> None:
    """On the core it had, the same end stays inside; on a new one the outer end does."""
    roll = station.roll()
    station.rewind(roll, face="out")
    station.wait(days=5)
    station.cut(roll, 10 * M)
    station.rewind(roll, core=SMALL)
    station.wait(days=7)
    station.cut(roll, 2 * M)

    assert _stages(station, roll) == (
        _wound(177.375, 30),
        _wound(5, 20, face_out=True),
        _wound(7, 18, core_outside_mm=60, is_turned=True),
    )
    assert is_sound(station.book)


def test_the_stage_that_ended_is_kept_with_its_instants(station: Station) -> None:
    """As the journal has it: since made, until an instant."""
    roll = station.roll()

    act = station.rewind(roll, core=SMALL)

    (stage,) = json.loads(station.state(roll).windings or "")
    assert stage == {
        "how": "wound",
        "from": None,
        "until": "2026-11-25T09:00:00+00:00",
        "core_outside_nm": 86_200_000,
        "thickness_nm": 75_000,
        "inner_nm": 0,
        "left_nm": 30 * M,
        "face": None,
        "turned": True,
    }
    assert act.moves[0].sets["windings"] == station.state(roll).windings


def test_a_roll_that_lies_flat_still_loses_its_outer_end_first(station: Station) -> None:
    """Wound again, the same end is inside."""
    roll = station.roll()
    station.lay_flat(roll)
    station.wait(days=3)
    station.cut(roll, 10 * M)
    flat = _stages(station, roll)
    lay = wraps_of(station.state(roll))
    station.rewind(roll, core=SMALL)
    station.wait(days=1)

    assert flat == (_wound(177.375, 20), Flat(pytest.approx(3)))  # type: ignore[arg-type]
    assert lay is not None
    assert lay.left_nm == 20 * M
    assert _stages(station, roll) == (
        _wound(177.375, 20),
        Flat(pytest.approx(3)),  # type: ignore[arg-type]
        _wound(1, 20, core_outside_mm=60),
    )


def test_a_print_comes_with_the_history_of_its_film(station: Station) -> None:
    """The leader came off first, then the print: its outer end then is its core end now."""
    roll = station.blank()
    station.cut(roll, 10 * M)

    code = station.print(roll, 4 * M, leader_nm=M, waste_nm=500 * MM, core=SMALL).code
    station.wait(days=2)

    assert _stages(station, code) == (
        _wound(177.375, 19, from_m=15.5),
        _wound(2, 3.5, core_outside_mm=60, is_turned=True),
    )
    (stretch,) = _memory(station, code).tight(10_000)
    assert stretch == Stretch(0, 3.5)
    assert _memory(station, code).outermost_per_m > _memory(station, code).innermost_per_m / 2


def test_a_laminate_comes_with_the_history_of_the_film_below(station: Station) -> None:
    """From its outer end on, wound the other way; it is thicker now."""
    printed = station.print(station.blank(), 4 * M, core=SMALL).code
    station.wait(days=2)

    code = station.laminate(printed, station.clear(), 3 * M, core=SMALL).code
    station.wait(days=1)

    small: dict[str, Any] = {"core_outside_mm": 60, "is_turned": True}
    assert _stages(station, code) == (
        _wound(177.375, 30, from_m=26),
        _wound(2, 4, from_m=1, **small),
        _wound(1, 3, thickness_um=150, **small),
    )


def test_an_offcut_keeps_the_wraps_it_was_cut_at(station: Station) -> None:
    """Loose or laid flat, it curls as the outer end of the roll it was."""
    roll = station.roll()
    of_roll = _memory(station, roll)
    code = station.cut(roll, 5 * M, offcuts=((700 * MM, 2 * M),)).offcuts[0].code

    loose = _memory(station, code)
    station.wait(days=1)
    longer = _stages(station, code)
    station.lay_flat(code)
    station.wait(days=4)

    assert loose.extent == Stretch(28, 30)
    assert loose.innermost_per_m == pytest.approx(of_roll.at_per_m(28))
    assert loose.outermost_per_m == pytest.approx(of_roll.outermost_per_m)
    assert longer == (_wound(178.375, 30, from_m=28),)
    assert _stages(station, code) == (
        _wound(178.375, 30, from_m=28),
        Flat(pytest.approx(4)),  # type: ignore[arg-type]
    )
    assert is_sound(station.book)


def test_the_rest_of_an_offcut_is_its_inner_end(station: Station) -> None:
    """And what is cut out of it its outer one, however it lies."""
    loose, flat = station.offcut((1_200 * MM, 3 * M)), station.offcut((1_200 * MM, 3 * M))
    station.lay_flat(flat)

    for code in (loose, flat):
        part, rest = station.cut(code, M, offcuts=((600 * MM, 400 * MM),)).offcuts

        assert _memory(station, part.code).extent == Stretch(29.6, 30)
        assert _memory(station, rest.code).extent == Stretch(27, 29)


def test_the_rest_of_a_wound_print_goes_on_as_it_was(station: Station) -> None:
    """On its core, since the day it was printed; what is cut out of it ends that."""
    code = station.print(station.blank(), 4 * M, core=SMALL).code
    station.wait(days=2)

    part, rest = station.cut(code, M, offcuts=((600 * MM, M),)).offcuts
    station.wait(days=3)

    on_core: dict[str, Any] = {"core_outside_mm": 60, "is_turned": True}
    roll = _wound(177.375, 30, from_m=26)
    assert _stages(station, rest.code) == (roll, _wound(5, 3, **on_core))
    assert _stages(station, part.code) == (roll, _wound(5, 4, from_m=3, **on_core))


def test_what_comes_back_severed_lay_next_to_what_is_left(station: Station) -> None:
    """It is not known where in the cut it was."""
    roll, job = station.roll(), station.job()
    station.cut(roll, 5 * M, job=job)

    code = station.back(roll, job, size=(600 * MM, 2 * M)).piece

    assert _memory(station, code).extent == Stretch(25, 27)
    assert (
        outside_nm(station.state(code)) == 100_043_740
    )  # sqrt(86.2² + 4 · 27 000 · 0.075 / pi) mm
    station.cut(roll, 25 * M)
    assert outside_nm(station.state(roll)) == 86_200_000


@ON_ONE_ENGINE
def test_an_overrun_finds_what_its_offcuts_are_cut_from(station: Station) -> None:
    """A length the books did not have was on the roll all the same."""
    roll = station.roll()

    done = station.cut(roll, 32 * M, offcuts=((600 * MM, 31 * M),), overrun=True)

    assert _memory(station, done.offcuts[0].code).extent == Stretch(0, 31)


@ON_ONE_ENGINE
def test_what_is_not_known_is_not_made_up(station: Station) -> None:
    """A tube, a wall nobody measured, film of no known thickness, a print on no known core."""
    station.material("thin", thickness_nm=None)
    thin, tube, wall, other = (
        station.roll(**given) for given in ({"material": "thin"}, {}, {}, {})
    )
    station.rewind(tube, core=Core(in_tube=True))
    station.rewind(wall, core=Core(inside_nm=50 * MM))
    station.rewind(other, core=Core(in_tube=True))
    station.rewind(other, core=SMALL)
    printed = station.print(station.blank(), 4 * M).code
    loose = station.offcut()
    station.rewind(loose, face="out")

    for code in (thin, tube, wall, other, printed, loose):
        assert _stages(station, code) is None
    for code in (thin, tube, wall, printed, loose):
        assert outside_nm(station.state(code)) is None
    assert outside_nm(station.state(other)) == 80_403_911  # sqrt(60² + 4 · 30 000 · 0.075 / pi) mm


@ON_ONE_ENGINE
def test_a_piece_laid_flat_before_windings_were_kept_has_no_history(station: Station) -> None:
    """It was wound, nobody knows on what."""
    roll = station.roll()
    station.lay_flat(roll)

    state = station.state(roll)._replace(windings=None)

    assert stages_of(state, lambda _since, _until: 1.0) is None
    assert wraps_of(state) is None


def test_undo_gives_the_windings_back(station: Station) -> None:
    """Of the roll, and of nothing it made."""
    roll = station.blank()
    station.rewind(roll, core=SMALL)
    before = station.state(roll)

    station.print(roll, 4 * M)
    station.undo(roll)
    station.lay_flat(roll)
    station.undo(roll)

    assert station.state(roll) == before
    assert is_sound(station.book)
