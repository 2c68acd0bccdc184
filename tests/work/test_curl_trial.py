"""The curl trial: passed, it extends the limit of being wound; failed, it holds the piece."""

from datetime import timedelta
from typing import Any

import pytest

from stockroom.errors import Code
from stockroom.film.kinds import Kind
from stockroom.film.limits import Basis
from stockroom.film.verdict import Judgement, Verdict
from stockroom.units import MM, M
from stockroom.work.look import piece
from stockroom.work.winding import Core
from stockroom.work.windings import outside_nm
from tests.builders import ON_ONE_ENGINE, Station, is_sound, refused
from tests.floor import Floor

WIDE = {"chord_nm": 200 * MM, "height_nm": 10 * MM}
"""A strip that curls to 200² / 40 + 10 = 1010 mm: worked by hand."""
TIGHT = {"chord_nm": 80 * MM, "height_nm": 20 * MM}
"""80² / 80 + 20 = 100 mm."""


def _judged(station: Station, code: str) -> Judgement:
    return piece(station.book, code, now=station.now).judged.judgement


def _wound_print(station: Station) -> str:
    """A print that has been wound for longer than it may."""
    code = station.print(station.blank(), 10 * M, core=Core(inside_nm=80 * MM, wall_nm=5 * MM)).code
    station.wait(days=100)
    return code


def test_a_passed_trial_turns_test_into_use_first_for_its_extension(station: Station) -> None:
    """30 days by default; it is kept at which diameter the strip was taken."""
    code = _wound_print(station)
    before = _judged(station, code).verdict

    done = station.try_curl(code, **WIDE, note="flat on the bench")
    after = _judged(station, code)

    state = station.state(code)
    assert (before, after.verdict) == (Verdict.TEST, Verdict.USE_FIRST)
    assert (done.passed, done.circle_nm, done.good_until) == (True, 1_010 * MM, "2027-04-04")
    assert (state.wound_passed, state.held) == ("2027-04-04", None)
    assert done.at_diameter_nm == state.curl_at_nm == outside_nm(state) == 95_157_394
    assert (done.limit.value, done.limit.basis) == (150, Basis.DEFAULT)
    assert done.act.note == "flat on the bench"
    station.wait(days=31)
    assert _judged(station, code).verdict is Verdict.STOP
    assert is_sound(station.book)


def test_a_failed_trial_holds_the_piece_and_says_by_how_much(station: Station) -> None:
    """An old pass is void; tried again, only the last failure is said."""
    code = _wound_print(station)
    station.hold(code, "creased")
    station.try_curl(code, **WIDE)

    done = station.try_curl(code, **TIGHT)

    state = station.state(code)
    assert (done.passed, done.circle_nm, done.good_until) == (False, 100 * MM, None)
    assert (state.wound_passed, state.curl_at_nm) == (None, None)
    assert state.held == "creased; failed curl trial: curls to 100 mm, limit 150 mm"
    station.try_curl(code, height_nm=90 * MM, chord_nm=0)
    assert station.state(code).held == "creased; failed curl trial: curls to 90 mm, limit 150 mm"
    station.try_adhesion(code, passed=False)
    assert (station.state(code).held or "").endswith("limit 150 mm; failed adhesion trial")
    station.undo(code)
    station.undo(code)
    station.undo(code)
    assert station.state(code).wound_passed == "2027-04-04"
    assert is_sound(station.book)


def test_asked_again_with_the_same_request_it_is_one_trial(station: Station) -> None:
    """And the same answer."""
    code = _wound_print(station)

    first, again = (station.try_curl(code, **WIDE, request="one and the same") for _ in range(2))

    assert first == again
    assert [act.kind for act in station.history(code)] == ["trial", "print"]


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("measured", "circle_mm"),
    [
        ({"chord_nm": 200 * MM, "height_nm": 19 * MM}, 545.315789),  # 200² / 76 + 19
        ({"chord_nm": 200 * MM, "height_nm": 19 * MM, "arc_nm": 205 * MM}, 545.315789),
        ({"arc_nm": 300 * MM, "height_nm": 22_331_755}, 1_000),  # reference vector: R 500 mm
        ({"chord_nm": 0, "height_nm": 180 * MM}, 180),  # closed
        ({"chord_nm": 200 * MM, "height_nm": 0}, None),
        ({"arc_nm": 200 * MM, "height_nm": 0}, None),
    ],
)
def test_the_circle_follows_from_chord_or_length_and_height(
    station: Station, measured: dict[str, Any], circle_mm: float | None
) -> None:
    """Flat film has none, and passes."""
    done = station.try_curl(station.blank(), **measured)

    assert done.passed
    if circle_mm is None:
        assert (done.circle_nm, done.curl_per_m) == (None, 0)
    else:
        assert (done.circle_nm or 0) / MM == pytest.approx(circle_mm, abs=1e-4)
        assert done.curl_per_m == pytest.approx(2_000 / circle_mm)


