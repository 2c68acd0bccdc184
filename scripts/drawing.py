"""Draw the pictures of README: screens of the demo shop on one morning.

    python -m scripts.drawing FOLDER

The same code and day draw the same files, byte for byte. They name no host: letters are drawn in
whatever monospaced font the reader has.
"""

import asyncio
import os
import re
import sys
from collections.abc import AsyncIterator, Iterator, Mapping
from contextlib import asynccontextmanager, contextmanager, suppress
from datetime import UTC, date, datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from types import MappingProxyType

from textual.pilot import Pilot
from textual.widgets import Input
from textual.worker import WorkerCancelled

from stockroom.books.opening import Book, create_book
from stockroom.demo.generate import generate
from stockroom.labels.size import read_size
from stockroom.screens.app import StockroomApp, app_for
from stockroom.screens.scanning import Scanned
from stockroom.screens.station import Station

TODAY = date(2026, 11, 25)
NOW = datetime(2026, 11, 25, 9, 12, tzinfo=UTC)
SIZE = (100, 26)

FRIDAY_PRINT, NEW_GREY, WARD = "C0001123", "R000175E", "J000186X"
PICTURES: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "today": (),
        "card": (f"scan {FRIDAY_PRINT}",),
        "rack": ("f3", "end"),
        "bench": ("f4", f"scan {NEW_GREY}", f"scan {WARD}", "2", "full_stop", "4", "enter"),
        "goods-in": ("f5", "up"),
        "climate": ("f12", "down", "y"),
        "buying": ("ctrl+b",),
    }
)
"""What a person does before each picture is taken: keys they press, codes they scan."""

_PERSON_S = 0.3
"""A person's pause between two keys; a scanner is faster."""
_LEFT_OUT = re.compile(r"<!--.*?-->|@font-face \{.*?\}|<circle [^>]*>", re.DOTALL)
_FONT = re.compile(r"font-family: [^;]+;")


def main(folder: Path) -> None:
    """Write every picture into the folder."""
    folder.mkdir(parents=True, exist_ok=True)
    with a_shop() as book:
        for name, steps in PICTURES.items():
            picture = asyncio.run(drawn(book, steps))
            (folder / f"{name}.svg").write_text(picture, encoding="utf-8", newline="\n")


@contextmanager
def a_shop() -> Iterator[Book]:
    """The demo shop of the day, in a folder that goes away."""
    with TemporaryDirectory() as folder:
        book = create_book(str(Path(folder) / "shop.db"), lasting=False)
        generate(book, today=TODAY)
        yield book
        book.close()


async def drawn(book: Book, steps: tuple[str, ...]) -> str:
    """The screen after these steps, as SVG."""
    async with at_work(book) as pilot:
        for step in steps:
            await _does(pilot, step)
        picture = pilot.app.export_screenshot(title="stockroom")
    plain = _FONT.sub("font-family: monospace;", _LEFT_OUT.sub("", picture))
    return "\n".join(line.rstrip() for line in plain.splitlines() if line.strip()) + "\n"


@asynccontextmanager
async def at_work(book: Book) -> AsyncIterator[Pilot[None]]:
    """The program at a station of the shop, on that morning."""
    station = Station(
        book=book,
        operator="Ida M.",
        now=lambda: NOW,
        label_size=read_size("62x29"),
        dpi=203,
        labels=Path(os.devnull),
    )
    app: StockroomApp = app_for(station)
    async with app.run_test(size=SIZE) as pilot:
        await _settled(pilot)
        yield pilot


async def _does(pilot: Pilot[None], step: str) -> None:
    verb, _, code = step.partition(" ")
    if code:
        pilot.app.screen.post_message(Scanned(code, by_hand=True))
    else:
        await pilot.pause(_PERSON_S)
        await pilot.press(verb)
    await _settled(pilot)


async def _settled(pilot: Pilot[None]) -> None:
    """Wait until nothing is being read any more; a cursor that blinks would be in one picture of two."""
    await pilot.pause(_PERSON_S)
    while busy := [worker for worker in pilot.app.workers if not worker.is_finished]:
        for worker in busy:
            with suppress(WorkerCancelled):
                await worker.wait()
        await pilot.pause()
    for field in pilot.app.screen.query(Input):
        field.cursor_blink = False
    await pilot.pause()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
