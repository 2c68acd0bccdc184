"""A storm: a station that does everything a person can do, in any order, until it is killed."""

import multiprocessing
from collections.abc import Callable, Sequence
from contextlib import closing
from dataclasses import dataclass, field
from multiprocessing.connection import Connection
from random import Random  # noqa: TID251 - seeded
from typing import Any, cast

from stockroom.books.opening import open_book
from stockroom.books.values import Act
from stockroom.errors import Exit, Refusal
from stockroom.film.kinds import Kind
from stockroom.units import MM
from stockroom.work.arriving import ReceiveOrder, receive_order
from stockroom.work.cut_plan import CutPlan, cut_plan
from stockroom.work.jobs import CloseJob, close_or_reopen
from stockroom.work.order_draft import DraftOrder, Wanted, draft_order
from stockroom.work.orders import CancelOrder, SendOrder, cancel_order, send_order
from stockroom.work.planned import PlannedCut
from stockroom.work.reserve import Reserve, Unreserve, reserve, reserved_cuts, unreserve
from tests.books.at_work import PATIENCE_SECONDS, answers
from tests.builders import BLANK, CLEAR, FILM, LENGTH
from tests.floor import SOLUTION, Floor

PLACES = ("A1", "A2", "van 2")
JOBS = 2

_STATIONS = multiprocessing.get_context("fork")


@dataclass(slots=True)
class Storm:
    """Somebody at work at a book others work at too, who knows only what was brought in for them."""

    floor: Floor
    chance: Random
    jobs: tuple[str, ...]
    film: list[str] = field(default_factory=list[str])
    boxes: list[str] = field(default_factory=list[str])
    orders: list[str] = field(default_factory=list[str])

    def bring_in(self) -> Act:
        """Rolls, blank media, laminate, and boxes that may be kits."""
        name = self.chance.choice((FILM, BLANK, CLEAR))
        roll = self.floor.roll(material=name, lot=self.chance.choice((None, "L-1", "L-2")))
        self.film.append(roll)
        return self.floor.history(roll)[0]

    def bring_goods(self) -> Act:
        """A box, which may become a kit."""
        box = self.floor.box(self.chance.choice((1, 40)))
        self.boxes.append(box)
        return self.floor.history(box)[0]

    def any_film(self) -> str:
        """A piece of film, mostly a new one."""
        return self.chance.choice(self.film[-6:])

    def any_box(self) -> str:
        """A box, mostly a new one."""
        return self.chance.choice(self.boxes[-3:])

    def length(self) -> int:
        """A length that mostly fits."""
        return self.chance.randrange(100, 4_000) * MM

    def job(self) -> str:
        """A job that may be closed just now."""
        return self.chance.choice(self.jobs)


def _cut(at: Storm) -> Act:
    length = at.length()
    done = at.floor.cut(at.any_film(), length, job=at.job(), offcuts=((200 * MM, length),))
    at.film += [one.code for one in done.offcuts]
    return done.act


def _print(at: Storm) -> Act:
    done = at.floor.print(at.any_film(), at.length(), job=at.job(), leader_nm=100 * MM)
    at.film.append(done.code)
    return done.act


def _laminate(at: Storm) -> Act:
    done = at.floor.laminate(at.any_film(), at.any_film(), at.length())
    at.film.append(done.code)
    return done.act


def _close(at: Storm) -> Act | None:
    job, reopen = at.job(), at.chance.random() < 0.8
    request = CloseJob(**at.floor.asked(job=job, reopen=reopen))
    close_or_reopen(request, book=at.floor.book, now=at.floor.now)
    return None


def _mix(at: Storm) -> Act:
    facts: dict[str, Any] = {"contents": "water", "hazard": "none", "keeps": "7d"}
    return at.floor.mix(material=SOLUTION, bottles=2, **facts).act


def _panels(at: Storm) -> None:
    at.floor.panels(at.job(), (200, at.chance.randrange(300, 900)))


def _planned(at: Storm, code: str) -> PlannedCut:
    """A cut as a plan would have it, that mostly fits."""
    length = at.length()
    return PlannedCut(
        piece=code,
        balance_nm=at.floor.piece(code).state.balance,
        width_nm=1_490 * MM,
        length_nm=length,
        kept=((0, 0, 200 * MM, length),),
        laid=(("P1", 200 * MM, 0, 200 * MM, length),),
    )


def _reserve(at: Storm) -> Act:
    cuts = tuple(_planned(at, code) for code in sorted({at.any_film(), at.any_film()}))
    request = Reserve(**at.floor.asked(job=at.job(), cuts=cuts))
    return reserve(request, book=at.floor.book, now=at.floor.now).act


def _unreserve(at: Storm) -> Act:
    request = Unreserve(**at.floor.asked(job=at.job()))
    return unreserve(request, book=at.floor.book, now=at.floor.now)


def _cut_plan(at: Storm) -> Act:
    job = at.job()
    cuts = reserved_cuts(at.floor.book, job) or (_planned(at, at.any_film()),)
    request = CutPlan(**at.floor.asked(job=job, cuts=cuts))
    done = cut_plan(request, book=at.floor.book, now=at.floor.now)
    at.film += [move.piece for move in done.offcuts]
    return done.act


def _order(at: Storm) -> None:
    wanted = Wanted(material=FILM, pieces=at.chance.randrange(1, 4), length_nm=LENGTH)
    draft = DraftOrder(**at.floor.asked(supplier="Northlight Films", lines=(wanted,)))
    code = draft_order(draft, book=at.floor.book, now=at.floor.now).code
    at.orders.append(code)
    request = SendOrder(**at.floor.asked(order=code))
    send_order(request, book=at.floor.book, now=at.floor.now)


