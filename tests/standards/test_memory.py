"""Bending and roll memory against independent arithmetic, and against a library's solvers.

Not in the vector file, for the program does not use them: effective time in ageing film, the shift
above the glass transition, and creep by a power of time.
"""

import csv
from collections.abc import Callable, Iterator
from functools import lru_cache
from math import cos, pi
from pathlib import Path
from random import Random  # noqa: TID251 - seeded

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.linalg import expm
from scipy.optimize import brentq, nnls

from stockroom.film import bending
from stockroom.film.memory import Flat, Free, Stage, Wound, memory
from stockroom.film.prony import Prony, curl_per_m, free, held, parse_prony, straight

FILM = parse_prony("0.2:10,0.2:100,0.2:1000")


def _kept(prony: Prony, *stages: str) -> float:
    """The share of its curvature that film keeps: wound +30 or -30 days, free7."""
    state = straight(prony)
    for stage in stages:
        if stage.startswith("free"):
            state = free(prony, state, float(stage.removeprefix("free")))
        else:
            days = float(stage)
            state = held(prony, state, 1 if days > 0 else -1, abs(days))
    return curl_per_m(prony, state)


@lru_cache
def _as_exponentials(lasting: float, tau: float, beta: float) -> Prony:
    """A stretched exponential as a sum of plain ones, by least squares without negative weights."""
    times = np.geomspace(1e-3, 1e7, 60)
    days = np.concatenate([[0.0], np.geomspace(0.5, 2_000, 400)])
    wanted = np.exp(-((days / tau) ** beta))
    weights, _ = nnls(np.exp(-days[:, None] / times), wanted)
    parts = [(weight, days) for weight, days in zip(weights, times, strict=True) if weight > 2e-6]
    scale = (1 - lasting) / sum(weight for weight, _ in parts)
    return Prony(
        tuple(float(weight * scale) for weight, _ in parts), tuple(float(days) for _, days in parts)
    )


def _stretched(lasting: float, tau: float, beta: float, days: float) -> float:
    prony = _as_exponentials(lasting, tau, beta)
    return curl_per_m(prony, held(prony, straight(prony), 1, days))


_QUANTITIES: dict[str, Callable[..., float | None]] = {
    "strain_pct": lambda diameter, thickness: 100 * bending.strain(diameter, thickness),
    "imposed_per_m": bending.imposed_per_m,
    "curl_of_circle_per_m": bending.curl_of_circle_per_m,
    "circle_mm": bending.circle_mm,
    "sagitta_mm": bending.sagitta_mm,
    "curl_from_arc_per_m": bending.curl_from_arc_per_m,
    "stiffness_n_m": lambda *film: bending.Plate(*film).stiffness_n_m,
    "lift_moment_n": lambda *film_curl: bending.Plate(*film_curl[:3]).lift_moment_n(film_curl[3]),
    "flat_energy_j_m2": lambda *film_curl: bending.Plate(*film_curl[:3]).flat_energy_j_m2(
        film_curl[3]
    ),
    "stretched": _stretched,
}


def _rows() -> Iterator[object]:
    with (Path(__file__).parent / "memory.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            yield pytest.param(row, id=row["row"])


@pytest.mark.parametrize("row", list(_rows()))
def test_every_row_of_the_vector_file_comes_out(row: dict[str, str]) -> None:
    """Each with its own tolerance; the source stands in the row."""
    words = row["arguments"].split()
    if row["quantity"] == "kept":
        result: float | None = _kept(parse_prony(words[0]), *words[1:])
    else:
        result = _QUANTITIES[row["quantity"]](*map(float, words))

    assert result == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]), rel=0)
    assert row["source"]


def _matrix(prony: Prony) -> np.ndarray:
    """How fast each part of free film follows the curl: (g_j - delta_ij) / tau_i."""
    weights, times = np.array(prony.weights), np.array(prony.days)
    return np.asarray((weights[None, :] - np.eye(len(weights))) / times[:, None])


