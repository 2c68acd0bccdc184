"""The QR code of a label: a piece's code and nothing else.

Eight capital letters and digits just fit version 1 (21 modules) at error correction H, the level
that survives the most dirt. ISO/IEC 18004 asks for a quiet zone of four modules; it is part of the
picture, so that nothing else can be drawn into it.
"""

from functools import lru_cache
from itertools import chain
from typing import Final

from PIL import Image
from qrcode.constants import ERROR_CORRECT_H
from qrcode.main import QRCode

QUIET: Final = 4
MODULES: Final = 21 + 2 * QUIET
_BLACK, _WHITE = 0, 255


def symbol(code: str, dots: int) -> Image.Image:
    """The QR code with its quiet zone, black on white, each module `dots` x `dots` printer dots."""
    side = MODULES * dots
    modules = Image.frombytes("L", (MODULES, MODULES), _modules(code))
    return modules.resize((side, side), Image.Resampling.NEAREST).convert("1")


@lru_cache(maxsize=64)
def _modules(code: str) -> bytes:
    """A byte a module, row by row."""
    qr = QRCode(version=1, error_correction=ERROR_CORRECT_H, border=QUIET)
    qr.add_data(code, optimize=0)
    qr.make(fit=False)
    return bytes(_BLACK if dark else _WHITE for dark in chain.from_iterable(qr.get_matrix()))
