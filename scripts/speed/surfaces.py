"""Screens and labels beside the libraries they stand on."""

import asyncio
import os
import pty
import subprocess
import sys
import termios
from collections.abc import Iterator, Sequence
from functools import partial
from io import BytesIO
from pathlib import Path
from select import select
from statistics import median
from time import perf_counter

from qrcode.constants import ERROR_CORRECT_H
from qrcode.main import QRCode
from reportlab import rl_config
from reportlab.lib.units import mm
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas
from textual.app import App
from textual.strip import Strip

from scripts.speed.result import Result, timed
from scripts.speed.scale import Scale
from scripts.speed.synthetic import book_of
from stockroom.codes.own import Letter, build, numbers
from stockroom.labels.files import pdf_bytes
from stockroom.labels.picture import Label, draw
from stockroom.labels.size import LabelSize
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.line_list import LineList, Row

_WAITING = b"to type"
_CTRL_Q = b"\x11"
_PATIENCE_S = 60
_SIZE, _DPI, _PART = LabelSize(62, 29), 300, 50
"""Of labels, and how many are drawn before it is the other's turn."""
_COLUMNS = tuple(Column(title=title, width=16) for title in ("piece", "film", "left", "do", "at"))


def surface_results(scale: Scale) -> Iterator[Result]:
    """The start of the screens, many labels, a long list."""
    yield _start(scale)
    yield _labels(scale)
    rows = _rows(scale)
    took = min(asyncio.run(_opened(rows)) for _ in range(scale.racks))
    yield Result(f"open a list of {scale.rows:,} rows", took, None, 0.1)


def _start(scale: Scale) -> Result:
    """From nothing until the screens wait for a scan, beside the imports no screen can be without."""
    book = book_of(scale.growth[0], 1)
    pairs = [(_screens(book), timed(_imports)) for _ in range(scale.starts)]
    ours, beside = (median(times) for times in zip(*pairs, strict=True))
    return Result("start the screens; import textual and sqlmodel", ours, beside, 1.6)


def _imports() -> None:
    subprocess.run([sys.executable, "-c", "import textual.app, sqlmodel"], check=True)


def _screens(book: Path) -> float:
    """How long until the screens wait for a scan, in a terminal nobody sits at."""
    command = [str(Path(sys.executable).with_name("stockroom"))]
    near, far = pty.openpty()
    termios.tcsetwinsize(far, (24, 80))
    surroundings = os.environ | {"STOCKROOM_BOOK": str(book), "TERM": "xterm-256color"}
    began = perf_counter()
    with subprocess.Popen(command, stdin=far, stdout=far, stderr=far, env=surroundings):  # noqa: S603 - ours
        os.close(far)
        drawn = b""
        while _WAITING not in drawn:
            more = _drawn(near)
            if not more:
                raise ChildProcessError(drawn.decode())
            drawn += more
        took = perf_counter() - began
        os.write(near, _CTRL_Q)
        while _drawn(near):
            pass
    os.close(near)
    return took


def _drawn(terminal: int) -> bytes:
    """What was drawn meanwhile; nothing when the program has ended."""
    if not select([terminal], [], [], _PATIENCE_S)[0]:
        raise TimeoutError("The screens neither went on nor ended.")
    try:
        return os.read(terminal, 65_536)
    except OSError:  # Linux says EIO where others say end of file
        return b""


def _labels(scale: Scale) -> Result:
    """Labels as a PDF, one a page, beside a QR code and six lines of text on a page."""
    dates = (("made", "2025-03-01"), ("received", "2025-03-20"), ("shelf", "2027-03-01"))
    labels = [
        Label(
            code=build(Letter.ROLL, number),
            title="urethane clear 200",
            detail="1524 mm",
            facts=(("lot", f"PF24-{number}"),),
            dates=dates,
        )
        for number in numbers(Letter.ROLL, 0, scale.labels)
    ]
    parts = [labels[begin : begin + _PART] for begin in range(0, len(labels), _PART)]
    pairs = [(timed(partial(_ours, part)), timed(partial(_bare, part))) for part in parts]
    ours, beside = (sum(times) for times in zip(*pairs, strict=True))
    what = f"{scale.labels:,} labels; bare qrcode (level H) and reportlab"
    return Result(what, ours, beside, 1.5)


def _ours(labels: Sequence[Label]) -> bytes:
    return pdf_bytes([draw(label, _SIZE, _DPI) for label in labels], _DPI)


def _bare(labels: Sequence[Label]) -> bytes:
    """The same codes and words with as little of one's own as can be."""
    rl_config.useA85 = 1  # as it comes
    content = BytesIO()
    canvas = Canvas(content, pagesize=(62 * mm, 29 * mm))
    for label in labels:
        code = QRCode(error_correction=ERROR_CORRECT_H)
        code.add_data(label.code)
        code.make()
        canvas.drawImage(ImageReader(code.make_image().get_image()), 0, 0, 29 * mm, 29 * mm)
        lines = (label.code, label.title, label.detail, *(value for _, value in label.dates))
        for place, line in enumerate(lines):
            canvas.drawString(30 * mm, (25 - 4 * place) * mm, line)
        canvas.showPage()
    canvas.save()
    return content.getvalue()


class _Watched(LineList):
    """The list, with the moment at which it last drew a line."""

    drawn_at = 0.0

    def render_line(self, y: int) -> Strip:
        line = super().render_line(y)
        self.drawn_at = perf_counter()
        return line


def _rows(scale: Scale) -> tuple[Row, ...]:
    return tuple(
        Row(str(number), (f"R{number:06}0", "white cast 1370", "11.2 m", "USE", "B2"))
        for number in range(scale.rows)
    )


async def _opened(rows: tuple[Row, ...]) -> float:
    """From nothing to the last line in sight."""
    app: App[None] = App()
    async with app.run_test(size=(120, 40)):
        shown = asyncio.Event()
        began = perf_counter()
        lines = _Watched(_COLUMNS, empty="")
        lines.rows = rows
        await app.mount(lines)
        lines.call_after_refresh(shown.set)
        await shown.wait()
        return lines.drawn_at - began
