"""What the codes of the wall card stand for: orders, digits, the point, and who is at work.

A card hangs for years, so a sign keeps its code for good: new signs go to the end of SIGNS.
"""

from dataclasses import dataclass
from enum import StrEnum
from typing import Final, TypeAlias

from stockroom.codes.own import Letter, build, grouped, numbers
from stockroom.errors import Code, Refusal


class Order(StrEnum):
    """What a scan tells the program to do."""

    OK = "OK"
    UNDO = "undo"
    FINISHED = "finished"
    OUT = "out"
    IN = "in"
    BACK = "back"
    SPOILED = "spoiled"


@dataclass(frozen=True, slots=True)
class Typed:
    """One character of a number: a digit, or the point."""

    character: str


@dataclass(frozen=True, slots=True)
class Operator:
    """The key, 1 to 9, of the person who is at work."""

    key: int


Sign: TypeAlias = Order | Typed | Operator

SIGNS: Final[tuple[Sign, ...]] = (
    *Order,
    *(Typed(character) for character in "0123456789."),
    *(Operator(key) for key in range(1, 10)),
)
_CODES: Final = tuple(build(Letter.CARD, number) for number in numbers(Letter.CARD, 0, len(SIGNS)))
_BY_CODE: Final = dict(zip(_CODES, SIGNS, strict=True))
_BY_SIGN: Final = dict(zip(SIGNS, _CODES, strict=True))


def code_of(sign: Sign) -> str:
    """The code that is printed for a sign."""
    return _BY_SIGN[sign]


def sign_of(code: str) -> Sign:
    """What a code of the wall card stands for, or a refusal for one that no card carries."""
    if code not in _BY_CODE:
        raise Refusal(Code.MISREAD, f"{grouped(code)} stands for nothing: no wall card carries it.")
    return _BY_CODE[code]