def _a_film(chance: Random) -> Prony:
    """One to six parts, from hours to years, light and heavy."""
    number = chance.randint(1, 6)
    raw = [10 ** chance.uniform(-2, 0) for _ in range(number)]
    scale = chance.choice([1.0, 0.9, 0.5, 0.1]) / sum(raw)
    times = [10 ** (chance.uniform(0, 0.9) + part * 5 / number - 1) for part in range(number)]
    chance.shuffle(times)
    return Prony(tuple(weight * scale for weight in raw), tuple(times))


@pytest.mark.parametrize("seed", range(200))
def test_free_film_recovers_as_the_matrix_exponential_says(seed: int) -> None:
    """scipy.linalg.expm, to 1e-12, for a moment and for years; also where nothing lasts."""
    chance = Random(seed)  # noqa: S311 - no secret
    prony = _a_film(chance)
    state = tuple(chance.uniform(-30, 30) for _ in prony.weights)
    days = 10 ** chance.uniform(-3, 3)

    recovered = free(prony, state, days)

    assert recovered == pytest.approx(tuple(expm(_matrix(prony) * days) @ state), abs=30e-12)


def _integrated(prony: Prony, stages: list[tuple[float | None, float]]) -> float:
    """The curl after stages, held at a curvature or free, by a solver of differential equations."""
    times, weights = np.array(prony.days), np.array(prony.weights)
    state = np.zeros(len(times))
    for curvature, days in stages:
        solved = solve_ivp(
            lambda _, q, c=curvature: ((weights @ q if c is None else c) - q) / times,
            (0, days),
            state,
            method="LSODA",
            rtol=1e-11,
            atol=1e-12,
        )
        state = solved.y[:, -1]
    return float(weights @ state)


def _on_mm(from_core_m: float, core_mm: float, thickness_um: float) -> float:
    """The diameter below which so much film lies: its area seen from the side, found by search."""
    area_mm2 = from_core_m * thickness_um
    return float(
        brentq(lambda outside: pi / 4 * (outside**2 - core_mm**2) - area_mm2, core_mm, 2_000)
    )


@pytest.mark.parametrize("from_core_m", [0.0, 0.5, 6.0, 12.0])
def test_a_history_of_one_place_is_what_a_solver_of_its_equations_finds(from_core_m: float) -> None:
    """Wound, drawn down, rewound inside out, laid flat, wound the other way on a third core, free."""
    history: list[Stage] = [
        Wound(days=180, core_outside_mm=86.2, thickness_um=88.9, left_m=20),
        Wound(days=40, core_outside_mm=160, thickness_um=88.9, left_m=14),
        Flat(3),
        Wound(days=11, core_outside_mm=60, thickness_um=88.9, left_m=12, face_out=True),
        Free(2.5),
    ]
    # From the last core: the second winding ran the other way, the first one the same way again.
    places = [20 - (14 - from_core_m), 14 - from_core_m, from_core_m]
    cores = [86.2, 160.0, 60.0]
    first, second, third = (
        2_000 / (_on_mm(place, core, 88.9) + 0.0889)
        for place, core in zip(places, cores, strict=True)
    )

    expected = _integrated(FILM, [(first, 180), (second, 40), (0.0, 3), (-third, 11), (None, 2.5)])

    assert memory(history, FILM).at_per_m(from_core_m) == pytest.approx(expected, abs=1e-8)


@pytest.mark.parametrize("height", [0.5, 19.0, 60.0, 95.0])
def test_a_strip_of_a_length_and_height_is_the_arc_that_a_root_finder_finds(height: float) -> None:
    """scipy.optimize.brentq on R (1 - cos(s / 2R)) for a strip of 300 mm."""
    radius = brentq(lambda r: r * (1 - cos(300 / (2 * r))) - height, 300 / pi, 1e6, xtol=1e-10)

    assert bending.curl_from_arc_per_m(300, height) == pytest.approx(1_000 / radius, rel=1e-7)
