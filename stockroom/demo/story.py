"""The files of the invented shop, and everything that is done in it in the order of time.

They lie in `demo/shop` at the top of a checkout and in `stockroom/demo/shop` of what is installed;
`demo/README.md` says what each column means.
"""

import csv
import tomllib
from collections.abc import Iterator, Mapping
from datetime import UTC, date, datetime, time, timedelta
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from random import Random
from typing import Any
from zoneinfo import ZoneInfo

from stockroom.demo.distances import day_of
from stockroom.demo.line import Line, Row, Written
from stockroom.demo.ordinary import ordinary
from stockroom.units import MM
from stockroom.units.typed import parse_length

Shop = Mapping[str, Any]

_JOBS_OPEN, _JOBS_CLOSE = time(8, 20), time(17, 20)
_MOST_MINUTES = 9
"""How far the seed moves the hours of a day."""
_MOST_OFF_MM = 100
"""How far the seed moves the length of a cut."""


def read_shop() -> Shop:
    """What the shop has before its first roll: settings, places, people, closed days, materials."""
    return tomllib.loads(_text("shop.toml")) | tomllib.loads(_text("materials.toml"))


def read_climate() -> Shop:
    """What the air was like, and who measured it."""
    return tomllib.loads(_text("climate.toml"))


def lines(shop: Shop, today: date, zone: ZoneInfo, chance: Random) -> list[Line]:
    """Everything that is done, oldest first; each day runs some minutes early or late."""
    late: dict[str, timedelta] = {}
    found: list[Line] = []
    for day, clock, act, row in _written(shop, chance):
        if day not in late:
            late[day] = timedelta(minutes=chance.randint(-_MOST_MINUTES, _MOST_MINUTES))
        at = datetime.combine(day_of(day, today), clock, zone) + late[day]
        found.append(Line(at.astimezone(UTC), act, row))
    return sorted(found, key=lambda line: line.at)


def _written(shop: Shop, chance: Random) -> Iterator[Written]:
    for row in _rows("jobs.csv"):
        yield row["opened"], _JOBS_OPEN, "open", row
        if row["closed"]:
            yield row["closed"], _JOBS_CLOSE, "close", row
    for row in _rows("deliveries.csv"):
        yield row["day"], time.fromisoformat(row["at"]), "receive", row
    for row in _rows("days.csv"):
        yield row["day"], time.fromisoformat(row["at"]), row["act"], _a_little_off(row, chance)
    closed = [(int(one["first"]), int(one["last"])) for one in shop["closed"]]
    yield from ordinary(tomllib.loads(_text("usual.toml")), closed, chance)


def _a_little_off(row: Row, chance: Random) -> Row:
    """A length that is cut, moved by the seed; what is cut up whole stays so."""
    amount = row["amount"]
    if row["act"] != "cut" or amount.startswith("all"):
        return row
    off_mm = chance.randrange(-_MOST_OFF_MM, _MOST_OFF_MM + 1, 10)
    return {**row, "amount": f"{parse_length(amount) // MM + off_mm}mm"}


def _rows(name: str) -> Iterator[Row]:
    yield from csv.DictReader(_text(name).splitlines(), strict=True)


def _text(name: str) -> str:
    return (_folder() / name).read_text(encoding="utf-8")


def _folder() -> Traversable:
    installed = files("stockroom.demo") / "shop"
    return installed if installed.is_dir() else Path(__file__).parents[2] / "demo" / "shop"
