"""A commit can succeed without its answer arriving: asking again is harmless."""

from collections.abc import Callable
from dataclasses import asdict, dataclass, replace
from datetime import datetime, timedelta
from typing import Any

import pytest

from stockroom.books.chain import canonical
from stockroom.books.values import Asked
from stockroom.errors import Code, Refusal
from stockroom.units import MM, M
from stockroom.work.away import ComeIn, GoOut, come_in, go_out
from stockroom.work.back import Back, back
from stockroom.work.blind import CountBlind, count_blind
from stockroom.work.bottle import Mix, mix
from stockroom.work.charge import Charge, charge
from stockroom.work.count import Count, Finish, count, finish
from stockroom.work.cut import Cut, cut
from stockroom.work.flaw import MarkFlaw, mark_flaw
from stockroom.work.jobs import CloseJob, OpenJob, close_or_reopen, open_job
from stockroom.work.keep import Discard, Hold, Put, Release, discard, hold, put, release
from stockroom.work.kit import ListParts, PartBack, TakePart, list_parts, part_back, take_part
from stockroom.work.laminate import Laminate, laminate
from stockroom.work.printing import Print, print_length
from stockroom.work.recall import HoldLot, ReleaseLot, hold_lot, release_lot
from stockroom.work.receive import Receive, receive
from stockroom.work.scrap import Scrap, scrap
from stockroom.work.sendback import Credit, SendBack, credit, send_back
from stockroom.work.stocktake import Seen, seen
from stockroom.work.take import Take, take
from stockroom.work.trial import TryAdhesion, try_adhesion
from stockroom.work.undo import Undo, undo
from stockroom.work.winding import Core, LayFlat, Rewind, lay_flat, rewind
from tests.builders import FILM, LENGTH, ON_ONE_ENGINE, Station, dump, is_sound, refused
from tests.conftest import NOW
from tests.floor import SOLUTION, Floor

HOUR = timedelta(hours=1)
LOT, RECALLED = "L-22", "L-31"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """What the scripts below work on: every piece had its last act at NOW."""

    roll: str
    box: str
    held: str
    counted: str
    job: str
    place: str
    blank: str
    clear: str
    out: str
    sent: str
    kit: str
    small: str


@dataclass(frozen=True, slots=True)
class Script:
    """One script, and a request it will do."""

    do: Callable[..., object]
    request: type[Asked]
    given: Callable[[Stock], dict[str, Any]]

    def ask(self, station: Station, stock: Stock, **more: Any) -> Asked:
        """A request, with an id and whatever a test says beside it."""
        return self.request(**station.asked(**self.given(stock) | more))


