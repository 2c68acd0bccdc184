"""How long a print rests, and until when to wait."""

from datetime import UTC, datetime, timedelta

import pytest

from stockroom.film.kinds import Ink, Kind
from stockroom.film.limits import Basis, House
from stockroom.film.rules import judge
from stockroom.film.verdict import Print, Verdict
from tests.film.builders import (
    TODAY,
    a_day,
    a_judgement,
    a_print,
    a_storage,
    the_reason,
)


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

    assert judgement.verdict is Verdict.USE
    assert judgement.wait_until == (None if wait_h is None else done + timedelta(hours=wait_h))
    assert (reason.verdict, reason.text) == (Verdict.USE if wait_h is None else Verdict.WAIT, text)
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

    assert judgement.verdict is Verdict.TEST
    assert judgement.wait_until is not None
