"""Check characters against ISO/IEC 7064 as another library computes it.

python-stdnum (stdnum.iso7064.mod_37_2) is independent of this project; the first vector is the one in
its own documentation, the others were computed with it.
"""

import pytest
from stdnum.iso7064 import mod_37_2

from stockroom.codes.own import Letter, build, check_character, is_usable, numbers


@pytest.mark.parametrize(
    ("payload", "character"),
    [
        ("G123489654321", "Y"),  # documentation of python-stdnum
        ("R000123", "1"),  # the rest: computed with python-stdnum
        ("R001234", "8"),
        ("R000002", "J"),
        ("R000003", "H"),
        ("B000123", "E"),
        ("R000001", "L"),
        ("R000124", "*"),
        ("B000001", "Y"),
    ],
)
def test_check_characters_agree_with_published_vectors(payload: str, character: str) -> None:
    """The whole chain of digits and letters yields the published character."""
    assert check_character(payload) == character


@pytest.mark.parametrize("letter", Letter)
def test_check_characters_agree_with_another_library(letter: Letter) -> None:
    """Thousands of numbers from the whole range yield what python-stdnum computes."""
    for number in range(0, 1_000_000, 397):
        payload = f"{letter}{number:06d}"
        assert check_character(payload) == mod_37_2.calc_check_digit(payload)


@pytest.mark.parametrize("letter", Letter)
def test_another_library_accepts_the_codes_that_are_given_out(letter: Letter) -> None:
    """A code is valid by the standard, and never ends in a character that is hard to tell."""
    for number in numbers(letter, 4_000, 300):
        assert mod_37_2.is_valid(build(letter, number))
        assert build(letter, number)[-1] not in "AILMOQUWYZ*"
    assert not all(is_usable(letter, number) for number in range(1, 40))


@pytest.mark.parametrize("payload", ["r000123", "R00*123", "R000 123", "R\u0660"])
def test_only_digits_and_capitals_have_a_check_character(payload: str) -> None:
    """A text that was not made plain first is a mistake of the program."""
    with pytest.raises(ValueError, match="substring not found"):
        check_character(payload)
