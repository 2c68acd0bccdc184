"""A delivery is built line by line and received as one act."""

from typing import Any

import pytest

from stockroom.books.opening import open_book
from stockroom.errors import Code
from stockroom.film.kinds import Kind
from stockroom.units import MM, M
from stockroom.work import delivery as room
from stockroom.work.delivery import Delivery
from stockroom.work.goods_line import Line
from stockroom.work.look import log, rack
from stockroom.work.receive import Received
from tests.builders import BLADES, FILM, Station, is_sound, refused


def _add(station: Station, instead_of: int | None = None, **line: Any) -> Delivery:
    request = room.SetLine(**station.asked(line=Line(**line), number=instead_of))
    return room.set_line(request, book=station.book, now=station.now)


def _drop(station: Station, number: int) -> Delivery:
    request = room.DropLine(**station.asked(number=number))
    return room.drop_line(request, book=station.book, now=station.now)


def _receive(station: Station, **given: Any) -> Received:
    request = room.ReceiveAll(**station.asked(**given))
    return room.receive_all(request, book=station.book, now=station.now)


@pytest.fixture
def goods(station: Station) -> Station:
    """A shop with two films, blades, a place and a job, and nothing received."""
    station.material()
    station.material("white cast", Kind.PRINT_VINYL, core_inside_nm=None, core_wall_nm=None)
    station.material("strip", Kind.OTHER)
    station.material(BLADES, Kind.BLADE)
    station.place("A1")
    return station


def test_many_lines_are_received_in_one_act(goods: Station) -> None:
    """Rolls and boxes, each with a code of its own; the draft is gone with it."""
    _add(goods, material=FILM.upper(), length_nm=30 * M, pieces=3, lot="L-1", place="a1")
    _add(goods, material="white cast", length_nm=25 * M, made="2026-03")
    _add(goods, material=BLADES, number=100, pieces=2)

    done = _receive(goods)

    assert [code[0] for code in done.codes] == ["R", "R", "R", "R", "B", "B"]
    assert [move.balance for move in done.act.moves] == [30 * M] * 3 + [25 * M, 100, 100]
    assert len(log(goods.book, now=goods.now)) == 1
    first, cast = goods.state(done.codes[0]), goods.state(done.codes[3])
    assert (first.lot, first.place_id, first.received) == ("L-1", 1, "2026-11-25")
    assert (cast.lot, cast.made, cast.width_nm) == (None, "2026-03", 1_500 * MM)
    assert room.deliveries(goods.book, now=goods.now) == ()
    assert is_sound(goods.book)


def test_what_is_half_typed_waits_in_the_book(goods: Station) -> None:
    """Another station, or the same one after a power cut, goes on where somebody stopped."""
    _add(goods, material=FILM, length_nm=30 * M)
    _add(goods, material="white cast")
    again = open_book(goods.book.url.render_as_string(hide_password=False))

    found = room.delivery(again, now=goods.now)
    again.close()

    assert [one.line.material for one in found.lines] == [FILM, "white cast"]
    assert [one.needed for one in found.lines] == [(), ("length",)]
    assert (found.is_ready, found.operator) == (False, "Ida M.")
    assert log(goods.book, now=goods.now) == ()


def test_a_line_says_what_it_lacks(goods: Station) -> None:
    """What it cannot do without, and what will stay unknown."""
    goods.material("leftover", Kind.LAMINATE, width_nm=None, thickness_nm=None)
    _add(goods)
    _add(goods, material="leftover")
    _add(goods, material=BLADES, cost_minor=0, place="A1")
    found = _add(goods, material=FILM, length_nm=M, lot="L-1", made="2026", place="A1")

    said = [(one.needed, one.unknown) for one in found.lines]
    assert said == [
        (("material",), ()),
        (("length", "width"), ("lot", "place", "made", "price")),
        (("number",), ("lot", "made")),
        ((), ("price",)),
    ]


def test_a_line_is_filled_in_or_dropped(goods: Station) -> None:
    """By its number; the others keep their order."""
    _add(goods, material=FILM)
    _add(goods, material="white cast", length_nm=M)
    _add(goods, 1, material=FILM, length_nm=2 * M)

    assert [one.line.length_nm for one in _drop(goods, 2).lines] == [2 * M]
    for number in (0, 2):
        with refused(goods.book, Code.BAD_NUMBER):
            _drop(goods, number)
        with refused(goods.book, Code.BAD_NUMBER):
            _add(goods, number, material=FILM)


