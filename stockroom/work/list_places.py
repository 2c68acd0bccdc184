"""Places from a list: each line is a place as `place add` would enter it.

place_line(says, …)   PlaceLine, or a refusal
write_places(…)       the new ones are entered, all or none
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from stockroom.books.catalog import name_key, places
from stockroom.books.opening import Book
from stockroom.books.pen import Pen
from stockroom.books.values import Asked
from stockroom.codes.own import Letter
from stockroom.errors import Code, Refusal
from stockroom.work.setup import AddPlace, enter_place

_LONGEST = 120


@dataclass(frozen=True, slots=True)
class NamesListed:
    """What was written of a list of materials or places: what was entered, and the lines that were known."""

    of: str
    names: tuple[str, ...]
    known: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class PlaceLine:
    """A line as a place that would be entered."""

    line: int
    add: AddPlace


def place_line(line: int, says: Mapping[str, Any], *, asked: Asked) -> PlaceLine:
    """A line as a place; one without a name, or with too long a one, is refused."""
    name, zone = says.get("name", ""), says.get("zone", "")
    if not name:
        raise Refusal(Code.BAD_NAME, "It names no place.")
    if max(len(name), len(zone)) > _LONGEST:
        raise Refusal(Code.BAD_NAME, f"name: it is too long: write at most {_LONGEST} characters.")
    add = AddPlace(
        request=asked.request, operator=asked.operator, at=asked.at, name=name, zone=zone
    )
    return PlaceLine(line, add)


def write_places(
    lines: Sequence[PlaceLine], *, asked: Asked, book: Book, now: datetime
) -> NamesListed:
    """Enter the places that are not there yet, all or none."""
    names: list[str] = []
    known: list[int] = []
    with book.transaction() as connection:
        pen = Pen(connection, asked, now)
        pen.lock_counters([Letter.PLACE])
        there = {name_key(one.name) for one in places(connection, now).values()}
        for one in lines:
            if name_key(one.add.name) in there:
                known.append(one.line)
            else:
                names.append(enter_place(one.add, pen).name)
    return NamesListed("place", tuple(names), tuple(known))
