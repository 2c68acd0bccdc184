"""What a label's QR code rests on, against ISO/IEC 18004 and two programs that implement it.

Version 1 has 21 x 21 modules and, at level H, 26 codewords of which 17 correct errors: from memory,
and so is how many bits a text takes. Capacities: the standard's table, as a public page on the
symbol and the manuals of scanners print it. qrcode encodes; zxing-cpp, an independent program,
decodes.
"""

import pytest
import zxingcpp
from qrcode import constants
from qrcode.exceptions import DataOverflowError
from qrcode.main import QRCode

from stockroom.codes.own import Letter, build, numbers
from stockroom.labels.symbol import MODULES, QUIET, symbol

CODEWORDS, CORRECTING = 26, 17
LEVELS = {
    "L": (constants.ERROR_CORRECT_L, 25),
    "M": (constants.ERROR_CORRECT_M, 20),
    "Q": (constants.ERROR_CORRECT_Q, 16),
    "H": (constants.ERROR_CORRECT_H, 10),
}
"""Capitals and digits that version 1 holds at each level."""


def _bits(characters: int) -> int:
    """Mode and count take 4 and 9 bits, a pair of characters 11, the last of an odd number 6."""
    return 4 + 9 + 11 * (characters // 2) + 6 * (characters % 2)


@pytest.mark.parametrize("level", LEVELS)
def test_version_1_holds_as_much_as_is_published(level: str) -> None:
    """One character more does not go in."""
    correction, most = LEVELS[level]

    assert _fits(most, correction)
    assert not _fits(most + 1, correction)


def test_the_capacity_at_level_h_is_what_the_codewords_leave() -> None:
    """Nine codewords of eight bits: ten characters, not eleven."""
    room = 8 * (CODEWORDS - CORRECTING)

    assert _bits(LEVELS["H"][1]) <= room < _bits(LEVELS["H"][1] + 1)


@pytest.mark.parametrize("letter", Letter)
def test_every_code_of_the_book_is_version_1_at_level_h(letter: Letter) -> None:
    """As another program reads it, and no longer than the standard's table allows."""
    for number in numbers(letter, 999_900, 5):
        code = build(letter, number)

        (read,) = zxingcpp.read_barcodes(symbol(code, 4).convert("L"))

        assert len(code) <= LEVELS["H"][1]
        assert isinstance(read.extra, dict)
        assert (read.text, read.ec_level, str(read.extra["Version"])) == (code, "H", "1")


def test_the_symbol_has_the_standards_side_and_quiet_zone() -> None:
    """21 modules, and four around them."""
    assert (MODULES - 2 * QUIET, QUIET) == (21, 4)


def _fits(characters: int, correction: int) -> bool:
    qr = QRCode(version=1, error_correction=correction)
    qr.add_data("R" * characters)
    try:
        qr.make(fit=False)
    except DataOverflowError:
        return False
    return True
