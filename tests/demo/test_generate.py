"""The invented shop: on whatever day it is shown, everything the tool can say is there to be seen."""

import sqlite3
from collections import Counter
from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from dateutil.relativedelta import relativedelta

from stockroom.books.opening import Book, create_book, open_book
from stockroom.demo.generate import generate
from stockroom.film.kinds import Kind
from stockroom.film.verdict import Verdict
from stockroom.work import look, safekeeping
from stockroom.work.today import today as what_needs_a_hand

LISBON = ZoneInfo("Europe/Lisbon")
TODAY = date(2026, 11, 25)
DAYS = [
    TODAY,
    date(2028, 2, 29),
    date(2028, 3, 1),
    date(2027, 1, 31),
    date(2027, 1, 1),
    date(2026, 11, 1),  # a Sunday
    date(2027, 3, 29),  # a Monday, the clock was put forward the day before
]
CENTURY_LATER = datetime(2126, 1, 1, tzinfo=UTC)
LONG_BEFORE = datetime(2020, 1, 1, tzinfo=UTC)


def at(day: date, hour: int) -> datetime:
    """An hour on the shop's clock."""
    return datetime.combine(day, time(hour), LISBON).astimezone(UTC)


def a_shop(path: Path, *, seed: int = 7, today: date = TODAY) -> Path:
    """The file of a generated shop."""
    book = create_book(str(path))
    generate(book, seed=seed, today=today)
    book.close()
    return path


