"""Where pieces stood through time: which zone's climate each shared, from when.

A piece shares the zone of its place; a place changes its zone from an instant on, never before. What
is away shares the zone of the van or site it is with, if that is a place of ours. Before a piece was
here, and where it stood nowhere, nothing is known. What was cut off another piece stood where that
one did until then.
"""

import json
from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from itertools import chain, groupby, zip_longest
from operator import itemgetter
from typing import Any, NamedTuple

from sqlalchemy import Connection, bindparam, func, select, text

from stockroom.books.catalog import name_key
from stockroom.books.prepared import Prepared
from stockroom.books.sensors import second_of
from stockroom.books.tables import (
    MOVES_A_PIECE,
    ActRow,
    MoveRow,
    PieceRow,
    PlaceRow,
    PlaceZoneRow,
    table_of,
)

_ACT = table_of(ActRow)
_MOVE = table_of(MoveRow)
_PIECE = table_of(PieceRow)
_PLACE = table_of(PlaceRow)
_ZONE = table_of(PlaceZoneRow)

_UNDOING = _ACT.alias("undoing")
_UNDONE = select(_UNDOING.c.reverses).where(
    _UNDOING.c.reverses > 0,  # undos are few, and acts up to now are all
    func.coalesce(_UNDOING.c.at, _UNDOING.c.recorded_at) <= bindparam("until"),
)
_MOVED = (
    select(_PIECE.c.code, _PIECE.c.parent, _ACT.c.at, _MOVE.c.sets)
    .join(_ACT, _ACT.c.id == _MOVE.c.act_id)
    .join(_PIECE, _PIECE.c.id == _MOVE.c.piece_id)
    .where(
        text(f"({MOVES_A_PIECE.text})"),
        _ACT.c.at <= bindparam("until"),
        func.coalesce(_ACT.c.reverses, 0)
        == 0,  # else acts would be searched first, and they are many
        _ACT.c.id.not_in(_UNDONE),
    )
    .order_by(_MOVE.c.piece_id, _MOVE.c.seq)
)
_MOVED_OF = Prepared(_MOVED.where(_PIECE.c.code == bindparam("of")))
_ENTRIES = Prepared(
    select(_ZONE.c.place_id, _ZONE.c.zone, _ZONE.c.from_at).order_by(_ZONE.c.from_at, _ZONE.c.id)
)
_NAMES = Prepared(select(_PLACE.c.id, _PLACE.c.name_key))


_AT_ONCE = 1_000


class Stay(NamedTuple):
    """From this second on a piece shared the climate of a zone, by its key; None is not known."""

    since_s: int
    zone: str | None


Stays = tuple[Stay, ...]


_Stood = tuple[int, int | None]
"""From this second on a piece was in the place of an id, or in none; plain, for there are many."""


class Zones:
    """The zones in which places lay through time."""

    def __init__(self, connection: Connection) -> None:
        self.named: dict[str, int] = {row.name_key: row.id for row in _NAMES.all(connection)}
        self._of: dict[int | None, list[Stay]] = defaultdict(list)
        for row in _ENTRIES.all(connection):
            zone = name_key(row.zone) or None
            self._of[row.place_id].append(Stay(second_of(row.from_at), zone))
        self._since_s = {
            place_id: [stay.since_s for stay in entries] for place_id, entries in self._of.items()
        }

    @property
    def basis(self) -> str:
        """All that is known of places, as a text: another one where anything of it is otherwise."""
        return repr((sorted(self.named.items()), sorted(self._of.items())))

    def of(self, stood: Iterator[_Stood]) -> Iterator[Stay]:
        """The zones a piece was in, from when, without changes that change nothing."""
        places = list(stood)
        ends = (since_s for since_s, _ in places[1:])
        lasts = (self._within(one, end) for one, end in zip_longest(places, ends))
        before: Stay | None = None
        for stay in chain.from_iterable(lasts):
            if before is None or stay.zone != before.zone:
                yield stay
                before = stay

    def _within(self, one: _Stood, end_s: int | None) -> Iterator[Stay]:
        """The zones of one place, as long as the piece stood there."""
        since_s, place_id = one
        if end_s is not None and end_s <= since_s:
            return
        entries = self._of.get(place_id, ())
        place = bisect_right(self._since_s.get(place_id, ()), since_s)
        yield Stay(since_s, entries[place - 1].zone if place else None)
        for entry in entries[place:]:
            if end_s is not None and entry.since_s >= end_s:
                return
            yield entry


def stays(connection: Connection, until: datetime, zones: Zones) -> Mapping[str, Stays]:
    """Where every piece stood up to an instant, by its code; as it was known then."""
    found_rows = connection.execute(_MOVED, {"until": until})
    rows = chain.from_iterable(found_rows.partitions(_AT_ONCE))
    found: dict[str, Stays] = {}
    parents: dict[str, str | None] = {}
    for code, moves in groupby(rows, key=itemgetter(0)):
        lines = list(moves)
        found[code] = tuple(zones.of(_stood(lines, zones.named)))
        _, parents[code], *_ = lines[0]
    whole: dict[str, Stays] = {}
    for code in found:
        _with_parents(code, found, parents, whole)
    return whole


def stays_of(connection: Connection, code: str, until: datetime, zones: Zones) -> Stays:
    """Where one piece stood up to an instant."""
    found: dict[str, Stays] = {}
    parents: dict[str, str | None] = {}
    next_code: str | None = code
    while next_code is not None and next_code not in found:
        lines = _MOVED_OF.all(connection, {"until": until, "of": next_code})
        found[next_code] = tuple(zones.of(_stood(lines, zones.named)))
        parents[next_code] = lines[0].parent if lines else None
        next_code = parents[next_code]
    return _with_parents(code, found, parents, {})


def _with_parents(
    code: str,
    found: Mapping[str, Stays],
    parents: Mapping[str, str | None],
    whole: dict[str, Stays],
) -> Stays:
    """The stays of a piece, after those of what it was cut from."""
    line: list[str] = []
    at: str | None = code
    while at is not None and at in found and at not in whole:
        line.append(at)
        at = parents[at]
    before: Stays = whole.get(at, ()) if at is not None else ()
    for one in reversed(line):
        own = found[one]
        if own:
            born_s = own[0].since_s
            before = (*(stay for stay in before if stay.since_s < born_s), *own)
        whole[one] = before
    return before


def _stood(moves: Sequence[Any], named: Mapping[str, int]) -> Iterator[_Stood]:
    """Each change of place of a piece, oldest first."""
    place_id: int | None = None
    out_to: str | None = None
    for _, _, at, canonical in moves:
        sets: Mapping[str, Any] = json.loads(canonical)
        place_id = sets.get("place_id", place_id)
        out_to = sets.get("out_to", out_to)
        away = None if out_to is None else named.get(name_key(out_to))
        yield second_of(at), place_id if out_to is None else away
