"""A scanned text is a code of the book or something unknown."""

import pytest

from stockroom.codes.own import Letter
from stockroom.codes.recognise import Own, Unknown, recognise
from stockroom.errors import Code, Refusal


def test_a_code_of_the_book_comes_with_what_it_belongs_to() -> None:
    """The letter says which screen is asked."""
    assert recognise("R0001231") == Own("R0001231", Letter.ROLL)
    assert recognise("r000-1231\n") == Own("R0001231", Letter.ROLL)


@pytest.mark.parametrize("text", ["", "LOT 4411", "R000123", "0109501101530003"])
def test_anything_else_is_unknown(text: str) -> None:
    """A maker's label is not taken for one of the book's."""
    assert recognise(text) == Unknown(text)


def test_an_unknown_text_is_made_harmless() -> None:
    """Control characters and escapes of a scanned text go no further."""
    assert recognise("LOT\x1b[2J\u202e 1") == Unknown("LOT[2J 1")


def test_a_misread_code_is_refused_rather_than_unknown() -> None:
    """A damaged label says so, instead of looking like a stranger's."""
    with pytest.raises(Refusal) as refused:
        recognise("R0001232")

    assert refused.value.code is Code.MISREAD
