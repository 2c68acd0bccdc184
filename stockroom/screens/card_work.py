"""What a piece's card asks of the book, each in one call that is made in a thread."""

from contextlib import suppress
from dataclasses import dataclass

from textual.message import Message

from stockroom.books.values import Act, Job, Place
from stockroom.codes.own import grouped
from stockroom.labels.files import save
from stockroom.lines import text_done
from stockroom.lines.bench import choices
from stockroom.screens.keys import MOST_JOBS
from stockroom.screens.station import Station
from stockroom.work.label import labels
from stockroom.work.look import Card, jobs, piece, places
from stockroom.work.past import Past, past_of
from stockroom.work.setup import settings
from stockroom.work.undo import Undo, undo
from stockroom.work.winding import LayFlat, lay_flat


@dataclass
class CardRead(Message):
    """The piece was read, and what can be named beside it."""

    card: Card
    past: Past
    places: tuple[Place, ...]
    jobs: tuple[Job, ...]
    """The open ones, those that used this piece last first."""


@dataclass
class Done(Message):
    """Something was done to the piece."""

    sentence: str


def look(station: Station, code: str) -> CardRead:
    """Read one piece."""
    book, now = station.book, station.now()
    card = piece(book, code, now=now)
    past = past_of(book, code, now=now)
    return CardRead(card, past, places(book, now=now), choices(jobs(book), card.acts, MOST_JOBS))


def write_label(station: Station, code: str) -> Done:
    """Write the piece's label to the station's folder, and say where."""
    path = station.labels / f"{code}.pdf"
    with suppress(OSError):  # a folder that cannot be made is found out when the file is written
        station.labels.mkdir(parents=True, exist_ok=True)
    found = labels([code], book=station.book, now=station.now())
    save(found, path, size=station.label_size, dpi=station.dpi)
    return Done(f"label of {grouped(code)} is in {path}")


def undo_last(station: Station, code: str, last: Act) -> Done:
    """Reverse the act that was seen to be the last."""
    request = Undo(**station.asking(), piece=code, act=last.id)
    undone = undo(request, book=station.book, now=station.now())
    return Done(f"undone: {last.kind} of {grouped(undone.piece)}")


def lie_flat(station: Station, code: str) -> Done:
    """Lay the piece flat."""
    book, now = station.book, station.now()
    act = lay_flat(LayFlat(**station.asking(), piece=code), book=book, now=now)
    return Done(" ".join(text_done.act(act, code, settings(book, now=now)[0])))
