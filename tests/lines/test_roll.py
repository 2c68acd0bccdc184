"""A roll in cross-section, and the air it was in."""

from dataclasses import replace
from datetime import date

import pytest

from stockroom.books.values import Shop
from stockroom.film.limits import Basis, Figure
from stockroom.film.verdict import Curl, TimeFactor
from stockroom.lines import roll as lines
from stockroom.lines.roll import Shade
from stockroom.units import System
from stockroom.work.past import AirStrip, Holding, Past
from stockroom.work.windings import Wraps

WRAPS = Wraps(core_outside_nm=86_200_000, thickness_nm=75_000, inner_nm=0, left_nm=30_000_000_000)
LIMIT = Figure(200.0, Basis.DEFAULT)
OWN = TimeFactor(factor=1.3, low=0.9, high=1.85, trials=4, basis=Basis.TRIAL)
LOOSE = Curl(outer_mm=400.0, inner_mm=320.0, tight_m=0.0, limit=LIMIT, model=TimeFactor())
NOTHING = Past(air=None, curl=None, wraps=None, holding=None)
BOND = Figure(0.5, Basis.MAKER)


def past(curl: Curl = LOOSE) -> Past:
    return replace(NOTHING, curl=curl, wraps=WRAPS)


def drawn(curl: Curl, rows: int = 7) -> list[str]:
    return ["".join(run.text for run in row) for row in lines.picture(past(curl), rows)]


def counts(curl: Curl) -> dict[Shade, int]:
    """The cells of each shade."""
    found = dict.fromkeys(Shade, 0)
    for row in lines.picture(past(curl), 9):
        for run in row:
            found[run.shade] += len(run.text)
    return found


def test_a_roll_is_round_and_its_own_mirror_image() -> None:
    """Twice as many cells across as rows, for a cell is twice as high as wide."""
    assert drawn(LOOSE) == [
        "   ▄██████▄   ",
        " ▄██████████▄ ",
        "█████····█████",
        "████·    ·████",
        "█████····█████",
        " ▀██████████▀ ",
        "   ▀██████▀   ",
    ]


def test_wraps_that_are_too_tight_have_a_sign_of_their_own_from_the_core_outwards() -> None:
    """However little of it there is; more of it is more of the picture."""
    some = counts(replace(LOOSE, inner_mm=199.0, tight_m=0.001))
    more = counts(replace(LOOSE, inner_mm=150.0, tight_m=15.0))
    whole = counts(replace(LOOSE, outer_mm=190.0, inner_mm=150.0, tight_m=30.0))

    assert counts(LOOSE)[Shade.TIGHT] == 0
    assert 0 < some[Shade.TIGHT] < more[Shade.TIGHT] < whole[Shade.TIGHT]
    assert whole[Shade.FINE] == whole[Shade.NEAR] == 0
    seen = drawn(replace(LOOSE, inner_mm=150.0, tight_m=10.0))
    assert "▚" in seen[3][3:6]
    assert "▚" not in seen[3][:2]


def test_wraps_near_the_limit_are_between_both() -> None:
    """Below 1.2 times of it."""
    assert counts(replace(LOOSE, outer_mm=239.0, inner_mm=201.0))[Shade.FINE] == 0
    assert counts(replace(LOOSE, inner_mm=241.0))[Shade.NEAR] == 0
    mixed = counts(replace(LOOSE, outer_mm=300.0, inner_mm=201.0))
    assert mixed[Shade.FINE] > 0
    assert mixed[Shade.NEAR] > 0


def test_film_that_was_wound_anew_can_be_tight_outside_alone() -> None:
    """The wrap that is used next."""
    found = drawn(replace(LOOSE, outer_mm=180.0, inner_mm=400.0))

    assert found[3].startswith("▚")
    assert "▚" not in found[3][2:12]


