"""What is assumed of each kind until trials fit it."""

import pytest

from stockroom.film.assumed import assumed
from stockroom.film.bending import circle_mm, imposed_per_m
from stockroom.film.kinds import Kind
from stockroom.film.memory import Wound, memory
from stockroom.film.prony import curl_per_m, free, held, straight

FILMS = (
    Kind.WINDOW_FILM,
    Kind.PROTECTIVE_FILM,
    Kind.PRINT_VINYL,
    Kind.CALENDERED_VINYL,
    Kind.LAMINATE,
)


def test_every_film_that_is_applied_has_defaults_and_nothing_else_has() -> None:
    """Transfer tape is thrown away; goods of a box are not wound."""
    assert [kind for kind in Kind if assumed(kind)] == list(FILMS)


@pytest.mark.parametrize("kind", FILMS)
def test_a_default_limit_is_one_that_storage_can_reach(kind: Kind) -> None:
    """Not at once and not never: new film is wider, and old film on a narrow core is tighter."""
    known = assumed(kind)
    assert known is not None

    def innermost_mm(days: float) -> float:
        wound = Wound(days=days, core_outside_mm=60, thickness_um=100, left_m=10)
        return circle_mm(memory([wound], known.prony).innermost_per_m) or 0

    assert innermost_mm(1) > known.limit_circle_mm > innermost_mm(1_000)
    assert known.limit_circle_mm > 2_000 / imposed_per_m(60, 100)


def test_urethane_lets_go_of_a_curve_faster_than_polyester() -> None:
    """And calendered vinyl keeps more of one than cast; a choice, no source."""

    def left(kind: Kind, wound: float, free_days: float) -> float:
        known = assumed(kind)
        assert known is not None
        state = held(known.prony, straight(known.prony), 1, wound)
        return curl_per_m(known.prony, free(known.prony, state, free_days))

    assert left(Kind.PROTECTIVE_FILM, 365, 7) < left(Kind.WINDOW_FILM, 365, 7)
    assert left(Kind.CALENDERED_VINYL, 365, 7) > left(Kind.PRINT_VINYL, 365, 7)
