"""The invented shop: on whatever day it is shown, everything the tool can say is there to be seen."""

from collections import Counter
from collections.abc import Callable, Iterable
from datetime import date, timedelta
from pathlib import Path

import pytest
from dateutil.relativedelta import relativedelta

from stockroom.books.opening import Book, open_book
from stockroom.books.orders import Stage
from stockroom.demo.generate import generate
from stockroom.film.kinds import Kind
from stockroom.film.verdict import Verdict
from stockroom.lines.text_acts import _WORDS
from stockroom.work import look, safekeeping
from stockroom.work.buying import buying
from stockroom.work.climate import climate_of
from stockroom.work.closed import calendar
from stockroom.work.closing import closing
from stockroom.work.delivery import deliveries
from stockroom.work.judging import Judged
from stockroom.work.kit import missing_of
from stockroom.work.orders import all_orders
from stockroom.work.people import people
from stockroom.work.reasons import REASONS
from stockroom.work.sendback import claims
from stockroom.work.sensors import sensors
from stockroom.work.stocktakes import stocktakes
from stockroom.work.today import today as what_needs_a_hand
from tests.demo.shops import CENTURY_LATER, DAYS, LONG_BEFORE, TODAY, a_shop, at, dump

EVERYTHING = {"USE", "USE FIRST", "TEST", "STOP", "WAIT", "?"}
ZONES = {"North", "South", "Loft", "Van 2", "Cold room"}
OF_NO_PIECE = {"open", "close", "reopen", "panels", "order", "order-send"}
"""What is done to no piece, and so has no move."""
WORDLESS = {"variance"}
"""What stands beside a late charge, which tells of it."""


def what_is_said(pieces: Iterable[Judged]) -> set[str]:
    """Each verdict of these pieces, WAIT beside them, and ? for a rule that cannot know."""
    found = list(pieces)
    verdicts = {one.judgement.verdict.value for one in found}
    waits = {"WAIT" for one in found if one.judgement.wait_until is not None}
    unknown = {"?" for one in found for reason in one.judgement.reasons if reason.verdict is None}
    return verdicts | waits | unknown


@pytest.mark.parametrize("today", DAYS, ids=str)
def test_every_verdict_is_to_be_seen_on_the_day_it_is_shown(
    shop_of: Callable[[date], Path], today: date
) -> None:
    """At any hour of the day, and from a clock long before or after it; and nothing is broken."""
    book = open_book(str(shop_of(today)))

    racks = [look.rack(book, now=at(today, hour)) for hour in (6, 12, 23)]
    racks += [look.rack(book, now=now, today=today) for now in (LONG_BEFORE, CENTURY_LATER)]
    acts = look.log(book, now=CENTURY_LATER)
    findings = safekeeping.verify(book)
    book.close()

    assert [what_is_said(rack.pieces) for rack in racks] == [EVERYTHING] * 5
    assert findings == []
    assert max(act.recorded_at for act in acts) < at(today, 0)
    months = relativedelta(months=14)
    assert at(today - months, 0) - timedelta(days=7) < min(act.at for act in acts)
    assert min(act.at for act in acts) < at(today - months, 0) + timedelta(days=7)


@pytest.mark.parametrize("today", DAYS, ids=str)
def test_the_first_minute_of_the_morning_is_full(
    shop_of: Callable[[date], Path], today: date
) -> None:
    """Ten pieces, every verdict and a wait counted; work for the coming days; a closed stretch."""
    book = open_book(str(shop_of(today)))
    now = at(today, 9)
    morning = what_needs_a_hand(book, now=now)
    coming = calendar(book, now=now).closed
    book.close()

    assert len(morning.pieces) == 10
    assert {verdict.value for verdict in morning.counts} >= EVERYTHING - {"?", "WAIT"}
    assert morning.waiting
    assert 4 <= len(morning.jobs) <= 6
    assert [one.days.first > today for one in coming] == [True]
    assert coming[0].changes


@pytest.mark.parametrize(
    "book_url", [pytest.param("postgresql", marks=pytest.mark.postgresql)], indirect=True
)
def test_the_shop_is_the_same_on_both_engines(book: Book, shop: Book) -> None:
    """The story stands on nothing that only one of them does."""
    generate(book, today=TODAY)

    assert look.log(book, now=CENTURY_LATER) == look.log(shop, now=CENTURY_LATER)
    assert safekeeping.verify(book) == []


