"""Exporting: all acts or all pieces as a table any spreadsheet opens.

Comma-separated values as RFC 4180 has them, UTF-8; headings carry the unit, instants are ISO 8601
in UTC, and text that a spreadsheet would take for a formula is put behind an apostrophe.
"""

import csv
import os
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path

from stockroom.books.backup import refuse_taken
from stockroom.books.catalog import shop
from stockroom.books.climates import Climates
from stockroom.books.fold import State
from stockroom.books.journal import acts
from stockroom.books.opening import Book
from stockroom.books.pieces import standings
from stockroom.books.values import Act, Move
from stockroom.codes.own import Letter, letter_of
from stockroom.errors import Code, Refusal, clean_text
from stockroom.units import MM, UM
from stockroom.work.charging import cost_between
from stockroom.work.judging import Judged, judged, view
from stockroom.work.storage import Stored

_AT_ONCE = 2_000
_FORMULA = frozenset("\t\r\n=+-@|%\uff1d\uff0b\uff0d\uff20\uff5c\uff05")
"""What a formula begins with, and the same signs in their full width."""


@dataclass(frozen=True, slots=True)
class Exported:
    """The file that was written, and how many rows it has below its headings."""

    path: Path
    rows: int


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

        return _written(target, _heads((*_ACT, *_MOVE), currency), rows())


def export_pieces(book: Book, target: Path, *, now: datetime) -> Exported:
    """Every piece there ever was, by code, with its verdict now."""
    with book.reading() as connection:
        shared = shop(connection, now)
        found = standings(connection, now, ended=True)
        seen = view(shared, now=now, today=None)
        pieces = judged(found, seen, Stored(Climates(connection, shared, now), seen).storage_of)
        rows = ([read(one) for read in _PIECE.values()] for one in pieces)
        return _written(target, _heads(_PIECE, shared.currency), rows)


def defused(text: str) -> str:
    """Text that no spreadsheet takes for a formula."""
    return f"'{text}" if text.lstrip(" ")[:1] in _FORMULA else text


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
    "made_on": lambda one: one.standing.state.made,
    "shipped_on": lambda one: one.standing.state.shipped,
    "received_on": lambda one: one.standing.state.received,
    "printed_on": lambda one: one.standing.state.printed,
    "ink": lambda one: one.standing.state.ink,
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


def _heads(names: Iterable[str], currency: str) -> list[str]:
    """The headings; money names its currency."""
    return [f"{name}_{currency}" if name.endswith("_minor") else name for name in names]


def exact(number: int | None, unit: int) -> Decimal | None:
    """A whole number in a unit that is a power of ten, to its last digit."""
    return None if number is None else (Decimal(number) / unit).normalize()


def _cell(value: object) -> object:
    """A value as it is written: nothing for what is unknown, text made harmless."""
    match value:
        case None:
            return ""
        case bool():
            return "true" if value else "false"
        case int():
            return value
        case Decimal():
            return f"{value:f}"
        case datetime():
            return value.astimezone(UTC).isoformat()
        case _:
            return defused(str(value))


def _written(target: Path, heads: list[str], rows: Iterable[list[object]]) -> Exported:
    """Write a table to a new file, whole or not at all."""
    refuse_taken(target)
    half = target.with_name(f".{target.name}.{os.getpid()}.part")
    number = 0
    try:
        with half.open("w", encoding="utf-8", newline="") as file:
            table = csv.writer(file, lineterminator="\r\n")
            table.writerow(heads)
            for row in rows:
                table.writerow([_cell(value) for value in row])
                number += 1
        half.replace(target)
    except OSError as error:
        raise Refusal(
            Code.FILE_UNWRITABLE,
            f"The file {clean_text(str(target))} was not written: {error.strerror}.",
        ) from error
    finally:
        half.unlink(missing_ok=True)
    return Exported(target, number)
