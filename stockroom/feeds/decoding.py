"""A file's bytes as text, whatever wrote them.

decoded(raw)    Decoded: the text, and the name of its encoding
"""

import codecs
from typing import NamedTuple

from stockroom.errors import Code, Refusal

_MARKS = (
    (codecs.BOM_UTF8, "utf-8", "UTF-8"),
    (codecs.BOM_UTF16_LE, "utf-16-le", "UTF-16"),
    (codecs.BOM_UTF16_BE, "utf-16-be", "UTF-16"),
)
_SPACES = "\N{NO-BREAK SPACE}\N{NARROW NO-BREAK SPACE}\N{FIGURE SPACE}"
_LOOKED_AT = 2_000
_MANY = 0.4
_PACKED = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0", b"%PDF", b"\x1f\x8b")


class Decoded(NamedTuple):
    """The text of a file, and the encoding it was written in."""

    text: str
    encoding: str


def decoded(raw: bytes) -> Decoded:
    """The text of a file: UTF-8, UTF-16 with or without its mark, else Windows-1252.

    What is no text at all is refused.
    """
    if raw.startswith(_PACKED):
        raise Refusal(
            Code.BAD_FILE, "This is no text: export the readings as CSV from the program it is of."
        )
    for mark, codec, name in _MARKS:
        if raw.startswith(mark):
            return _as_text(raw[len(mark) :], codec, name)
    if (unmarked := _without_mark(raw)) is not None:
        return _as_text(raw, unmarked, "UTF-16")
    try:
        return _plain(Decoded(raw.decode("utf-8"), "UTF-8"))
    except UnicodeDecodeError:
        return _as_text(raw, "cp1252", "Windows-1252")


def _without_mark(raw: bytes) -> str | None:
    """The kind of UTF-16 of a text without a mark: every other byte of plain text is zero."""
    start = raw[:_LOOKED_AT]
    for codec, zeros in (("utf-16-le", start[1::2]), ("utf-16-be", start[0::2])):
        if zeros and zeros.count(0) > _MANY * len(zeros):
            return codec
    return None


def _as_text(raw: bytes, codec: str, name: str) -> Decoded:
    return _plain(Decoded(raw.decode(codec, errors="replace"), name))


def _plain(found: Decoded) -> Decoded:
    if "\0" in found.text[:_LOOKED_AT]:
        raise Refusal(Code.BAD_FILE, "This is no text: export the readings as CSV.")
    text = found.text
    for space in _SPACES:
        text = text.replace(space, " ")
    return Decoded(text, found.encoding)
