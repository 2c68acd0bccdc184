"""A memory in parts that relax: held, free, typed, and what cannot be one."""

from math import exp, inf, nan

import pytest

from stockroom.errors import Code, Refusal
from stockroom.film.prony import Prony, curl_per_m, free, held, parse_prony, straight

FILM = Prony((0.2, 0.2, 0.2), (10.0, 100.0, 1_000.0))


def test_film_that_was_never_bent_stays_straight() -> None:
    """Held flat or free."""
    state = straight(FILM)

    assert curl_per_m(FILM, state) == 0
    assert free(FILM, held(FILM, state, 0, 100), 100) == state


def test_film_held_for_ever_keeps_all_but_what_never_relaxes() -> None:
    """Weights of 0.6 in all."""
    assert FILM.lasting == pytest.approx(0.4)
    assert curl_per_m(FILM, held(FILM, straight(FILM), 10, 1e9)) == pytest.approx(6)


def test_free_film_recovers_more_slowly_than_it_was_set() -> None:
    """One part of 0.6 in 100 days recovers in 100 / 0.4, as the solid of three elements does."""
    solid = Prony((0.6,), (100.0,))
    set_per_m = curl_per_m(solid, held(solid, straight(solid), 1, 200))

    left = curl_per_m(solid, free(solid, held(solid, straight(solid), 1, 200), 250))

    assert left == pytest.approx(set_per_m * exp(-1), rel=1e-12)


def test_film_of_which_nothing_lasts_keeps_what_it_has() -> None:
    """Weights that sum to one: it creeps to where all parts agree, and stays there."""
    soft = Prony((0.5, 0.5), (1.0, 100.0))
    state = held(soft, straight(soft), 10, 5)

    late, later = (curl_per_m(soft, free(soft, state, days)) for days in (1e5, 1e8))

    assert late == pytest.approx(later, rel=1e-9)
    assert late > 0.4  # the slow part had settled to a twentieth of the curve
    assert held(soft, state, 10, 1e9) == pytest.approx((10, 10))


def test_no_time_changes_nothing() -> None:
    """Not even in the last bits that matter."""
    state = held(FILM, straight(FILM), 26, 180)

    assert held(FILM, state, -5, 0) == pytest.approx(state, rel=1e-15)
    assert free(FILM, state, 0) == pytest.approx(state, rel=1e-13)


@pytest.mark.parametrize(
    ("text", "prony"),
    [
        ("0.2:10,0.2:100,0.2:1000", FILM),
        (" 0.2:10, .2:1e2 ,0.2 : 1000 ", FILM),
        ("0.2:10,0.2:100,0.2:1000,0.4", FILM),
        ("1:7", Prony((1.0,), (7.0,))),
        ("0.6:100,0.4", Prony((0.6,), (100.0,))),
    ],
)
def test_a_memory_is_read_as_weights_and_days(text: str, prony: Prony) -> None:
    """A last weight without days is the one that never relaxes; what is shown can be typed."""
    assert parse_prony(text) == prony
    assert parse_prony(str(prony)) == prony


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "'' is no memory: write weights and days, like 0.2:10,0.2:100,0.2:1000."),
        ("0.2", "A memory has 1 to 64 parts, a weight and days for each."),
        ("0.2:10:3", "'0.2:10:3' is no memory: write"),
        ("0.2,0.2:10", "'0.2,0.2:10' is no memory: write"),
        ("lots:10", "'lots:10' is no memory: write"),
        ("0.5:10,0.4:100,0.3:1000", "The weights sum to 1.2; with what never relaxes they must"),
        ("0.2:10,0.2:100,0.5", "The weights sum to 0.9; they must sum to one."),
        ("0.2:10,nan", "The weights sum to nan; they must sum to one."),
        ("0:10", "A weight cannot be 0: give more than 0, and at most 1."),
        ("-0.2:10", "A weight cannot be -0.2: give more than 0, and at most 1."),
        ("nan:10", "A weight cannot be nan: give more than 0, and at most 1."),
        ("1.2:10", "A weight cannot be 1.2: give more than 0, and at most 1."),
        ("0.2:0", "No part relaxes in 0 days: give more than 0, up to 1e9."),
        ("0.2:inf", "No part relaxes in inf days: give more than 0, up to 1e9."),
        ("0.2:10,0.2:10", "Parts of 10 and 10 days are one: add their weights."),
        (",".join(["0.001:1"] * 65), "A memory has 1 to 64 parts, a weight and days for each."),
        ("[/]\x1b[2J" * 5_000, "is no memory: write"),
    ],
)
def test_what_is_no_memory_is_refused_in_one_sentence(text: str, said: str) -> None:
    """With what was wrong, and what to write."""
    with pytest.raises(Refusal) as refused:
        parse_prony(text)

    assert refused.value.code is Code.BAD_MEMORY
    assert said in refused.value.sentence
    assert refused.value.sentence.isprintable()
    assert len(refused.value.sentence) < 200


@pytest.mark.parametrize("days", [-1.0, nan, inf])
def test_a_time_that_cannot_have_passed_is_refused(days: float) -> None:
    """Held or free."""
    with pytest.raises(Refusal, match="Film is not kept for") as refused_held:
        held(FILM, straight(FILM), 1, days)
    with pytest.raises(Refusal, match="Film is not kept for") as refused_free:
        free(FILM, straight(FILM), days)

    assert refused_held.value.code is refused_free.value.code is Code.BAD_MEMORY
