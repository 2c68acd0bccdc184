"""What a scanned text is: a code of this book, or something unknown."""

from dataclasses import dataclass

from stockroom.codes.own import Letter, letter_of, looks_like_code, read
from stockroom.errors import clean_text

_LONGEST_TEXT = 512


@dataclass(frozen=True, slots=True)
class Own:
    """A code of the book and what it belongs to."""

    code: str
    letter: Letter


@dataclass(frozen=True, slots=True)
class Unknown:
    """A text that is no code of the book, made harmless."""

    text: str


def recognise(text: str) -> Own | Unknown:
    """What a scanned text is; a code that was misread is refused."""
    if not looks_like_code(text):
        return Unknown(clean_text(text, _LONGEST_TEXT))
    code = read(text)
    return Own(code, letter_of(code))