def _arrive(at: Storm) -> Act | None:
    if not at.orders:
        return None
    pieces = at.chance.choice(({}, {"pieces": 1}, {"pieces": 2}))
    request = ReceiveOrder(**at.floor.asked(order=at.chance.choice(at.orders), given=pieces))
    done = receive_order(request, book=at.floor.book, now=at.floor.now)
    at.film += done.codes
    return done.act


def _cancel(at: Storm) -> None:
    if at.orders:
        request = CancelOrder(**at.floor.asked(order=at.chance.choice(at.orders)))
        cancel_order(request, book=at.floor.book, now=at.floor.now)


def _out_and_in(at: Storm) -> Act:
    piece = at.any_film()
    at.floor.go_out(piece, at.chance.choice(PLACES))
    return at.floor.come_in(piece).act


DEEDS: tuple[Callable[[Storm], Act | None], ...] = (
    Storm.bring_in,
    Storm.bring_in,
    Storm.bring_goods,
    _cut,
    _cut,
    lambda at: at.floor.back(at.any_film(), at.job(), amount=50 * MM).act,
    lambda at: at.floor.take(at.any_box(), 1, job=at.job()).act,
    lambda at: at.floor.count(at.any_film(), length_nm=at.length()).act,
    lambda at: (
        at.floor.count_blind(at.any_film(), at.chance.choice("IT"), length_nm=at.length()).act
    ),
    lambda at: at.floor.finish(at.any_film()).act,
    lambda at: at.floor.put(at.any_film(), at.chance.choice(PLACES)),
    lambda at: at.floor.hold(at.any_film()),
    lambda at: at.floor.release(at.any_film()),
    lambda at: at.floor.discard(at.any_film()),
    lambda at: at.floor.scrap(at.any_film()),
    lambda at: at.floor.charge(at.any_film(), MM, at.job(), at.floor.now).act,
    _print,
    _laminate,
    lambda at: at.floor.rewind(at.any_film()),
    lambda at: at.floor.lay_flat(at.any_film()),
    lambda at: at.floor.try_adhesion(at.any_film(), passed=at.chance.random() < 0.5),
    lambda at: at.floor.try_curl(at.any_film(), at.length() // 40, chord_nm=90 * MM).act,
    lambda at: at.floor.flaw(at.any_film(), 10 * MM),
    lambda at: at.floor.go_out(at.any_film(), at.chance.choice(PLACES)),
    lambda at: at.floor.come_in(at.any_film(), length_nm=at.length(), job=at.job()).act,
    _out_and_in,
    lambda at: at.floor.send_back(at.any_film()),
    lambda at: at.floor.credit(at.any_film(), 100),
    lambda at: at.floor.seen(at.chance.choice(PLACES), at.any_film(), at.any_film()).act,
    lambda at: at.floor.hold_lot(at.chance.choice(("L-1", "L-2"))),
    lambda at: at.floor.release_lot(at.chance.choice(("L-1", "L-2"))),
    lambda at: at.floor.list_parts(at.any_box(), ("squeegee", 2)),
    lambda at: at.floor.take_part(at.any_box(), "squeegee"),
    lambda at: at.floor.part_back(at.any_box(), "squeegee"),
    _mix,
    _panels,
    _reserve,
    _unreserve,
    _cut_plan,
    _order,
    _arrive,
    _arrive,
    _cancel,
    _close,
    lambda at: at.floor.undo(at.any_film()).act,
    lambda at: at.floor.undo(at.any_box()).act,
)
"""Everything that can be done on the floor; what cannot be done just now is refused."""


def set_up(floor: Floor) -> tuple[str, ...]:
    """The shop before the storm: its materials, places and jobs, by their codes."""
    for name, kind in ((BLANK, Kind.PRINT_VINYL), (CLEAR, Kind.LAMINATE), (FILM, Kind.WINDOW_FILM)):
        floor.material(name, kind)
    floor.box()
    floor.mix()
    for name in PLACES:
        floor.place(name)
    return tuple(floor.job(f"job {number}") for number in range(JOBS))


def storms_until_killed(
    where: str, jobs: tuple[str, ...], moments: Sequence[float], answer: Connection
) -> None:
    """One station after the other, each killed so many seconds after the first act it told of.

    Each is forked from one that brings things in for it, and has learnt what it would spend its
    life learning.
    """
    with closing(open_book(where)) as book:
        for number, moment in enumerate(moments):
            storm = Storm(Floor(book), Random(number), jobs)  # noqa: S311
            storm.bring_in()
            storm.bring_goods()
            book.close()  # a connection is nobody's but the one's who made it
            answer.send(_told_until_killed(storm, moment))


def _told_until_killed(storm: Storm, moment: float) -> list[tuple[str, int]]:
    """What a station told of before it was killed: each request, and how many moves it made."""
    reader, writer = _STATIONS.Pipe(duplex=False)
    process = _STATIONS.Process(target=_go_on, args=(storm, writer))
    process.start()
    writer.close()
    assert reader.poll(PATIENCE_SECONDS)
    process.join(moment)
    process.kill()
    process.join()
    return cast("list[tuple[str, int]]", answers(reader))


def _go_on(storm: Storm, answer: Connection) -> None:
    """Do one thing after the other, for ever, telling each that was done."""
    while True:
        act = _done(storm)
        if act is not None:
            answer.send((act.request, len(act.moves)))


def _done(storm: Storm) -> Act | None:
    """What one deed wrote; None where a rule refused it. A book that fails is no rule."""
    try:
        return storm.chance.choice(DEEDS)(storm)
    except Refusal as refusal:
        if refusal.exit is Exit.NO_BOOK:
            raise
    return None
