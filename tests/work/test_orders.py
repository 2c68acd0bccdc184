"""Orders: drafted, sent, received in part and whole, cancelled, and a delivery taken back."""

from datetime import date, timedelta

import pytest

from stockroom.books.opening import Book
from stockroom.books.orders import Order, OrderLine, Stage
from stockroom.errors import Code
from stockroom.film.kinds import Kind
from stockroom.units import M
from stockroom.work.order_draft import Wanted
from stockroom.work.orders import is_late
from stockroom.work.reserved import all_reserved
from stockroom.work.value import value
from tests.builders import BLADES, FILM, LENGTH, ON_ONE_ENGINE, WIDTH, is_sound, refused
from tests.conftest import NOW
from tests.ordering import SUPPLIER, Buyer

TODAY = date(2026, 11, 25)


@pytest.fixture
def buyer(book: Book) -> Buyer:
    """Somebody who buys in a shop with one film and blades."""
    found = Buyer(book)
    found.material()
    found.material(BLADES, Kind.BLADE, cost_minor=2_000)
    return found


def test_an_order_goes_from_draft_to_received_and_its_goods_are_on_the_rack(buyer: Buyer) -> None:
    """Two rolls and a box: one roll comes first, the rest a day later; then nothing is open."""
    drafted = buyer.draft(
        Wanted(material=FILM, pieces=2, length_nm=LENGTH, cost_minor=45_000),
        Wanted(material=BLADES, pieces=1, number=100),
    )
    assert (drafted.code, drafted.stage, drafted.expected) == ("D0000010", Stage.DRAFT, None)
    assert drafted.lines[0] == OrderLine(
        material_id=1, pieces=2, length_nm=LENGTH, width_nm=WIDTH, cost_minor=45_000
    )
    assert drafted.lines[1].cost_minor == 2_000

    sent = buyer.send(drafted.code)
    assert (sent.stage, sent.sent_at, sent.expected) == (Stage.SENT, NOW, date(2026, 12, 2))

    buyer.wait(days=5)
    first = buyer.arrive(drafted.code, 1, pieces=1, lot="L-1", made="2026-06")
    assert buyer.order(drafted.code).stage is Stage.PART
    assert buyer.open(drafted.code) == [1, 1]

    buyer.wait(days=1)
    rest = buyer.arrive(drafted.code)
    assert buyer.order(drafted.code).stage is Stage.RECEIVED
    states = [buyer.state(code) for code in (*first.codes, *rest.codes)]
    assert [(one.form, one.balance, one.lot, one.cost_minor) for one in states] == [
        ("roll", LENGTH, "L-1", 45_000),
        ("roll", LENGTH, None, 45_000),
        ("box", 100, None, 2_000),
    ]
    assert is_sound(buyer.book)


def test_a_delivery_taken_back_is_open_again(buyer: Buyer) -> None:
    """The undo is of the act, and the order is as it was before; then it can come again."""
    code = buyer.ordered()
    buyer.wait(days=2)
    roll = buyer.arrive(code).codes[0]
    assert buyer.order(code).stage is Stage.RECEIVED

    buyer.undo(roll)

    assert (buyer.order(code).stage, buyer.open(code)) == (Stage.SENT, [2])
    assert is_sound(buyer.book)
    buyer.arrive(code)
    assert buyer.open(code) == [0]
    assert is_sound(buyer.book)


def test_asked_again_with_the_same_id_everything_is_done_once(buyer: Buyer) -> None:
    """An answer that got lost: the order, its sending and what came are there once."""
    drafts = [buyer.draft(request="draft-1") for _ in range(2)]
    code = drafts[0].code
    sent = [buyer.send(code, request="send-1") for _ in range(2)]
    came = [buyer.arrive(code, request="came-1").codes for _ in range(2)]

    assert drafts[0] == drafts[1]
    assert sent[0] == sent[1]
    assert came[0] == came[1]
    with refused(buyer.book, Code.OTHER_CONTENT):
        buyer.send(code, request="send-1", expected=TODAY)
    other = buyer.ordered()
    assert [buyer.cancel(other, request="cancel-1").stage for _ in range(2)] == ["cancelled"] * 2
    assert is_sound(buyer.book)


