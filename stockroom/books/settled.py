"""What storage did to pieces up to a second, stored for all at once: reports look at what came after.

Derived, and made again wherever it is missing. Whatever is written afterwards and would change it
makes it void: readings and sensors that come late do so as they drop parts (`parts.forget`), and
another limit, gap, assumed temperature, place or zone is another basis. A piece that was moved since,
or of which an act was undone, is left out.

    settled(connection, basis, …)     what is stored, if it still holds; else nothing is settled
      .of(code, since, until, energy)  what a stretch up to then did to a piece, and its zone
    begin_settling(connection, …)     a number, before anything is worked out; void like the rest
    settle(connection, number, …)     store what was worked out, unless it became void meanwhile
"""

import json
from array import array
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from itertools import accumulate, pairwise
from struct import Struct
from typing import Any, NamedTuple

from sqlalchemy import Connection, bindparam, delete, func, insert, select, text, update

from stockroom.books.climate_tables import SettledRow
from stockroom.books.packed import numbers, written
from stockroom.books.prepared import Prepared
from stockroom.books.readings import ALL_TIME
from stockroom.books.tables import MOVES_A_PIECE, ActRow, MoveRow, PieceRow, table_of

THE_AIR = -1.0
"""In place of an activation energy: what is asked for is the air, and not what it did to film."""

_HEAD = Struct("<qq")
"""The bytes of the names, and how many records there are."""
_KINDS = "qqdqdddd"
_WIDE = 8
_HOUR_S, _WEEK_S = 3_600, 7 * 86_400
_REST_S = 0.072
"""For each piece so long nobody settles again, whatever made it void: of 50,000, for an hour."""

_SETTLED = table_of(SettledRow)
_ACT = table_of(ActRow)
_MOVE = table_of(MoveRow)
_PIECE = table_of(PieceRow)
_MOVES = text(f"({MOVES_A_PIECE.text})")
_HEADS = (
    select(*(column for column in _SETTLED.c if column.name != "content"))
    .add_columns(func.length(_SETTLED.c.content).label("size"))
    .order_by(_SETTLED.c.id.desc())
    .limit(1)
)
_NEWEST = Prepared(_HEADS)
_WHOLE = Prepared(_HEADS.where(func.length(_SETTLED.c.content) > 0))
_CONTENT = Prepared(select(_SETTLED.c.content).where(_SETTLED.c.id == bindparam("of_id")))
_MOVES_OF_ALL = Prepared(select(func.count().label("number")).select_from(_MOVE).where(_MOVES))
_UNDOS_OF_ALL = Prepared(
    select(func.count().label("number")).select_from(_ACT).where(_ACT.c.reverses > 0)
)
_LAST = Prepared(select(func.coalesce(func.max(_MOVE.c.id), 0).label("last")))
_CODES = select(_PIECE.c.code, _ACT.c.id).join(_MOVE, _MOVE.c.piece_id == _PIECE.c.id)
_CODES = _CODES.join(_ACT, _ACT.c.id == _MOVE.c.act_id)
_LATER = _MOVE.c.id > bindparam("last_move")
_MOVED_SINCE = Prepared(_CODES.where(_MOVES, _LATER))
_UNDONE_SINCE = Prepared(_CODES.where(_ACT.c.reverses > 0, _LATER))
_AHEAD = _ACT.c.at > bindparam("now")
_MOVED_AHEAD = Prepared(_CODES.where(_MOVES, _AHEAD))
_UNDONE_AHEAD = Prepared(_CODES.where(_ACT.c.reverses > 0, _AHEAD))

Sums = tuple[float, float, float, float]
"""Of heat: the seconds measured, those at 23 °C that would have aged film as much, and those the
rest is taken for; of the air: the seconds measured, hot, too hot, and dry or damp."""


class Record(NamedTuple):
    """What a stretch of storage did to a piece, and the zone it is in since what is settled."""

    since_s: int
    until_s: int
    energy_kj: float
    zone: str | None
    sums: Sums


class Known(NamedTuple):
    """What a connection sees: how many moves of place and undos, and the newest move of all.

    Of some pieces it sees acts of a time that is still to come, as of a station whose clock is ahead.
    """

    number: int
    last_move: int
    ahead: frozenset[str]


