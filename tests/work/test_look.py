"""Looking writes nothing, and can look back to any day."""

from datetime import date, timedelta
from typing import Any

import pytest

from stockroom.errors import Code
from stockroom.film.roll import Layer
from stockroom.film.verdict import Verdict
from stockroom.units import MM, M
from stockroom.work.look import Wanted, log, piece, rack
from stockroom.work.setup import ChangeMaterial, SetValue, change_a_material, set_value
from tests.builders import BLADES, FILM, Station, dump, refused
from tests.conftest import NOW

TODAY = date(2026, 11, 25)
DAY = timedelta(days=1)


def _left(station: Station, day: date | None = None) -> dict[str, int]:
    """What the rack held on a day: the balance of each piece."""
    found = rack(station.book, now=station.now, today=day)
    return {one.code: one.standing.state.balance for one in found.pieces}


def _verdict(station: Station, code: str, day: date | None = None) -> Verdict:
    return piece(station.book, code, now=station.now, today=day).judged.judgement.verdict


def test_the_rack_shows_every_piece_on_hand_by_code(station: Station) -> None:
    """Ended pieces are history."""
    box, roll, gone = station.box(), station.roll(), station.roll()
    station.discard(gone)
    before = dump(station.book)

    found = rack(station.book, now=station.now)

    assert [one.code for one in found.pieces] == sorted([box, roll])
    assert (found.view.today, found.view.is_past) == (TODAY, False)
    assert dump(station.book) == before


def test_a_day_gone_by_shows_what_was_there_in_the_evening(station: Station) -> None:
    """Before a cut, after it, and before the roll had come."""
    roll = station.roll()
    station.wait(days=2)
    offcut = station.cut(roll, 2 * M, offcuts=((M, M),)).offcuts[0].code
    station.wait(days=2)
    station.discard(offcut)

    assert _left(station, TODAY - DAY) == {}
    assert _left(station, TODAY) == _left(station, TODAY + DAY) == {roll: 30 * M}
    assert _left(station, TODAY + 2 * DAY) == _left(station, TODAY + 3 * DAY)
    assert _left(station, TODAY + 2 * DAY) == {roll: 28 * M, offcut: M}
    assert _left(station, TODAY + 4 * DAY) == _left(station) == {roll: 28 * M}


def test_a_mistake_was_on_the_books_until_it_was_taken_back(station: Station) -> None:
    """What the books said on a day is what they said, right or wrong."""
    roll = station.roll()
    station.wait(days=1)
    station.cut(roll, 2 * M)
    station.wait(days=2)
    station.undo(roll)

    assert [_left(station, TODAY + days * DAY)[roll] for days in range(4)] == [
        30 * M,
        28 * M,
        28 * M,
        30 * M,
    ]


def test_a_receipt_taken_back_was_there_until_then(station: Station) -> None:
    """And is nowhere after it."""
    roll = station.roll()
    station.wait(days=2)
    station.undo(roll)

    assert _left(station, TODAY + DAY) == {roll: 30 * M}
    assert _left(station) == {}


def test_a_hold_stops_from_its_day_to_its_release(station: Station) -> None:
    """Before it and after it the piece is as good as its age."""
    roll = station.roll()
    station.wait(days=1)
    station.hold(roll)
    station.wait(days=2)
    station.release(roll)
    station.wait(days=1)

    assert [_verdict(station, roll, TODAY + days * DAY) for days in range(5)] == [
        Verdict.USE,
        Verdict.STOP,
        Verdict.STOP,
        Verdict.USE,
        Verdict.USE,
    ]


def test_an_act_written_later_counts_for_the_day_it_happened(station: Station) -> None:
    """What was cut yesterday and written today was gone yesterday."""
    roll = station.roll()
    station.wait(days=2)
    station.cut(roll, 2 * M, at=NOW + DAY)

    assert _left(station, TODAY)[roll] == 30 * M
    assert _left(station, TODAY + DAY)[roll] == 28 * M


def test_a_cut_after_midnight_belongs_to_the_night_before(station: Station) -> None:
    """A working day ends when the next one begins, at five in the morning."""
    roll = station.roll()
    station.wait(hours=19)  # 04:00
    station.cut(roll, 2 * M)
    station.wait(hours=24)

    assert _left(station, TODAY)[roll] == 28 * M


def test_limits_are_those_of_the_day(station: Station) -> None:
    """A limit shortened today judges no piece of last week."""
    roll = station.roll(made="2026-01-10", received="2026-02-01")
    station.wait(days=2)
    change = ChangeMaterial(**station.asked(name=FILM, limits={"shelf": "3mo"}, why="new sheet"))
    change_a_material(change, book=station.book, now=station.now)
    station.wait(days=2)

    assert [_verdict(station, roll, TODAY + days * DAY) for days in (0, 1, 2, 3)] == [
        Verdict.USE,
        Verdict.USE,
        Verdict.TEST,
        Verdict.TEST,
    ]