def test_lines_of_a_draft_are_changed_added_and_dropped_until_it_is_sent(buyer: Buyer) -> None:
    """The same goods get another number; none of them is no line; a sent order stays as it is."""
    code = buyer.draft().code

    buyer.draft(Wanted(material=FILM, pieces=3, length_nm=LENGTH), order=code)
    found = buyer.draft(Wanted(material=BLADES, pieces=4, number=50), order=code)
    assert [(one.material_id, one.pieces) for one in found.lines] == [(1, 3), (2, 4)]

    found = buyer.draft(Wanted(material=FILM, pieces=0, length_nm=LENGTH), order=code)
    assert [one.material_id for one in found.lines] == [2]
    with refused(buyer.book, Code.BAD_NUMBER, "0 lines"):
        buyer.draft(Wanted(material=BLADES, pieces=0, number=50), order=code)
    with refused(buyer.book, Code.BAD_USAGE, f"goes to {SUPPLIER}"):
        buyer.draft(order=code, supplier="Otherwise Supplies")

    buyer.send(code)
    with refused(buyer.book, Code.ORDER_SENT, "its lines stay"):
        buyer.draft(order=code)


def test_what_nobody_said_of_a_line_is_as_the_last_of_it_came(buyer: Buyer) -> None:
    """The length and the width of the last roll, the price of the material or of its number."""
    buyer.roll(length_nm=45 * M, width_nm=WIDTH // 2, material=FILM)
    material = buyer.material(
        "priced", cost_minor=48_000, terms={"breaks": "5:460", "supplier": "B"}
    )

    plain = buyer.draft(Wanted(material=FILM, pieces=1)).lines[0]
    of_five = buyer.draft(Wanted(material=material, pieces=5), supplier=None)

    assert (plain.length_nm, plain.width_nm, plain.cost_minor) == (45 * M, WIDTH // 2, None)
    assert (of_five.supplier, of_five.lines[0].cost_minor) == ("B", 46_000)
    assert of_five.lines[0].length_nm is None


def test_film_bought_for_a_job_is_kept_for_it_when_it_comes(buyer: Buyer) -> None:
    """Nobody else cuts it; the roll beside it is anybody's."""
    job = buyer.job()
    wanted = Wanted(material=FILM, pieces=1, length_nm=LENGTH, job=job)
    code = buyer.ordered(wanted, Wanted(material=FILM, pieces=1, length_nm=LENGTH))

    kept, free = buyer.arrive(code).codes

    assert [(one.job, one.along_nm) for one in all_reserved(buyer.state(kept))] == [(job, LENGTH)]
    assert all_reserved(buyer.state(free)) == ()
    with refused(buyer.book, Code.RESERVED):
        buyer.cut(kept, M)
    assert buyer.cut(kept, M, job=job).act.job == job


@ON_ONE_ENGINE
def test_film_that_is_kept_for_a_job_is_never_slow(buyer: Buyer) -> None:
    """It waits for the job; when the job lets it go, it is anybody's and lies still."""
    job = buyer.job(on_day="2027-12-01")
    buyer.arrive(buyer.ordered(Wanted(material=FILM, pieces=1, length_nm=LENGTH, job=job)))
    buyer.wait(days=200)
    assert value(buyer.book, now=buyer.now).slow == ()

    buyer.close(job)

    assert [one.material.name for one in value(buyer.book, now=buyer.now).slow] == [FILM]


def test_goods_in_takes_the_open_lines_of_an_order_and_closes_them(buyer: Buyer) -> None:
    """Added once, received as one act; what was taken meanwhile by another station is refused."""
    code = buyer.ordered()
    lines = buyer.add_order(code).lines
    assert [(one.line.order, one.line.order_line, one.line.pieces) for one in lines] == [
        (code, 1, 2)
    ]
    with refused(buyer.book, Code.ALREADY_THERE):
        buyer.add_order(code)

    buyer.add_order(code, name="van door")
    buyer.receive_all(name="van door")
    assert buyer.order(code).stage is Stage.RECEIVED
    with refused(buyer.book, Code.NOT_COMING, "is received"):
        buyer.receive_all()


@ON_ONE_ENGINE
def test_an_order_is_late_on_the_day_after_it_was_expected(buyer: Buyer) -> None:
    """And not once it has come, or is cancelled."""
    late = buyer.ordered()
    part = buyer.ordered()
    gone = buyer.ordered()
    buyer.arrive(part, pieces=1)
    buyer.cancel(gone)
    due = buyer.order(late).expected
    assert due == TODAY + timedelta(days=7)

    def lates(day: date) -> list[bool]:
        return [is_late(buyer.order(code), day) for code in (late, part, gone)]

    assert lates(due) == [False, False, False]
    assert lates(due + timedelta(days=1)) == [True, True, False]
    assert buyer.send(late, expected=due + timedelta(days=9)).sent_at == NOW
    assert lates(due + timedelta(days=1)) == [False, True, False]


@ON_ONE_ENGINE
def test_what_cannot_be_ordered_is_refused(buyer: Buyer) -> None:
    """One sentence, and nothing is written."""
    job = buyer.job()
    buyer.close(job)
    for wanted, code in (
        (Wanted(material="nobody's film", pieces=1), Code.NO_MATERIAL),
        (Wanted(material=FILM, pieces=0), Code.BAD_NUMBER),
        (Wanted(material=FILM, pieces=1_001), Code.BAD_NUMBER),
        (Wanted(material=FILM, pieces=1, length_nm=0), Code.BAD_LENGTH),
        (Wanted(material=FILM, pieces=1, number=5), Code.WRONG_FORM),
        (Wanted(material=BLADES, pieces=1, length_nm=M), Code.WRONG_FORM),
        (Wanted(material=BLADES, pieces=1, number=0), Code.BAD_NUMBER),
        (Wanted(material=FILM, pieces=1, job="J0000027"), Code.NO_JOB),
        (Wanted(material=FILM, pieces=1, job=job), Code.JOB_CLOSED),
    ):
        with refused(buyer.book, code):
            buyer.draft(wanted)
    with refused(buyer.book, Code.BAD_USAGE, "sold by nobody"):
        buyer.draft(supplier=None)
    with refused(buyer.book, Code.NO_ORDER):
        buyer.send("D0000027")


@ON_ONE_ENGINE
def test_what_cannot_be_done_to_an_order_is_refused(buyer: Buyer) -> None:
    """Each stage has what it cannot take."""
    draft = buyer.draft().code
    with refused(buyer.book, Code.NOT_COMING, "order send"):
        buyer.arrive(draft)
    with refused(buyer.book, Code.TOO_EARLY):
        buyer.send(draft, expected=TODAY - timedelta(days=1))
    with refused(buyer.book, Code.FUTURE):
        buyer.send(draft, at=NOW + timedelta(days=1))
    with refused(buyer.book, Code.TOO_EARLY):
        buyer.send(draft, at=NOW - timedelta(days=1))
    buyer.send(draft)
    with refused(buyer.book, Code.ORDER_SENT, "--expect"):
        buyer.send(draft)
    with refused(buyer.book, Code.TOO_EARLY, "was sent 2026-11-25 09:00"):
        buyer.arrive(draft, at=NOW - timedelta(hours=1))
    with refused(buyer.book, Code.TOO_MANY, "2 of line 1"):
        buyer.arrive(draft, 1, pieces=3)
    with refused(buyer.book, Code.BAD_NUMBER, "has 1"):
        buyer.arrive(draft, 2)
    with refused(buyer.book, Code.UNKNOWN_SIZE):
        buyer.arrive(draft, 1, length_nm=None)
    buyer.cancel(draft)
    for act in (buyer.send, buyer.cancel, buyer.arrive):
        with refused(buyer.book, Code.NOT_COMING, "is cancelled"):
            act(draft)


@ON_ONE_ENGINE
def test_what_is_said_of_one_line_needs_its_number_where_several_are_open(buyer: Buyer) -> None:
    """A lot is of one line; a day may be of all."""
    lines = (Wanted(material=FILM, pieces=1, length_nm=LENGTH), Wanted(material=BLADES, pieces=1))
    code = buyer.ordered(*lines)
    with refused(buyer.book, Code.BAD_USAGE, "of which line the lot is"):
        buyer.arrive(code, lot="L-1")

    buyer.arrive(code, 2, number=80)
    roll = buyer.arrive(code, lot="L-1", received="2026-11-20").codes[0]

    assert (buyer.state(roll).lot, buyer.state(roll).received) == ("L-1", "2026-11-20")


@ON_ONE_ENGINE
def test_no_more_than_a_delivery_holds_comes_at_once(buyer: Buyer) -> None:
    """Line by line it does."""
    lines = (Wanted(material=BLADES, pieces=501, number=number) for number in (10, 20))
    code = buyer.ordered(*lines)

    with refused(buyer.book, Code.TOO_MANY, "--line 1"):
        buyer.arrive(code)


def test_an_order_nobody_sold_on_is_nothing_yet() -> None:
    """The stages of one without lines, for the sake of the fold."""
    empty = Order(id=1, code="D0000010", supplier="B", drafted_at=NOW, last_at=NOW)

    assert (empty.stage, empty.is_coming, list(empty.open_lines())) == (Stage.DRAFT, False, [])
