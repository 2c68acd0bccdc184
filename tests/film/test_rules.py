"""What the rules have in common: the worst counts, a hold beats all."""

from datetime import date

from stockroom.film.verdict import Reason, Verdict, worst
from tests.film.builders import (
    a_judgement,
    a_storage,
    the_reason,
)


def test_a_sound_roll_is_to_be_used_and_each_rule_says_why() -> None:
    """The reasons stand in the order of the rules."""
    judgement = a_judgement(a_storage())

    assert judgement.verdict is Verdict.USE
    assert [(one.rule, one.text) for one in judgement.reasons] == [
        ("held", "nothing held"),
        ("shelf", "5 months, limit 24 (default)"),
        ("wound", "no limit for unprinted film"),
    ]
    assert (judgement.shelf_days, judgement.wound_days) == (177, 177)
    assert judgement.due == date(2028, 6, 1)


def test_worst_is_the_worst_whatever_the_order_and_a_wait_alone_is_use() -> None:
    """Unknown verdicts do not count, and WAIT only stands beside."""
    assert worst([Verdict.USE, Verdict.TEST, None, Verdict.USE_FIRST]) is Verdict.TEST
    assert worst([Verdict.STOP, Verdict.USE]) is Verdict.STOP
    assert worst([Verdict.WAIT, Verdict.USE]) is Verdict.USE
    assert worst([Verdict.WAIT, Verdict.USE_FIRST]) is Verdict.USE_FIRST
    assert worst([None]) is Verdict.USE
    assert worst([]) is Verdict.USE


def test_held_beats_all() -> None:
    """A person's hold stops a piece that every other rule would pass."""
    judgement = a_judgement(a_storage(held="scratched by the van door"))

    assert judgement.verdict is Verdict.STOP
    assert the_reason("held", judgement) == Reason(
        rule="held", verdict=Verdict.STOP, said="held: scratched by the van door"
    )
