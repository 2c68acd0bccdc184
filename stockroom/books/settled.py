"""What storage did to pieces up to a second, stored for all at once: reports look at what came after.

Derived, and made again wherever it is missing. Nothing written since may change it: readings and
sensors that come late drop it as they drop parts (`parts.forget`), and another limit, gap, assumed
temperature, place or zone is another basis. A piece that was moved since is left out.

    settled(connection, basis, …)     what is stored, if it still holds; else nothing is settled
      .of(code, since, until, energy)  what a stretch up to then did to a piece, and its zone there
    begin_settling(connection, …)     a number, before anything is worked out; dropped like the rest
    settle(connection, number, …)     store what was worked out, unless it was dropped meanwhile
"""

import json
from array import array
from collections.abc import Iterator, Mapping, Sequence
from itertools import accumulate, pairwise
from struct import Struct
from typing import Any, NamedTuple

from sqlalchemy import Connection, bindparam, delete, func, insert, select, text, update

from stockroom.books.climate_tables import SettledRow
from stockroom.books.packed import numbers, written
from stockroom.books.prepared import Prepared
from stockroom.books.readings import ALL_TIME
from stockroom.books.tables import MOVES_A_PIECE, MoveRow, PieceRow, table_of

THE_AIR = -1.0
"""In place of an activation energy: what is asked for is the air, and not what it did to film."""

_HEAD = Struct("<qq")
"""The bytes of the names, and how many stretches there are."""
_KINDS = "qqdqdddd"
_WIDE = 8
_HOUR_S, _WEEK_S = 3_600, 7 * 86_400

_SETTLED = table_of(SettledRow)
_MOVE = table_of(MoveRow)
_PIECE = table_of(PieceRow)
_MOVES = text(f"({MOVES_A_PIECE.text})")
_HEADS = (
    select(*(column for column in _SETTLED.c if column.name != "content"))
    .order_by(_SETTLED.c.id.desc())
    .limit(1)
)
_NEWEST = Prepared(_HEADS)
_WHOLE = Prepared(_HEADS.where(func.length(_SETTLED.c.content) > 0))
_CONTENT = Prepared(select(_SETTLED.c.content).where(_SETTLED.c.id == bindparam("of_id")))
_COUNT = Prepared(select(func.count().label("moves")).select_from(_MOVE).where(_MOVES))
_LAST = Prepared(select(func.coalesce(func.max(_MOVE.c.id), 0).label("last")))
_SINCE = Prepared(
    select(_PIECE.c.code)
    .join(_MOVE, _MOVE.c.piece_id == _PIECE.c.id)
    .where(_MOVES, _MOVE.c.id > bindparam("last_move"))
)

Sums = tuple[float, float, float, float]
"""Of heat: the seconds measured, those at 23 °C that would have aged film as much, and those the
rest is taken for; of the air: the seconds measured, hot, too hot, and dry or damp."""
NOTHING: Sums = (0.0, 0.0, 0.0, 0.0)


class Stretch(NamedTuple):
    """What a stretch of storage did to a piece, and the zone it was in at its end."""

    since_s: int
    until_s: int
    energy_kj: float
    zone: str | None
    sums: Sums


class Moves(NamedTuple):
    """How many moves ever moved a piece, and the newest move of all."""

    number: int
    last: int


class Settled:
    """What is settled up to a second, piece by piece; and, where it is being made, noted."""

    def __init__(
        self, until_s: int = ALL_TIME.start, noted: dict[str, list[Stretch]] | None = None
    ) -> None:
        self.until_s = until_s
        self.noted = noted
        self._places: dict[str, range] = {}
        self._zones: Sequence[str | None] = ()
        self._columns: Sequence[Sequence[Any]] = ()

    def __bool__(self) -> bool:
        """Whether anything is settled."""
        return bool(self._places)

    def __iter__(self) -> Iterator[tuple[str, Stretch]]:
        """What is settled, stretch by stretch."""
        for code, places in self._places.items():
            for at in places:
                since_s, until_s, energy_kj, zone, *sums = (column[at] for column in self._columns)
                first, second, third, fourth = sums
                known = self._zones[zone], (first, second, third, fourth)
                yield code, Stretch(since_s, until_s, energy_kj, *known)

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

    def note(self, code: str, stretch: Stretch) -> None:
        """Keep what was worked out, where it is to be settled."""
        if self.noted is not None:
            self.noted.setdefault(code, []).append(stretch)

    def read(self, content: bytes, moved: Sequence[str]) -> "Settled":
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
    if whole is None or whole.basis != basis or whole.made_s > known_s:
        return Settled()
    since = [row.code for row in _SINCE.all(connection, {"last_move": whole.last_move})]
    if _COUNT.value(connection) != whole.moves + len(since):
        return Settled()  # a move with a lower number came late
    content: bytes = _CONTENT.value(connection, {"of_id": whole.id})
    return Settled(whole.until_s).read(content, since)


def settled_s(connection: Connection) -> int | None:
    """The second of which what is stored was worked out."""
    whole = _WHOLE.first(connection, {})
    return None if whole is None else whole.made_s


def settled_lately(connection: Connection, basis: str, *, now_s: int, last_s: int) -> bool:
    """Whether what is settled reaches to within a week of a second, or somebody began to this hour."""
    begun, whole = _NEWEST.first(connection, {}), _WHOLE.first(connection, {})
    if whole is not None and whole.basis == basis and last_s < whole.last_s + _WEEK_S:
        return True
    return begun is not None and begun.basis == basis and now_s < begun.made_s + _HOUR_S


def moves(connection: Connection) -> Moves:
    """How many moves of pieces a connection sees."""
    return Moves(_COUNT.value(connection), _LAST.value(connection))


def begin_settling(
    connection: Connection, *, made_s: int, until_s: int, last_s: int, basis: str
) -> int:
    """Make room for what will be worked out; what is written up to the last second drops it."""
    row = {"made_s": made_s, "until_s": until_s, "last_s": last_s, "basis": basis}
    row |= {"moves": 0, "last_move": 0, "content": b""}
    return int(
        connection.execute(insert(_SETTLED).values(row).returning(_SETTLED.c.id)).scalar_one()
    )


def settle(
    connection: Connection, number: int, *, known: Moves, noted: Mapping[str, Sequence[Stretch]]
) -> None:
    """Store what was worked out in place of what was, unless it was dropped meanwhile."""
    row = {"moves": known.number, "last_move": known.last, "content": _packed(noted)}
    there = update(_SETTLED).where(_SETTLED.c.id == number).values(row).returning(_SETTLED.c.id)
    if connection.execute(there).first():
        connection.execute(delete(_SETTLED).where(_SETTLED.c.id < number))


def _packed(noted: Mapping[str, Sequence[Stretch]]) -> bytes:
    stretches = [one for those in noted.values() for one in those]
    zones = list(dict.fromkeys(one.zone for one in stretches))
    place = {zone: at for at, zone in enumerate(zones)}
    counts = [len(those) for those in noted.values()]
    names = json.dumps([list(noted), counts, zones]).encode()
    columns: list[array[Any]] = [
        array("q", (one.since_s for one in stretches)),
        array("q", (one.until_s for one in stretches)),
        array("d", (one.energy_kj for one in stretches)),
        array("q", (place[one.zone] for one in stretches)),
        *(array("d", column) for column in zip(*(one.sums for one in stretches), strict=True)),
    ]
    return (
        _HEAD.pack(len(names), len(stretches)) + names + b"".join(written(one) for one in columns)
    )