SCRIPTS = {
    "receive": Script(
        receive, Receive, lambda _: {"material": FILM, "length_nm": LENGTH, "pieces": 2}
    ),
    "cut": Script(
        cut,
        Cut,
        lambda on: {"piece": on.roll, "length_nm": 2 * M, "job": on.job, "offcuts": ((M, M),)},
    ),
    "take": Script(take, Take, lambda on: {"piece": on.box, "number": 3, "job": on.job}),
    "back": Script(back, Back, lambda on: {"piece": on.roll, "amount": M, "job": on.job}),
    "severed": Script(back, Back, lambda on: {"piece": on.roll, "size": (M, M), "job": on.job}),
    "count": Script(count, Count, lambda on: {"piece": on.roll, "length_nm": 20 * M}),
    "finish": Script(finish, Finish, lambda on: {"piece": on.roll}),
    "put": Script(put, Put, lambda on: {"piece": on.roll, "place": on.place}),
    "hold": Script(hold, Hold, lambda on: {"piece": on.roll, "why": "creased"}),
    "release": Script(release, Release, lambda on: {"piece": on.held, "why": "looked at"}),
    "discard": Script(discard, Discard, lambda on: {"piece": on.roll, "why": "crushed"}),
    "charge": Script(
        charge,
        Charge,
        lambda on: {"piece": on.counted, "length_nm": M, "job": on.job, "at": NOW},
    ),
    "print": Script(
        print_length,
        Print,
        lambda on: {"piece": on.blank, "length_nm": M, "leader_nm": M, "job": on.job},
    ),
    "laminate": Script(
        laminate,
        Laminate,
        lambda on: {"piece": on.blank, "over": on.clear, "length_nm": M, "job": on.job},
    ),
    "rewind": Script(
        rewind, Rewind, lambda on: {"piece": on.roll, "core": Core(inside_nm=50 * MM)}
    ),
    "layflat": Script(lay_flat, LayFlat, lambda on: {"piece": on.roll}),
    "trial": Script(try_adhesion, TryAdhesion, lambda on: {"piece": on.roll, "passed": True}),
    "flaw": Script(mark_flaw, MarkFlaw, lambda on: {"piece": on.roll, "at_nm": M, "what": "dent"}),
    "out": Script(go_out, GoOut, lambda on: {"piece": on.roll, "to": "van 2"}),
    "in": Script(come_in, ComeIn, lambda on: {"piece": on.out, "length_nm": 9 * M, "job": on.job}),
    "send back": Script(
        send_back, SendBack, lambda on: {"piece": on.roll, "why": "crushed", "claim": "7"}
    ),
    "credit": Script(credit, Credit, lambda on: {"piece": on.sent, "credit_minor": 45_000}),
    "seen": Script(seen, Seen, lambda on: {"place": on.place, "pieces": (on.roll, on.box)}),
    "count blind": Script(count_blind, CountBlind, lambda on: {"piece": on.roll, "length_nm": M}),
    "hold lot": Script(hold_lot, HoldLot, lambda _: {"lot": LOT, "why": "notice"}),
    "release lot": Script(release_lot, ReleaseLot, lambda _: {"lot": RECALLED, "why": "sound"}),
    "parts": Script(list_parts, ListParts, lambda on: {"piece": on.kit, "parts": (("blade", 2),)}),
    "part out": Script(take_part, TakePart, lambda on: {"piece": on.kit, "part": "squeegee"}),
    "part back": Script(part_back, PartBack, lambda on: {"piece": on.kit, "part": "hard card"}),
    "mix": Script(
        mix,
        Mix,
        lambda _: {"material": SOLUTION, "contents": "water", "hazard": "none", "keeps": "7d"},
    ),
    "scrap": Script(scrap, Scrap, lambda on: {"pieces": (on.small,)}),
    "undo": Script(undo, Undo, lambda on: {"piece": on.roll}),
    "open job": Script(open_job, OpenJob, lambda _: {"name": "library"}),
    "close job": Script(close_or_reopen, CloseJob, lambda on: {"job": on.job}),
}
ON_A_PIECE = [name for name, one in SCRIPTS.items() if "piece" in one.request.__dataclass_fields__]
TIMED = [name for name in ON_A_PIECE if name != "charge"]


@pytest.fixture
def station(floor: Floor) -> Floor:
    """Somebody who can do anything."""
    return floor