@ON_ONE_ENGINE
def test_the_limit_is_the_makers_or_the_houses_or_a_default(floor: Floor) -> None:
    """And a circle as wide as the limit passes."""
    floor.material("stiff", Kind.WINDOW_FILM, figures={"curl": "1010mm"})
    stiff, film = floor.roll(material="stiff"), floor.roll()
    floor.set_value("curl.window-film", "100mm")
    floor.set_value("curl.print-vinyl", "6 1/8 in")

    at_limit, house = floor.try_curl(stiff, **WIDE), floor.try_curl(film, **TIGHT)
    in_inches = floor.try_curl(floor.blank(), **TIGHT)

    assert (at_limit.passed, at_limit.limit.value, at_limit.limit.basis) == (
        True,
        1_010,
        Basis.MAKER,
    )
    assert (house.passed, house.limit.value, house.limit.basis) == (True, 100, Basis.HOUSE)
    assert (in_inches.passed, in_inches.limit.value) == (False, 155.575)


@ON_ONE_ENGINE
def test_a_limit_in_inches_is_said_in_inches(floor: Floor) -> None:
    """The circle is rounded to the tighter side."""
    floor.set_value("units", "us")
    film = floor.roll()

    floor.try_curl(film, **TIGHT)

    assert floor.state(film).held == "failed curl trial: curls to 3 7/8 in, limit 7 7/8 in"


def test_the_strip_may_be_of_wraps_further_in(station: Station) -> None:
    """A diameter between core and outside, give or take what a calliper is off."""
    roll = station.roll()

    inner = station.try_curl(roll, **WIDE, at_diameter_nm=95 * MM)
    nearly = station.try_curl(roll, **WIDE, at_diameter_nm=102 * MM)

    # pi (95² - 86.2²) / (4 · 0.075) mm: worked by hand
    assert inner.at_diameter_nm == 95 * MM
    assert inner.act.moves[0].facts["from_core_nm"] == 16_698_193_272
    assert nearly.at_diameter_nm == outside_nm(station.state(roll)) == 101_465_407
    assert nearly.act.moves[0].facts["from_core_nm"] == 30 * M
    for wrong in (85 * MM, 104 * MM):
        with refused(station.book, Code.BAD_ROLL, "from 86.2 mm to 101.5 mm"):
            station.try_curl(roll, **WIDE, at_diameter_nm=wrong)


def test_what_was_measured_is_kept_with_how_the_film_was_wound(station: Station) -> None:
    """So that it can be looked at again when more is known of the climate."""
    roll = station.roll(made="2026-06")
    station.rewind(roll, face="out")
    station.wait(days=2)

    act = station.try_curl(roll, **WIDE, arc_nm=202 * MM, other_way=True).act

    facts = dict(act.moves[0].facts)
    stages = facts.pop("stages")
    assert facts == {
        "trial": "curl",
        "passed": True,
        "chord_nm": 200 * MM,
        "arc_nm": 202 * MM,
        "height_nm": 10 * MM,
        "other_way": True,
        "circle_nm": 1_010 * MM,
        "limit_nm": 200 * MM,
        "basis": "default",
        "at_diameter_nm": 101_465_407,
        "from_core_nm": 30 * M,
        "good_until": "2026-12-27",
        "is_laminated": False,
    }
    assert isinstance(stages, list)
    assert [(one["from"], one["until"], one["face"]) for one in stages] == [
        ("2026-06-01", "2026-11-25T09:00:00+00:00", None),
        ("2026-11-25T09:00:00+00:00", "2026-11-27T09:00:00+00:00", "out"),
    ]


