"""Valid pieces to judge, so that a test names only what it is about."""

from datetime import UTC, date, datetime, time
from typing import Any

from stockroom.film.dates import PartialDate, Span, parse_partial_date
from stockroom.film.kinds import Ink, Kind
from stockroom.film.limits import Basis, House, Limit
from stockroom.film.rules import judge
from stockroom.film.verdict import Judgement, Print, Reason, Storage

TODAY = date(2026, 11, 25)


def a_day(text: str) -> PartialDate:
    """A date known in full or in part."""
    return parse_partial_date(text)


def a_makers_limit(months: int = 0, days: int = 0) -> Limit:
    """A limit from the maker's sheet."""
    return Limit(Span(months, days), Basis.MAKER)


def a_print(day: str, ink: Ink = Ink.LATEX) -> Print:
    """A print begun and done on one day, by noon."""
    began = date.fromisoformat(day)
    return Print(began, datetime.combine(began, time(12), UTC), ink)


def a_storage(**changes: Any) -> Storage:
    """A roll of window film made a while ago, with nothing wrong."""
    defaults: dict[str, Any] = {"kind": Kind.WINDOW_FILM, "made": a_day("2026-06-01")}
    return Storage(**defaults | changes)


def a_judgement(storage: Storage, today: date = TODAY, house: House | None = None) -> Judgement:
    """What is said of a piece at noon of a day."""
    moment = datetime.combine(today, time(12), UTC)
    return judge(storage, today=today, moment=moment, house=house or House())


def the_reason(rule: str, judgement: Judgement) -> Reason:
    """What one rule found."""
    return next(reason for reason in judgement.reasons if reason.rule == rule)
