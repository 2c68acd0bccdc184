"""Books beside bare sqlite3: the very statements a script sent, sent again without the program."""

import shutil
from collections.abc import Callable, Iterator
from contextlib import closing
from math import log
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from scripts.speed.replay import bare, recorded, replayed
from scripts.speed.result import Growth, Result, timed
from scripts.speed.scale import Scale
from scripts.speed.synthetic import NOW, OPERATOR, book_of
from stockroom.books.opening import Book, open_book
from stockroom.units import MM
from stockroom.work import look
from stockroom.work.cut import Cut, cut

_STEP = 137
"""From one piece to the next that is looked at: far apart in the file, as scans are."""


def book_results(scale: Scale) -> Iterator[Result]:
    """Looking up, appending and the rack in a book of many moves; how the rack grows."""
    path = book_of(scale.pieces, scale.acts)
    with closing(open_book(str(path))) as book:
        found = look.rack(book, now=NOW).pieces
        codes = [one.code for one in found if one.standing.state.held is None]
        yield _look_up(book, path, codes, scale)
        yield _rack(book, path, scale)
    yield _growth(scale)
    yield _append(path, codes, scale)


def _look_up(book: Book, path: Path, codes: list[str], scale: Scale) -> Result:
    """A scanned piece with its acts, reasons and verdict."""
    ours: list[float] = []
    beside: list[float] = []
    with closing(bare(path)) as connection:
        for number in range(scale.scans):

            def scan(code: str = codes[number * _STEP % len(codes)]) -> object:
                return look.piece(book, code, now=NOW)

            with recorded() as statements:
                scan()
            ours.append(timed(scan))
            beside.append(replayed(connection, statements))
    what = f"look up a piece by its code, and its {scale.acts} acts"
    return Result(what, median(ours), median(beside), 5)


def _append(path: Path, codes: list[str], scale: Scale) -> Result:
    """A cut for a job, written to one copy of the book and sent again to another."""
    with TemporaryDirectory() as folder:
        copies = [Path(folder) / name for name in ("ours.db", "beside.db")]
        for copy in copies:
            shutil.copyfile(path, copy)
        with closing(open_book(str(copies[0]))) as book, closing(bare(copies[1])) as connection:
            jobs = [job.code for job in look.jobs(book)]
            pairs: list[tuple[float, float, float]] = []
            for number in range(scale.scans):
                code = codes[(number * _STEP + 1) % len(codes)]
                write = _cut(book, code, jobs[number % len(jobs)], number)
                with recorded() as statements:
                    ours = timed(write)
                end = statements.pop()
                beside = replayed(connection, statements)
                pairs.append((ours, beside, replayed(connection, [end])))
    ours = median(ours for ours, _, _ in pairs)
    whole = median(beside + commit for _, beside, commit in pairs)
    return Result("append a cut, on the disk", ours, whole, 3)


def _cut(book: Book, code: str, job: str, number: int) -> Callable[[], object]:
    """One cut that can be asked for: half a metre, with waste and a reason where it is stopped."""
    request = Cut(
        request=f"speed {number}",
        operator=OPERATOR,
        piece=code,
        length_nm=500 * MM,
        waste_nm=10 * MM,
        job=job,
        despite="measured",
    )
    return lambda: cut(request, book=book, now=NOW)


def _rack(book: Book, path: Path, scale: Scale) -> Result:
    """Every piece with its verdict and its reasons."""
    ours, beside = _racks(book, path, times=scale.racks)
    return Result(f"the rack: {scale.pieces:,} pieces with verdicts", ours, beside, 10)


def _racks(book: Book, path: Path, times: int) -> tuple[float, float]:
    """The best time of the rack, and of the same rows in bare sqlite3."""
    with recorded() as statements:
        look.rack(book, now=NOW)
    with closing(bare(path)) as connection:
        pairs = [
            (timed(lambda: look.rack(book, now=NOW)), replayed(connection, statements))
            for _ in range(times)
        ]
    return min(ours for ours, _ in pairs), min(beside for _, beside in pairs)


def _growth(scale: Scale) -> Result:
    """The exponent with which the rack grows from the smallest to the largest book."""
    times: list[tuple[float, float]] = []
    for pieces in scale.growth:
        path = book_of(pieces, 1)
        with closing(open_book(str(path))) as book:
            times.append(_racks(book, path, times=3))
    few, many = scale.growth
    (least, _), (most, beside) = times
    exponent = log(most / least) / log(many / few)
    what = f"growth of the rack, from {few:,} to {many:,} pieces"
    return Growth(what, most, beside, 1.1, exponent)
