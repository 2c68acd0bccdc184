"""Works out what storage did to every piece of a book, in a process of its own; prints what it took.

Seconds to add up all exposure from what is settled, and to do so again in one report; the same where
nothing is settled, from stored sums alone; to find where all pieces stood for that; and the most
memory the process had until then, in MiB: before what is not settled, which a report does not need.
"""

import json
import sys
from contextlib import closing
from datetime import datetime
from pathlib import Path

from scripts.speed.result import timed
from scripts.speed.synthetic import NOW
from stockroom.books.catalog import shop
from stockroom.books.climates import Climates
from stockroom.books.opening import open_book
from stockroom.books.pieces import standings
from stockroom.books.sensors import second_of
from stockroom.books.settled import Settled
from stockroom.books.values import Standing
from stockroom.film.rules import shelf_age
from stockroom.work.judging import View, only_making, storage_of, view
from stockroom.work.storage import Stored


def exposures(path: str) -> dict[str, float]:
    """What it took, by name."""
    with closing(open_book(path)) as book, book.reading() as connection, only_making():
        seen = view(shop(connection, NOW), now=NOW, today=None)
        pieces = [_asked(one, seen) for one in standings(connection, NOW)]
        climates = Climates(connection, seen.shop, NOW)
        settled = {
            "first_s": timed(lambda: _add_up(Stored(climates, seen), pieces)),
            "again_s": timed(lambda: _add_up(Stored(climates, seen), pieces)),
            "most_mib": _most_mib(),
        }
        anew = Climates(connection, seen.shop, NOW)
        anew.settled = Settled()
        return settled | {
            "stays_s": timed(lambda: anew.stays(pieces[0][0])),
            "anew_s": timed(lambda: _add_up(Stored(anew, seen), pieces)),
        }


def _most_mib() -> float:
    """Linux's own word on this program; `getrusage` would count what the one that began it had."""
    said = Path("/proc/self/status").read_text("utf-8").splitlines()
    [kib] = (line.split()[1] for line in said if line.startswith("VmHWM:"))
    return int(kib) / 1_024


def _asked(one: Standing, seen: View) -> tuple[str, int, float]:
    """A piece, the second its age is counted from, and its activation energy."""
    age = shelf_age(storage_of(one.state, one.material), seen.today)
    since: datetime = NOW if age is None else seen.shop.begin_of(age.anchor)
    energy = one.material.facts.get("energy") or seen.shop.house.energy()
    return one.code, second_of(since), energy.value


def _add_up(stored: Stored, pieces: list[tuple[str, int, float]]) -> None:
    until_s = second_of(NOW)
    for code, since_s, energy_kj in pieces:
        stored.exposure(code, since_s, until_s, energy_kj)


if __name__ == "__main__":
    print(json.dumps(exposures(sys.argv[1])))