def test_the_same_seed_and_day_write_the_same_book(
    tmp_path: Path, shop_of: Callable[[date], Path]
) -> None:
    """Ids, codes, hashes and hours are all alike."""
    again = dump(a_shop(tmp_path / "again.db"))

    assert again == dump(shop_of(TODAY))


def test_codes_and_lengths_are_the_same_on_any_day(shop_of: Callable[[date], Path]) -> None:
    """Whoever tells what is to be seen in the shop can name it."""
    told = []
    for today in DAYS:
        book = open_book(str(shop_of(today)))
        acts = look.log(book, now=CENTURY_LATER)
        book.close()
        told.append(
            [(act.kind, act.job, [(one.piece, one.delta) for one in act.moves]) for act in acts]
        )

    assert all(one == told[0] for one in told)


def test_another_seed_tells_the_whole_story(tmp_path: Path, shop: Book) -> None:
    """Lengths that move never make a cut too long; hours, lengths and ordinary jobs are others."""
    book = open_book(str(a_shop(tmp_path / "book.db", seed=2**40)))

    rack = look.rack(book, now=at(TODAY, 9))
    acts = look.log(book, now=CENTURY_LATER)
    findings = safekeeping.verify(book)
    book.close()

    assert what_is_said(rack.pieces) == EVERYTHING
    assert 110 <= len(rack.pieces) <= 145
    assert findings == []
    assert [act.at for act in acts] != [act.at for act in look.log(shop, now=CENTURY_LATER)]


def test_it_is_a_shop_of_some_size(shop: Book) -> None:
    """Twenty-five materials of every kind, five zones and two vans, four people with digits."""
    now = at(TODAY, 9)
    pieces = look.rack(shop, now=now).pieces
    materials = look.materials(shop, now=now)
    places = look.places(shop, now=now)
    forms = Counter(one.standing.state.form for one in pieces)
    on_hand = {one.standing.material.name for one in pieces}

    assert len(materials) == 25
    assert {material.kind for material in materials} == set(Kind)
    assert {material.name for material in materials} == on_hand
    assert {place.zone for place in places} == {*ZONES, ""}
    assert {place.name for place in places if not place.zone} == {"van 1"}
    assert 115 <= len(pieces) <= 135
    assert forms["roll"] >= 60
    assert forms["offcut"] >= 25
    assert forms["box"] >= 15
    assert [one.key for one in people(shop)] == [1, 2, 3, 4]
    assert {act.operator for act in look.log(shop, now=now)} == {one.name for one in people(shop)}


def test_the_journal_knows_everything_that_can_be_done(shop: Book) -> None:
    """Whatever an act can be, somebody has done it, mistakes among them."""
    acts = look.log(shop, now=CENTURY_LATER)
    moves = [move for act in acts for move in act.moves]

    assert {move.kind for move in moves} == set(_WORDS) | WORDLESS
    assert {act.kind for act in acts if not act.moves} == OF_NO_PIECE
    assert len(acts) > 800


def test_film_is_taken_for_every_reason_and_counted_in_every_way(shop: Book) -> None:
    """Waste, offcuts, overruns, flaws, film taken despite its age; confirmed and corrected counts."""
    moves = [move for act in look.log(shop, now=CENTURY_LATER) for move in act.moves]
    cuts = [move for move in moves if move.kind == "cut"]
    counts = [move for move in moves if move.kind == "count"]

    assert {move.facts["reason"] for move in cuts} == {None, *REASONS}
    assert any(move.wasted_mm2 for move in cuts)
    assert any(move.kept_mm2 for move in cuts)
    assert any(move.facts["flaws"] for move in cuts)
    assert any(move.facts["despite"] for move in cuts)
    assert {str(move.facts["by"]) for move in counts} == {
        *("length", "outside", "round", "mass", "number", "overrun")
    }
    assert {move.delta < 0 for move in counts} == {True, False}
    assert {move.facts["passed"] for move in moves if move.kind == "trial"} == {True, False}
    assert {move.facts["used"] == 0 for move in moves if move.kind == "in"} == {True, False}
    assert {"lot" in move.facts for move in moves if move.kind == "hold"} == {True, False}
    assert {"lot" in move.facts for move in moves if move.kind == "release"} == {True, False}


def test_the_older_part_of_the_stock_is_known_in_part_only(shop: Book) -> None:
    """Opening stock has lots nobody knows, and dates known to the month or the year."""
    states = [one.standing.state for one in look.rack(shop, now=at(TODAY, 9)).pieces]

    assert {len(state.made) for state in states if state.made} == {4, 7, 10}
    assert any(state.made is None for state in states)
    assert any(state.lot is None for state in states)
    assert min(state.made for state in states if state.made) < "2024-12"
    assert {state.owner for state in states} == {"ours", "client"}


