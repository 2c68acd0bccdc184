"""Wound days to the day: printed or not, tight or not, wound or flat."""

from datetime import date, timedelta

import pytest

from stockroom.film.kinds import Kind
from stockroom.film.limits import Limit
from stockroom.film.verdict import Verdict
from tests.film.builders import (
    TODAY,
    a_judgement,
    a_makers_limit,
    a_print,
    a_storage,
    the_reason,
)


@pytest.mark.parametrize(
    ("printed", "verdict", "text"),
    [
        ("2026-09-14", Verdict.USE, "72 days wound, limit 90 (default)"),
        ("2026-09-13", Verdict.USE_FIRST, "73 days wound, limit 90 (default): 17 days left"),
        ("2026-08-27", Verdict.USE_FIRST, "90 days wound, limit 90 (default): last day"),
        ("2026-08-26", Verdict.TEST, "91 days wound, limit 90 (default): curl trial"),
        ("2026-05-25", Verdict.TEST, "184 days wound, limit 90 (default): curl trial"),
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

    assert (reason.measured, reason.limit, reason.verdict) == (20, 90, Verdict.USE)


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
    assert the_reason("wound", now).verdict is Verdict.USE_FIRST
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

    assert (reason.measured, reason.limit, reason.verdict) == (40, 31, Verdict.TEST)


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

    assert a_judgement(storage, date(2026, 12, 1)).verdict is Verdict.USE_FIRST
    assert a_judgement(storage, date(2026, 12, 2)).verdict is Verdict.STOP


def test_counted_goods_are_not_wound() -> None:
    """A box of blades has no wound days."""
    judgement = a_judgement(a_storage(kind=Kind.BLADE, is_wound=False))

    assert judgement.wound_days is None
    assert [reason.rule for reason in judgement.reasons] == ["held", "shelf"]
