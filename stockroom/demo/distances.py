"""Days and ages of the invented shop, written as distances from the day it is shown.

day_of        -62, +4 working days, yesterday, friday
date_before   97d, 25mo, 24mo less 12d, 13mo (month), 26mo (year)
"""

import re
from datetime import date, timedelta

from dateutil.relativedelta import relativedelta

from stockroom.film.dates import Span, parse_span

_DAY = timedelta(days=1)
_FRIDAY, _SATURDAY = 4, 5
_AGE = re.compile(r"(?P<age>\w+)(?: less (?P<less>\w+))?(?: \((?P<known>month|year)\))?")
_KNOWN = {"year": len("2025"), "month": len("2025-03"), None: len("2025-03-14")}


def day_of(text: str, today: date) -> date:
    """The day that lies so far from today."""
    if text == "yesterday":
        return today - _DAY
    if text == "friday":
        return today + _DAY * ((_FRIDAY - today.weekday()) % 7)
    day, left = today, int(text)
    step = _DAY if left > 0 else -_DAY
    while left:
        day += step
        if day.weekday() < _SATURDAY:
            left -= step.days
    return day


def date_before(text: str, today: date) -> str:
    """The date so long before today, as far as it is known."""
    written = _AGE.fullmatch(text)
    if written is None:
        raise ValueError(f"{text!r} is no age")
    start = today if written["less"] is None else _moved(today, parse_span(written["less"]), 1)
    return _moved(start, parse_span(written["age"]), -1).isoformat()[: _KNOWN[written["known"]]]


def _moved(day: date, span: Span, sign: int) -> date:
    return day + relativedelta(months=sign * span.months, days=sign * span.days)