def test_all_that_a_limit_can_rest_on_is_there(shop: Book) -> None:
    """A default and a maker's limit stand side by side."""
    pieces = look.rack(shop, now=at(TODAY, 9)).pieces
    bases = {reason.basis for one in pieces for reason in one.judgement.reasons}

    assert bases == {"", "default", "house", "maker's sheet", "own trial", "its label"}


def test_the_reports_have_something_to_say(shop: Book) -> None:
    """Before closing, claims, stocktakes, a delivery half typed, kits that lack a part."""
    now = at(TODAY, 17)
    last = closing(shop, now=now)
    taken = stocktakes(shop, now=now).places
    kits = [
        one.standing.state for one in look.rack(shop, now=now).pieces if one.standing.state.parts
    ]

    assert len(last.out) == 2
    assert all((last.nowhere, last.wound, last.waiting, last.recounts, last.drafts))
    assert [one.number for one in claims(shop, now=now).claims] == ["C-2391"]
    assert any(place.missing for place in taken)
    assert any(place.variance_mm2 for place in taken)
    assert [len(one.lines) for one in deliveries(shop, now=now)] == [2]
    assert sorted(bool(missing_of(state)) for state in kits) == [False, True]


@pytest.mark.parametrize("today", DAYS, ids=str)
def test_the_air_has_something_to_say(shop_of: Callable[[date], Path], today: date) -> None:
    """A hot week, a gap, a logger that moved and is silent, a cold roll, a film with trials."""
    book = open_book(str(shop_of(today)))
    now = at(today, 9)
    pieces = look.rack(book, now=now).pieces
    known = {one.name: one for one in sensors(book, now=now)}
    south, loft = (
        climate_of(book, zone, now=now, since=now - timedelta(days=400))
        for zone in ("South", "Loft")
    )
    book.close()
    reasons = [reason for one in pieces for reason in one.judgement.reasons]
    found = {(reason.rule, reason.verdict) for reason in reasons}

    assert {one.zone for one in known.values()} == ZONES
    assert [name for name, one in known.items() if one.is_silent] == ["logger 1"]
    assert (known["logger 1"].zone, known["logger 2"].offset_c) == ("Van 2", -0.4)
    assert all(one.latest and one.latest.at_s < now.timestamp() for one in known.values())
    assert 0.9 < south.exposure.coverage < 0.995 < loft.exposure.coverage
    assert loft.hot_hours > 48
    assert {("climate", Verdict.USE), ("climate", Verdict.USE_FIRST)} <= found
    assert {("warm-up", Verdict.USE), ("heat", Verdict.USE), ("memory", Verdict.TEST)} <= found
    assert any("own trials: 4" in reason.text for reason in reasons)


def test_orders_are_sent_late_and_part_received(shop: Book) -> None:
    """One of each, which the first minute of the morning and the plan know."""
    now = at(TODAY, 9)
    found = all_orders(shop)

    assert [one.stage for one in found] == [Stage.SENT, Stage.PART, Stage.SENT]
    assert [one.supplier for one in what_needs_a_hand(shop, now=now).late] == [
        "Gannet Row Window Film",
        "Saltmarsh Films",
    ]
    coming = {row.material.name: row.on_hand.on_order for row in buying(shop, now=now).rows}
    assert (coming["white cast 1370"], coming["carbon blades 9 mm"]) == (100, 500)


def test_every_bought_in_print_names_its_job(shop: Book) -> None:
    """What was printed elsewhere belongs to the work it was printed for."""
    moves = [move for act in look.log(shop, now=CENTURY_LATER) for move in act.moves]
    prints = [move for move in moves if move.kind == "receive" and move.sets.get("printed")]

    assert len(prints) >= 4
    assert all(move.sets["job_id"] for move in prints)


def test_a_day_gone_by_is_shown_as_it_was(shop: Book) -> None:
    """A fortnight ago yesterday's print was not there; half a year ago the shop was another one."""
    now = at(TODAY, 9)
    then = look.rack(shop, now=now, today=TODAY - timedelta(days=14))
    long_ago = look.rack(shop, now=now, today=TODAY - timedelta(days=182))

    assert then.view.is_past
    assert not any(one.standing.state.ink == "solvent" for one in then.pieces)
    assert "STOP" not in {one.judgement.verdict.value for one in long_ago.pieces}
