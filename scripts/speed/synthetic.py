"""A synthetic book of any size: a valid chain, written fast, kept between runs in a temporary folder."""

import hashlib
import shutil
import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import partial
from pathlib import Path
from typing import Any, TypeAlias

from stockroom.books.chain import START, canonical, link
from stockroom.books.fold import State
from stockroom.books.migrating import HEAD
from stockroom.books.opening import create_book
from stockroom.codes.own import Letter, build, numbers
from stockroom.film.kinds import Kind
from stockroom.units import MM
from stockroom.work.jobs import OpenJob, open_job
from stockroom.work.setup import (
    AddMaterial,
    AddPlace,
    SetValue,
    add_a_material,
    add_a_place,
    set_value,
)

Row: TypeAlias = dict[str, Any]

BEGINS = datetime(2024, 11, 1, 6, tzinfo=UTC)
NOW = datetime(2026, 11, 25, 9, tzinfo=UTC)
OPERATOR = "Ida M."
MATERIALS, PLACES, JOBS = 25, 40, 200
WIDTH_MM, FULL_MM = 1_500, 30_000
PRICE = 45_000
PUT, COUNT = 7, 13
"""The acts of a piece that are no cuts, by their place in its life."""
_STRIDES = 25
_SETTINGS = {"name": "Long Quay", "time-zone": "Europe/Lisbon", "near.days": "21d"}
_KINDS = (Kind.WINDOW_FILM, Kind.PROTECTIVE_FILM, Kind.PRINT_VINYL, Kind.CALENDERED_VINYL)


@dataclass(slots=True)
class _Roll:
    """A roll on its way through the journal."""

    id: int
    code: str
    state: Row
    seq: int = 0
    head: str = START
    at: str = ""
    kind: str = ""


def book_of(pieces: int, acts: int) -> Path:
    """A book of so many rolls, each with so many acts; made once."""
    return kept(f"{pieces}x{acts}", partial(_filled, pieces, acts))


def kept(name: str, make: Callable[[Path], None]) -> Path:
    """What was made, from the shelf of this version of the tables and of this module."""
    own = hashlib.sha256(Path(__file__).read_bytes()).hexdigest()[:8]
    shelf = Path(tempfile.gettempdir()) / "stockroom-speed"
    shelf.mkdir(exist_ok=True)
    path = shelf / f"{name}-{HEAD}-{own}.db"
    if not path.exists():
        unfinished = path.with_suffix(".unfinished")
        unfinished.unlink(missing_ok=True)
        make(unfinished)
        unfinished.replace(path)
    return path


def _filled(pieces: int, acts: int, path: Path) -> None:
    """A shop that is set up, with all its journal."""
    shutil.copyfile(kept("empty", _set_up), path)
    with closing(sqlite3.connect(path)) as raw:
        _fill(raw, pieces, acts)


def _set_up(path: Path) -> None:
    """Settings, materials, places and jobs, the ordinary way."""
    with closing(create_book(str(path))) as book:
        for name, value in _SETTINGS.items():
            setting = SetValue(
                request=f"setting {name}", operator=OPERATOR, name=name, value=value, why="our own"
            )
            set_value(setting, book=book, now=BEGINS)
        for number in range(MATERIALS):
            film = AddMaterial(
                request=f"material {number}",
                operator=OPERATOR,
                name=f"film {number:02}",
                kind=_KINDS[number % len(_KINDS)],
                width_nm=WIDTH_MM * MM,
                thickness_nm=75_000,
                core_inside_nm=76_200_000,
                core_wall_nm=5 * MM,
            )
            add_a_material(film, book=book, now=BEGINS)
        for number in range(PLACES):
            place = AddPlace(
                request=f"place {number}",
                operator=OPERATOR,
                name=f"bay {number:02}",
                zone=f"zone {number % 4}",
            )
            add_a_place(place, book=book, now=BEGINS)
        for number in range(JOBS):
            job = OpenJob(request=f"job {number}", operator=OPERATOR, name=f"shop front {number}")
            open_job(job, book=book, now=BEGINS)


def _fill(raw: sqlite3.Connection, pieces: int, acts: int) -> None:
    """Write the journal in the order in which it happened, then the pieces it leads to."""
    for pragma in ("synchronous=OFF", "cache_size=-400000", "foreign_keys=OFF"):
        raw.execute(f"PRAGMA {pragma}")
    jobs = [row[0] for row in raw.execute('SELECT code FROM "job" ORDER BY id')]
    rolls = [_roll(place, code) for place, code in enumerate(_codes(pieces))]
    act_id: int = raw.execute("SELECT max(id) FROM act").fetchone()[0]
    move_id = 0
    batch: list[tuple[Row, Row]] = []
    for roll, at in _days(rolls, acts):
        act_id, move_id = act_id + 1, move_id + 1
        batch.append(_written(roll, at, jobs, (act_id, move_id)))
        if len(batch) == 20_000:  # noqa: PLR2004
            _insert(raw, batch)
            batch.clear()
    _insert(raw, batch)
    _insert_pieces(raw, rolls)
    last = numbers(Letter.ROLL, 0, pieces)[-1]
    raw.execute("UPDATE counter SET last = ? WHERE letter = 'R'", (last,))
    raw.commit()
    raw.execute("PRAGMA wal_checkpoint(TRUNCATE)")


def _codes(count: int) -> Iterator[str]:
    return (build(Letter.ROLL, number) for number in numbers(Letter.ROLL, 0, count))


