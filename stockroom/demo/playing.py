"""One line of the story, done through the script that a person's work goes through."""

from collections.abc import Callable, Mapping
from math import pi
from types import MappingProxyType

from stockroom.books.fold import State
from stockroom.demo.desk import Asking, Desk
from stockroom.demo.distances import date_before, day_of
from stockroom.demo.story import Line
from stockroom.film.roll import outside_mm
from stockroom.units import MM, UM, M
from stockroom.units.money import parse_money
from stockroom.units.typed import parse_length, parse_size
from stockroom.work.back import Back, back
from stockroom.work.count import Count, Finish, count, finish
from stockroom.work.cut import Cut, cut
from stockroom.work.jobs import CloseJob, OpenJob, close_or_reopen, open_job
from stockroom.work.judging import core_outside_nm
from stockroom.work.keep import Discard, Hold, Put, Release, discard, hold, put, release
from stockroom.work.look import piece
from stockroom.work.reasons import REASONS
from stockroom.work.receive import Receive, receive
from stockroom.work.take import Take, take
from stockroom.work.undo import Undo, undo

_MOST_OFF_MM = 100
"""How far the seed moves the length of a cut."""


def play(desk: Desk, line: Line) -> None:
    """Do what the line says at its moment, and remember the codes that came of it."""
    _ACTS[line.act](desk, line)


def _open(desk: Desk, line: Line) -> None:
    row = line.row
    request = OpenJob(
        **_asking(desk, line),
        name=row["name"],
        site=row["site"],
        kind=row["kind"],
        on_day=day_of(row["on"], desk.today).isoformat(),
    )
    desk.name(row["job"], [open_job(request, book=desk.book, now=line.at).code])


def _close(desk: Desk, line: Line) -> None:
    request = CloseJob(**desk.asking(line.row["by"]), job=desk.codes[line.row["job"]])
    close_or_reopen(request, book=desk.book, now=line.at)


def _receive(desk: Desk, line: Line) -> None:
    row = line.row
    request = Receive(
        **_asking(desk, line),
        material=row["material"],
        length_nm=_length(row["length"]),
        number=int(row["count"]) if row["count"] else None,
        pieces=int(row["pieces"] or 1),
        lot=row["lot"] or None,
        width_nm=_length(row["width"]),
        core_inside_nm=_length(row["core"]),
        cost_minor=parse_money(row["cost"], desk.currency) if row["cost"] else None,
        made=_date(desk, row["made"]),
        received=_date(desk, row["received"]),
        printed=_date(desk, row["printed"]),
        ink=row["ink"] or None,
        place=row["place"],
    )
    desk.name(row["piece"], receive(request, book=desk.book, now=line.at).codes)


def _cut(desk: Desk, line: Line) -> None:
    row = line.row
    off_mm = desk.chance.randrange(-_MOST_OFF_MM, _MOST_OFF_MM + 1, 10)
    names, sizes = _offcut(line)
    request = Cut(
        **_asking(desk, line),
        piece=_code(desk, line),
        length_nm=parse_length(row["amount"]) + off_mm * MM,
        waste_nm=_length(row["waste"]) or 0,
        offcuts=sizes,
        job=desk.codes.get(row["for"]),
        reason=_reason(line),
    )
    done = cut(request, book=desk.book, now=line.at)
    desk.name(names, [offcut.code for offcut in done.offcuts[: len(sizes)]])


def _take(desk: Desk, line: Line) -> None:
    row = line.row
    request = Take(
        **_asking(desk, line),
        piece=_code(desk, line),
        number=int(row["amount"]),
        job=desk.codes.get(row["for"]),
        reason=_reason(line),
    )
    take(request, book=desk.book, now=line.at)


def _back(desk: Desk, line: Line) -> None:
    names, sizes = _offcut(line)
    request = Back(
        **_asking(desk, line),
        piece=_code(desk, line),
        job=desk.codes[line.row["for"]],
        amount=_length(line.row["amount"]),
        size=next(iter(sizes), None),
    )
    done = back(request, book=desk.book, now=line.at)
    desk.name(names, [done.piece for _ in sizes])


