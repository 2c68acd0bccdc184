"""The rules by calendar, to the day, and the sentences they speak."""

from datetime import UTC, date, datetime, timedelta

import pytest

from stockroom.film.dates import Span
from stockroom.film.kinds import Ink, Kind
from stockroom.film.limits import Basis, CountedFrom, House, Limit
from stockroom.film.rules import judge
from stockroom.film.verdict import Print, Reason, Verdict, worst
from tests.film.builders import (
    TODAY,
    a_day,
    a_judgement,
    a_makers_limit,
    a_print,
    a_storage,
    the_reason,
)

USE, USE_FIRST, TEST, STOP, WAIT = (
    Verdict.USE,
    Verdict.USE_FIRST,
    Verdict.TEST,
    Verdict.STOP,
    Verdict.WAIT,
)


def test_a_sound_roll_is_to_be_used_and_each_rule_says_why() -> None:
    """The reasons stand in the order of the rules."""
    judgement = a_judgement(a_storage())

    assert judgement.verdict is USE
    assert [(one.rule, one.text) for one in judgement.reasons] == [
        ("held", "nothing held"),
        ("shelf", "5 months, limit 24 (default)"),
        ("wound", "no limit for unprinted film"),
    ]
    assert (judgement.shelf_days, judgement.wound_days) == (177, 177)
    assert judgement.due == date(2028, 6, 1)


def test_worst_is_the_worst_whatever_the_order_and_a_wait_alone_is_use() -> None:
    """Unknown verdicts do not count, and WAIT only stands beside."""
    assert worst([USE, TEST, None, USE_FIRST]) is TEST
    assert worst([STOP, USE]) is STOP
    assert worst([WAIT, USE]) is USE
    assert worst([WAIT, USE_FIRST]) is USE_FIRST
    assert worst([None]) is USE
    assert worst([]) is USE


# held


def test_held_beats_all() -> None:
    """A person's hold stops a piece that every other rule would pass."""
    judgement = a_judgement(a_storage(held="scratched by the van door"))

    assert judgement.verdict is STOP
    assert the_reason("held", judgement) == Reason(
        rule="held", verdict=STOP, text="held: scratched by the van door"
    )


# shelf