@pytest.fixture(scope="module")
def shop_path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One generated shop for all tests that only look."""
    return a_shop(tmp_path_factory.mktemp("shop") / "book.db")


@pytest.fixture
def shop(shop_path: Path) -> Iterator[Book]:
    """The generated shop, opened."""
    book = open_book(str(shop_path))
    yield book
    book.close()


def what_is_said(book: Book, *, now: datetime, today: date | None = None) -> set[str]:
    """Each verdict of the rack, WAIT beside them, and ? for a rule that cannot know."""
    pieces = look.rack(book, now=now, today=today).pieces
    verdicts = {one.judgement.verdict.value for one in pieces}
    waits = {"WAIT" for one in pieces if one.judgement.wait_until is not None}
    unknown = {"?" for one in pieces for reason in one.judgement.reasons if reason.verdict is None}
    return verdicts | waits | unknown


@pytest.mark.parametrize("today", DAYS, ids=str)
def test_every_verdict_is_to_be_seen_on_the_day_it_is_shown(tmp_path: Path, today: date) -> None:
    """At any hour of the day, and from a clock long before or after it; and nothing is broken."""
    book = open_book(str(a_shop(tmp_path / "book.db", today=today)))

    said = [what_is_said(book, now=at(today, hour)) for hour in (6, 12, 23)]
    said += [what_is_said(book, now=now, today=today) for now in (LONG_BEFORE, CENTURY_LATER)]
    acts = look.log(book, now=CENTURY_LATER)
    findings = safekeeping.verify(book)
    book.close()

    assert said == [{"USE", "USE FIRST", "TEST", "STOP", "WAIT", "?"}] * 5
    assert findings == []
    assert max(act.recorded_at for act in acts) < at(today, 0)
    assert min(act.at for act in acts) > at(today - relativedelta(months=3), 0)


def test_the_shop_is_the_same_on_both_engines(book: Book, shop: Book) -> None:
    """The story stands on nothing that only one of them does."""
    generate(book, today=TODAY)

    assert look.log(book, now=CENTURY_LATER) == look.log(shop, now=CENTURY_LATER)
    assert safekeeping.verify(book) == []


def test_the_same_seed_and_day_write_the_same_book(tmp_path: Path, shop_path: Path) -> None:
    """Ids, codes, hashes and hours are all alike; another seed moves hours and lengths."""
    again = dump(a_shop(tmp_path / "again.db"))
    other = dump(a_shop(tmp_path / "other.db", seed=8))

    assert again == dump(shop_path)
    assert other != again


def dump(path: Path) -> list[str]:
    """All that is in a book, as SQL."""
    with sqlite3.connect(path) as connection:
        found = list(connection.iterdump())
    connection.close()
    return found


def test_it_is_a_small_shop_with_every_kind_of_material(shop: Book) -> None:
    """A dozen materials, two zones and a van, a dozen jobs, about forty pieces."""
    now = at(TODAY, 9)
    pieces = look.rack(shop, now=now).pieces
    materials = look.materials(shop, now=now)
    forms = Counter(one.standing.state.form for one in pieces)

    assert len(materials) == 12
    assert {material.kind for material in materials} == set(Kind)
    assert {place.zone for place in look.places(shop, now=now)} == {"North", "South", ""}
    assert len(look.jobs(shop)) == 12
    assert 35 <= len(pieces) <= 45
    assert forms["roll"] >= 20
    assert forms["offcut"] >= 5
    assert forms["box"] >= 5
    assert all(one.standing.place is not None for one in pieces)


def test_the_journal_knows_everything_that_is_done_in_three_months(shop: Book) -> None:
    """Cuts with waste and offcuts, film that comes back, counts, a mistake undone, a hold."""
    acts = look.log(shop, now=CENTURY_LATER)
    moves = [move for act in acts for move in act.moves]

    assert {act.kind for act in acts} == {
        *("open", "close", "receive", "cut", "take", "back", "count", "finished"),
        *("put", "hold", "release", "discard", "undo"),
    }
    assert {str(move.facts["by"]) for move in moves if move.kind == "count"} == {
        "length",
        "number",
        "round",
    }
    assert any(move.kind == "count" and move.delta < 0 for move in moves)
    assert any(move.kind == "count" and move.delta == 0 for move in moves)
    assert any(move.kind == "cut" and move.wasted_mm2 for move in moves)
    assert any(move.kind == "cut" and move.kept_mm2 for move in moves)
    assert any(move.kind == "severed" for move in moves)
    assert {move.facts["reason"] for move in moves if move.kind == "cut"} == {
        *(None, "sample", "spoiled", "training")
    }
    assert len({act.operator for act in acts}) == 3


def test_the_older_part_of_the_stock_is_known_in_part_only(shop: Book) -> None:
    """Opening stock has lots nobody knows, and dates known to the month or the year."""
    states = [one.standing.state for one in look.rack(shop, now=at(TODAY, 9)).pieces]

    assert {len(state.made) for state in states if state.made} == {4, 7, 10}
    assert any(state.made is None for state in states)
    assert any(state.lot is None for state in states)
    assert min(state.made for state in states if state.made) < "2024-12"


def test_a_default_and_a_maker_s_limit_stand_side_by_side(shop: Book) -> None:
    """What a limit rests on is said, and all that a step of the shop can rest on is there."""
    pieces = look.rack(shop, now=at(TODAY, 9)).pieces
    bases = {reason.basis for one in pieces for reason in one.judgement.reasons}

    assert bases == {"", "default", "house", "maker's sheet"}


def test_the_print_wanted_this_friday_has_been_wound_too_long(shop: Book) -> None:
    """97 days of 90 by default: a curl trial, and the job is on today's list."""
    now = at(TODAY, 9)
    (found,) = [one for one in look.rack(shop, now=now).pieces if one.judgement.wound_days == 97]
    (wound,) = [one for one in found.judgement.reasons if one.rule == "wound"]
    job = what_needs_a_hand(shop, now=now).jobs[0]

    assert (wound.verdict, wound.limit, wound.basis) == (Verdict.TEST, 90, "default")
    assert "97 days wound" in wound.text
    assert (job.name, job.site, job.on_day) == ("tram shelter 4", "Mill Lane", "2026-11-27")


@pytest.mark.parametrize("seed", [0, 2**40])
def test_any_seed_tells_the_whole_story(tmp_path: Path, seed: int) -> None:
    """Lengths that move never make a cut too long."""
    book = open_book(str(a_shop(tmp_path / "book.db", seed=seed)))

    pieces = look.rack(book, now=at(TODAY, 9)).pieces
    book.close()

    assert len(pieces) == 41


def test_a_day_gone_by_is_shown_as_it_was(shop: Book) -> None:
    """A fortnight ago the piece that is held was not, and yesterday's print was not there."""
    then = look.rack(shop, now=at(TODAY, 9), today=TODAY - timedelta(days=14))

    assert then.view.is_past
    assert "STOP" not in {one.judgement.verdict for one in then.pieces}
    assert not any(one.standing.state.ink == "solvent" for one in then.pieces)
