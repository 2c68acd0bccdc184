"""Codes of the book: given out, printed, typed and read."""

import pytest

from stockroom.codes.own import (
    LAST_NUMBER,
    Letter,
    build,
    grouped,
    is_code,
    is_usable,
    letter_of,
    numbers,
    read,
    read_job,
    read_piece,
    read_place,
)
from stockroom.errors import Code, Refusal


@pytest.mark.parametrize(
    "text",
    [
        "R0001231",
        "r0001231",
        "R000 1231",
        "R-000-1231",
        " R 0 0 0 1 2 3 1 \r\n",
        "R000\u20131231",
        "R000\u20111231",
        "R000\u22121231",
        "R000\u00ad1231",
        "R000\u00a01231",
        "\ufeffR000\u200b1231",
        "\uff320001231",
    ],
)
def test_typing_forgives_case_spaces_and_dashes(text: str) -> None:
    """However a person or a page breaks a code up, it is the same code."""
    assert read(text) == "R0001231"


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("R0001232", "its check character does not fit"),
        ("r000-1321", "its check character does not fit"),
        ("B0001231", "its check character does not fit"),
        ("R000001L", "no label carries it"),
        ("R000124*", "no label carries it"),
        ("R000000N", "no label carries it"),
    ],
)
def test_a_misread_is_said_to_be_one(text: str, why: str) -> None:
    """A wrong character is refused, and the sentence offers no code to type instead."""
    with pytest.raises(Refusal, match=why) as refused:
        read(text)

    assert refused.value.code is Code.MISREAD
    assert "scan it again or type it again" in refused.value.sentence


@pytest.mark.parametrize(
    "text",
    ["", "R", "R000123", "R00012311", "Z0001231", "O001231R", "RO001231", "R" * 10_000, "[/]"],
)
def test_a_text_that_is_no_code_is_told_what_one_looks_like(text: str) -> None:
    """The sentence shows what was typed, cut short, and the form of a code."""
    with pytest.raises(Refusal, match="is not a code; a code is") as refused:
        read(text)

    assert refused.value.code is Code.MISREAD
    assert len(refused.value.sentence) < 150


def test_the_letter_tells_pieces_jobs_and_places_apart() -> None:
    """A code of one kind is refused where another is asked for."""
    roll, job, place = (
        build(one, numbers(one, 0, 1)[0]) for one in (Letter.ROLL, Letter.JOB, Letter.PLACE)
    )

    assert (read_piece(roll), read_job(job), read_place(place)) == (roll, job, place)
    with pytest.raises(Refusal, match="is not the code of a piece, which begins with R or C or B"):
        read_piece(job)
    with pytest.raises(Refusal, match="is not the code of a job, which begins with J"):
        read_job(place)
    with pytest.raises(Refusal, match="is not the code of a place, which begins with P"):
        read_place(roll)


def test_numbers_are_given_out_in_order_and_skip_the_hard_to_read() -> None:
    """R1 would end in L, so the first roll is number 2."""
    assert numbers(Letter.ROLL, 0, 5) == [2, 3, 4, 5, 6]
    assert numbers(Letter.ROLL, 123, 1)[0] == 128
    assert numbers(Letter.ROLL, 0, 0) == []


def test_seven_numbers_in_ten_are_given_out() -> None:
    """26 of the 37 check characters are easy to tell apart (26 / 37 = 0.703)."""
    usable = sum(is_usable(Letter.ROLL, number) for number in range(1, 10_001))

    assert usable / 10_000 == pytest.approx(26 / 37, abs=0.01)


def test_a_letter_that_has_run_out_is_refused() -> None:
    """The last number is not followed by the first."""
    with pytest.raises(Refusal, match="run out: 0 are left, 1 are needed") as refused:
        numbers(Letter.ROLL, LAST_NUMBER, 1)

    assert refused.value.code is Code.TOO_MANY


@pytest.mark.parametrize("number", [0, 1, 124, -5, 1_000_000])
def test_a_number_that_is_never_given_out_builds_no_code(number: int) -> None:
    """Nobody can print a label that reading would refuse."""
    with pytest.raises(ValueError, match="never given out"):
        build(Letter.ROLL, number)


def test_a_code_is_printed_in_two_groups() -> None:
    """Two groups of four are copied with fewer slips than eight characters; they read back the same."""
    assert grouped("R0001231") == "R000 1231"
    assert read(grouped("R0001231")) == "R0001231"


def test_a_code_is_exact_only_as_printed() -> None:
    """What decides a scan is the code itself, not what typing would forgive."""
    assert is_code("R0001231")
    assert not is_code("r0001231")
    assert not is_code("R000 1231")
    assert letter_of("R0001231") is Letter.ROLL
