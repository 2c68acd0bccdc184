"""The table of parts: some thousand readings of a zone, and what came together up to each of them.

The first reading of a part is the last one of the part before. Its content is its readings as
`books.packed` writes them; or the amounts of one sum up to every fourth of them, in eight bytes
each: those between are a line or three further on. A sum of nothing takes no room.
"""

from array import array
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from sqlalchemy import (
    ColumnElement,
    Connection,
    bindparam,
    delete,
    func,
    insert,
    or_,
    select,
    update,
)

from stockroom.books.climate_tables import CoursePartRow, SettledRow
from stockroom.books.packed import numbers, packed, unpacked, written
from stockroom.books.prepared import Prepared
from stockroom.books.tables import table_of
from stockroom.film.marked import EACH

_PART = table_of(CoursePartRow)
_SETTLED = table_of(SettledRow)
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
_CONTENT = Prepared(select(_PART.c.content).where(*_ONE))
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

    at_s: Sequence[int]
    levels: Sequence[float]
    measured_s: Sequence[int]

    @property
    def ends(self) -> Ends:
        """From where to where they go; what they amount to is the time that was measured."""
        return Ends(self.at_s[0], self.at_s[-1], float(self.measured_s[-1]))


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
        return Readings(*unpacked(self._content(measure, part)))

    def put_readings(self, measure: str, part: int, readings: Readings) -> None:
        """Store the readings of a part."""
        self._put(measure, part, readings.ends, packed(*readings))

    def amounts(self, measure: str, part: int) -> "array[float]":
        """What came together up to the readings of a part, of every fourth; none where nothing did."""
        return numbers("d", self._content(measure, part))

    def put_amounts(self, measure: str, part: int, ends: Ends, amounts: Sequence[float]) -> None:
        """Store what came together up to each reading of a part; nothing takes no room."""
        content = written(array("d", amounts[::EACH])) if amounts[-1] else b""
        self._put(measure, part, ends._replace(amount=amounts[-1]), content)

    def _content(self, measure: str, part: int) -> bytes:
        given = self._of | {"of_measure": measure, "of_part": part}
        self._asked[measure] += 1
        if self._asked[measure] <= _A_FEW:
            found: bytes = _CONTENT.value(self._connection, given)
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


def forget(connection: Connection, changed: Mapping[str, int]) -> None:
    """Drop the parts that a change of zones, from a second on each, makes wrong; what rests on them is void."""
    if not changed:
        return
    _void(connection, _SETTLED.c.last_s >= min(changed.values()))
    for zone, from_s in sorted(changed.items()):
        connection.execute(_STALE, {"of_zone": zone, "from_s": from_s})


def forget_others(connection: Connection, gap_s: int, measures: Iterable[str]) -> None:
    """Drop the parts of other gaps and of other measures: what nobody asks for any more."""
    others = or_(_PART.c.gap_s != gap_s, _PART.c.measure.not_in(list(measures)))
    connection.execute(delete(_PART).where(others))
    _void(connection)


def forget_all(connection: Connection) -> None:
    """Drop every part; whatever needs one makes it again."""
    connection.execute(delete(_PART))
    _void(connection)


def _void(connection: Connection, *which: ColumnElement[bool]) -> None:
    """What is settled, or being worked out, holds no longer; when that was done is kept."""
    connection.execute(update(_SETTLED).where(*which).values(basis="", content=b""))
