"""Stations in processes of their own, and what they do there."""

import multiprocessing
import os
from collections.abc import Callable
from contextlib import closing
from itertools import count
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from multiprocessing.synchronize import Barrier

from stockroom.books.opening import create_book, open_book
from stockroom.errors import Code
from stockroom.units import MM, M
from stockroom.work.delivery import SetLine, set_line
from stockroom.work.goods_line import Line
from stockroom.work.stocktake import Found
from tests.builders import FILM, Station, expected
from tests.floor import Floor
from tests.ordering import Buyer

NOBODY = 65_534
LENGTH = 10 * MM
PATIENCE_SECONDS = 60
"""How long stations wait for one that has died."""

# Forked from a server without threads: quick to start, and safe whatever the tests themselves do.
_PROCESSES = multiprocessing.get_context("forkserver")
_PROCESSES.set_forkserver_preload(["__main__", __name__, "tests.books.storm", "alembic.command"])


def start(do: Callable[..., None], *arguments: object) -> BaseProcess:
    """A process that does something."""
    process = _PROCESSES.Process(target=do, args=arguments)
    process.start()
    return process


def pipe() -> tuple[Connection, Connection]:
    """Where a station's answers are read, and where it writes them."""
    return _PROCESSES.Pipe(duplex=False)


def answers(reader: Connection) -> list[object]:
    """All that was written until nobody could write any more."""
    found: list[object] = []
    try:
        while True:
            found.append(reader.recv())
    except EOFError:
        return found
    finally:
        reader.close()


def all_at_once(stations: int, do: Callable[..., None], *arguments: object) -> list[object]:
    """The answers of so many stations that do the same at the same time."""
    reader, writer = pipe()
    at_the_same_time = _PROCESSES.Barrier(stations, timeout=PATIENCE_SECONDS)
    processes = [start(do, *arguments, at_the_same_time, writer) for _ in range(stations)]
    writer.close()
    found = answers(reader)
    for process in processes:
        process.join()
    assert [process.exitcode for process in processes] == [0] * stations
    return found


def make_alone(where: str) -> None:
    """Make a book, or open the one that is there."""
    create_book(where).close()


def make(where: str, ready: Barrier, answer: Connection) -> None:
    """Make a book at the same time as others."""
    ready.wait()
    make_alone(where)
    answer.send("made")


def cut_until_nothing_is_left(
    where: str,
    roll: str,
    times: int,
    ready: Barrier,
    answer: Connection,
) -> None:
    """Cut a roll so many times, or as long as there is any; every fourth cut keeps an offcut."""
    with closing(open_book(where)) as book:
        station = Station(book)
        ready.wait()
        for number in range(times):
            offcuts = ((M, LENGTH),) if number % 4 == 0 else ()
            with expected(Code.TOO_LONG):
                answer.send(station.cut(roll, LENGTH, offcuts=offcuts).act.id)


def cut_and_undo(
    where: str,
    roll: str,
    times: int,
    ready: Barrier,
    answer: Connection,
) -> None:
    """Cut with an offcut and take the newest cut back, whoever made it, if nobody was quicker."""
    with closing(open_book(where)) as book:
        station = Station(book)
        ready.wait()
        for _ in range(times):
            answer.send(station.cut(roll, LENGTH, offcuts=((M, LENGTH),)).act.id)
            with expected(Code.LATER_ACT):
                answer.send(-station.undo(roll).undone)


def cut_and_look(
    where: str,
    roll: str,
    place: str,
    times: int,
    ready: Barrier,
    answer: Connection,
) -> None:
    """Cut a roll, and look through the place where it stands, while others do the same."""
    with closing(open_book(where)) as book:
        floor = Floor(book)
        ready.wait()
        for _ in range(times):
            answer.send((floor.cut(roll, LENGTH, offcuts=((M, LENGTH),)).act.id, True))
            done = floor.seen(place, roll)
            answer.send((done.act.id, done.sightings[0].found is Found.HERE))


def receive_and_undo(
    where: str,
    order: str,
    times: int,
    ready: Barrier,
    answer: Connection,
) -> None:
    """Receive one roll of an order, as long as one is to come; every third is taken back."""
    with closing(open_book(where)) as book:
        buyer = Buyer(book)
        ready.wait()
        for number in range(times):
            with expected(Code.NOT_COMING):
                (roll,) = buyer.arrive(order, pieces=1).codes
                answer.send(1)
                if number % 3 == 2:
                    buyer.undo(roll)
                    answer.send(-1)


def type_until_killed(where: str, name: str, answer: Connection) -> None:
    """Type one line of a delivery after the other, telling each that was kept."""
    with closing(open_book(where)) as book:
        station = Station(book)
        for number in count():
            line = Line(material=FILM, length_nm=M, lot=f"L-{number}")
            request = SetLine(**station.asked(name=name, line=line))
            set_line(request, book=book, now=station.now)
            answer.send(number)


def name_the_same(where: str, times: int, ready: Barrier, answer: Connection) -> None:
    """Enter materials and places under the names that others enter at the same moment."""
    with closing(open_book(where)) as book:
        station = Station(book)
        for number in range(times):
            ready.wait()
            with expected(Code.ALREADY_THERE):
                answer.send(station.material(f"film {number}"))
            ready.wait()
            with expected(Code.ALREADY_THERE):
                answer.send(station.place(f"bay {number}"))


def as_nobody(do: Callable[..., None], *arguments: object) -> None:
    """Do something as a user without rights; what fails there fails here."""
    process = start(_without_rights, do, *arguments)
    process.join()
    assert process.exitcode == 0


def _without_rights(do: Callable[..., None], *arguments: object) -> None:
    if os.getuid() == 0:
        os.setgid(NOBODY)
        os.setuid(NOBODY)
    do(*arguments)
