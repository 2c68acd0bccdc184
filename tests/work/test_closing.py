"""Before we close, and while we are closed."""

from datetime import date, timedelta
from uuid import uuid4

import pytest

from stockroom.books.calendar import ClosedDays
from stockroom.books.pen import writing
from stockroom.books.values import ActDraft, Asked, MoveDraft
from stockroom.errors import Code
from stockroom.film.kinds import Kind
from stockroom.film.verdict import Verdict
from stockroom.units import M
from stockroom.work.closed import Calendar, CloseDays, calendar, close_days
from stockroom.work.closing import closing
from stockroom.work.delivery import SetLine, set_line
from stockroom.work.goods_line import Line
from stockroom.work.setup import settings
from tests.builders import Station, is_sound, refused

FIRST, LAST = date(2026, 12, 24), date(2027, 1, 2)


def _sets(station: Station, code: str, **facts: object) -> None:
    """A fact of a piece, written as the journal would have it."""
    asked = Asked(request=uuid4().hex, operator="Ida M.")
    with writing(station.book, asked, now=station.now, pieces=[code]) as pen:
        move = MoveDraft(code=code, kind="hold", sets=facts)
        pen.append(ActDraft(kind="hold", at=station.now, moves=(move,)))


def _close(station: Station, first: date = FIRST, last: date = LAST, **given: object) -> ClosedDays:
    facts: dict[str, object] = {"first": first, "last": last, "why": "holidays"}
    request = CloseDays(**station.asked(**facts | given))
    return close_days(request, book=station.book, now=station.now)


def _calendar(station: Station) -> Calendar:
    return calendar(station.book, now=station.now)


def test_a_tidy_shop_has_nothing_to_see_to(station: Station) -> None:
    """Film in its place keeps nobody from going home."""
    station.place("A1")
    station.roll(place="A1")

    found = closing(station.book, now=station.now)

    lists = (found.out, found.nowhere, found.wound, found.waiting, found.recounts, found.drafts)
    assert lists == ((),) * 6
    assert found.closed is None


def test_what_lies_out_waits_or_was_begun_is_listed(station: Station) -> None:
    """Each in its own list; a piece can stand in several."""
    station.place("A1")
    away, counted, lost = station.rolls(pieces=3, place="A1")
    _sets(station, away, out_to="van 2", place_id=None)
    _sets(station, counted, recount='{"found":1}')
    _sets(station, lost, place_id=None)
    station.material("white cast", Kind.PRINT_VINYL)
    printed = station.roll(
        material="white cast", printed="2026-11-25", ink="solvent", length_nm=M, place="A1"
    )
    draft = SetLine(**station.asked(line=Line(material="white cast")))
    set_line(draft, book=station.book, now=station.now)
    _close(station, station.now.date() + timedelta(days=1), LAST)

    found = closing(station.book, now=station.now)

    assert [one.code for one in found.out] == [away]
    assert [one.code for one in found.nowhere] == [lost]
    assert [one.code for one in found.recounts] == [counted]
    assert [one.code for one in found.wound] == [printed]
    assert [one.code for one in found.waiting] == [printed]
    assert [(one.kind, one.name) for one in found.drafts] == [("delivery", "goods in")]
    assert found.closed is not None
    assert found.closed.days.last == LAST


def test_closed_days_say_which_verdicts_change_meanwhile(station: Station) -> None:
    """Film that passes its limit while nobody works is known before anybody leaves."""
    late, fine, held = (
        station.roll(made=day) for day in ("2024-12-28", "2026-06-01", "2024-12-28")
    )
    station.hold(held)
    _close(station)

    (found,) = _calendar(station).closed

    assert found.days == ClosedDays(FIRST, LAST, "holidays")
    assert found.opens_on == date(2027, 1, 3)
    changes = [
        (one.before.code, one.before.judgement.verdict, one.after.judgement.verdict)
        for one in found.changes
    ]
    assert changes == [(late, Verdict.USE_FIRST, Verdict.TEST)]
    assert fine not in {one.before.code for one in found.changes}


def test_closed_days_that_touch_open_after_the_last(station: Station) -> None:
    """Nobody works on the day between two stretches that meet."""
    _close(station)
    _close(station, LAST + timedelta(days=1), LAST + timedelta(days=2), why="stocktaking")
    _close(station, date(2026, 11, 2), date(2026, 11, 3))

    opens = [one.opens_on for one in _calendar(station).closed]

    assert opens == [date(2027, 1, 5)] * 2


def test_days_that_were_closed_can_be_opened_after_all(station: Station) -> None:
    """And closed again; what was written stays on record, and settings are left alone."""
    _close(station)
    with refused(station.book, Code.ALREADY_THERE, "closed already"):
        _close(station)
    with refused(station.book, Code.ALREADY_THERE, "not closed"):
        _close(station, FIRST, FIRST, opens=True)
    _close(station, opens=True, why="a big job")
    assert _calendar(station).closed == ()
    _close(station)

    shop, entries = settings(station.book, now=station.now)
    assert len(_calendar(station).closed) == 1
    assert [entry.name for entry in entries] == ["closed", "open-again", "closed"]
    assert shop.name == "Stockroom"
    assert is_sound(station.book)


@pytest.mark.parametrize(("first", "last"), [(LAST, FIRST), (FIRST, FIRST + timedelta(days=367))])
def test_days_in_the_wrong_order_or_without_end_are_refused(
    station: Station, first: date, last: date
) -> None:
    """A slip in a year is not a closed shop."""
    with refused(station.book, Code.BAD_DATE):
        _close(station, first, last)
