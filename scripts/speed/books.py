"""Books beside bare sqlite3: the very statements a script sent, sent again without the program."""

import shutil
import sqlite3
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, closing
from functools import partial
from math import log
from pathlib import Path
from statistics import mean
from tempfile import TemporaryDirectory

from scripts.speed.replay import Statement, bare, recorded, replayed
from scripts.speed.result import Growth, Result, timed, undisturbed
from scripts.speed.scale import Scale
from scripts.speed.synthetic import NOW, OPERATOR, book_of
from stockroom.books.opening import Book, open_book
from stockroom.units import MM
from stockroom.work import look
from stockroom.work.cut import Cut, cut

_STEP = 137
"""From one piece to the next that is looked at: far apart in the file, as scans are."""
_AS_LONG = 8


def book_results(scale: Scale) -> Iterator[Result]:
    """Looking up, appending and the rack in a book of many moves; how the rack grows."""
    path = book_of(scale.pieces, scale.acts)
    with closing(open_book(str(path))) as book, closing(open_book(str(path))) as heard:
        codes = _free_codes(book)
        yield _look_up(book, heard, codes, scale)
        yield _rack(book, heard, scale)
    yield _growth(scale)
    yield _append(path, codes, scale)


def _free_codes(book: Book) -> list[str]:
    """The pieces that may be cut; the rest of the rack is let go, for it would be looked through again."""
    found = look.rack(book, now=NOW).pieces
    return [one.code for one in found if one.standing.state.held is None]


def _look_up(book: Book, heard: Book, codes: list[str], scale: Scale) -> Result:
    """A scanned piece with its acts, reasons and verdict."""
    chosen = [codes[number * _STEP % len(codes)] for number in range(scale.scans)]
    scans = [partial(look.piece, book, code, now=NOW) for code in chosen]
    seen = [_sent_by(heard, partial(look.piece, heard, code, now=NOW)) for code in chosen]
    with closing(bare(_file(book))) as connection:
        ours, beside = _side_by_side(scans, connection, seen)
    what = f"look up a piece by its code, and its {scale.acts} acts"
    return Result(what, ours, beside, 5)


def _append(path: Path, codes: list[str], scale: Scale) -> Result:
    """A cut for a job: in one copy of the book its statements are seen, in two the time is taken."""
    with TemporaryDirectory() as folder, ExitStack() as opened:
        copies = [Path(folder) / name for name in ("seen.db", "ours.db", "beside.db")]
        for copy in copies:
            shutil.copyfile(path, copy)
        first, second = (opened.enter_context(closing(open_book(str(one)))) for one in copies[:2])
        connection = opened.enter_context(closing(bare(copies[2])))
        jobs = [job.code for job in look.jobs(first)]
        cuts = [
            _cut(codes[(number * _STEP + 1) % len(codes)], jobs[number % len(jobs)], number)
            for number in range(scale.scans)
        ]
        seen = [_sent_by(first, partial(cut, one, book=first, now=NOW)) for one in cuts]
        writes = [partial(cut, one, book=second, now=NOW) for one in cuts]
        ours, beside = _side_by_side(writes, connection, seen)
    return Result("append a cut, on the disk", ours, beside, 3)


def _file(book: Book) -> Path:
    return Path(str(book.url.database))


def _sent_by(heard: Book, act: Callable[[], object]) -> list[Statement]:
    with recorded(heard) as statements:
        act()
    return statements


def _side_by_side(
    acts: Sequence[Callable[[], object]],
    connection: sqlite3.Connection,
    seen: Sequence[list[Statement]],
) -> tuple[float, float]:
    """How long an act takes, and its statements in bare sqlite3, turn by turn."""
    times = [
        (timed(act), replayed(connection, statements))
        for act, statements in zip(acts, seen, strict=True)
    ]
    ours, beside = (undisturbed(column) for column in zip(*times, strict=True))
    return ours, beside


def _cut(code: str, job: str, number: int) -> Cut:
    """Half a metre, with waste, and a reason where it is stopped."""
    return Cut(
        request=f"speed {number}",
        operator=OPERATOR,
        piece=code,
        length_nm=500 * MM,
        waste_nm=10 * MM,
        job=job,
        despite="measured",
    )


def _rack(book: Book, heard: Book, scale: Scale) -> Result:
    """Every piece with its verdict and its reasons."""
    ours, beside = _racks(book, heard, times=scale.racks)
    return Result(f"the rack: {scale.pieces:,} pieces with verdicts", ours, beside, 10)


def _racks(book: Book, heard: Book, times: int) -> tuple[float, float]:
    """The best time of the rack, and of the same rows in bare sqlite3.

    Those are read as often as takes about as long, for a short time is more often a lucky one.
    """
    statements = _sent_by(heard, partial(look.rack, heard, now=NOW))
    with closing(bare(_file(book))) as connection:
        pairs = [
            (
                timed(lambda: look.rack(book, now=NOW)),
                mean(replayed(connection, statements) for _ in range(_AS_LONG)),
            )
            for _ in range(times)
        ]
    return min(ours for ours, _ in pairs), min(beside for _, beside in pairs)


def _growth(scale: Scale) -> Result:
    """The exponent with which the rack grows from the smallest to the largest book."""
    times: list[tuple[float, float]] = []
    for pieces in scale.growth:
        path = book_of(pieces, 1)
        with closing(open_book(str(path))) as book, closing(open_book(str(path))) as heard:
            times.append(_racks(book, heard, times=3))
    few, many = scale.growth
    (least, _), (most, beside) = times
    exponent = log(most / least) / log(many / few)
    what = f"growth of the rack, from {few:,} to {many:,} pieces"
    return Growth(what, most, beside, 1.1, exponent)
