"""Exporting what is read row by row: all acts, all pieces, all readings of the zones."""

from collections.abc import Callable, Iterator, Mapping
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path

from stockroom.books.catalog import shop
from stockroom.books.climates import Climates
from stockroom.books.fold import State
from stockroom.books.journal import acts
from stockroom.books.opening import Book
from stockroom.books.pieces import standings
from stockroom.books.readings import ALL_TIME, zone_readings
from stockroom.books.sensors import sensor_entries, stands, zone_names
from stockroom.books.values import Act, Move
from stockroom.codes.own import Letter, letter_of
from stockroom.units import MM, UM
from stockroom.work.charging import cost_between
from stockroom.work.judging import Judged, judged, view
from stockroom.work.spreadsheet import Exported, Table, a_day, exact, heads_of, write_table
from stockroom.work.storage import Stored

_AT_ONCE = 2_000


def export_acts(book: Book, target: Path, *, now: datetime) -> Exported:
    """Every act, newest first, one row for what it did to each piece."""
    with book.reading() as connection:
        currency = shop(connection, now).currency

        def rows() -> Iterator[list[object]]:
            before: int | None = None
            while part := acts(connection, before=before, limit=_AT_ONCE):
                before = part[-1].id
                for act in part:
                    done = [read(act) for read in _ACT.values()]
                    for move in act.moves:
                        yield [*done, *(read(move) for read in _MOVE.values())]
                    if not act.moves:
                        yield [*done, *(None for _ in _MOVE)]

        return write_table(target, Table(heads_of((*_ACT, *_MOVE), currency), rows()))


def export_pieces(book: Book, target: Path, *, now: datetime) -> Exported:
    """Every piece there ever was, by code, with its verdict now."""
    with book.reading() as connection:
        shared = shop(connection, now)
        found = standings(connection, now, ended=True)
        seen = view(shared, now=now, today=None)
        pieces = judged(found, seen, Stored(Climates(connection, shared, now), seen).storage_of)
        rows = ([read(one) for read in _PIECE.values()] for one in pieces)
        return write_table(target, Table(heads_of(_PIECE, shared.currency), rows))


def export_readings(book: Book, target: Path) -> Exported:
    """Every reading of every zone, oldest first, as its sensor was set right."""
    with book.reading() as connection:
        those, names = stands(sensor_entries(connection)), zone_names(connection)

        def rows() -> Iterator[list[object]]:
            for key, name in sorted(names.items()):
                found = zone_readings(connection, those.get(key, ()), ALL_TIME.start, ALL_TIME.stop)
                for part in found:
                    for one in part:
                        at = datetime.fromtimestamp(one.at_s, UTC)
                        yield [name, at, round(one.temperature_c, 4), one.rh_pct]

        return write_table(target, Table(("zone", "at_utc", "temperature_c", "rh_pct"), rows()))


def _is_counted(code: str) -> bool:
    return letter_of(code) is Letter.BOX


def _length(code: str, number: int) -> Decimal | None:
    return None if _is_counted(code) else exact(number, MM)


def _number(code: str, number: int) -> int | None:
    return number if _is_counted(code) else None


_ACT: Mapping[str, Callable[[Act], object]] = {
    "act": lambda act: act.id,
    "at_utc": lambda act: act.at,
    "recorded_at_utc": lambda act: act.recorded_at,
    "kind": lambda act: act.kind,
    "operator": lambda act: act.operator,
    "job": lambda act: act.job,
    "note": lambda act: act.note,
    "reverses_act": lambda act: act.reverses,
    "is_reversed": lambda act: act.is_reversed,
}
_MOVE: Mapping[str, Callable[[Move], object]] = {
    "piece": lambda move: move.piece,
    "move": lambda move: move.kind,
    "change_mm": lambda move: _length(move.piece, move.delta),
    "left_mm": lambda move: _length(move.piece, move.balance),
    "change_count": lambda move: _number(move.piece, move.delta),
    "left_count": lambda move: _number(move.piece, move.balance),
    "used_area_mm2": lambda move: move.used_mm2,
    "wasted_area_mm2": lambda move: move.wasted_mm2,
    "kept_area_mm2": lambda move: move.kept_mm2,
    "cost_minor": lambda move: move.cost_minor,
}
_PIECE: Mapping[str, Callable[[Judged], object]] = {
    "code": lambda one: one.code,
    "form": lambda one: one.standing.state.form,
    "material": lambda one: one.standing.material.name,
    "kind": lambda one: one.standing.material.kind,
    "owner": lambda one: one.standing.state.owner,
    "lot": lambda one: one.standing.state.lot,
    "laminate_lot": lambda one: one.standing.state.laminate_lot,
    "width_mm": lambda one: exact(one.standing.state.width_nm, MM),
    "full_mm": lambda one: _length(one.code, one.standing.state.full),
    "left_mm": lambda one: _length(one.code, one.standing.state.balance),
    "full_count": lambda one: _number(one.code, one.standing.state.full),
    "left_count": lambda one: _number(one.code, one.standing.state.balance),
    "thickness_um": lambda one: exact(one.standing.state.thickness_nm, UM),
    "made_on": lambda one: a_day(one.standing.state.made),
    "shipped_on": lambda one: a_day(one.standing.state.shipped),
    "received_on": lambda one: a_day(one.standing.state.received),
    "printed_on": lambda one: a_day(one.standing.state.printed),
    "ink": lambda one: one.standing.state.ink,
    "mixed_on": lambda one: a_day(one.standing.state.mixed),
    "begun_on": lambda one: a_day(one.standing.state.begun),
    "keeps_days": lambda one: one.standing.state.keeps_days,
    "contents": lambda one: one.standing.state.contents,
    "hazard": lambda one: one.standing.state.hazard,
    "job": lambda one: one.standing.job and one.standing.job.code,
    "artwork": lambda one: one.standing.state.artwork,
    "tile": lambda one: one.standing.state.tile,
    "place": lambda one: one.standing.place and one.standing.place.name,
    "out_to": lambda one: one.standing.state.out_to,
    "held": lambda one: one.standing.state.held,
    "ended": lambda one: one.standing.state.ended,
    "parent": lambda one: one.standing.state.parent,
    "verdict": lambda one: None if one.standing.state.ended else one.judgement.verdict,
    "wait_until_utc": lambda one: one.judgement.wait_until,
    "shelf_days": lambda one: one.judgement.shelf_days,
    "wound_days": lambda one: one.judgement.wound_days,
    "cost_minor": lambda one: one.standing.state.cost_minor,
    "value_minor": lambda one: _value(one.standing.state),
}


def _value(state: State) -> int | None:
    return None if state.cost_minor is None else cost_between(state, state.balance, 0)
