"""What is done to pieces of the invented shop without taking film: looked after, counted, tried, ended."""

from datetime import UTC, datetime, time

from stockroom.demo.cells import core
from stockroom.demo.desk import Desk
from stockroom.demo.distances import day_of
from stockroom.demo.line import Line
from stockroom.demo.measuring import off_the_books
from stockroom.units.typed import parse_length
from stockroom.work.blind import CountBlind, count_blind
from stockroom.work.charge import Charge, charge
from stockroom.work.count import Count, Finish, count, finish
from stockroom.work.curl_trial import TryCurl, try_curl
from stockroom.work.flaw import MarkFlaw, mark_flaw
from stockroom.work.keep import Discard, Hold, Put, Release, discard, hold, put, release
from stockroom.work.look import Wanted, rack
from stockroom.work.recall import HoldLot, ReleaseLot, hold_lot, release_lot
from stockroom.work.scrap import Scrap, scrap
from stockroom.work.stocktake import Seen, seen
from stockroom.work.trial import TryAdhesion, try_adhesion
from stockroom.work.undo import Undo, undo
from stockroom.work.winding import LayFlat, Rewind, lay_flat, rewind


def is_counted(desk: Desk, line: Line) -> None:
    """A measurement confirms the books, or corrects them."""
    found = off_the_books(line, desk.standing(line))
    request = Count(**desk.asked(line), **found, piece=desk.code(line))
    count(request, book=desk.book, now=line.at)


def is_counted_blind(desk: Desk, line: Line) -> None:
    """A count by somebody who does not see the books."""
    found = off_the_books(line, desk.standing(line))
    request = CountBlind(**desk.asked(line), **found, piece=desk.code(line))
    count_blind(request, book=desk.book, now=line.at)


def is_finished(desk: Desk, line: Line) -> None:
    """The core is bare, or the box empty."""
    finish(Finish(**desk.asked(line), piece=desk.code(line)), book=desk.book, now=line.at)


def is_charged(desk: Desk, line: Line) -> None:
    """A cut nobody wrote down, found after a count: `when=-155 14:30`."""
    day, clock = line.more["when"].split()
    at = datetime.combine(day_of(day, desk.today), time.fromisoformat(clock), desk.zone)
    request = Charge(
        **desk.asked(line),
        at=at.astimezone(UTC),
        piece=desk.code(line),
        length_nm=parse_length(line["amount"]),
        job=desk.codes[line["for"]],
    )
    charge(request, book=desk.book, now=line.at)


def place_is_seen(desk: Desk, line: Line) -> None:
    """A place is looked through; `-name` is missing there, `+name` stands there too."""
    wanted = Wanted(place=line["for"])
    there = {one.code for one in rack(desk.book, now=line.at, wanted=wanted).pieces}
    for name in line["piece"].split():
        change = there.discard if name.startswith("-") else there.add
        change(desk.codes[name[1:]])
    request = Seen(**desk.asked(line), place=line["for"], pieces=tuple(sorted(there)))
    seen(request, book=desk.book, now=line.at)


def is_put(desk: Desk, line: Line) -> None:
    """A piece is put in a place."""
    request = Put(**desk.asked(line), piece=desk.code(line), place=line["for"])
    put(request, book=desk.book, now=line.at)


def is_held(desk: Desk, line: Line) -> None:
    """Nobody may cut a piece, or anything of a lot."""
    asking, why = desk.asking(line["by"]), line["note"]
    if line["for"] == "lot":
        hold_lot(HoldLot(**asking, lot=line["piece"], why=why), book=desk.book, now=line.at)
    else:
        hold(Hold(**asking, piece=desk.code(line), why=why), book=desk.book, now=line.at)


def is_released(desk: Desk, line: Line) -> None:
    """A piece may be cut again, or what was held of a lot."""
    asking, why = desk.asking(line["by"]), line["note"]
    if line["for"] == "lot":
        release_lot(ReleaseLot(**asking, lot=line["piece"], why=why), book=desk.book, now=line.at)
    else:
        release(Release(**asking, piece=desk.code(line), why=why), book=desk.book, now=line.at)


def is_discarded(desk: Desk, line: Line) -> None:
    """A piece is thrown away."""
    request = Discard(**desk.asking(line["by"]), piece=desk.code(line), why=line["note"])
    discard(request, book=desk.book, now=line.at)


def is_scrapped(desk: Desk, line: Line) -> None:
    """Offcuts too small to keep go in the bin."""
    request = Scrap(**desk.asked(line), pieces=tuple(desk.named(line["piece"])))
    scrap(request, book=desk.book, now=line.at)


def is_tried(desk: Desk, line: Line) -> None:
    """A square of the piece stood on scrap glass: pass or fail."""
    passed = line["for"] == "pass"
    request = TryAdhesion(**desk.asked(line), piece=desk.code(line), passed=passed)
    try_adhesion(request, book=desk.book, now=line.at)


def lies_free(desk: Desk, line: Line) -> None:
    """A strip of the piece lay free: the chord between its ends, and how high it stood."""
    chord_nm, height_nm = (parse_length(line.more[name]) for name in ("chord", "height"))
    request = TryCurl(
        **desk.asked(line), piece=desk.code(line), chord_nm=chord_nm, height_nm=height_nm
    )
    try_curl(request, book=desk.book, now=line.at)


def has_a_flaw(desk: Desk, line: Line) -> None:
    """A splice or damage lies so far from the outer end."""
    at_nm = parse_length(line["amount"])
    request = MarkFlaw(
        **desk.asking(line["by"]), piece=desk.code(line), at_nm=at_nm, what=line["note"]
    )
    mark_flaw(request, book=desk.book, now=line.at)


def is_rewound(desk: Desk, line: Line) -> None:
    """A piece is wound again."""
    face = line.more.get("face")
    request = Rewind(**desk.asked(line), piece=desk.code(line), core=core(line), face=face)
    rewind(request, book=desk.book, now=line.at)


def lies_flat(desk: Desk, line: Line) -> None:
    """A piece is unwound and lies flat."""
    lay_flat(LayFlat(**desk.asked(line), piece=desk.code(line)), book=desk.book, now=line.at)


def is_undone(desk: Desk, line: Line) -> None:
    """The last act of a piece is taken back."""
    undo(Undo(**desk.asked(line), piece=desk.code(line)), book=desk.book, now=line.at)