def test_beside_it_stand_both_ends_the_tight_part_and_what_is_known_of_the_model() -> None:
    """A default reads as a default."""
    assert lines.beside(past(replace(LOOSE, inner_mm=None)), System.METRIC) == (
        "outer wrap curls to a 400 mm circle",
        "inner wrap lies flat",
        "no wrap curls tighter than the limit",
        "limit 200 mm (default); model: default, 0 trials",
    )
    tight = replace(LOOSE, outer_mm=220.9, inner_mm=187.0, tight_m=10.5, model=OWN)
    said = lines.beside(past(tight), System.METRIC)
    assert said[0] == "outer wrap curls to a 220 mm circle"
    assert said[2] == "the last 10.5 m curl tighter than the limit"
    assert said[3].endswith("own trials, 4")
    assert said[4] == "relaxes 1.3 times as slowly as assumed (0.9 to 1.9)"
    few = replace(LOOSE, model=TimeFactor(trials=2))
    assert lines.beside(past(few), System.METRIC)[3].endswith("model: default, 2 of 3 trials")


def test_nothing_is_drawn_of_what_is_not_wound_or_not_known() -> None:
    """And that is said."""
    flat = replace(NOTHING, curl=LOOSE)

    assert lines.picture(NOTHING, 7) == lines.picture(flat, 7) == ()
    assert lines.beside(NOTHING, System.METRIC) == (
        "core or thickness not known: no curl to be told",
    )
    assert lines.beside(replace(NOTHING, is_film=False), System.METRIC) == ()
    assert lines.kept(NOTHING, Shop()) == []


@pytest.mark.parametrize(
    ("flat_j_m2", "modulus", "says"),
    [
        (0.0022, 4.5, "the bond is 0.5 J/m² (maker's sheet), over 100 times that"),
        (0.05, 4.5, "the bond is 0.5 J/m² (maker's sheet), 10 times that"),
        (0.7, 4.5, "the bond is 0.5 J/m² (maker's sheet): it would lift"),
        (None, 4.5, "until `material change … --applied` says it"),
        (None, None, "until `material change … --modulus` says it"),
    ],
)
def test_the_bond_is_held_against_what_it_takes_to_hold_film_flat(
    flat_j_m2: float | None, modulus: float | None, says: str
) -> None:
    """In words; what is not known is asked for."""
    holding = Holding(
        bond=BOND,
        flat_j_m2=flat_j_m2,
        modulus=None if modulus is None else Figure(modulus, Basis.DEFAULT),
    )
    said = lines.beside(replace(past(), holding=holding), System.METRIC)

    assert said[-1] == says
    assert max(map(len, said)) <= 62


def test_the_strip_is_read_without_colour() -> None:
    """Heights between cold and hot, and a block of its own for what is beyond."""
    air = AirStrip(date(2026, 9, 2), 7, (None, 9.0, 10.0, 20.0, 29.9, 30.0, 31.0))

    assert lines.strip(replace(NOTHING, air=air), Shop()) == (
        "air     ?▁▂▅▇▇█  since 2026-09-02",
        "        each 7 days, ▁ below 10 °C, █ above 30 °C, ? not measured",
    )
    assert lines.strip(NOTHING, Shop()) == ()


def test_all_of_it_is_told_in_plain_lines_and_to_a_script() -> None:
    """What lies flat, or is not known, is null."""
    air = AirStrip(date(2026, 9, 2), 7, (None, 20.0))
    known = replace(past(replace(LOOSE, inner_mm=None)), air=air)

    said = lines.kept(known, Shop())
    assert said[1:3] == ["Kept", "air     ?▅  since 2026-09-02"]
    assert "inner wrap lies flat" in said
    assert lines.past_values(known) == {
        "air": {"since": "2026-09-02", "block_days": 7, "mkt_c": [None, 20.0]},
        "curl": {
            "outer_circle_mm": 400.0,
            "inner_circle_mm": None,
            "tight_mm": 0.0,
            "limit_mm": 200.0,
            "limit_basis": "default",
            "trials": 0,
            "model_basis": "default",
            "times": 1.0,
            "times_low": None,
            "times_high": None,
        },
        "installed": None,
        "holding": None,
    }
    assert set(lines.past_values(NOTHING).values()) == {None}