def test_offcuts_go_on_with_a_pass_and_another_core_ends_it(station: Station) -> None:
    """It was of the film as it lay; a print or a laminate is to be tried for itself."""
    roll = station.blank()
    station.try_curl(roll, **WIDE)
    passed = station.state(roll)
    sizes = ((600 * MM, M), (600 * MM, M))
    offcut, other = (one.code for one in station.cut(roll, M, offcuts=sizes).offcuts)
    printed = station.print(roll, 2 * M).code
    laminated = station.laminate(other, station.clear(), M).code

    station.rewind(roll)
    in_place = station.state(roll)
    station.rewind(roll, core=Core(inside_nm=152 * MM, wall_nm=5 * MM))

    cut_off = station.state(offcut)
    assert (cut_off.wound_passed, cut_off.curl_at_nm) == (passed.wound_passed, passed.curl_at_nm)
    assert outside_nm(cut_off) == passed.curl_at_nm
    assert in_place.curl_at_nm == passed.curl_at_nm
    for code in (printed, laminated, roll):
        assert station.state(code).wound_passed is None
        assert station.state(code).curl_at_nm is None


@ON_ONE_ENGINE
def test_film_of_no_known_core_is_tried_without_a_diameter(station: Station) -> None:
    """A pass holds for all of it, for nobody can say where it was taken."""
    roll = station.roll()
    station.rewind(roll, core=Core(in_tube=True))

    done = station.try_curl(roll, **WIDE)

    assert (done.passed, done.at_diameter_nm, station.state(roll).curl_at_nm) == (True, None, None)
    with refused(station.book, Code.UNKNOWN_SIZE, "leave the diameter out"):
        station.try_curl(roll, **WIDE, at_diameter_nm=90 * MM)


@ON_ONE_ENGINE
def test_a_trial_written_down_late_counts_from_its_day(station: Station) -> None:
    """As an adhesion trial does."""
    roll = station.roll()
    station.wait(days=3)

    station.try_curl(roll, **WIDE, at=station.now - timedelta(days=2))

    assert station.state(roll).wound_passed == "2026-12-26"


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("measured", "code", "says"),
    [
        ({"height_nm": 10 * MM}, Code.BAD_USAGE, "--chord"),
        ({"chord_nm": 0, "height_nm": 0}, Code.BAD_CURL, "a chord or a height"),
        ({"chord_nm": -MM, "height_nm": 10 * MM}, Code.BAD_CURL, "chord"),
        ({"chord_nm": 200 * MM, "height_nm": -MM}, Code.BAD_CURL, "height"),
        ({"arc_nm": 0, "height_nm": 10 * MM}, Code.BAD_CURL, "strip"),
        ({"chord_nm": 310 * MM, "height_nm": MM, "arc_nm": 300 * MM}, Code.BAD_CURL, "longer"),
        ({"arc_nm": 300 * MM, "height_nm": 120 * MM}, Code.BAD_CURL, "half a circle"),
        ({"chord_nm": 290 * MM, "height_nm": 90 * MM, "arc_nm": 300 * MM}, Code.BAD_CURL, "stand"),
    ],
)
def test_refuses_a_strip_that_cannot_be(
    station: Station, measured: dict[str, Any], code: Code, says: str
) -> None:
    """In one sentence, before anything is looked up."""
    roll = station.roll()

    with refused(station.book, code, says):
        station.try_curl(roll, **measured)


@ON_ONE_ENGINE
def test_refuses_what_is_no_film_or_not_here_or_has_no_limit(floor: Floor) -> None:
    """A box, what is no more, what is away, what is never applied from its roll."""
    floor.material("tape", Kind.TRANSFER_TAPE)
    gone, away, tape, box = floor.roll(), floor.roll(), floor.roll(material="tape"), floor.box()
    floor.discard(gone)
    floor.go_out(away)

    for code, piece_ in ((Code.WRONG_FORM, box), (Code.ENDED, gone), (Code.OUT, away)):
        with refused(floor.book, code):
            floor.try_curl(piece_, **WIDE)
    with refused(floor.book, Code.WRONG_KIND, "no limit of curl"):
        floor.try_curl(tape, **WIDE)