@pytest.mark.parametrize(
    ("today", "verdict", "text"),
    [
        ("2025-01-10", USE, "0 days, limit 24 months (maker's sheet)"),
        ("2025-01-11", USE, "1 day, limit 24 months (maker's sheet)"),
        ("2025-05-10", USE, "120 days, limit 24 months (maker's sheet)"),
        ("2025-05-11", USE, "4 months, limit 24 (maker's sheet)"),
        ("2026-12-11", USE, "23 months, limit 24 (maker's sheet)"),
        ("2026-12-12", USE_FIRST, "23 months, limit 24 (maker's sheet): 29 days left"),
        ("2027-01-09", USE_FIRST, "23 months, limit 24 (maker's sheet): 1 day left"),
        ("2027-01-10", USE_FIRST, "24 months, limit 24 (maker's sheet): last day"),
        ("2027-01-11", TEST, "24 months and 1 day, limit 24 (maker's sheet): adhesion trial"),
        ("2027-02-09", TEST, "24 months and 30 days, limit 24 (maker's sheet): adhesion trial"),
        ("2027-02-10", TEST, "25 months, limit 24 (maker's sheet): adhesion trial"),
        ("2036-01-10", TEST, "132 months, limit 24 (maker's sheet): adhesion trial"),
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
    ("day", "verdict"), [(48, USE), (49, USE_FIRST), (60, USE_FIRST), (61, TEST)]
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
        rule="shelf", verdict=None, measured=177, unit="days", text="no limit entered"
    )
    assert the_reason("shelf", no_date).verdict is None
    assert the_reason("shelf", no_date).text == "no date known"
    assert (no_date.shelf_days, no_date.wound_days, no_date.due) == (None, None, None)
    assert no_limit.verdict is no_date.verdict is USE


def test_a_date_after_today_counts_as_no_days() -> None:
    """As of a day before the piece was made."""
    judgement = a_judgement(a_storage(), date(2026, 5, 1))

    assert (judgement.shelf_days, judgement.wound_days) == (0, 0)


@pytest.mark.parametrize(
    ("today", "until", "verdict", "then"),
    [
        ("2026-12-01", "2027-07-10", USE, ""),
        ("2027-01-05", "2027-07-10", USE_FIRST, ": 5 days left"),
        ("2027-01-11", "2027-07-10", USE_FIRST, ": adhesion trial passed, good until 2027-07-10"),
        ("2027-07-10", "2027-07-10", USE_FIRST, ": adhesion trial passed, good until 2027-07-10"),
        ("2027-07-11", "2027-07-10", STOP, ": passed adhesion trial held good until 2027-07-10"),
        ("2027-01-11", "2026-12-24", TEST, ": adhesion trial"),
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

    assert a_judgement(storage).verdict is TEST


# wound


@pytest.mark.parametrize(
    ("printed", "verdict", "text"),
    [
        ("2026-09-14", USE, "72 days wound, limit 90 (default)"),
        ("2026-09-13", USE_FIRST, "73 days wound, limit 90 (default): 17 days left"),
        ("2026-08-27", USE_FIRST, "90 days wound, limit 90 (default): last day"),
        ("2026-08-26", TEST, "91 days wound, limit 90 (default): curl trial"),
        ("2026-05-25", TEST, "184 days wound, limit 90 (default): curl trial"),
    ],
)
def test_printed_film_may_be_wound_for_ninety_days(
    printed: str, verdict: Verdict, text: str
) -> None:
    """Common practice, no source; near for its last fifth."""
    storage = a_storage(
        kind=Kind.PRINT_VINYL, printed=a_print(printed), core_outside_mm=152.4, is_wound=True
    )

    judgement = a_judgement(storage)
    reason = the_reason("wound", judgement)

    assert (judgement.verdict, reason.text) == (verdict, text)
    assert judgement.due == date.fromisoformat(printed) + timedelta(days=90)


@pytest.mark.parametrize(
    ("winding", "limit"),
    [
        ({"core_outside_mm": 99.9}, 30),
        ({"core_outside_mm": 100.0}, 90),
        ({"core_outside_mm": None}, 90),
        ({"core_outside_mm": 160.0, "in_tube": True}, 30),
        ({"core_outside_mm": 82.0, "wound_limit": a_makers_limit(days=60)}, 60),
    ],
)
def test_a_tight_core_or_a_tube_has_the_shorter_limit_unless_the_maker_says_other(
    winding: dict[str, object], limit: int
) -> None:
    """Below 100 mm, or in a tube: 30 days by default."""
    storage = a_storage(kind=Kind.PRINT_VINYL, printed=a_print("2026-11-20"), **winding)

    assert the_reason("wound", a_judgement(storage)).limit == limit


def test_laminated_film_counts_from_its_own_winding() -> None:
    """Lamination sets the day from which the composite is wound."""
    storage = a_storage(
        kind=Kind.LAMINATE, laminated=True, wound_since=date(2026, 11, 5), core_outside_mm=150.0
    )

    reason = the_reason("wound", a_judgement(storage))

    assert (reason.measured, reason.limit, reason.verdict) == (20, 90, USE)


@pytest.mark.parametrize(
    ("kind", "limit", "text"),
    [
        (Kind.PRINT_VINYL, None, "no limit for unprinted film"),
        (Kind.PRINT_VINYL, a_makers_limit(days=30), "no limit for unprinted film"),
        (Kind.WINDOW_FILM, None, "no limit for unprinted film"),
        (Kind.WINDOW_FILM, a_makers_limit(days=30), "177 days wound, limit 30 (maker's sheet)"),
        (Kind.PROTECTIVE_FILM, a_makers_limit(12), "5 months wound, limit 12 (maker's sheet)"),
    ],
)
def test_unprinted_film_has_a_wound_limit_only_by_its_own_sheet(
    kind: Kind, limit: Limit | None, text: str
) -> None:
    """And blank print media never: its sheet speaks of prints."""
    reason = the_reason("wound", a_judgement(a_storage(kind=kind, wound_limit=limit)))

    assert reason.text.startswith(text)
    assert reason.measured == 177


def test_lying_flat_stops_wound_days_but_does_not_forget_them() -> None:
    """Seven weeks flat change nothing."""
    storage = a_storage(
        kind=Kind.PRINT_VINYL, printed=a_print("2026-09-01"), is_wound=False, wound_days_before=80
    )

    now, later = (a_judgement(storage, TODAY + timedelta(days=days)) for days in (0, 50))

    assert now.wound_days == later.wound_days == 80
    assert the_reason("wound", now) == the_reason("wound", later)
    assert the_reason("wound", now).verdict is USE_FIRST
    assert (
        the_reason("wound", now).text
        == "lies flat, 80 days wound, limit 90 (default): 10 days left"
    )
    assert the_reason("wound", now).due is None


def test_wound_again_the_days_go_on_from_where_they_stopped() -> None:
    """Rewinding resets nothing."""
    storage = a_storage(
        kind=Kind.PRINT_VINYL,
        printed=a_print("2026-01-01"),
        wound_days_before=80,
        wound_since=date(2026, 11, 20),
    )

    judgement = a_judgement(storage)

    assert judgement.wound_days == 85
    assert the_reason("wound", judgement).due == date(2026, 11, 30)


def test_a_flat_piece_of_unknown_age_is_measured_all_the_same() -> None:
    """A month counts as an ordinary one when no day is known."""
    storage = a_storage(
        made=None, is_wound=False, wound_days_before=40, wound_limit=a_makers_limit(1)
    )

    reason = the_reason("wound", a_judgement(storage))

    assert (reason.measured, reason.limit, reason.verdict) == (40, 31, TEST)


def test_wound_film_of_unknown_age_is_unknown_when_it_has_a_limit() -> None:
    """A lamination of which no day is known."""
    reason = the_reason("wound", a_judgement(a_storage(made=None, laminated=True)))

    assert (reason.verdict, reason.text) == (None, "no date known")


def test_a_passed_curl_trial_extends_the_wound_limit_of_a_flat_piece_too() -> None:
    """Until its day; then it stops."""
    storage = a_storage(
        kind=Kind.PRINT_VINYL,
        printed=a_print("2026-01-01"),
        is_wound=False,
        wound_days_before=100,
        passed={"wound": date(2026, 12, 1)},
    )

    assert a_judgement(storage, date(2026, 12, 1)).verdict is USE_FIRST
    assert a_judgement(storage, date(2026, 12, 2)).verdict is STOP


def test_counted_goods_are_not_wound() -> None:
    """A box of blades has no wound days."""
    judgement = a_judgement(a_storage(kind=Kind.BLADE, is_wound=False))

    assert judgement.wound_days is None
    assert [reason.rule for reason in judgement.reasons] == ["held", "shelf"]


# rest


@pytest.mark.parametrize(
    ("ink", "minutes", "wait_h", "text"),
    [
        (Ink.SOLVENT, 0, 24, "rests 24 h after solvent ink (default): 24 h to go"),
        (Ink.SOLVENT, 61, 24, "rests 24 h after solvent ink (default): 23 h to go"),
        (Ink.ECO_SOLVENT, 1439, 24, "rests 24 h after eco-solvent ink (default): 1 h to go"),
        (Ink.ECO_SOLVENT, 1440, None, "rests 24 h after eco-solvent ink (default)"),
        (Ink.UNKNOWN, 60, 24, "rests 24 h after unknown ink (default): 23 h to go"),
        (Ink.LATEX, 0, None, "latex ink needs no rest (default)"),
        (Ink.UV, 0, None, "uv ink needs no rest (default)"),
    ],
)
def test_a_print_rests_by_its_ink(ink: Ink, minutes: int, wait_h: int | None, text: str) -> None:
    """WAIT stands beside the verdict until the very minute."""
    done = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)
    storage = a_storage(
        kind=Kind.PRINT_VINYL, printed=Print(TODAY, done, ink), core_outside_mm=152.4
    )

    judgement = judge(storage, today=TODAY, moment=done + timedelta(minutes=minutes), house=House())
    reason = the_reason("rest", judgement)

    assert judgement.verdict is USE
    assert judgement.wait_until == (None if wait_h is None else done + timedelta(hours=wait_h))
    assert (reason.verdict, reason.text) == (USE if wait_h is None else WAIT, text)
    assert (reason.measured, reason.unit) == (minutes // 60, "hours")


def test_the_rest_is_the_houses_own_when_it_says_so() -> None:
    """Two days in a cold shop."""
    house = House().changed("rest.solvent", "48h")
    storage = a_storage(kind=Kind.PRINT_VINYL, printed=a_print("2026-11-24", Ink.SOLVENT))

    judgement = a_judgement(storage, house=house)

    assert judgement.wait_until == datetime(2026, 11, 26, 12, tzinfo=UTC)
    assert the_reason("rest", judgement).basis is Basis.HOUSE


def test_a_piece_that_waits_and_is_past_its_limit_says_both() -> None:
    """The verdict is the worst; the wait keeps its time."""
    storage = a_storage(
        kind=Kind.PRINT_VINYL,
        made=a_day("2023-01-01"),
        printed=a_print("2026-11-25", Ink.SOLVENT),
    )

    judgement = a_judgement(storage)

    assert judgement.verdict is TEST
    assert judgement.wait_until is not None


def test_a_limit_of_months_and_days_is_said_in_both() -> None:
    """Odd limits are shown as they are."""
    storage = a_storage(made=a_day("2025-01-01"), shelf_limit=Limit(Span(12, 10), Basis.MAKER))

    assert (
        the_reason("shelf", a_judgement(storage)).text
        == "22 months, limit 12 months and 10 days (maker's sheet): adhesion trial"
    )
