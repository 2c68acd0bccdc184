"""Laws of bending and of roll memory."""

from contextlib import suppress

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.linalg import expm

from stockroom.errors import Refusal
from stockroom.film import bending
from stockroom.film.memory import Flat, Free, Stage, Wound, memory
from stockroom.film.prony import Prony, curl_per_m, free, held, parse_prony, straight

DIAMETERS_MM = st.floats(20, 500)
THICKNESSES_UM = st.floats(10, 1_000)
DAYS = st.floats(0.01, 5_000)


@st.composite
def films(draw: st.DrawFn) -> Prony:
    """One to four parts, no two of nearly the same time; at times nothing lasts."""
    days = draw(
        st.lists(
            st.integers(-10, 40), min_size=1, max_size=4, unique=True
        )  # tenths of powers of ten
    )
    raw = [draw(st.floats(0.01, 1)) for _ in days]
    scale = draw(st.floats(0.1, 1)) / sum(raw)
    return Prony(tuple(one * scale for one in raw), tuple(10 ** (one / 10) for one in days))


WINDINGS = st.builds(
    Wound,
    days=DAYS,
    core_outside_mm=DIAMETERS_MM,
    thickness_um=THICKNESSES_UM,
    left_m=st.floats(0.5, 100),
    face_out=st.booleans(),
    is_turned=st.booleans(),
)
HISTORIES = st.lists(WINDINGS | st.builds(Flat, DAYS) | st.builds(Free, DAYS), max_size=5)


def _set(film: Prony, days: float) -> float:
    """The share that film keeps of a curvature it was held at."""
    return curl_per_m(film, held(film, straight(film), 1, days))


@given(films(), DAYS, DAYS)
def test_set_rises_with_time_from_nothing_to_all_that_relaxes(
    film: Prony, days: float, more: float
) -> None:
    """S(0) is 0, S of ages is 1 - g_inf; never less for longer."""
    assert _set(film, 0) == 0
    assert 0 < _set(film, days) <= _set(film, days + more) <= 1 - film.lasting + 1e-12
    assert _set(film, 1e9) == pytest.approx(1 - film.lasting, abs=1e-9)


@given(films(), DAYS, DIAMETERS_MM, st.floats(0.1, 100), THICKNESSES_UM)
def test_film_on_a_smaller_diameter_curls_tighter(
    film: Prony, days: float, diameter_mm: float, more_mm: float, thickness_um: float
) -> None:
    """The share is the same, the curvature it is a share of is not."""
    narrow, wide = (
        memory(
            [Wound(days=days, core_outside_mm=core, thickness_um=thickness_um, left_m=1)], film
        ).innermost_per_m
        for core in (diameter_mm, diameter_mm + more_mm)
    )

    assert narrow > wide > 0
    assert narrow / bending.imposed_per_m(diameter_mm, thickness_um) == pytest.approx(
        wide / bending.imposed_per_m(diameter_mm + more_mm, thickness_um), rel=1e-9
    )


@given(films(), DAYS, DAYS, DAYS)
def test_what_is_left_falls_while_film_lies_free(
    film: Prony, wound: float, days: float, more: float
) -> None:
    """From what was set, to nothing, unless nothing brings it back."""
    state = held(film, straight(film), 1, wound)
    early, late = (curl_per_m(film, free(film, state, rest)) for rest in (days, days + more))

    assert _set(film, wound) + 1e-12 >= early >= late - 1e-12
    assert late >= -1e-12


@given(films(), DAYS, st.floats(0, 1), DAYS, st.floats(0, 1))
def test_two_parts_of_a_time_make_the_whole(
    film: Prony, wound: float, wound_part: float, rest: float, rest_part: float
) -> None:
    """Held or free: nothing happens at a boundary that is none."""
    whole = free(film, held(film, straight(film), 7, wound), rest)

    state = held(film, straight(film), 7, wound * wound_part)
    state = held(film, state, 7, wound * (1 - wound_part))
    state = free(film, state, rest * rest_part)
    state = free(film, state, rest * (1 - rest_part))

    assert state == pytest.approx(whole, abs=1e-10)


@given(films(), DAYS, st.lists(st.floats(-50, 50), min_size=4, max_size=4))
def test_free_film_follows_its_matrix_exponential(
    film: Prony, days: float, settled: list[float]
) -> None:
    """As scipy.linalg.expm has it, from any state."""
    state = tuple(settled[: len(film.days)])
    weights, times = np.array(film.weights), np.array(film.days)
    matrix = (weights[None, :] - np.eye(len(times))) / times[:, None]

    assert free(film, state, days) == pytest.approx(tuple(expm(matrix * days) @ state), abs=1e-9)


