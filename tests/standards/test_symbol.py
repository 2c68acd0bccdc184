"""What a label's QR code rests on, against ISO/IEC 18004 and two programs that implement it.

Version v has 17 + 4 v modules a side; version 1 has at level H 26 codewords of which 17 correct
errors, in the order in which they are laid: from memory, and so is how many bits a text takes. That
level H mends about 30 %: common practice, no source; here it is damaged until it fails. Capacities: the standard's table, as a public page on the
symbol and the manuals of scanners print it. qrcode encodes; zxing-cpp, an independent program,
decodes.
"""

from collections.abc import Iterator
from itertools import islice, product

import pytest
import zxingcpp
from PIL import ImageChops
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


@pytest.mark.parametrize("version", [1, 2, 7, 40])
def test_a_version_has_the_modules_that_the_standard_counts(version: int) -> None:
    """Four more a side with each; the one that labels have is the smallest."""
    qr = QRCode(version=version, border=QUIET)
    qr.make(fit=False)

    assert qr.modules_count == 17 + 4 * version
    assert len(qr.get_matrix()) == 17 + 4 * version + 2 * QUIET


def test_level_h_mends_eight_codewords_and_not_nine() -> None:
    """Two of what corrects are spent on each, and one is kept: 8 of 26, about 30 %."""
    codewords = list(_codewords())
    most = CORRECTING // 2

    for first, step in product(range(CODEWORDS), (1, 3, 5)):
        struck = [codewords[(first + step * place) % CODEWORDS] for place in range(most + 1)]
        assert _reads(struck[:most])
        assert not _reads(struck)

    assert len(codewords) == CODEWORDS


def _codewords() -> Iterator[list[tuple[int, int]]]:
    """The modules, across and down, of each codeword of version 1, in pairs of columns up and down."""
    modules = _free_modules()
    while found := list(islice(modules, 8)):
        yield found


def _free_modules() -> Iterator[tuple[int, int]]:
    """From the right below; the three finders, the lines between them and the format are not free."""
    right = [20, 18, 16, 14, 12, 10, 8, 5, 3, 1]
    for number, column in enumerate(right):
        for step in range(21):
            row = step if number % 2 else 20 - step
            for across in (column, column - 1):
                is_finder = (across < 9 and (row < 9 or row > 12)) or (across > 12 and row < 9)
                if not is_finder and 6 not in (across, row):
                    yield across, row


def _reads(struck: list[list[tuple[int, int]]]) -> bool:
    """Whether a symbol is read in which every module of some codewords is the other colour."""
    (number,) = numbers(Letter.ROLL, 1_200, 1)
    code = build(Letter.ROLL, number)
    picture = symbol(code, 4).convert("L")
    for across, row in (module for codeword in struck for module in codeword):
        left, top = (4 * (side + QUIET) for side in (across, row))
        box = (left, top, left + 4, top + 4)
        picture.paste(ImageChops.invert(picture.crop(box)), box)
    return [one.text for one in zxingcpp.read_barcodes(picture)] == [code]


def _fits(characters: int, correction: int) -> bool:
    qr = QRCode(version=1, error_correction=correction)
    qr.add_data("R" * characters)
    try:
        qr.make(fit=False)
    except DataOverflowError:
        return False
    return True