def test_house_values_are_those_of_the_day(station: Station) -> None:
    """A default the shop changed yesterday was a default the day before."""
    roll = station.roll(made="2026-01-10", received="2026-02-01")
    station.wait(days=1)
    change = SetValue(**station.asked(name="shelf.window-film", value="3mo", why="it curls"))
    set_value(change, book=station.book, now=station.now)

    def basis(day: date) -> str:
        found = piece(station.book, roll, now=station.now, today=day).judged.judgement
        return next(reason.basis for reason in found.reasons if reason.rule == "shelf")

    assert (basis(TODAY), basis(TODAY + DAY)) == ("default", "house")


def test_a_day_to_come_forecasts_from_the_present(station: Station) -> None:
    """The same film, older."""
    roll = station.roll(made="2026-06-01")

    assert _verdict(station, roll) is Verdict.USE
    assert _verdict(station, roll, date(2028, 5, 20)) is Verdict.USE_FIRST
    assert _verdict(station, roll, date(2028, 6, 2)) is Verdict.TEST
    assert _left(station, date(2028, 6, 2)) == {roll: 30 * M}


def test_a_roll_that_was_not_here_yet_is_not_found(station: Station) -> None:
    """The day before it came there is nothing to show."""
    roll = station.roll()

    with refused(station.book, Code.NO_PIECE, "not here yet on 2026-11-24"):
        piece(station.book, roll, now=station.now, today=TODAY - DAY)


def test_a_card_shows_the_acts_up_to_its_day(station: Station) -> None:
    """Newest first; and an ended piece still has a card."""
    station.material(layers=(Layer(75.0, 1_390.0),))
    roll = station.roll(material=FILM)
    station.wait(days=1)
    station.cut(roll, 2 * M)
    station.wait(days=1)
    station.discard(roll)

    now = piece(station.book, roll, now=station.now)
    then = piece(station.book, roll, now=station.now, today=TODAY + DAY)

    assert [act.kind for act in now.acts] == ["discard", "cut", "receive"]
    assert [act.kind for act in then.acts] == ["cut", "receive"]
    assert now.judged.standing.state.ended == "discarded"
    assert then.mass_kg == pytest.approx(75e-6 * 1_390 * 1.5 * 28)


def test_a_card_of_a_past_day_does_not_know_of_later_undoing(station: Station) -> None:
    """On that day the cut stood."""
    roll = station.roll()
    station.wait(days=1)
    station.cut(roll, 2 * M)
    station.wait(days=1)
    station.undo(roll)

    then = piece(station.book, roll, now=station.now, today=TODAY + DAY)

    assert [(act.kind, act.is_reversed) for act in then.acts] == [
        ("cut", False),
        ("receive", False),
    ]


@pytest.mark.parametrize(
    ("wanted", "found"),
    [
        ({"material": "BLADES"}, ["box"]),
        ({"material": "clear"}, ["roll", "sheet"]),
        ({"place": "a1"}, ["roll"]),
        ({"place": "P"}, ["roll"]),
        ({"find": "l-204"}, ["roll"]),
        ({"find": "C0"}, ["sheet"]),
        ({"find": "harbour"}, []),
        ({"verdict": Verdict.USE}, ["box", "roll"]),
        ({"verdict": Verdict.STOP}, ["sheet"]),
        ({"material": "clear", "verdict": Verdict.STOP}, ["sheet"]),
        ({"find": "%"}, []),
        ({"find": "_"}, []),
    ],
)
def test_the_rack_shows_what_is_asked_for(
    station: Station, wanted: dict[str, Any], found: list[str]
) -> None:
    """By verdict, by part of a name, of a place, of a lot or of a code, in any case."""
    station.place("A1")
    pieces = {"box": station.box(), "roll": station.roll(lot="L-204", place="A1")}
    pieces["sheet"] = station.offcut()
    station.hold(pieces["sheet"])
    station.discard(station.state(pieces["sheet"]).parent or "")

    seen = rack(station.book, now=station.now, wanted=Wanted(**wanted))

    assert {one.code for one in seen.pieces} == {pieces[name] for name in found}


def test_the_log_is_newest_first_and_can_be_narrowed(station: Station) -> None:
    """To a piece, a job, a time and a number of lines."""
    roll, other, job = station.roll(), station.roll(), station.job()
    later = station.wait(hours=1)
    station.cut(roll, M, job=job)
    station.cut(other, M)

    def kinds(**asked: Any) -> list[str]:
        return [act.kind for act in log(station.book, now=station.now, **asked)]

    assert kinds() == ["cut", "cut", "open", "receive", "receive"]
    assert kinds(piece=roll) == ["cut", "receive"]
    assert kinds(job=job) == ["cut", "open"]
    assert kinds(since=later) == ["cut", "cut"]
    assert kinds(limit=3) == ["cut", "cut", "open"]
    with refused(station.book, Code.NO_PIECE):
        kinds(piece="R0009994")


def test_a_box_and_a_film_of_unknown_layers_have_no_mass(station: Station) -> None:
    """Unknown is unknown, not nothing."""
    station.offcut((600 * MM, M))

    for code in (station.box(), station.roll()):
        assert piece(station.book, code, now=station.now).mass_kg is None
    assert BLADES in {one.standing.material.name for one in rack(station.book, now=NOW).pieces}
