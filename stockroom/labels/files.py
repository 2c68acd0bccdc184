"""Labels as files to print: one as PNG, any number as the pages of a PDF.

Each PDF page is a whole number of printer dots and carries the picture dot for dot, so a printer
of that resolution has nothing to round; the file asks not to be scaled.
"""

import os
from collections.abc import Sequence
from contextlib import suppress
from io import BytesIO
from pathlib import Path
from typing import Final

from PIL import Image
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from stockroom.errors import Code, Refusal, clean_text
from stockroom.labels.picture import Label, draw
from stockroom.labels.size import LabelSize

_POINTS_PER_INCH: Final = 72
_TRIFLE: Final = 0.03


def png_bytes(image: Image.Image, dpi: int) -> bytes:
    """The picture as PNG that knows its resolution."""
    content = BytesIO()
    image.save(content, "PNG", dpi=(dpi, dpi))
    return content.getvalue()


def pdf_bytes(images: Sequence[Image.Image], dpi: int) -> bytes:
    """The pictures as PDF, one a page; the same pictures are always the same bytes."""
    content = BytesIO()
    canvas = Canvas(content, invariant=1)
    canvas.setTitle("Labels")
    canvas.setViewerPreference("PrintScaling", "None")  # pyright: ignore[reportUnknownMemberType]
    for image in images:
        width, height = (_points(dots, dpi) for dots in image.size)
        canvas.setPageSize((width, height))
        reader = ImageReader(image.convert("L"))
        canvas.drawImage(reader, 0, 0, width, height)  # pyright: ignore[reportUnknownMemberType]
        canvas.showPage()
    canvas.save()
    return content.getvalue()


def _points(dots: int, dpi: int) -> float:
    """So many dots in points, a trifle less: readers round a page up, and 496 must not become 497."""
    return round((dots - _TRIFLE) * _POINTS_PER_INCH / dpi, 3)


def save(labels: Sequence[Label], path: Path, *, size: LabelSize, dpi: int) -> None:
    """Write the labels to a .png (one label) or a .pdf; a file is there whole or not at all."""
    kind = path.suffix.lower()
    if not labels:
        raise Refusal(Code.BAD_LABEL, "There is no label to write: name a code.")
    if kind not in {".png", ".pdf"}:
        raise Refusal(
            Code.BAD_LABEL,
            f"Labels are written to a .png or a .pdf file, not to '{clean_text(path.name)}'.",
        )
    if kind == ".png" and len(labels) > 1:
        raise Refusal(
            Code.BAD_LABEL,
            f"A .png holds one label, not {len(labels)}: write them to a .pdf, one a page.",
        )
    images = [draw(label, size, dpi) for label in labels]
    _write(path, png_bytes(images[0], dpi) if kind == ".png" else pdf_bytes(images, dpi))


def _write(path: Path, content: bytes) -> None:
    unfinished = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        unfinished.write_bytes(content)
        unfinished.replace(path)
    except OSError as fault:
        with suppress(OSError):
            unfinished.unlink()
        raise Refusal(
            Code.FILE_UNWRITABLE,
            f"'{clean_text(str(path))}' cannot be written: {fault.strerror}; choose another place.",
        ) from fault