@pytest.fixture
def stock(station: Floor) -> Stock:
    """A little of everything, all of it touched at NOW; it is an hour later now."""
    job = station.job()
    roll, box, held, counted = station.roll(), station.box(), station.roll(), station.roll()
    station.cut(roll, 5 * M, job=job)
    station.hold(held)
    station.count(counted, length_nm=25 * M)
    place, blank, clear = station.place(), station.blank(), station.clear()
    out, (sent, _) = station.roll(lot=LOT), station.rolls(lot=RECALLED, pieces=2)
    station.hold_lot(RECALLED)
    station.go_out(out)
    station.send_back(sent)
    kit, small = station.kit(("squeegee", 1), ("hard card", 1)), station.offcut((M // 5, M))
    station.take_part(kit, "hard card")
    station.mix()
    station.wait(hours=1)
    return Stock(
        roll=roll,
        box=box,
        held=held,
        counted=counted,
        job=job,
        place=place,
        blank=blank,
        clear=clear,
        out=out,
        sent=sent,
        kit=kit,
        small=small,
    )


@pytest.mark.parametrize("name", SCRIPTS)
def test_asked_again_it_answers_the_same_and_writes_nothing(
    station: Station, stock: Stock, name: str
) -> None:
    """The second answer is the first one, to the letter, even a day later."""
    script = SCRIPTS[name]
    request = script.ask(station, stock)
    first = script.do(request, book=station.book, now=station.now)
    before = dump(station.book)

    second = script.do(request, book=station.book, now=station.wait(days=1))

    assert _letter(second) == _letter(first)
    assert dump(station.book) == before
    assert is_sound(station.book)


@ON_ONE_ENGINE
@pytest.mark.parametrize("name", SCRIPTS)
def test_the_same_id_with_other_content_is_refused(
    station: Station, stock: Stock, name: str
) -> None:
    """An id that was used means what it meant."""
    script = SCRIPTS[name]
    request = script.ask(station, stock)
    script.do(request, book=station.book, now=station.now)

    with refused(station.book, Code.OTHER_CONTENT, "ask with a new id"):
        script.do(replace(request, note="another"), book=station.book, now=station.now)


def test_the_id_of_one_script_is_no_id_for_another(station: Station, stock: Stock) -> None:
    """A hold is not a discard, though both say which piece and why."""
    asked = station.asked(piece=stock.roll, why="creased")
    hold(Hold(**asked), book=station.book, now=station.now)

    with refused(station.book, Code.OTHER_CONTENT):
        discard(Discard(**asked), book=station.book, now=station.now)


def test_a_refused_request_may_be_asked_again(station: Station, stock: Stock) -> None:
    """A refusal uses no id up."""
    request = SCRIPTS["cut"].ask(station, stock)
    station.hold(stock.roll)
    with refused(station.book, Code.HELD):
        cut(request, book=station.book, now=station.now)  # type: ignore[arg-type]
    station.release(stock.roll)

    assert cut(request, book=station.book, now=station.now).left_nm == 23 * M  # type: ignore[arg-type]


@ON_ONE_ENGINE
@pytest.mark.parametrize("name", TIMED)
def test_refuses_a_time_before_the_last_act_of_the_piece(
    station: Station, stock: Stock, name: str
) -> None:
    """The journal of a piece only runs forwards."""
    request = SCRIPTS[name].ask(station, stock, at=NOW - timedelta(seconds=1))

    with refused(station.book, Code.TOO_EARLY):
        SCRIPTS[name].do(request, book=station.book, now=station.now)


@ON_ONE_ENGINE
@pytest.mark.parametrize("name", SCRIPTS)
def test_refuses_a_time_to_come(station: Station, stock: Stock, name: str) -> None:
    """An act is written when it has happened."""
    request = SCRIPTS[name].ask(station, stock, at=station.now + timedelta(microseconds=1))

    with refused(station.book, Code.FUTURE):
        SCRIPTS[name].do(request, book=station.book, now=station.now)


@ON_ONE_ENGINE
@pytest.mark.parametrize("name", TIMED)
@pytest.mark.parametrize("at", [NOW, NOW + HOUR])
def test_accepts_any_time_from_the_last_act_to_now(
    station: Station, stock: Stock, name: str, at: datetime
) -> None:
    """What was done an hour ago may be written now; both times are kept."""
    request = SCRIPTS[name].ask(station, stock, at=at)

    SCRIPTS[name].do(request, book=station.book, now=station.now)

    newest = dump(station.book)["act"][-1]
    assert (newest["at"], newest["recorded_at"]) == (at, NOW + HOUR)


@ON_ONE_ENGINE
@pytest.mark.parametrize("name", TIMED)
def test_a_clock_that_runs_backwards_never_puts_an_act_before_the_last(
    station: Station, stock: Stock, name: str
) -> None:
    """Without a time the act stands at the piece's last one; the raw clock is kept beside it."""
    station.now = NOW - timedelta(days=2)
    request = SCRIPTS[name].ask(station, stock)

    SCRIPTS[name].do(request, book=station.book, now=station.now)

    newest = dump(station.book)["act"][-1]
    assert (newest["at"], newest["recorded_at"]) == (NOW, NOW - timedelta(days=2))
    assert is_sound(station.book)


@ON_ONE_ENGINE
@pytest.mark.parametrize("name", ON_A_PIECE)
def test_a_piece_nobody_has_is_not_found(station: Station, stock: Stock, name: str) -> None:
    """A well-formed code that was never given out."""
    request = SCRIPTS[name].ask(station, stock, piece="R0009994")

    with pytest.raises(Refusal) as caught:
        SCRIPTS[name].do(request, book=station.book, now=station.now)

    assert caught.value.code is Code.NO_PIECE


def _letter(answer: object) -> str:
    return canonical(asdict(answer))  # type: ignore[call-overload]