def _days(rolls: list[_Roll], acts: int) -> Iterator[tuple[_Roll, datetime]]:
    """Each act's roll and time: rolls come in all the time, and live beside one another."""
    stride = max(1, len(rolls) // _STRIDES)
    steps = len(rolls) + stride * (acts - 1)
    tick = (NOW - BEGINS - timedelta(days=1)) / steps
    for step in range(steps):
        for age in range(acts):
            if 0 <= (place := step - age * stride) < len(rolls):
                yield rolls[place], BEGINS + timedelta(hours=1) + step * tick


def _roll(place: int, code: str) -> _Roll:
    """A roll that is about to come in."""
    begins = State(
        form="roll",
        material_id=place % MATERIALS + 1,
        balance=FULL_MM * MM,
        full=FULL_MM * MM,
        received="",
        lot=f"L-{place // 10}",
        width_nm=WIDTH_MM * MM,
        thickness_nm=75_000,
        core_inside_nm=76_200_000,
        core_wall_nm=5 * MM,
        cost_minor=PRICE,
        place_id=place % PLACES + 1,
        held="creased" if place % 50 == 0 else None,
    )
    return _Roll(place + 1, code, begins._asdict())


def _written(roll: _Roll, at: datetime, jobs: list[str], ids: tuple[int, int]) -> tuple[Row, Row]:
    """One more act of a roll, as its two rows; the roll moves on."""
    age = roll.seq
    kind = {0: "receive", PUT: "put", COUNT: "count"}.get(age, "cut")
    job_id = ids[0] % JOBS + 1 if kind == "cut" else None
    length_mm = 300 + 2 * (ids[0] * 7 % 500) if kind == "cut" else 0
    sets = _sets(roll, kind, at)
    full = FULL_MM * MM if kind == "receive" else 0
    roll.state |= sets
    roll.state["balance"] -= length_mm * MM
    roll.seq, roll.kind, roll.at = age + 1, kind, _instant(at)
    stamp = at.isoformat(timespec="microseconds")
    request = hashlib.md5(str(ids[0]).encode(), usedforsecurity=False).hexdigest()
    act: Row = {
        "request": request,
        "kind": kind,
        "at": stamp,
        "recorded_at": stamp,
        "operator": OPERATOR,
        "note": "",
        "reverses": None,
        "request_hash": request + request,
    }
    move: Row = {
        "piece": roll.code,
        "seq": roll.seq,
        "kind": kind,
        "delta": full or -length_mm * MM,
        "balance": roll.state["balance"],
        "used_mm2": WIDTH_MM * length_mm,
        "wasted_mm2": 0,
        "kept_mm2": 0,
        "cost_minor": PRICE * length_mm // FULL_MM,
        "sets": sets,
        "facts": _facts(kind, length_mm),
    }
    job = jobs[job_id - 1] if job_id else None
    roll.head = link(roll.head, act | {"job": job}, move)
    act |= {"id": ids[0], "at": roll.at, "recorded_at": roll.at, "job_id": job_id}
    del move["piece"]
    move |= {
        "id": ids[1],
        "act_id": ids[0],
        "piece_id": roll.id,
        "sets": canonical(sets),
        "facts": canonical(move["facts"]),
        "hash": roll.head,
    }
    return act, move


def _sets(roll: _Roll, kind: str, at: datetime) -> Row:
    """What an act makes of a roll beside its length."""
    if kind == "put":
        return {"place_id": roll.id % PLACES + 1}
    if kind != "receive":
        return {}
    made = at.date() - timedelta(days=roll.id * 37 % 400)
    is_print = roll.id % 8 == 0
    born = {
        "received": at.date().isoformat(),
        "made": made.isoformat()[: 7 if roll.id % 3 else 10],
        "printed": at.date().isoformat() if is_print else None,
        "printed_by": at.isoformat() if is_print else None,
        "ink": "eco-solvent" if is_print else None,
    }
    known = {name: value for name, value in (roll.state | born).items() if value is not None}
    del known["balance"], known["full"]
    return known


def _facts(kind: str, length_mm: int) -> Row:
    if kind != "cut":
        return {}
    return {
        "length_nm": length_mm * MM,
        "reason": None,
        "verdict": "USE",
        "despite": None,
        "warning": "",
    }


def _instant(at: datetime) -> str:
    """An instant as SQLite keeps it."""
    return at.strftime("%Y-%m-%d %H:%M:%S.%f")


def _insert(raw: sqlite3.Connection, rows: list[tuple[Row, Row]]) -> None:
    _insert_rows(raw, "act", [act for act, _ in rows])
    _insert_rows(raw, "move", [move for _, move in rows])
    raw.commit()


def _insert_pieces(raw: sqlite3.Connection, rolls: list[_Roll]) -> None:
    rows = [
        roll.state
        | {
            "id": roll.id,
            "code": roll.code,
            "seq": roll.seq,
            "head": roll.head,
            "last_at": roll.at,
            "last_kind": roll.kind,
        }
        for roll in rolls
    ]
    _insert_rows(raw, "piece", rows)


def _insert_rows(raw: sqlite3.Connection, table: str, rows: list[Row]) -> None:
    if rows:
        names = ", ".join(rows[0])
        marks = ", ".join(f":{name}" for name in rows[0])
        raw.executemany(f'INSERT INTO "{table}" ({names}) VALUES ({marks})', rows)  # noqa: S608