def test_opening_stock_has_unknown_lots_and_dates_known_in_part(goods: Station) -> None:
    """What is this roll? As much as anybody knows."""
    _add(goods, material=FILM, length_nm=12 * M, made="2024", received="2025-03")
    state = goods.state(_receive(goods).codes[0])

    assert (state.made, state.received, state.lot) == ("2024", "2025-03", None)


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ({"material": "no such film"}, Code.NO_MATERIAL),
        ({"material": FILM, "place": "Z9"}, Code.NO_PLACE),
        ({"material": FILM, "made": "last spring"}, Code.BAD_DATE),
        ({"material": FILM, "length_nm": M, "made": "2027"}, Code.FUTURE),
        ({"material": FILM, "length_nm": 0}, Code.BAD_LENGTH),
        ({"material": BLADES, "number": 0}, Code.BAD_NUMBER),
        ({"material": BLADES, "length_nm": M, "number": 1}, Code.WRONG_FORM),
        ({"material": FILM, "length_nm": M, "pieces": 0}, Code.BAD_NUMBER),
        ({"material": FILM, "length_nm": M, "pieces": 1_001}, Code.BAD_NUMBER),
        ({"material": FILM, "pieces": 1_001}, Code.TOO_MANY),
        ({"material": FILM, "job": "J0000019"}, Code.NO_JOB),
    ],
)
def test_what_cannot_be_is_refused_while_it_is_typed(
    goods: Station, line: dict[str, Any], code: Code
) -> None:
    """And the draft stays as it was."""
    _add(goods, material=FILM)

    with refused(goods.book, code):
        _add(goods, **line)


def test_a_line_that_lacks_something_keeps_all_from_being_received(goods: Station) -> None:
    """Whole or not at all, and the line is named."""
    _add(goods, material=FILM, length_nm=M)
    _add(goods, material=FILM)

    with refused(goods.book, Code.UNKNOWN_SIZE, "Line 2: length"):
        _receive(goods)
    with refused(goods.book, Code.NO_DRAFT):
        _receive(goods, name="another")
    _drop(goods, 2)
    _drop(goods, 1)
    with refused(goods.book, Code.BAD_USAGE, "no line yet"):
        _receive(goods)


def test_asked_again_a_delivery_is_received_once(goods: Station) -> None:
    """The draft is gone, and the answer is the same."""
    _add(goods, material=FILM, length_nm=M, pieces=2)
    request = room.ReceiveAll(**goods.asked())

    first = room.receive_all(request, book=goods.book, now=goods.now)
    goods.wait(minutes=1)
    again = room.receive_all(request, book=goods.book, now=goods.now)

    assert again == first
    assert len(rack(goods.book, now=goods.now).pieces) == 2


def test_prints_of_a_delivery_are_for_one_job(goods: Station) -> None:
    """An act is done for one job; film beside them is for whoever cuts it."""
    job, other = goods.job(), goods.job("clinic")
    printed: dict[str, Any] = {
        "material": "white cast",
        "length_nm": 2 * M,
        "printed": "2026-11-20",
    }
    _add(goods, **printed, job=job)
    _add(goods, material=FILM, length_nm=M)
    with refused(goods.book, Code.OTHER_JOB):
        _add(goods, **printed, job=other)
    with refused(goods.book, Code.BAD_USAGE, "Only a print"):
        _add(goods, material=FILM, length_nm=M, job=job)
    goods.close(job)
    with refused(goods.book, Code.JOB_CLOSED, "Line 1: "):
        _receive(goods)
    goods.close(job, reopen=True)

    done = _receive(goods)

    assert done.act.job == job
    assert [goods.state(code).job_id for code in done.codes] == [1, None]


def test_a_delivery_is_undone_whole(goods: Station) -> None:
    """A slip takes back every piece it made."""
    _add(goods, material=FILM, length_nm=M, pieces=3)
    done = _receive(goods)

    goods.undo(done.codes[1])

    assert rack(goods.book, now=goods.now).pieces == ()
    assert is_sound(goods.book)


def test_a_delivery_can_be_forgotten(goods: Station) -> None:
    """Before it was received, nothing happened."""
    _add(goods, material=FILM)
    room.forget(room.Forget(**goods.asked()), book=goods.book, now=goods.now)

    assert room.deliveries(goods.book, now=goods.now) == ()
    with refused(goods.book, Code.NO_DRAFT):
        room.forget(room.Forget(**goods.asked()), book=goods.book, now=goods.now)
