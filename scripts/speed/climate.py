"""Exposure: what the climates of many zones did to many pieces, from what is stored of it."""

import json
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from functools import partial
from math import pi, sin
from pathlib import Path
from tempfile import TemporaryDirectory

from scripts.speed.result import Memory, Result, timed
from scripts.speed.scale import Scale
from scripts.speed.synthetic import NOW, OPERATOR, book_of, kept
from stockroom.books.catalog import ALWAYS, Entry, add_zone, places
from stockroom.books.guards import guard_statements
from stockroom.books.opening import Book, open_book
from stockroom.books.parts import forget_all
from stockroom.work.look import rack
from stockroom.work.readings import WriteReadings, write_readings
from stockroom.work.sensors import AddSensor, add_a_sensor
from stockroom.work.settling import keep_settled
from stockroom.work.setup import ChangeMaterial, change_a_material
from stockroom.work.summing import keep_sums

_STEP_S = 60
_ENERGIES_KJ = (60, 96)
"""Of every third film each; the others have the default."""
_DAY = 1_440


def climate_results(scale: Scale) -> Iterator[Result]:
    """All sums cold, exposure from what is settled and without it, a late reading, and the memory."""
    path = kept(
        f"{scale.pieces}x{scale.acts}x{scale.zones}x{scale.readings}", partial(_filled, scale)
    )
    number = f"{scale.zones * scale.readings:,}"
    with TemporaryDirectory() as folder:
        copy = Path(folder) / "book.db"
        shutil.copyfile(path, copy)
        with closing(open_book(str(copy))) as book:
            with book.transaction() as connection:
                forget_all(connection)
            cold_s = timed(lambda: keep_sums(book, now=NOW))
            settle_s = timed(lambda: keep_settled(book, now=NOW))
            rack_s = min(timed(lambda: rack(book, now=NOW)) for _ in range(2))
        took = min((_exposed(copy) for _ in range(scale.racks)), key=lambda one: one["first_s"])
        pieces = f"{scale.pieces:,} pieces"
        summed = f"sum {number} readings for 3 energies and the air, cold"
        yield Result(summed, cold_s, None, 300)
        yield Result(f"settle what storage did to {pieces}", settle_s, None, 30)
        yield Result("their exposure over these readings", took["first_s"], None, 1)
        yield Result("the same again in one report", took["again_s"], None, 1)
        yield Memory("most memory for it", took["most_mib"], None, 1_500)
        yield Result("the rack of them, with climates and curls", rack_s, None, 15)
        yield Result("nothing settled: where they stood through time", took["stays_s"], None, 2)
        yield Result("nothing settled: their exposure, from stored sums", took["anew_s"], None, 2)
        with closing(open_book(str(copy))) as book:
            late_s = timed(lambda: _write_late(book, scale))
        yield Result("write a late reading, and sum from there on again", late_s, None, 15)


def _exposed(path: Path) -> dict[str, float]:
    """In a process of its own, so that its memory is its own."""
    command = [sys.executable, "-m", "scripts.speed.exposing", str(path)]
    ran = subprocess.run(command, check=True, capture_output=True, text=True)  # noqa: S603 - our own
    took: dict[str, float] = json.loads(ran.stdout)
    return took


def _write_late(book: Book, scale: Scale) -> None:
    """A reading between two others, half-way through the readings of the first sensor."""
    at_s = int(NOW.timestamp()) - scale.readings * _STEP_S // 2 + _STEP_S // 2
    request = WriteReadings(
        request="late", operator=OPERATOR, sensor="sensor 0", readings=((at_s, 24.5, 51.0),)
    )
    write_readings(request, book=book, now=NOW)


def _filled(scale: Scale, path: Path) -> None:
    """The book of the pieces, with its places in zones, each measured minute by minute."""
    shutil.copyfile(book_of(scale.pieces, scale.acts), path)
    with closing(open_book(str(path))) as book:
        with book.transaction() as connection:
            for number, place_id in enumerate(sorted(places(connection, NOW))):
                zone = _said("zone", f"hall {number % scale.zones}")
                add_zone(connection, place_id, zone, now=NOW)
        for number in range(scale.zones):
            sensor = AddSensor(
                request=f"sensor {number}",
                operator=OPERATOR,
                name=f"sensor {number}",
                zone=f"hall {number}",
            )
            add_a_sensor(sensor, book=book, now=NOW)
        for number, energy_kj in enumerate(_ENERGIES_KJ * 8):
            change = ChangeMaterial(
                request=f"energy {number}",
                operator=OPERATOR,
                name=f"film {number * 3 // 2:02}",
                figures={"energy": str(energy_kj)},
            )
            change_a_material(change, book=book, now=NOW)
    with closing(sqlite3.connect(path)) as raw:
        _read(raw, scale)


def _said(name: str, value: str) -> Entry:
    return Entry(name=name, value=value, from_at=ALWAYS, operator=OPERATOR, why="")


def _read(raw: sqlite3.Connection, scale: Scale) -> None:
    """Write what every sensor read; the guard that looks at each line stands aside meanwhile."""
    raw.execute("DROP TRIGGER reading_no_replace")
    for sensor_id in range(1, scale.zones + 1):
        rows = _readings(sensor_id, scale.readings)
        raw.executemany("INSERT INTO reading VALUES (?, ?, ?, ?)", rows)
    raw.execute(next(one for one in guard_statements("sqlite", "reading") if "_no_replace" in one))
    raw.commit()


def _readings(sensor_id: int, count: int) -> Iterator[tuple[int, int, float, float]]:
    """Minutes up to now: warm days and cool nights, a warm summer, halls of their own."""
    begins_s = int(NOW.timestamp()) - count * _STEP_S
    for number in range(count):
        day, year = sin(2 * pi * number / _DAY), sin(2 * pi * number / count)
        celsius = round(20 + sensor_id % 5 + 6 * day + 6 * year, 2)
        yield sensor_id, begins_s + number * _STEP_S, celsius, round(50 + 20 * year, 1)