class Settled:
    """What is settled up to a second, piece by piece; and, where it is being made, noted."""

    def __init__(
        self, until_s: int = ALL_TIME.start, noted: dict[str, list[Record]] | None = None
    ) -> None:
        self.until_s = until_s
        self.noted = noted
        self._places: dict[str, range] = {}
        self._zones: Sequence[str | None] = ()
        self._columns: Sequence[Sequence[Any]] = ()

    def __bool__(self) -> bool:
        """Whether anything is settled."""
        return bool(self._places)

    def __iter__(self) -> Iterator[tuple[str, Record]]:
        """What is settled, stretch by stretch."""
        for code, places in self._places.items():
            for at in places:
                since_s, until_s, energy_kj, zone, *sums = (column[at] for column in self._columns)
                first, second, third, fourth = sums
                known = self._zones[zone], (first, second, third, fourth)
                yield code, Record(since_s, until_s, energy_kj, *known)

    def __contains__(self, code: str) -> bool:
        """Whether anything is settled of a piece: since then it stood where it stands."""
        return code in self._places

    def of(
        self, code: str, since_s: int, until_s: int, energy_kj: float
    ) -> tuple[str | None, Sums] | None:
        """What a stretch did to a piece, and the zone it was in; None where that is not settled."""
        places = self._places.get(code)
        if places is None:
            return None
        began, ended, energies, zones, *sums = self._columns
        for at in places:
            if began[at] == since_s and energies[at] == energy_kj and ended[at] == until_s:
                first, second, third, fourth = sums
                return self._zones[zones[at]], (first[at], second[at], third[at], fourth[at])
        return None

    def note(self, code: str, record: Record) -> None:
        """Keep what was worked out, where it is to be settled."""
        if self.noted is not None:
            self.noted.setdefault(code, []).append(record)

    def read(self, content: bytes, moved: Iterable[str]) -> "Settled":
        """What was written, of all pieces but those that were moved since."""
        size, count = _HEAD.unpack_from(content)
        codes, counts, self._zones = json.loads(content[_HEAD.size : _HEAD.size + size])
        rest = memoryview(content)[_HEAD.size + size :]
        cuts = pairwise(range(0, _WIDE * count * len(_KINDS) + 1, _WIDE * count or 1))
        self._columns = [
            numbers(kind, rest[since:until])
            for kind, (since, until) in zip(_KINDS, cuts, strict=False)
        ]
        ends = pairwise(accumulate(counts, initial=0))
        self._places = {code: range(*these) for code, these in zip(codes, ends, strict=True)}
        for code in moved:
            self._places.pop(code, None)
        return self


def settled(connection: Connection, basis: str, known_s: int) -> Settled:
    """What is stored, for who knows all up to a second; nothing where it rests on something else."""
    whole = _WHOLE.first(connection, {})
    moved = None if whole is None else _moved_since(connection, whole, basis, known_s)
    if whole is None or moved is None:
        return Settled()
    content: bytes = _CONTENT.value(connection, {"of_id": whole.id})
    return Settled(whole.until_s).read(content, moved)


def is_settled(connection: Connection, basis: str, *, now_s: int, last_s: int) -> bool:
    """Whether what is stored reaches to within a week of a second, or somebody works at it, or did."""
    newest = _NEWEST.first(connection, {})
    if newest is None:
        return False
    is_begun = newest.basis and not newest.size
    rests_s = _HOUR_S if is_begun else int(newest.pieces * _REST_S)
    if newest.made_s <= now_s < newest.made_s + rests_s:
        return True
    whole = _WHOLE.first(connection, {})
    if whole is None or last_s >= whole.last_s + _WEEK_S:
        return False
    moved = _moved_since(connection, whole, basis, now_s)
    return moved is not None and len(moved) <= whole.pieces / 2


def _moved_since(connection: Connection, whole: Any, basis: str, known_s: int) -> set[str] | None:
    """The pieces that are to be left out of what is stored; None where it does not hold at all."""
    if whole.basis != basis or whole.made_s > known_s:
        return None
    given = {"last_move": whole.last_move}
    moved, undone = _MOVED_SINCE.all(connection, given), _UNDONE_SINCE.all(connection, given)
    since = len(moved) + len({row.id for row in undone})
    if _number(connection) != whole.moves + since:
        return None  # something with a lower number came late
    return {row.code for row in (*moved, *undone)}


def known(connection: Connection, now: datetime) -> Known:
    """What a connection sees of moves, when it is that time."""
    given = {"now": now}
    ahead = (*_MOVED_AHEAD.all(connection, given), *_UNDONE_AHEAD.all(connection, given))
    return Known(
        number=_number(connection),
        last_move=_LAST.value(connection),
        ahead=frozenset(row.code for row in ahead),
    )


def _number(connection: Connection) -> int:
    number: int = _MOVES_OF_ALL.value(connection) + _UNDOS_OF_ALL.value(connection)
    return number


def begin_settling(
    connection: Connection, *, made_s: int, until_s: int, last_s: int, basis: str
) -> int:
    """Make room for what will be worked out; a reading up to the last second makes it void."""
    row = {"made_s": made_s, "until_s": until_s, "last_s": last_s, "basis": basis}
    row |= {"pieces": 0, "moves": 0, "last_move": 0, "content": b""}
    return int(
        connection.execute(insert(_SETTLED).values(row).returning(_SETTLED.c.id)).scalar_one()
    )


def settle(
    connection: Connection, number: int, *, basis: str, pieces: int, known: Known, content: bytes
) -> None:
    """Store what was worked out in place of what was, unless it became void meanwhile."""
    row = {"pieces": pieces, "moves": known.number, "last_move": known.last_move}
    there = (_SETTLED.c.id == number, _SETTLED.c.basis == basis)
    kept = update(_SETTLED).where(*there).values(row | {"content": content})
    if connection.execute(kept.returning(_SETTLED.c.id)).first():
        connection.execute(delete(_SETTLED).where(_SETTLED.c.id < number))


def packed(noted: Mapping[str, Sequence[Record]]) -> bytes:
    """What was worked out of each piece, as it is stored."""
    records = [one for those in noted.values() for one in those]
    zones = list(dict.fromkeys(one.zone for one in records))
    place = {zone: at for at, zone in enumerate(zones)}
    counts = [len(those) for those in noted.values()]
    names = json.dumps([list(noted), counts, zones]).encode()
    columns: list[array[Any]] = [
        array("q", (one.since_s for one in records)),
        array("q", (one.until_s for one in records)),
        array("d", (one.energy_kj for one in records)),
        array("q", (place[one.zone] for one in records)),
        *(array("d", column) for column in zip(*(one.sums for one in records), strict=True)),
    ]
    return _HEAD.pack(len(names), len(records)) + names + b"".join(written(one) for one in columns)