def _count_number(desk: Desk, line: Line) -> None:
    number = _state(desk, line).balance + int(line.row["amount"])
    request = Count(**_asking(desk, line), piece=_code(desk, line), number=number)
    count(request, book=desk.book, now=line.at)


def _count_length(desk: Desk, line: Line) -> None:
    length_nm = _state(desk, line).balance + _difference(line.row["amount"])
    request = Count(**_asking(desk, line), piece=_code(desk, line), length_nm=length_nm)
    count(request, book=desk.book, now=line.at)


def _count_round(desk: Desk, line: Line) -> None:
    """Read a tape laid round the roll, to the millimetre."""
    state = _state(desk, line)
    core_mm, thickness_um = (core_outside_nm(state) or 0) / MM, (state.thickness_nm or 0) / UM
    length_m = (state.balance + _difference(line.row["amount"])) / M
    round_mm = round(pi * outside_mm(length_m, core_mm, thickness_um))
    request = Count(**_asking(desk, line), piece=_code(desk, line), round_nm=round_mm * MM)
    count(request, book=desk.book, now=line.at)


def _finish(desk: Desk, line: Line) -> None:
    request = Finish(**_asking(desk, line), piece=_code(desk, line))
    finish(request, book=desk.book, now=line.at)


def _put(desk: Desk, line: Line) -> None:
    request = Put(**_asking(desk, line), piece=_code(desk, line), place=line.row["for"])
    put(request, book=desk.book, now=line.at)


def _hold(desk: Desk, line: Line) -> None:
    request = Hold(**_asking(desk, line), piece=_code(desk, line), why=line.row["note"])
    hold(request, book=desk.book, now=line.at)


def _release(desk: Desk, line: Line) -> None:
    request = Release(**_asking(desk, line), piece=_code(desk, line), why=line.row["note"])
    release(request, book=desk.book, now=line.at)


def _discard(desk: Desk, line: Line) -> None:
    request = Discard(**_asking(desk, line), piece=_code(desk, line), why=line.row["note"])
    discard(request, book=desk.book, now=line.at)


def _undo(desk: Desk, line: Line) -> None:
    request = Undo(**_asking(desk, line), piece=_code(desk, line))
    undo(request, book=desk.book, now=line.at)


_ACTS: Mapping[str, Callable[[Desk, Line], None]] = MappingProxyType(
    {
        "open": _open,
        "close": _close,
        "receive": _receive,
        "cut": _cut,
        "take": _take,
        "back": _back,
        "count number": _count_number,
        "count length": _count_length,
        "count round": _count_round,
        "finished": _finish,
        "put": _put,
        "hold": _hold,
        "release": _release,
        "discard": _discard,
        "undo": _undo,
    }
)


def _asking(desk: Desk, line: Line) -> Asking:
    return desk.asking(line.row["by"], line.row["note"])


def _code(desk: Desk, line: Line) -> str:
    return desk.codes[line.row["piece"]]


def _state(desk: Desk, line: Line) -> State:
    return piece(desk.book, _code(desk, line), now=line.at).judged.standing.state


def _reason(line: Line) -> str | None:
    return line.row["for"] if line.row["for"] in REASONS else None


def _offcut(line: Line) -> tuple[str, tuple[tuple[int, int], ...]]:
    """The name of the offcut that is kept, and its size; both empty where none is."""
    name, _, size = line.row["offcut"].partition("=")
    return name, (parse_size(size),) if size else ()


def _length(text: str) -> int | None:
    return parse_length(text) if text else None


def _difference(text: str) -> int:
    length_nm = parse_length(text.removeprefix("-"), zero=True)
    return -length_nm if text.startswith("-") else length_nm


def _date(desk: Desk, text: str) -> str | None:
    return date_before(text, desk.today) if text else None
