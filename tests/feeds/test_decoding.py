"""A file is read whatever wrote it."""

import pytest

from stockroom.errors import Code, Exit, Refusal
from stockroom.feeds.decoding import decoded

TEXT = "Zeit;Temperatur [°C]\n14.03.2025 16:30;21,5\n"


@pytest.mark.parametrize(
    ("codec", "name"),
    [
        ("utf-8", "UTF-8"),
        ("utf-8-sig", "UTF-8"),
        ("utf-16", "UTF-16"),
        ("utf-16-le", "UTF-16"),
        ("utf-16-be", "UTF-16"),
        ("cp1252", "Windows-1252"),
    ],
)
def test_a_text_is_read_in_each_encoding(codec: str, name: str) -> None:
    """With a mark at its beginning or without one."""
    assert decoded(TEXT.encode(codec)) == (TEXT, name)


def test_big_endian_with_its_mark() -> None:
    """The mark is no part of the text."""
    assert decoded(b"\xfe\xff" + TEXT.encode("utf-16-be")) == (TEXT, "UTF-16")


def test_spaces_that_do_not_break_are_spaces() -> None:
    """Some programs write one before a unit or before the half of the day."""
    assert decoded("21,5\u00a0°C 4:30\u202fPM".encode()).text == "21,5 °C 4:30 PM"


@pytest.mark.parametrize(
    "raw",
    [b"PK\x03\x04rest", b"%PDF-1.7", b"\x1f\x8b\x08", b"text\0with\0zeros" * 9, b"\x89PNG\0\r"],
)
def test_what_is_no_text_is_refused(raw: bytes) -> None:
    """A spreadsheet or an archive is to be exported first."""
    with pytest.raises(Refusal) as caught:
        decoded(raw)

    assert caught.value.code is Code.BAD_FILE
    assert caught.value.exit is Exit.NOT_UNDERSTOOD
    assert "CSV" in caught.value.sentence


def test_a_damaged_file_is_read_as_far_as_it_goes() -> None:
    """A byte that is nothing in Windows-1252 does not lose the numbers beside it."""
    assert decoded(b"T\x81\xb0C;21.5").text == "T\ufffd°C;21.5"
