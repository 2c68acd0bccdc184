"""Kinds decide the form of a piece."""

import pytest

from stockroom.errors import Code, Refusal
from stockroom.film.kinds import Ink, Kind, parse_ink, parse_kind


def test_film_and_tape_come_in_rolls_and_the_rest_is_counted() -> None:
    """Six kinds are lengths; liquids, blades, tools and other goods are numbers."""
    counted = {kind for kind in Kind if not kind.comes_in_rolls}

    assert counted == {Kind.LIQUID, Kind.BLADE, Kind.TOOL, Kind.OTHER}


def test_only_vinyl_is_printed_on() -> None:
    """Blank print media is cast and calendered vinyl."""
    printed_on = {kind for kind in Kind if kind.is_printed_on}

    assert printed_on == {Kind.PRINT_VINYL, Kind.CALENDERED_VINYL}


@pytest.mark.parametrize("text", ["window-film", " Window Film ", "WINDOW_FILM", "window film"])
def test_a_kind_is_read_however_it_is_written(text: str) -> None:
    """Case, spaces and dashes do not matter."""
    assert parse_kind(text) is Kind.WINDOW_FILM


@pytest.mark.parametrize(
    ("text", "hint"), [("windowfilm", "did you mean window-film?"), ("", "use one of window-film")]
)
def test_a_wrong_kind_is_refused_with_the_nearest(text: str, hint: str) -> None:
    """The sentence says what to write instead."""
    with pytest.raises(Refusal) as refused:
        parse_kind(text)

    assert refused.value.code is Code.BAD_NAME
    assert hint in refused.value.sentence


def test_a_hostile_kind_is_made_harmless() -> None:
    """What was typed is quoted without its control characters, and short."""
    with pytest.raises(Refusal) as refused:
        parse_kind("\x1b[31m" + "x" * 10_000)

    assert "\x1b" not in refused.value.sentence
    assert len(refused.value.sentence) < 250


@pytest.mark.parametrize("text", ["eco-solvent", " ECO-SOLVENT "])
def test_an_ink_is_read_however_it_is_written(text: str) -> None:
    """Case and spaces do not matter."""
    assert parse_ink(text) is Ink.ECO_SOLVENT


@pytest.mark.parametrize("text", ["", "pencil", "\x1b[31m" + "x" * 10_000])
def test_a_wrong_ink_is_refused_with_all_there_are(text: str) -> None:
    """The sentence is short and harmless."""
    with pytest.raises(Refusal) as refused:
        parse_ink(text)

    assert refused.value.code is Code.BAD_NAME
    assert "solvent, eco-solvent, latex, uv, unknown" in refused.value.sentence
    assert "\x1b" not in refused.value.sentence
    assert len(refused.value.sentence) < 150


def test_what_is_laid_over_other_film_protects_it() -> None:
    """Laminate, and clear protective film."""
    laid_over = {kind for kind in Kind if kind.is_laid_over}

    assert laid_over == {Kind.LAMINATE, Kind.PROTECTIVE_FILM}
