"""How long what was mixed in the shop keeps: as its label says, and no trial helps."""

from datetime import date

import pytest

from stockroom.film.kinds import Kind
from stockroom.film.limits import House
from stockroom.film.verdict import Mix, Verdict
from tests.film.builders import a_day, a_judgement, a_storage, the_reason

MIXED = date(2026, 11, 20)


@pytest.mark.parametrize(
    ("today", "verdict", "text"),
    [
        ("2026-11-20", Verdict.USE, "mixed 0 days ago, keeps 7 (its label)"),
        ("2026-11-25", Verdict.USE, "mixed 5 days ago, keeps 7 (its label)"),
        ("2026-11-26", Verdict.USE_FIRST, "mixed 6 days ago, keeps 7 (its label): 1 day left"),
        ("2026-11-27", Verdict.USE_FIRST, "mixed 7 days ago, keeps 7 (its label): last day"),
        ("2026-11-28", Verdict.STOP, "mixed 8 days ago, keeps 7 (its label): mix it anew"),
    ],
)
def test_a_bottle_keeps_as_long_as_its_label_says(today: str, verdict: Verdict, text: str) -> None:
    """Near the end it is used first, past it it stops."""
    storage = a_storage(kind=Kind.LIQUID, made=None, mixed=Mix(MIXED, 7))

    judgement = a_judgement(storage, date.fromisoformat(today))

    reason = the_reason("mixed", judgement)
    assert (judgement.verdict, reason.text) == (verdict, text)
    assert judgement.due == date(2026, 11, 27)


def test_a_bottle_that_keeps_nobody_knows_how_long_says_so() -> None:
    """Unknown is no reason to use it, and none to stop it."""
    storage = a_storage(kind=Kind.LIQUID, made=None, mixed=Mix(MIXED, None))

    reason = the_reason("mixed", a_judgement(storage, date(2026, 12, 20)))

    assert (reason.verdict, reason.text, reason.due) == (None, "mixed 30 days ago", None)


def test_only_what_was_mixed_is_asked_when() -> None:
    """A bottle as it was bought has the limit of its maker, like film."""
    judgement = a_judgement(a_storage(kind=Kind.LIQUID, made=a_day("2026-01")))

    assert [reason.rule for reason in judgement.reasons] == ["held", "shelf"]


@pytest.mark.parametrize(
    ("one", "other", "agrees"),
    [
        (103, 100, True),
        (97, 100, True),
        (104, 100, False),
        (96, 100, False),
        (0, 0, True),
        (1, 0, False),
    ],
)
def test_a_count_agrees_within_the_tolerance(one: int, other: int, agrees: bool) -> None:  # noqa: FBT001
    """Three percent of the figure that is believed; the shop can say otherwise."""
    assert House().agrees(one, other) is agrees
    assert House().changed("count.tolerance-percent", "0").agrees(one, other) is (one == other)
