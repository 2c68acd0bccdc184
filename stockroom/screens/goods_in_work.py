"""What Goods in asks of the book, each in one call that is made in a thread."""

from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from textual.message import Message

from stockroom.books.orders import Order
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.labels.files import save
from stockroom.lines import words
from stockroom.lines.goods_in import Known
from stockroom.screens.station import Station
from stockroom.work.arriving import offered
from stockroom.work.delivery import (
    USUAL_NAME,
    AddOrder,
    Delivery,
    DropLine,
    ReceiveAll,
    SetLine,
    add_order,
    deliveries,
    drop_line,
    receive_all,
    set_line,
)
from stockroom.work.goods_line import Line
from stockroom.work.label import labels
from stockroom.work.look import materials, places
from stockroom.work.receive import Received
from stockroom.work.setup import settings


@dataclass
class GoodsRead(Message):
    """The delivery as it was kept, and what its words are made of; `turn` is when it was asked for."""

    turn: int
    delivery: Delivery | None
    known: Known
    offered: tuple[Order, ...]


@dataclass
class LineKept(Message):
    """The draft holds the line now; `number` is its place in it."""

    delivery: Delivery
    number: int
    offered: tuple[Order, ...]


@dataclass
class LinesChanged(Message):
    """A line is no more, or those of an order are there too; which orders it may have come of."""

    delivery: Delivery
    offered: tuple[Order, ...]
    are_more: bool = False


@dataclass
class AllReceived(Message):
    """The delivery came in."""

    sentence: str
    offered: tuple[Order, ...]


@dataclass
class NotKept(Message):
    """What was asked was refused; nothing was written."""

    refusal: Refusal


def or_not(call: Callable[[], Message]) -> Message:
    """What a call comes to."""
    try:
        return call()
    except Refusal as refusal:
        return NotKept(refusal)


def look(station: Station, turn: int) -> GoodsRead:
    """Read the delivery that is being built, if one is, and the names it may use."""
    book, now = station.book, station.now()
    known = Known(
        shop=settings(book, now=now)[0],
        materials=materials(book, now=now),
        places=places(book, now=now),
        shows_money=station.shows_money,
    )
    found = _kept(station)
    return GoodsRead(turn, found, known, _offered(station, found))


def keep(station: Station, line: Line, number: int | None, was: Line | None) -> LineKept:
    """Keep a line in the draft, in place of what it was."""
    if number is not None:
        _refuse_changed(_kept(station), number, was)
    request = SetLine(**station.asking(), line=line, number=number)
    found = set_line(request, book=station.book, now=station.now())
    return LineKept(found, number or len(found.lines), _offered(station, found))


def drop(station: Station, number: int, was: Line | None) -> LinesChanged:
    """Take a line out of the draft."""
    _refuse_changed(_kept(station), number, was)
    request = DropLine(**station.asking(), number=number)
    found = drop_line(request, book=station.book, now=station.now())
    return LinesChanged(found, _offered(station, found))


def take_order(station: Station, code: str) -> LinesChanged:
    """Add what is still to come of an order."""
    request = AddOrder(**station.asking(), order=code)
    found = add_order(request, book=station.book, now=station.now())
    return LinesChanged(found, _offered(station, found), are_more=True)


def receive(station: Station, request: str, seen: Sequence[Line]) -> AllReceived:
    """Receive every line in one act, and write the labels of all that came in to one file.

    What nobody here has seen is refused: somebody else added or changed it.
    """
    found = _kept(station)
    if found is not None and [one.line for one in found.lines] != seen:
        raise Refusal(
            Code.LATER_ACT, "The delivery was changed at another station: look at it again."
        )
    asked = ReceiveAll(**station.asking(request))
    done = receive_all(asked, book=station.book, now=station.now())
    left = _offered(station, None)
    came = f"received {words.counted(len(done.codes), 'piece')}"
    path = station.labels / f"delivery-{done.act.id}.pdf"
    try:
        _write_labels(station, done, path)
    except Refusal as refusal:
        return AllReceived(f"{came}, but not their labels: {refusal.sentence}", left)
    named = [grouped(code) for code in done.codes]
    span = named[0] if len(named) == 1 else f"{named[0]} to {named[-1]}"
    return AllReceived(f"{came}, {span} · labels in {path}", left)


def _write_labels(station: Station, done: Received, path: Path) -> None:
    with suppress(OSError):  # a folder that cannot be made is found out when the file is written
        station.labels.mkdir(parents=True, exist_ok=True)
    found = labels(done.codes, book=station.book, now=station.now())
    save(found, path, size=station.label_size, dpi=station.dpi)


def _offered(station: Station, found: Delivery | None) -> tuple[Order, ...]:
    lines = [one.line for one in found.lines] if found else []
    return offered(station.book, lines, now=station.now())


def _kept(station: Station) -> Delivery | None:
    found = deliveries(station.book, now=station.now())
    return next((one for one in found if one.name == USUAL_NAME), None)


def _refuse_changed(found: Delivery | None, number: int, was: Line | None) -> None:
    """Refuse to write over what somebody else did to the line meanwhile."""
    lines = found.lines if found else ()
    if number > len(lines) or lines[number - 1].line != was:
        raise changed(number)


def changed(number: int) -> Refusal:
    """What to say of a line that somebody else changed."""
    return Refusal(
        Code.LATER_ACT, f"Line {number} was changed at another station: look at it again."
    )
