"""Shelf age to the day: where it starts, what is near, past and extended."""

from datetime import date, timedelta

import pytest

from stockroom.film.dates import Span
from stockroom.film.kinds import Kind
from stockroom.film.limits import Basis, CountedFrom, House, Limit
from stockroom.film.verdict import Reason, Verdict
from tests.film.builders import (
    a_day,
    a_judgement,
    a_makers_limit,
    a_storage,
    the_reason,
)


@pytest.mark.parametrize(
    ("today", "verdict", "text"),
    [
        ("2025-01-10", Verdict.USE, "0 days, limit 24 months (maker's sheet)"),
        ("2025-01-11", Verdict.USE, "1 day, limit 24 months (maker's sheet)"),
        ("2025-05-10", Verdict.USE, "120 days, limit 24 months (maker's sheet)"),
        ("2025-05-11", Verdict.USE, "4 months, limit 24 (maker's sheet)"),
        ("2026-12-11", Verdict.USE, "23 months, limit 24 (maker's sheet)"),
        ("2026-12-12", Verdict.USE_FIRST, "23 months, limit 24 (maker's sheet): 29 days left"),
        ("2027-01-09", Verdict.USE_FIRST, "23 months, limit 24 (maker's sheet): 1 day left"),
        ("2027-01-10", Verdict.USE_FIRST, "24 months, limit 24 (maker's sheet): last day"),
        (
            "2027-01-11",
            Verdict.TEST,
            "24 months and 1 day, limit 24 (maker's sheet): adhesion trial",
        ),
        (
            "2027-02-09",
            Verdict.TEST,
            "24 months and 30 days, limit 24 (maker's sheet): adhesion trial",
        ),
        ("2027-02-10", Verdict.TEST, "25 months, limit 24 (maker's sheet): adhesion trial"),
        ("2036-01-10", Verdict.TEST, "132 months, limit 24 (maker's sheet): adhesion trial"),
    ],
)
def test_shelf_age_passes_near_last_day_and_past(today: str, verdict: Verdict, text: str) -> None:
    """Thirty days before the end it is near; the last day still counts; the day after asks."""
    storage = a_storage(made=a_day("2025-01-10"), shelf_limit=a_makers_limit(24))

    reason = the_reason("shelf", a_judgement(storage, date.fromisoformat(today)))

    assert (reason.verdict, reason.text) == (verdict, text)
    assert (reason.limit, reason.unit, reason.basis) == (730, "days", Basis.MAKER)
    assert reason.due == date(2027, 1, 10)


@pytest.mark.parametrize(
    ("day", "verdict"),
    [(48, Verdict.USE), (49, Verdict.USE_FIRST), (60, Verdict.USE_FIRST), (61, Verdict.TEST)],
)
def test_a_short_limit_is_near_for_its_last_fifth(day: int, verdict: Verdict) -> None:
    """Sixty days: twelve of them."""
    storage = a_storage(made=a_day("2026-01-01"), shelf_limit=a_makers_limit(days=60))

    judgement = a_judgement(storage, date(2026, 1, 1) + timedelta(days=day))

    assert judgement.verdict is verdict


@pytest.mark.parametrize(
    ("made", "due"),
    [("2024-02-29", "2025-02-28"), ("2023-02-28", "2024-02-28"), ("2025-12-31", "2026-12-31")],
)
def test_a_limit_of_a_year_ends_on_the_same_day_or_the_last_of_february(
    made: str, due: str
) -> None:
    """Leap days."""
    judgement = a_judgement(a_storage(made=a_day(made), shelf_limit=a_makers_limit(12)))

    assert judgement.due == date.fromisoformat(due)


def test_a_makers_limit_beats_the_house_and_a_default_reads_as_a_default() -> None:
    """What a limit rests on is said in the sentence and in the reason."""
    house = House().changed("shelf.window-film", "18mo")
    maker = a_storage(shelf_limit=a_makers_limit(36))

    reasons = [
        the_reason("shelf", a_judgement(a_storage())),
        the_reason("shelf", a_judgement(a_storage(), house=house)),
        the_reason("shelf", a_judgement(maker, house=house)),
    ]

    assert [reason.basis for reason in reasons] == ["default", "house", "maker's sheet"]
    assert [reason.text for reason in reasons] == [
        "5 months, limit 24 (default)",
        "5 months, limit 18 (house)",
        "5 months, limit 36 (maker's sheet)",
    ]