@given(films(), st.floats(1, 100), st.floats(0.5, 100))
def test_the_order_of_winding_and_lying_free_matters(
    film: Prony, wound: float, rest: float
) -> None:
    """The same stages the other way round leave more, never less."""
    stages: list[Stage] = [
        Wound(days=wound, core_outside_mm=76, thickness_um=100, left_m=1),
        Free(rest),
    ]
    after, before = (memory(order, film).innermost_per_m for order in (stages, stages[::-1]))
    assume(film.lasting > 0.01)

    assert after < before


@given(films(), HISTORIES, st.floats(0, 1), st.floats(0.5, 2))
def test_curl_is_linear_in_what_imposed_it(
    film: Prony, history: list[Stage], part: float, slower: float
) -> None:
    """Every face turned over is every curl turned over; the limit then finds the same stretches."""
    turned = [
        Wound(
            days=stage.days,
            core_outside_mm=stage.core_outside_mm,
            thickness_um=stage.thickness_um,
            left_m=stage.left_m,
            face_out=not stage.face_out,
            is_turned=stage.is_turned,
        )
        if isinstance(stage, Wound)
        else stage
        for stage in history
    ]
    one, other = (memory(kept, film, slower=slower) for kept in (history, turned))
    place = one.extent.from_m + part * (one.extent.to_m - one.extent.from_m)

    assert one.at_per_m(place) == -other.at_per_m(place)
    assert one.tight(150) == other.tight(150)


@given(films(), HISTORIES, st.floats(20, 2_000), st.floats(0, 1))
def test_a_tight_stretch_holds_the_places_that_curl_tighter_than_the_limit(
    film: Prony, history: list[Stage], circle_mm: float, part: float
) -> None:
    """Up to the ends of each, looked at in 33 places; anywhere where film was wound once."""
    kept = memory(history, film)
    limit = 2_000 / circle_mm
    stretches = kept.tight(circle_mm)
    places = [kept.extent.to_m * look / 32 for look in range(33)]
    if len(kept.turns) == 1:
        places.append(kept.extent.to_m * part)

    for stretch in stretches:
        assert kept.extent.from_m <= stretch.from_m <= stretch.to_m <= kept.extent.to_m
    for place in places:
        told = any(one.from_m <= place <= one.to_m for one in stretches)
        curl = abs(kept.at_per_m(place))
        assert told or curl <= limit * (1 + 1e-9)
        assert not told or curl >= limit * (1 - 1e-9)


@given(st.floats(0.01, 1), st.floats(50, 1_000))
def test_chord_arc_and_circle_tell_the_same_curl(turn: float, strip_mm: float) -> None:
    """Up to half a circle; `turn` is the part of half a circle that the strip makes."""
    curl = 1_000 * np.pi * turn / strip_mm
    circle = bending.circle_mm(curl)
    assert circle is not None
    height = bending.sagitta_mm(curl, strip_mm)
    chord = float(circle * np.sin(strip_mm / circle))

    assert bending.curl_of_circle_per_m(circle) == pytest.approx(curl, rel=1e-12)
    assert bending.curl_from_chord_per_m(chord, height, strip_mm) == pytest.approx(curl, rel=1e-9)
    assert bending.curl_from_arc_per_m(strip_mm, height) == pytest.approx(curl, rel=1e-6)


@given(DIAMETERS_MM, THICKNESSES_UM)
def test_strain_is_half_the_thickness_times_the_curvature(
    diameter_mm: float, thickness_um: float
) -> None:
    """As of any bent plate."""
    strain = bending.strain(diameter_mm, thickness_um)

    assert strain == pytest.approx(
        thickness_um * 1e-6 / 2 * bending.imposed_per_m(diameter_mm, thickness_um), rel=1e-12
    )


@given(films())
def test_a_memory_reads_back_as_it_is_written(film: Prony) -> None:
    """To the twelfth digit."""
    again = parse_prony(str(film))

    assert again.weights == pytest.approx(film.weights, rel=1e-11)
    assert again.days == pytest.approx(film.days, rel=1e-11)


@given(st.text() | st.from_regex(r"[0-9.:,einfa-]{0,40}", fullmatch=True))
def test_any_text_is_a_memory_or_is_refused(text: str) -> None:
    """No other error escapes."""
    with suppress(Refusal):
        assert parse_prony(text).weights
