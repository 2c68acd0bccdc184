"""Text in printer dots: the typeface, how wide a line is, how it is broken and shortened.

The typeface travels with the program, so that a label is the same on every machine. It covers
Latin, Greek, Cyrillic, Armenian and Georgian. A character it has no picture for is drawn as a box;
so is one that this plain setting would get wrong (right to left, or a mark over another letter):
a box is seen, a wrong word is believed.
"""

import unicodedata
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from io import BytesIO
from itertools import takewhile
from typing import Final

from PIL import ImageFont

from stockroom.errors import clean_text

_BOX: Final = "\N{WHITE SQUARE}"
_MORE: Final = "\N{HORIZONTAL ELLIPSIS}"
_RIGHT_TO_LEFT: Final = frozenset({"R", "AL", "AN"})
_LONGEST: Final = 200


@dataclass(frozen=True, slots=True)
class Ink:
    """The dots that a line of text blackens, from where its baseline begins; rise is upwards."""

    left: int
    right: int
    rise: int
    drop: int

    @property
    def width(self) -> int:
        """How wide the line is."""
        return self.right - self.left


@dataclass(frozen=True, slots=True)
class Face:
    """The typeface at one size and weight."""

    dots: int
    bold: bool = False

    @property
    def font(self) -> ImageFont.FreeTypeFont:
        """What draws it."""
        return _font(self)

    def ink(self, text: str) -> Ink:
        """Where the line is black."""
        return _ink(self, text)

    def fits(self, text: str, width: int) -> bool:
        """Whether the line is no wider than that."""
        return self.ink(text).width <= width


@lru_cache(maxsize=64)
def _font(face: Face) -> ImageFont.FreeTypeFont:
    name = "DejaVuSansCondensed-Bold.ttf" if face.bold else "DejaVuSansCondensed.ttf"
    content = files("stockroom.labels").joinpath("fonts", name).read_bytes()
    # The other layout engine depends on a library of the machine, and so would the label.
    return ImageFont.truetype(BytesIO(content), face.dots, layout_engine=ImageFont.Layout.BASIC)


@lru_cache(maxsize=1024)
def _ink(face: Face, text: str) -> Ink:
    left, top, right, bottom = face.font.getbbox(text, anchor="ls", mode="1")
    return Ink(round(left), round(right), -round(top), round(bottom))


def settable(text: str) -> str:
    """Text from outside, cleaned, with a box for each character that would be set wrongly."""
    return "".join(_BOX if _is_set_wrongly(c) else c for c in clean_text(text, _LONGEST))


def _is_set_wrongly(character: str) -> bool:
    return (
        unicodedata.category(character).startswith("M")
        or unicodedata.bidirectional(character) in _RIGHT_TO_LEFT
    )


def broken(text: str, face: Face, width: int) -> tuple[str, ...]:
    """The text in lines no wider than that, broken between words, inside a word only if it must."""
    lines: list[str] = []
    line = ""
    for word in text.split():
        longer = f"{line} {word}".strip()
        if face.fits(longer, width):
            line = longer
            continue
        if line:
            lines.append(line)
        *whole, line = _pieces(word, face, width)
        lines.extend(whole)
    return (*lines, line)


def _pieces(word: str, face: Face, width: int) -> list[str]:
    pieces = [""]
    for character in word:
        if pieces[-1] and not face.fits(pieces[-1] + character, width):
            pieces.append("")
        pieces[-1] += character
    return pieces


def balanced(text: str, face: Face, width: int) -> tuple[str, ...]:
    """The text in no more lines than it needs, of even width: no number stands alone below."""
    lines = broken(text, face, width)
    while True:
        widest = max(face.ink(line).width for line in lines)
        narrower = broken(text, face, widest - 1)
        if len(narrower) > len(lines) or narrower == lines:
            return lines
        lines = narrower


def shortened(text: str, face: Face, width: int) -> str:
    """The text, or as much of its beginning as fits with an ellipsis."""
    if face.fits(text, width):
        return text
    longer_and_longer = (text[:length].rstrip() + _MORE for length in range(1, len(text)))
    fitting = takewhile(lambda short: face.fits(short, width), longer_and_longer)
    return [_MORE, *fitting][-1]


def in_lines(text: str, face: Face, width: int, most: int) -> tuple[str, ...]:
    """The text in at most so many lines; what is too much is an ellipsis."""
    lines = broken(text, face, width)
    if len(lines) <= most:
        return lines
    rest = " ".join(lines[most - 1 :])
    return (*lines[: most - 1], shortened(rest, face, width))
