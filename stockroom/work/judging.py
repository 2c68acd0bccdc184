"""From what the books know of a piece to what the rules say of it."""

import gc
from collections.abc import Callable, Generator, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime
from functools import lru_cache
from types import MappingProxyType

from stockroom.books.fold import State
from stockroom.books.values import Material, Shop, Standing
from stockroom.film.dates import PartialDate, parse_partial_date
from stockroom.film.kinds import Ink, Kind
from stockroom.film.limits import CountedFrom
from stockroom.film.rules import age_of, judge
from stockroom.film.sentences import Age
from stockroom.film.verdict import Curl, Judgement, Mix, Print, Storage
from stockroom.units import MM
from stockroom.work.windings import core_outside_nm, outside_nm

_NOTHING_PASSED: Mapping[str, date] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Judged:
    """A piece where it stands, and what is to be done with it."""

    standing: Standing
    judgement: Judgement

    @property
    def code(self) -> str:
        """The piece's own code."""
        return self.standing.code


@dataclass(frozen=True, slots=True)
class View:
    """The day a report speaks of: its instant, its shop day, and whether it is now or later."""

    shop: Shop
    moment: datetime
    today: date
    is_past: bool


def view(shop: Shop, *, now: datetime, today: date | None) -> View:
    """The view of a day: now for the day that is running, the end of any other day."""
    running = shop.day_of(now)
    if today is None or today == running:
        return View(shop, now, running, is_past=False)
    return View(shop, shop.end_of(today), today, is_past=today < running)


@contextmanager
def only_making() -> Generator[None, None, None]:
    """While a report makes values by the hundred thousand, nobody looks through them for cycles.

    They have none, and looking again and again takes a third of the time. Afterwards they count as
    old, which is what thawing makes of them: else all of them would be looked through at once.
    """
    was_looking = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_looking:
            gc.freeze()
            gc.unfreeze()
            gc.enable()


def judged(
    standings: Iterable[Standing], seen: View, storage: Callable[[Standing], Storage]
) -> Iterator[Judged]:
    """Each piece with its verdict on the day of the view, by what storage did to it."""
    for standing in standings:
        yield Judged(
            standing,
            judge(storage(standing), today=seen.today, moment=seen.moment, house=seen.shop.house),
        )


def shelf_age_of(state: State, material: Material, today: date) -> Age | None:
    """The shelf age of one piece."""
    return _aged(state.made, state.shipped, state.received, material.counted_from, today)


@lru_cache(maxsize=20_000)
def _aged(
    made: str | None, shipped: str | None, received: str | None, counted_from: str, today: date
) -> Age | None:
    """The same, by its dates as they are written down; kept, for pieces come in by the pallet."""
    dates = _date(made), _date(shipped), _date(received)
    return age_of(dates, CountedFrom(counted_from), today)


def storage_of(state: State, material: Material, *, curl: Curl | None = None) -> Storage:
    """What the rules read of one piece."""
    core_nm = core_outside_nm(state)
    made, shipped, received = _dates(state)
    return Storage(
        kind=material.kind,
        counted_from=CountedFrom(material.counted_from),
        made=made,
        shipped=shipped,
        received=received,
        printed=_print(state),
        mixed=_mix(state, material.kind),
        laminated=state.is_laminated,
        is_wound=state.is_wound,
        in_tube=state.in_tube,
        core_outside_mm=None if core_nm is None else core_nm / MM,
        wound_since=date.fromisoformat(state.wound_since) if state.wound_since else None,
        wound_days_before=state.wound_days_before,
        held=state.held,
        shelf_limit=material.limits.get("shelf"),
        wound_limit=material.limits.get("wound"),
        passed=_passed(state),
        curl=curl,
    )


def _passed(state: State) -> Mapping[str, date]:
    """To when passed trials extend a rule; a curl trial only for the wraps outside of its own."""
    if state.shelf_passed is None and state.wound_passed is None:
        return _NOTHING_PASSED
    passed = {"shelf": state.shelf_passed, "wound": state.wound_passed}
    if state.curl_at_nm is not None and (outside_nm(state) or 0) < state.curl_at_nm:
        passed["wound"] = None
    return {rule: date.fromisoformat(until) for rule, until in passed.items() if until is not None}


def _print(state: State) -> Print | None:
    if state.printed is None or state.printed_by is None:
        return None
    began = parse_partial_date(state.printed).first
    return Print(began, datetime.fromisoformat(state.printed_by), Ink(state.ink or Ink.UNKNOWN))


def _mix(state: State, kind: Kind) -> Mix | None:
    if state.mixed is not None:
        return Mix(date.fromisoformat(state.mixed), state.keeps_days)
    if state.begun is not None and kind is Kind.LIQUID:
        return Mix(date.fromisoformat(state.begun), state.keeps_days, event="opened")
    return None


def _dates(state: State) -> tuple[PartialDate | None, ...]:
    return _date(state.made), _date(state.shipped), _date(state.received)


def _date(text: str | None) -> PartialDate | None:
    return None if text is None else _parsed(text)


@lru_cache(maxsize=10_000)
def _parsed(text: str) -> PartialDate:
    return parse_partial_date(text)
