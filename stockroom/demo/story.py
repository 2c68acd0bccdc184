"""The files of the invented shop, and everything that is done in it in the order of time.

They lie in `demo` at the top of a checkout and in `stockroom/demo/shop` of what is installed; the
README beside them says what each column means.
"""

import csv
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from random import Random
from typing import Any
from zoneinfo import ZoneInfo

from stockroom.demo.distances import day_of

Row = Mapping[str, str]

_JOBS_OPEN, _JOBS_CLOSE = time(8, 20), time(17, 20)
_MOST_MINUTES = 9
"""How far the seed moves the hours of a day."""


@dataclass(frozen=True, slots=True)
class Line:
    """One thing that is done, at one moment; `row` holds the columns of its file."""

    at: datetime
    act: str
    row: Row


def read_shop() -> dict[str, Any]:
    """What the shop has before its first roll: its settings, its places, its materials."""
    return tomllib.loads(_text("shop.toml")) | tomllib.loads(_text("materials.toml"))


def lines(today: date, zone: ZoneInfo, chance: Random) -> list[Line]:
    """Everything that is done, oldest first; each day runs some minutes early or late."""
    late: dict[str, timedelta] = {}
    found: list[Line] = []
    for day, clock, act, row in _written():
        if day not in late:
            late[day] = timedelta(minutes=chance.randint(-_MOST_MINUTES, _MOST_MINUTES))
        at = datetime.combine(day_of(day, today), clock, zone) + late[day]
        found.append(Line(at.astimezone(UTC), act, row))
    return sorted(found, key=lambda line: line.at)


def _written() -> Iterator[tuple[str, time, str, Row]]:
    for row in _rows("jobs.csv"):
        yield row["opened"], _JOBS_OPEN, "open", row
        if row["closed"]:
            yield row["closed"], _JOBS_CLOSE, "close", row
    for row in _rows("deliveries.csv"):
        yield row["day"], time.fromisoformat(row["at"]), "receive", row
    for row in _rows("days.csv"):
        yield row["day"], time.fromisoformat(row["at"]), row["act"], row


def _rows(name: str) -> Iterator[Row]:
    yield from csv.DictReader(_text(name).splitlines(), strict=True)


def _text(name: str) -> str:
    return (_folder() / name).read_text(encoding="utf-8")


def _folder() -> Traversable:
    installed = files("stockroom.demo") / "shop"
    return installed if installed.is_dir() else Path(__file__).parents[2] / "demo"
