"""What the wraps of a roll remember: on which diameter they lay, how long, and in which order."""

from dataclasses import replace

import pytest

from stockroom.errors import Code, Refusal
from stockroom.film import roll
from stockroom.film.bending import imposed_per_m
from stockroom.film.memory import Flat, Free, Memory, Stretch, Wound, memory
from stockroom.film.prony import Prony, parse_prony

FILM = parse_prony("0.2:10,0.2:100,0.2:1000")
FACTORY = Wound(days=180, core_outside_mm=86.2, thickness_um=88.9, left_m=20)
KEPT = 0.399886177  # of any curvature held for 180 days, by these parameters
LIMIT_MM = 217.0


def _of(*history: Wound | Flat | Free) -> Memory:
    return memory(history, FILM)


def test_film_of_no_known_winding_curls_to_nothing() -> None:
    """A sheet that always lay flat."""
    sheet = _of(Flat(100))

    assert sheet.innermost_per_m == sheet.outermost_per_m == 0
    assert sheet.tight(LIMIT_MM) == ()
    assert sheet.tight_at_core_m(LIMIT_MM) == 0


def test_a_wrap_keeps_a_share_of_the_curvature_of_its_own_diameter() -> None:
    """The innermost lies on the core, the outermost on all the others."""
    kept = _of(FACTORY)

    assert kept.innermost_per_m == pytest.approx(KEPT * imposed_per_m(86.2, 88.9), rel=1e-8)
    assert kept.outermost_per_m == pytest.approx(
        KEPT * imposed_per_m(roll.outside_mm(20, 86.2, 88.9), 88.9), rel=1e-8
    )
    assert kept.innermost_per_m > kept.at_per_m(10) > kept.outermost_per_m > 0


def test_drawing_a_roll_down_changes_nothing_for_the_wraps_that_stay() -> None:
    """They lie where they lay."""
    full, drawn = _of(FACTORY), _of(replace(FACTORY, left_m=3))

    assert drawn.at_per_m(2) == full.at_per_m(2)
    assert drawn.outermost_per_m == full.at_per_m(3)


def test_the_tight_stretch_ends_where_the_curl_is_at_the_limit() -> None:
    """Tighter on one side, wider on the other, and never longer than the roll."""
    kept = _of(FACTORY)

    (stretch,) = kept.tight(LIMIT_MM)

    assert stretch.from_m == 0
    assert 0 < stretch.to_m < 20
    assert kept.at_per_m(stretch.to_m) == pytest.approx(2_000 / LIMIT_MM, rel=1e-9)
    assert kept.tight_at_core_m(LIMIT_MM) == stretch.to_m
    assert kept.tight_at_core_m(100) == 0
    assert kept.tight(100) == ()
    assert kept.tight_at_core_m(1_000) == 20


def test_rewinding_brings_the_tightest_film_outside() -> None:
    """What was the outer end lies at the core now; a moment on the new core changes nothing yet."""
    kept = _of(FACTORY)
    rewound = _of(FACTORY, replace(FACTORY, days=1e-6))

    assert rewound.outermost_per_m == pytest.approx(kept.innermost_per_m, rel=1e-6)
    assert rewound.innermost_per_m == pytest.approx(kept.outermost_per_m, rel=1e-6)
    (stretch,) = rewound.tight(LIMIT_MM)
    assert stretch.to_m == 20
    assert 20 - stretch.from_m == pytest.approx(kept.tight_at_core_m(LIMIT_MM), rel=1e-5)
    assert rewound.tight_at_core_m(LIMIT_MM) == 0


def test_a_roll_wound_again_with_the_same_end_inside_keeps_its_order() -> None:
    """And so keeps on as if nothing had been done."""
    again = replace(FACTORY, days=80, is_turned=False)

    both, once = _of(replace(FACTORY, days=100), again), _of(FACTORY)

    assert both.at_per_m(3) == pytest.approx(once.at_per_m(3), rel=1e-12)
    assert both.tight_at_core_m(LIMIT_MM) == pytest.approx(once.tight_at_core_m(LIMIT_MM))


def test_a_roll_rewound_half_way_may_be_tight_at_both_ends() -> None:
    """The old core end, and the new one; between them the curl falls and rises again."""
    narrow = Wound(days=365, core_outside_mm=60, thickness_um=127, left_m=40)
    both = _of(narrow, replace(narrow, days=30))
    limit_mm = 2_000 / 11.5  # it falls from 12.5 per metre to 11.1, and rises to 12.0

    inner, outer = both.tight(limit_mm)

    assert (inner.from_m, outer.to_m) == (0, 40)
    assert 0 < inner.to_m < 20 < outer.from_m < 40
    for end_m in (inner.to_m, outer.from_m):
        assert both.at_per_m(end_m) == pytest.approx(2_000 / limit_mm, rel=1e-9)
    assert both.tight_at_core_m(limit_mm) == inner.to_m


