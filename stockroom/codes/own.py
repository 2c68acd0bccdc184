"""The codes of the book: a letter, six digits and a check character, like R0001231.

    R roll    C offcut    B box    J job    P place    D order: what is to be delivered    K the wall card

The check character is that of ISO/IEC 7064, MOD 37,2: it finds every single wrong character and
every swap of neighbours. Numbers whose check character is not one of
0-9 B C D E F G H J K N P R S T V X are never given out, because the others look like a digit or move
between keyboard layouts. So a misread is never another piece.
"""

import re
import unicodedata
from collections.abc import Iterator
from enum import StrEnum
from itertools import islice
from typing import NewType

from stockroom.errors import Code, Refusal, clean_text

PieceCode = NewType("PieceCode", str)
JobCode = NewType("JobCode", str)
PlaceCode = NewType("PlaceCode", str)
OrderCode = NewType("OrderCode", str)


class Letter(StrEnum):
    """What a code belongs to."""

    ROLL = "R"
    OFFCUT = "C"
    BOX = "B"
    JOB = "J"
    PLACE = "P"
    ORDER = "D"
    CARD = "K"


LAST_NUMBER = 999_999
_DIGITS = 6
_ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*"
_USABLE = frozenset("0123456789BCDEFGHJKNPRSTVX")
_FORM = re.compile(f"[{''.join(Letter)}][0-9]{{{_DIGITS}}}[{_ALPHABET}]")
_LONGEST_TEXT = 40


def check_character(payload: str) -> str:
    """The MOD 37,2 check character of digits and capital letters; ValueError for any other."""
    remainder = 0
    for character in payload:
        remainder = (remainder + _ALPHABET.index(character, 0, 36)) * 2 % 37
    return _ALPHABET[(1 - remainder) % 37]


def is_usable(letter: Letter, number: int) -> bool:
    """Whether the number may be given out: in range, with a check character that is easy to tell."""
    return 0 < number <= LAST_NUMBER and check_character(f"{letter}{number:06d}") in _USABLE


def build(letter: Letter, number: int) -> str:
    """The code of a usable number; ValueError for a number that is never given out."""
    if not is_usable(letter, number):
        raise ValueError(f"{letter} {number} is never given out")
    payload = f"{letter}{number:0{_DIGITS}d}"
    return payload + check_character(payload)


def _usable_after(letter: Letter, after: int) -> Iterator[int]:
    """Every usable number above one, in order."""
    return (number for number in range(after + 1, LAST_NUMBER + 1) if is_usable(letter, number))


def numbers(letter: Letter, after: int, count: int) -> list[int]:
    """The next so many usable numbers, or a refusal when the letter has not so many left."""
    found = list(islice(_usable_after(letter, after), count))
    if len(found) < count:
        raise Refusal(
            Code.TOO_MANY,
            f"Codes of the kind {letter} run out: {len(found)} are left, {count} are needed.",
        )
    return found


def _plain(text: str) -> str:
    """A text in capitals without spaces and dashes; too long is nothing."""
    if len(text) > _LONGEST_TEXT:
        return ""
    return "".join(
        one
        for one in unicodedata.normalize("NFKC", text).upper()
        if one not in "\t\r\n\u2212" and unicodedata.category(one) not in {"Cf", "Pd", "Zs"}
    )


def is_code(text: str) -> bool:
    """Whether a text is exactly a code that may have been given out."""
    return bool(_FORM.fullmatch(text)) and (
        check_character(text[:-1]) == text[-1] and is_usable(Letter(text[0]), int(text[1:-1]))
    )


def looks_like_code(text: str) -> bool:
    """Whether a text has the form of a code, right or misread, as people type it."""
    return bool(_FORM.fullmatch(_plain(text)))


def read(text: str) -> str:
    """The code in a typed or scanned text, forgiving case, spaces and dashes, or a refusal."""
    plain = _plain(text)
    if is_code(plain):
        return plain
    shown = clean_text(text, _LONGEST_TEXT)
    if _FORM.fullmatch(plain):
        fits = check_character(plain[:-1]) == plain[-1]
        why = "no label carries it" if fits else "its check character does not fit"
        raise Refusal(Code.MISREAD, f"{shown} is a misread: {why}; scan it again or type it again.")
    raise Refusal(
        Code.MISREAD,
        f"“{shown}” is not a code; a code is one of {', '.join(Letter)}, then six digits, "
        "then a check character.",
    )


def _read_one_of(text: str, letters: tuple[Letter, ...], name: str) -> str:
    """The code in a text when it belongs to one of the letters, or a refusal."""
    code = read(text)
    if letter_of(code) not in letters:
        raise Refusal(
            Code.MISREAD,
            f"{code} is not the code of a {name}, which begins with {' or '.join(letters)}.",
        )
    return code


def read_piece(text: str) -> PieceCode:
    """The code of a roll, an offcut or a box in a text, or a refusal."""
    return PieceCode(_read_one_of(text, (Letter.ROLL, Letter.OFFCUT, Letter.BOX), "piece"))


def read_job(text: str) -> JobCode:
    """The code of a job in a text, or a refusal."""
    return JobCode(_read_one_of(text, (Letter.JOB,), "job"))


def read_place(text: str) -> PlaceCode:
    """The code of a place in a text, or a refusal."""
    return PlaceCode(_read_one_of(text, (Letter.PLACE,), "place"))


def place_or_name(text: str) -> str:
    """The code of a place, or whatever else people call it; a misread code is refused."""
    return read_place(text) if looks_like_code(text) else text


def read_order(text: str) -> OrderCode:
    """The code of an order in a text, or a refusal."""
    return OrderCode(_read_one_of(text, (Letter.ORDER,), "order"))


def letter_of(code: str) -> Letter:
    """What a code that was read belongs to."""
    return Letter(code[0])


def grouped(code: str) -> str:
    """A code as it is printed for people: R000 1231."""
    return f"{code[:4]} {code[4:]}"
