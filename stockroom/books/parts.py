"""The table of parts: some thousand readings of a zone, and what came together up to each of them.

The first reading of a part is the last one of the part before. Its content is the number of its
readings, their seconds, their levels and, where a gap was too long, the measured seconds up to
each; or the amounts of one sum, where there are any. Numbers have eight bytes, the smallest first.
"""

import sys
from array import array
from collections import Counter
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Any, NamedTuple

from sqlalchemy import Connection, bindparam, delete, func, insert, or_, select

from stockroom.books.climate_tables import CoursePartRow
from stockroom.books.tables import table_of

_BYTES = 8
_PART = table_of(CoursePartRow)
_OF = (
    _PART.c.zone == bindparam("of_zone"),
    _PART.c.gap_s == bindparam("of_gap_s"),
    _PART.c.measure == bindparam("of_measure"),
)
_ONE = (*_OF, _PART.c.part == bindparam("of_part"))
_ENDS = (
    select(_PART.c.part, _PART.c.first_s, _PART.c.last_s, _PART.c.amount)
    .where(*_OF)
    .order_by(_PART.c.part)
)
_CONTENT = select(_PART.c.content).where(*_ONE)
_LAST = select(_PART.c.last_s).where(*_ONE)
_COUNTS = (
    select(_PART.c.zone, _PART.c.measure, func.count())
    .where(_PART.c.gap_s == bindparam("of_gap_s"))
    .group_by(_PART.c.zone, _PART.c.measure)
)
_CONTENTS = select(_PART.c.part, _PART.c.content).where(*_OF)
_A_FEW = 4
_DROP = delete(_PART).where(*_ONE)
_STALE = delete(_PART).where(
    _PART.c.zone == bindparam("of_zone"), _PART.c.last_s >= bindparam("from_s")
)


class Ends(NamedTuple):
    """The first and the last second of a stored part, and what it amounts to."""

    first_s: int
    last_s: int
    amount: float


class Readings(NamedTuple):
    """Readings that follow each other: seconds, levels, and the measured seconds up to each."""

    at_s: "array[int]"
    levels: "array[float]"
    measured_s: Sequence[int]

    @property
    def ends(self) -> Ends:
        """From where to where they go; what they amount to is the time that was measured."""
        return Ends(self.at_s[0], self.at_s[-1], float(self.measured_s[-1]))


class _AllMeasured(Sequence[int]):
    """The measured seconds up to each reading where no gap was too long: all that went by."""

    def __init__(self, at_s: Sequence[int]) -> None:
        self._at_s = at_s

    def __len__(self) -> int:
        return len(self._at_s)

    def __getitem__(self, place: Any) -> Any:
        return self._at_s[place] - self._at_s[0]


class Parts:
    """The stored parts of one zone under one rule of gaps.

    A few parts are fetched one by one; whoever asks for more of a measure gets them all at once.
    """

    def __init__(self, connection: Connection, zone: str, gap_s: int) -> None:
        self.gap_s = gap_s
        self._connection = connection
        self._of = {"of_zone": zone, "of_gap_s": gap_s}
        self._asked: Counter[str] = Counter()
        self._fetched: dict[str, dict[int, bytes]] = {}

    def ends(self, measure: str) -> list[Ends]:
        """The parts of a measure that follow each other from the beginning."""
        found: list[Ends] = []
        for row in self._connection.execute(_ENDS, self._of | {"of_measure": measure}):
            if row.part != len(found):
                break
            found.append(Ends(row.first_s, row.last_s, row.amount))
        return found

    def last_s(self, measure: str, part: int) -> int | None:
        """The last second of a part; None where it is not stored."""
        given = self._of | {"of_measure": measure, "of_part": part}
        found: int | None = self._connection.execute(_LAST, given).scalar()
        return found

    def readings(self, measure: str, part: int) -> Readings:
        """The readings of a part."""
        content = memoryview(self._content(measure, part))
        size = _BYTES * int.from_bytes(content[:_BYTES], "little")
        cuts = (slice(place, place + size) for place in range(_BYTES, 3 * size + _BYTES, size))
        seconds, levels, gaps = (content[cut] for cut in cuts)
        at_s = _numbers("q", seconds)
        measured_s = _numbers("q", gaps) if gaps else _AllMeasured(at_s)
        return Readings(at_s, _numbers("d", levels), measured_s)

    def put_readings(self, measure: str, part: int, readings: Readings) -> None:
        """Store the readings of a part."""
        content = len(readings.at_s).to_bytes(_BYTES, "little")
        content += _bytes(readings.at_s[:]) + _bytes(readings.levels[:])
        if readings.measured_s[-1] != readings.at_s[-1] - readings.at_s[0]:
            content += _bytes(array("q", readings.measured_s))
        self._put(measure, part, readings.ends, content)

    def amounts(self, measure: str, part: int, count: int) -> "array[float]":
        """What came together up to each of so many readings of a part."""
        content = self._content(measure, part)
        return _numbers("d", content) if content else _nothing(count)

    def put_amounts(self, measure: str, part: int, ends: Ends, amounts: Sequence[float]) -> None:
        """Store what came together up to each reading of a part; nothing takes no room."""
        content = _bytes(array("d", amounts)) if amounts[-1] else b""
        self._put(measure, part, ends._replace(amount=amounts[-1]), content)

    def _content(self, measure: str, part: int) -> bytes:
        given = self._of | {"of_measure": measure, "of_part": part}
        self._asked[measure] += 1
        if self._asked[measure] <= _A_FEW:
            found: bytes = self._connection.execute(_CONTENT, given).scalar_one()
            return found
        if measure not in self._fetched:
            rows = self._connection.execute(_CONTENTS, given)
            self._fetched[measure] = {row.part: row.content for row in rows}
        return self._fetched[measure].pop(part)

    def _put(self, measure: str, part: int, ends: Ends, content: bytes) -> None:
        self._connection.execute(_DROP, self._of | {"of_measure": measure, "of_part": part})
        row = {"zone": self._of["of_zone"], "gap_s": self._of["of_gap_s"], **ends._asdict()}
        row |= {"measure": measure, "part": part, "content": content}
        self._connection.execute(insert(_PART).values(row))


def part_counts(connection: Connection, gap_s: int) -> dict[tuple[str, str], int]:
    """How many parts are stored of each zone and measure."""
    rows = connection.execute(_COUNTS, {"of_gap_s": gap_s})
    return {(zone, measure): count for zone, measure, count in rows}


def forget(connection: Connection, zone: str, from_s: int) -> None:
    """Drop the parts of a zone that a change from a second on makes wrong."""
    connection.execute(_STALE, {"of_zone": zone, "from_s": from_s})


def forget_others(connection: Connection, gap_s: int, measures: Iterable[str]) -> None:
    """Drop the parts of other gaps and of other measures: what nobody asks for any more."""
    others = or_(_PART.c.gap_s != gap_s, _PART.c.measure.not_in(list(measures)))
    connection.execute(delete(_PART).where(others))


def forget_all(connection: Connection) -> None:
    """Drop every part; whatever needs one makes it again."""
    connection.execute(delete(_PART))


@lru_cache(maxsize=8)
def _nothing(count: int) -> "array[float]":
    return array("d", bytes(_BYTES * count))


def _bytes(numbers: "array[Any]") -> bytes:
    if sys.byteorder == "big":
        numbers.byteswap()
    return numbers.tobytes()


def _numbers(kind: str, content: memoryview | bytes) -> "array[Any]":
    numbers: array[Any] = array(kind)
    numbers.frombytes(content)
    if sys.byteorder == "big":
        numbers.byteswap()
    return numbers