def test_what_was_left_when_film_was_taken_off_says_where_a_place_lay() -> None:
    """Rewound with 12 m left of 20: the new core end is the twelfth metre of the old roll."""
    rewound = _of(replace(FACTORY, left_m=12), replace(FACTORY, days=1e-6, left_m=12))

    assert rewound.innermost_per_m == pytest.approx(_of(FACTORY).at_per_m(12), rel=1e-6)
    assert rewound.at_per_m(12) == pytest.approx(_of(FACTORY).innermost_per_m, rel=1e-6)


def test_an_offcut_keeps_the_diameter_it_was_cut_at() -> None:
    """Two metres from the outer end of what was left then, held flat since."""
    cut_off = replace(FACTORY, from_m=18)
    roll_then, offcut = _of(FACTORY, Flat(5)), _of(cut_off, Flat(5))

    assert offcut.extent == Stretch(18, 20)
    assert offcut.innermost_per_m == roll_then.at_per_m(18)
    assert offcut.outermost_per_m == roll_then.outermost_per_m
    assert offcut.tight(1_000) == (Stretch(18, 20),)
    assert offcut.tight_at_core_m(1_000) == 2
    assert offcut.tight(LIMIT_MM) == ()


def test_an_offcut_that_is_wound_again_lies_where_it_lay() -> None:
    """Its inner end inside: on the eighteenth metre of the roll; its outer end inside: on the last."""
    own = replace(FACTORY, days=1e-6, left_m=2)
    cut_off = replace(FACTORY, from_m=18)

    same, turned = _of(cut_off, replace(own, is_turned=False)), _of(cut_off, own)

    for place in (0, 0.5, 2):
        assert same.at_per_m(place) == pytest.approx(_of(FACTORY).at_per_m(18 + place), rel=1e-6)
        assert turned.at_per_m(place) == pytest.approx(_of(FACTORY).at_per_m(20 - place), rel=1e-6)
    assert same.extent == turned.extent == Stretch(0, 2)


def test_more_film_than_was_known_lies_at_the_nearer_end() -> None:
    """A count after rewinding may find more than the books had before."""
    found = _of(replace(FACTORY, left_m=10), replace(FACTORY, days=1e-6, left_m=11))

    assert found.outermost_per_m == pytest.approx(found.at_per_m(10), rel=1e-6)
    assert found.outermost_per_m == pytest.approx(_of(FACTORY).innermost_per_m, rel=1e-6)


def test_winding_the_other_way_takes_curl_out_and_then_puts_it_in() -> None:
    """Of a place, as the vector of three parts has it: 180 days one way, 30 the other."""
    other = replace(FACTORY, days=30, face_out=True, is_turned=False)

    kept = _of(FACTORY, other)

    assert kept.innermost_per_m == pytest.approx(-0.082187806 * imposed_per_m(86.2, 88.9), rel=1e-7)
    assert _of(FACTORY, replace(other, days=3)).innermost_per_m > 0


def test_curl_to_the_other_side_is_as_tight() -> None:
    """A limit is a circle."""
    out = replace(FACTORY, face_out=True)

    assert _of(out).innermost_per_m == -_of(FACTORY).innermost_per_m
    assert _of(out).tight(LIMIT_MM) == _of(FACTORY).tight(LIMIT_MM)


def test_the_order_of_winding_and_lying_free_matters() -> None:
    """What was set last is there most."""
    before = _of(Free(30), FACTORY).innermost_per_m
    after = _of(FACTORY, Free(30)).innermost_per_m

    assert after < before


def test_held_flat_film_loses_its_curl_faster_than_free_film() -> None:
    """It is bent back all the time."""
    assert 0 < _of(FACTORY, Flat(30)).innermost_per_m < _of(FACTORY, Free(30)).innermost_per_m


def test_slower_film_takes_so_many_times_as_long_for_everything() -> None:
    """Set and recovery."""
    history = (FACTORY, Free(7))
    longer = (replace(FACTORY, days=360), Free(14))
    slow = Prony(FILM.weights, tuple(2 * days for days in FILM.days))

    halved = memory(longer, FILM, slower=2).innermost_per_m

    assert halved == pytest.approx(memory(history, FILM).innermost_per_m, rel=1e-12)
    assert halved == pytest.approx(memory(longer, slow).innermost_per_m, rel=1e-10)


@pytest.mark.parametrize(
    ("wrong", "code"),
    [
        ({"core_outside_mm": 0}, Code.BAD_ROLL),
        ({"core_outside_mm": float("nan")}, Code.BAD_ROLL),
        ({"thickness_um": -1}, Code.BAD_ROLL),
        ({"left_m": -1}, Code.BAD_ROLL),
        ({"from_m": -1}, Code.BAD_ROLL),
        ({"from_m": float("nan")}, Code.BAD_ROLL),
        ({"from_m": 21}, Code.BAD_ROLL),
        ({"days": -1}, Code.BAD_MEMORY),
        ({"days": float("nan")}, Code.BAD_MEMORY),
    ],
)
def test_a_winding_no_film_can_have_had_is_refused(wrong: dict[str, float], code: Code) -> None:
    """A core, a film, a length or a time that cannot be."""
    with pytest.raises(Refusal) as refused:
        memory([replace(FACTORY, **wrong)], FILM)  # type: ignore[arg-type]

    assert refused.value.code is code
