"""Film of the invented shop that is taken, turned into other film, or brought back."""

from typing import Any

from stockroom.demo.cells import core, length, makes
from stockroom.demo.desk import Desk
from stockroom.demo.line import Line
from stockroom.demo.measuring import off_the_books
from stockroom.film.kinds import Ink
from stockroom.units.typed import parse_length, parse_temperature
from stockroom.work.away import ComeIn, GoOut, come_in, go_out
from stockroom.work.back import Back, back
from stockroom.work.cut import Cut, cut
from stockroom.work.laminate import Laminate, laminate
from stockroom.work.printing import Print, print_length
from stockroom.work.take import Take, take


def is_cut(desk: Desk, line: Line) -> None:
    """A length leaves a piece; what is kept of it gets its names."""
    names, sizes = makes(line)
    request = Cut(
        **desk.asked(line),
        **desk.purpose(line),
        piece=desk.code(line),
        length_nm=desk.length_nm(line),
        waste_nm=length(line.more.get("waste", "")) or 0,
        offcuts=sizes,
        despite=line.more.get("despite"),
        overrun="overrun" in line.more,
    )
    done = cut(request, book=desk.book, now=line.at)
    desk.name(names, [offcut.code for offcut in done.offcuts[: len(names)]])


def is_taken(desk: Desk, line: Line) -> None:
    """Goods leave a box."""
    request = Take(
        **desk.asked(line),
        **desk.purpose(line),
        piece=desk.code(line),
        number=int(line["amount"]),
    )
    take(request, book=desk.book, now=line.at)


def comes_back(desk: Desk, line: Line) -> None:
    """Film comes back from a job: onto the piece it never left, or as an offcut."""
    names, sizes = makes(line)
    request = Back(
        **desk.asked(line),
        piece=desk.code(line),
        job=desk.codes[line["for"]],
        amount=length(line["amount"]),
        size=next(iter(sizes), None),
    )
    done = back(request, book=desk.book, now=line.at)
    desk.name(names, [done.piece for _ in names])


def goes_out(desk: Desk, line: Line) -> None:
    """A whole piece goes to a van or a site."""
    request = GoOut(
        **desk.asked(line),
        piece=desk.code(line),
        to=line["for"],
        taker=line.more.get("with", ""),
    )
    go_out(request, book=desk.book, now=line.at)


def comes_in_again(desk: Desk, line: Line) -> None:
    """A piece is here again: as it went, or with so much used."""
    left: Any = off_the_books(line, desk.standing(line)) if line["amount"] else {}
    request = ComeIn(**desk.asked(line), **desk.purpose(line), **left, piece=desk.code(line))
    come_in(request, book=desk.book, now=line.at)


def is_printed(desk: Desk, line: Line) -> None:
    """A length of blank film becomes a print."""
    more = line.more
    request = Print(
        **desk.asked(line),
        **_born(line),
        piece=desk.code(line),
        length_nm=parse_length(line["amount"]),
        job=desk.codes[line["for"]],
        artwork=more.get("artwork"),
        tile=more.get("tile"),
        leader_nm=length(more.get("leader", "")) or 0,
        ink=Ink(more["ink"]),
        warm_c=parse_temperature(more["warm"]) if "warm" in more else None,
    )
    done = print_length(request, book=desk.book, now=line.at)
    desk.name([line["makes"]], [done.code])


def is_laminated(desk: Desk, line: Line) -> None:
    """Clear film is laid over a piece, for the job the piece is for."""
    request = Laminate(
        **desk.asked(line),
        **_born(line),
        piece=desk.code(line),
        over=desk.codes[line.more["over"]],
        length_nm=desk.length_nm(line),
    )
    done = laminate(request, book=desk.book, now=line.at)
    desk.name([line["makes"]], [done.code])


def _born(line: Line) -> dict[str, Any]:
    """What the new piece is wound on, and where it lies."""
    return {"core": core(line), "place": line.more.get("place")}
