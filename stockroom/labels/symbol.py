"""The QR code of a label: a piece's code and nothing else.

Eight capital letters and digits just fit version 1 (21 modules) at error correction H, the level
that survives the most dirt. ISO/IEC 18004 asks for a quiet zone of four modules; it is part of the
picture, so that nothing else can be drawn into it.
"""

from typing import Final

from PIL import Image, ImageDraw
from qrcode.constants import ERROR_CORRECT_H
from qrcode.main import QRCode

QUIET: Final = 4
MODULES: Final = 21 + 2 * QUIET


def symbol(code: str, dots: int) -> Image.Image:
    """The QR code with its quiet zone, black on white, each module `dots` x `dots` printer dots."""
    qr = QRCode(version=1, error_correction=ERROR_CORRECT_H, border=QUIET)
    qr.add_data(code, optimize=0)
    qr.make(fit=False)
    image = Image.new("1", (MODULES * dots, MODULES * dots), 1)
    pen = ImageDraw.Draw(image)
    for row, modules in enumerate(qr.get_matrix()):
        for column, is_dark in enumerate(modules):
            if is_dark:
                x, y = column * dots, row * dots
                pen.rectangle((x, y, x + dots - 1, y + dots - 1), fill=0)
    return image
