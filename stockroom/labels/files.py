"""Labels as files to print: one as PNG, any number as the pages of a PDF or on sheets of labels.

Every page is a whole number of printer dots and carries the pictures dot for dot, so a printer of
that resolution has nothing to round. The file asks not to be scaled.
"""

import os
from collections.abc import Sequence
from contextlib import suppress
from io import BytesIO
from pathlib import Path
from typing import Final

from PIL import Image
from reportlab import rl_config
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from stockroom.errors import Code, Refusal, clean_text
from stockroom.labels.paper import Grid
from stockroom.labels.picture import Label, draw
from stockroom.labels.size import LabelSize
from stockroom.units import INCH

_POINTS_PER_INCH: Final = 72
_TRIFLE: Final = 0.03
_LESS: Final = 0.001


def png_bytes(image: Image.Image, dpi: int) -> bytes:
    """The picture as PNG that knows its resolution."""
    content = BytesIO()
    image.save(content, "PNG", dpi=(dpi, dpi))
    return content.getvalue()


def pdf_bytes(images: Sequence[Image.Image], dpi: int) -> bytes:
    """The pictures as PDF, one a page; the same pictures are always the same bytes.

    A picture that reached a rounding error beyond its page would be smoothed by its readers.
    """
    content = BytesIO()
    canvas = blank_pdf(content, "Labels")
    for image in images:
        width, height = (_points(dots, dpi) for dots in image.size)
        canvas.setPageSize((width, height))
        put_picture(canvas, image, (0, 0, width - _LESS, height - _LESS))
        canvas.showPage()
    canvas.save()
    return content.getvalue()


def sheets_of(
    images: Sequence[Image.Image], dpi: int, grid: Grid, size: LabelSize, start: int
) -> list[Image.Image]:
    """The pictures on sheets of labels, each sheet one picture, the first at the position `start`."""
    first = grid.checked_start(start) - 1
    sheet_size = _dots(grid.paper.across_nm, dpi), _dots(grid.paper.along_nm, dpi)
    count = -(-(first + len(images)) // grid.positions)
    sheets = [Image.new("1", sheet_size, 1) for _ in range(count)]
    for number, image in enumerate(images, first):
        sheet, position = divmod(number, grid.positions)
        across, down = grid.corner_nm(position, size)
        sheets[sheet].paste(image, (_dots(across, dpi), _dots(down, dpi)))
    return sheets


def blank_pdf(content: BytesIO, title: str) -> Canvas:
    """A PDF without a page, whose bytes depend only on what is put on it."""
    # Pictures are kept as bytes: spelt in letters they are longer, and take twice the time.
    rl_config.useA85 = 0
    canvas = Canvas(content, invariant=1)
    canvas.setTitle(title)
    canvas.setViewerPreference("PrintScaling", "None")  # pyright: ignore[reportUnknownMemberType]
    return canvas


def put_picture(canvas: Canvas, image: Image.Image, box: tuple[float, float, float, float]) -> None:
    """Put a picture on the page: left, bottom, width and height in points."""
    canvas.drawImage(ImageReader(image.convert("L")), *box)  # pyright: ignore[reportUnknownMemberType]


def _points(dots: int, dpi: int) -> float:
    """So many dots in points, a trifle less: readers round a page up, and 496 must not become 497."""
    return round((dots - _TRIFLE) * _POINTS_PER_INCH / dpi, 3)


def _dots(length_nm: int, dpi: int) -> int:
    return round(length_nm * dpi / INCH)


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
    write(path, png_bytes(images[0], dpi) if kind == ".png" else pdf_bytes(images, dpi))


def save_on_sheets(
    labels: Sequence[Label], path: Path, *, size: LabelSize, dpi: int, grid: Grid, start: int
) -> int:
    """Write the labels to a .pdf for sheets of labels, and say how many sheets it takes."""
    if not labels:
        raise Refusal(Code.BAD_LABEL, "There is no label to write: name a code.")
    refuse_unless_pdf(path)
    images = [draw(label, grid.checked_size(size), dpi) for label in labels]
    sheets = sheets_of(images, dpi, grid, size, start)
    write(path, pdf_bytes(sheets, dpi))
    return len(sheets)


def refuse_unless_pdf(path: Path) -> None:
    """Refuse a name that no program would open as pages."""
    if path.suffix.lower() != ".pdf":
        raise Refusal(
            Code.BAD_LABEL, f"Pages are written to a .pdf file, not to '{clean_text(path.name)}'."
        )


def write(path: Path, content: bytes) -> None:
    """Write a file whole or not at all, replacing what was there."""
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
