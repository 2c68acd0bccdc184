"""Days as loggers write them, and the order of their numbers.

Order              day, month and year in which order
read_day(text)     the day a text names in an order; ValueError where it names none
order_of(texts)    Decided: the order of the days of one file, and what shows it
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import Enum, StrEnum
from itertools import pairwise

DAY = (
    r"(?:\d{4}[-/.]\s?\d{1,2}[-/.]\s?\d{1,2}\.?|\d{1,2}[-/.]\s?\d{1,2}[-/.]\s?\d{2,4}\.?"
    r"|(?:19|20)\d\d(?:0[1-9]|1[0-2])[0-3]\d)"
)
"""What a day looks like; no groups."""

_APART = re.compile(r"(\d{1,4})[-/.]\s?(\d{1,2})[-/.]\s?(\d{1,4})\.?", re.ASCII)
_COMPACT = re.compile(r"(\d{4})(\d{2})(\d{2})", re.ASCII)
_DIGITS_OF_A_YEAR = 4
_CENTURY = 2_000


class Order(StrEnum):
    """In which order the numbers of a day stand."""

    DMY = "dmy"
    MDY = "mdy"
    YMD = "ymd"


class Shown(Enum):
    """What an order rests on."""

    TOLD = "told"
    YEAR_FIRST = "year first"
    ONLY_SO = "only so"
    IN_A_ROW = "in a row"
    ASSUMED = "assumed"


@dataclass(frozen=True, slots=True)
class Decided:
    """An order, what shows it, and a day of the file that does."""

    order: Order
    shown: Shown
    example: str


def read_day(text: str, order: Order) -> date:
    """The day a text names; four digits in front are a year in every order."""
    found = _APART.fullmatch(text) or _COMPACT.fullmatch(text)
    if found is None:
        raise ValueError(text)
    first, second, third = found.groups()
    if len(first) == _DIGITS_OF_A_YEAR or order is Order.YMD:
        return date(_year(first), int(second), int(third))
    if order is Order.DMY:
        return date(_year(third), int(second), int(first))
    return date(_year(third), int(first), int(second))


def _year(digits: str) -> int:
    return int(digits) if len(digits) == _DIGITS_OF_A_YEAR else _CENTURY + int(digits)


def order_of(texts: Iterable[str], latest: date, *, told: Order | None, usual: Order) -> Decided:
    """The order in which most days of a file are days, follow one another, or are assumed.

    `latest` is the last day a reading can have been taken on; `usual` is assumed where nothing
    shows the order. There is at least one text; all are looked at only where they are needed.
    """
    left = iter(texts)
    first = next(left)
    if told is not None:
        return Decided(told, Shown.TOLD, first)
    if first[:_DIGITS_OF_A_YEAR].isdigit():
        return Decided(Order.YMD, Shown.YEAR_FIRST, first)
    days = list(dict.fromkeys((first, *left)))
    read = {order: [_maybe(text, order, latest) for text in days] for order in _orders(days[0])}
    most = max(sum(day is not None for day in found) for found in read.values())
    best = [o for o, found in read.items() if sum(day is not None for day in found) == most]
    if len({tuple(read[order]) for order in best}) == 1:
        return Decided(best[0], Shown.ONLY_SO, _example(days, read, best[0]))
    following = [order for order in best if _follow(read[order])]
    if len(following) == 1:
        return Decided(following[0], Shown.IN_A_ROW, days[0])
    return Decided(usual if usual in best else best[0], Shown.ASSUMED, days[0])


def _orders(text: str) -> tuple[Order, ...]:
    """The orders a day can stand in; a year of four digits is never in front here."""
    found = _APART.fullmatch(text)
    has_long_year = found is not None and len(found[3]) == _DIGITS_OF_A_YEAR
    return (Order.DMY, Order.MDY) if has_long_year else tuple(Order)


def _maybe(text: str, order: Order, latest: date) -> date | None:
    try:
        day = read_day(text, order)
    except ValueError:
        return None
    return day if day <= latest else None


def _follow(days: Sequence[date | None]) -> bool:
    """Whether days of a file follow one another."""
    one = timedelta(days=1)
    known = [day for day in days if day is not None]
    return any(abs(after - before) == one for before, after in pairwise(known))


def _example(days: Sequence[str], read: dict[Order, list[date | None]], order: Order) -> str:
    """The first day that can be read in that order alone, or else the first of all."""
    others = [found for one, found in read.items() if one is not order]
    alone = (
        text
        for place, text in enumerate(days)
        if read[order][place] is not None and all(found[place] is None for found in others)
    )
    return next(alone, days[0])