@pytest.mark.parametrize(
    ("counted_from", "dates", "days", "at_least", "text"),
    [
        ("made", {"made": "2026-11-01"}, 24, False, "24 days, limit"),
        (
            "made",
            {"made": "2026-11"},
            24,
            False,
            "24 days (assumed: made 2026-11), limit",
        ),
        (
            "made",
            {"shipped": "2026-11-05", "received": "2026-11-09"},
            20,
            True,
            "at least 20 days (assumed: shipped 2026-11-05), limit",
        ),
        (
            "made",
            {"received": "2026-11-09"},
            16,
            True,
            "at least 16 days (assumed: received 2026-11-09), limit",
        ),
        (
            "shipped",
            {"made": "2026-11-01", "received": "2026-11-09"},
            24,
            False,
            "24 days (assumed: made 2026-11-01), limit",
        ),
        ("shipped", {"made": "2026-11-01", "shipped": "2026-11-05"}, 20, False, "20 days, limit"),
        (
            "received",
            {"made": "2026-11-01", "received": "2026-11-09"},
            16,
            False,
            "16 days, limit",
        ),
        (
            "made",
            {"received": "2026"},
            328,
            False,
            "10 months (assumed: received 2026), limit",
        ),
    ],
)
def test_shelf_age_starts_where_the_maker_counts_or_says_what_it_assumes(
    counted_from: str, dates: dict[str, str], days: int, *, at_least: bool, text: str
) -> None:
    """A later event than the maker's makes the age a lower bound; a partial date its oldest reading."""
    known = {"made": None} | {event: a_day(day) for event, day in dates.items()}

    judgement = a_judgement(a_storage(counted_from=CountedFrom(counted_from), **known))

    assert (judgement.shelf_days, judgement.shelf_is_at_least) == (days, at_least)
    assert the_reason("shelf", judgement).text.startswith(text)


def test_no_limit_and_no_date_are_unknown_not_fine() -> None:
    """A rule that cannot know says so, and does not make the verdict better or worse."""
    no_limit = a_judgement(a_storage(kind=Kind.LIQUID))
    no_date = a_judgement(a_storage(made=None))

    assert the_reason("shelf", no_limit) == Reason(
        rule="shelf", verdict=None, measured=177, unit="days", said="no limit entered"
    )
    assert the_reason("shelf", no_date).verdict is None
    assert the_reason("shelf", no_date).text == "no date known"
    assert (no_date.shelf_days, no_date.wound_days, no_date.due) == (None, None, None)
    assert no_limit.verdict is no_date.verdict is Verdict.USE


def test_a_date_after_today_counts_as_no_days() -> None:
    """As of a day before the piece was made."""
    judgement = a_judgement(a_storage(), date(2026, 5, 1))

    assert (judgement.shelf_days, judgement.wound_days) == (0, 0)


@pytest.mark.parametrize(
    ("today", "until", "verdict", "then"),
    [
        ("2026-12-01", "2027-07-10", Verdict.USE, ""),
        ("2027-01-05", "2027-07-10", Verdict.USE_FIRST, ": 5 days left"),
        (
            "2027-01-11",
            "2027-07-10",
            Verdict.USE_FIRST,
            ": adhesion trial passed, good until 2027-07-10",
        ),
        (
            "2027-07-10",
            "2027-07-10",
            Verdict.USE_FIRST,
            ": adhesion trial passed, good until 2027-07-10",
        ),
        (
            "2027-07-11",
            "2027-07-10",
            Verdict.STOP,
            ": passed adhesion trial held good until 2027-07-10",
        ),
        ("2027-01-11", "2026-12-24", Verdict.TEST, ": adhesion trial"),
    ],
)
def test_a_passed_trial_extends_the_limit_once_and_then_stops(
    today: str, until: str, verdict: Verdict, then: str
) -> None:
    """An extension that ended within the limit never was one."""
    storage = a_storage(
        made=a_day("2025-01-10"),
        shelf_limit=a_makers_limit(24),
        passed={"shelf": date.fromisoformat(until)},
    )

    judgement = a_judgement(storage, date.fromisoformat(today))
    reason = the_reason("shelf", judgement)

    assert judgement.verdict is verdict
    assert reason.text.endswith(f"(maker's sheet){then}")
    is_extended = "passed" in then
    assert reason.basis == (Basis.TRIAL if is_extended else Basis.MAKER)
    assert judgement.due == (date.fromisoformat(until) if is_extended else date(2027, 1, 10))


def test_a_trial_extends_only_its_own_rule() -> None:
    """A passed curl trial says nothing about the adhesive."""
    storage = a_storage(made=a_day("2024-01-10"), passed={"wound": date(2030, 1, 1)})

    assert a_judgement(storage).verdict is Verdict.TEST


def test_a_limit_of_months_and_days_is_said_in_both() -> None:
    """Odd limits are shown as they are."""
    storage = a_storage(made=a_day("2025-01-01"), shelf_limit=Limit(Span(12, 10), Basis.MAKER))

    assert (
        the_reason("shelf", a_judgement(storage)).text
        == "22 months, limit 12 months and 10 days (maker's sheet): adhesion trial"
    )
