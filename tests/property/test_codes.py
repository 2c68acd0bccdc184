"""Laws of the codes of the book and of telling scanners from people."""

import string

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from stockroom.codes.burst import SILENCE_S, Burst, Scanned, Stroke
from stockroom.codes.own import LAST_NUMBER, Letter, build, is_code, is_usable, letter_of, read
from stockroom.codes.recognise import Own, recognise
from stockroom.errors import Refusal

CHARACTERS = string.digits + string.ascii_uppercase
letters = st.sampled_from(Letter)


@st.composite
def codes(draw: st.DrawFn) -> str:
    """Any code that may be given out."""
    letter, number = draw(letters), draw(st.integers(1, LAST_NUMBER))
    assume(is_usable(letter, number))
    return build(letter, number)


@given(codes(), st.data())
def test_every_code_reads_back_however_it_is_broken_up(code: str, data: st.DataObject) -> None:
    """Spaces, dashes and small letters change nothing."""
    fillers = data.draw(
        st.lists(st.sampled_from(["", " ", "-", "\u2013", "\u00a0"]), min_size=8, max_size=8)
    )
    typed = "".join(filler + one for filler, one in zip(fillers, code, strict=True))

    assert read(typed.lower()) == code
    assert recognise(typed) == Own(code, letter_of(code))


@given(codes(), st.integers(0, 7), st.sampled_from(CHARACTERS))
def test_every_single_wrong_character_is_found(code: str, place: int, wrong: str) -> None:
    """A wrong character anywhere is never another piece."""
    assume(code[place] != wrong)
    misread = code[:place] + wrong + code[place + 1 :]

    assert not is_code(misread)
    with pytest.raises(Refusal):
        read(misread)


@given(codes(), st.integers(0, 6))
def test_every_swap_of_neighbours_is_found(code: str, place: int) -> None:
    """Two neighbours typed in the wrong order are never another piece."""
    assume(code[place] != code[place + 1])
    swapped = code[:place] + code[place + 1] + code[place] + code[place + 2 :]

    assert not is_code(swapped)


@given(codes(), st.integers(0, 5))
def test_every_swap_over_one_character_is_found(code: str, place: int) -> None:
    """Two characters swapped over the one between them are never another piece."""
    assume(code[place] != code[place + 2])
    swapped = code[:place] + code[place + 2] + code[place + 1] + code[place] + code[place + 3 :]

    assert not is_code(swapped)


@given(st.text(max_size=60))
@example("\u00df" * 20)
def test_any_text_reads_as_a_valid_code_or_is_refused(text: str) -> None:
    """Nothing that is scanned breaks the reading, and what is read is printable as it stands."""
    try:
        outcome = read(text)
    except Refusal as refused:
        outcome = refused.sentence

    assert is_code(outcome) or (outcome.isprintable() and outcome.endswith("."))


keys = st.sampled_from([*"R0001231ab ]", "enter", "tab", "ctrl+j", "ctrl+q", "down", "backspace"])
gaps = st.sampled_from([0.0, 0.001, 0.008, 0.03, 0.05, 0.07, 0.11, 0.13, 0.2, 1.0])


@given(st.lists(st.tuples(keys, gaps), max_size=40))
def test_no_key_of_a_person_is_lost_or_moved(played: list[tuple[str, float]]) -> None:
    """What comes back is what went in, in order, but for the keys of scans and their ends."""
    burst, now_s, fed = Burst(), 10.0, list[Stroke]()
    decided: list[Scanned | Stroke] = []
    for key, gap_s in played:
        now_s += gap_s
        fed.append(Stroke(key, key if len(key) == 1 else None, now_s))
        decided += burst.feed(fed[-1])
    decided += burst.silence(now_s + SILENCE_S)

    typed = [one for one in decided if isinstance(one, Stroke)]
    assert typed == [one for one in fed if one in typed]
    assert len(typed) == len(fed) or any(isinstance(one, Scanned) for one in decided)


@given(st.lists(codes(), min_size=1, max_size=8), st.sampled_from(["\r", "\t", ""]), gaps)
def test_codes_of_any_number_are_scanned_in_order(sent: list[str], end: str, gap_s: float) -> None:
    """At a scanner's pace every code sent is taken once, in the order sent."""
    assume(gap_s <= 0.05)
    names = {"\r": "enter", "\t": "tab"}
    burst, now_s = Burst(), 10.0
    decided: list[Scanned | Stroke] = []
    for one in "".join(code + end for code in sent):
        now_s += gap_s
        decided += burst.feed(Stroke(names.get(one, one), one, now_s))
    decided += burst.silence(now_s + SILENCE_S)

    assert decided == [Scanned(code) for code in sent]
