"""The rules that judge a piece, each a short function, and the worst of what they find.

judge(storage, today=…, moment=…, house=…)   Judgement
shelf_age, wound_age                         how old a piece is by the calendar, and since when
  held                 held by a person: STOP
  shelf                age of adhesive and film, against an adhesion trial
  wound                days wound since printing, against a curl trial
  rest                 hours since printing: WAIT
  mixed, opened        days since a bottle was mixed or opened, against how long that keeps
  heat                 the limits of shelf and winding in days at 23 °C
  climate, memory, warm-up   in stockroom.film.rules_kept
"""

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from functools import lru_cache
from math import ceil

from stockroom.film.dates import PartialDate, whole_months
from stockroom.film.limits import Basis, CountedFrom, House, Limit, Near
from stockroom.film.rules_kept import HEAT, NOT_MEASURED, climate, memory, warm_up, warmed
from stockroom.film.sentences import Age, Compared, counted
from stockroom.film.verdict import Judgement, Mix, Print, Reason, Storage, Verdict, worst

ON_THE_BOTTLE = "its label"
_PAST_ITS_LABEL = {"mixed": ": mix it anew", "opened": ": open another"}
_TRIALS = {"shelf": "adhesion trial", "wound": "curl trial"}
_EVENTS = tuple(CountedFrom)
_HOUR = timedelta(hours=1)
_ORDINARY_DAY = date(2001, 1, 1)  # months are counted from here when no day is known


def _days(age: Age | None) -> int | None:
    return None if age is None else age.days


def judge(storage: Storage, *, today: date, moment: datetime, house: House) -> Judgement:
    """What is to be done with a piece on a shop day, and why.

    The verdict is the worst of the rules that know; `moment` decides only whether a print rests.
    """
    on_shelf = shelf_age(storage, today)
    wound = wound_age(storage, on_shelf, today) if storage.kind.comes_in_rolls else None
    reasons = [_held(storage.held), _shelf(storage, on_shelf, today, house)]
    if storage.kind.comes_in_rolls:
        reasons.append(_wound(storage, wound, today, house))
        if storage.shelf_heat or storage.wound_heat:
            reasons.append(_heat(storage, (on_shelf, wound), today, house))
    reasons += _kept(storage, today, house)
    if storage.mixed is not None:
        reasons.append(_mixed(storage.mixed, today, house))
    wait_until = None
    if storage.printed is not None or storage.warm_up is not None:
        waits = list(_waits(storage, moment, house))
        reasons += [reason for reason, _ in waits]
        wait_until = max([ready for _, ready in waits if ready is not None], default=None)
    return Judgement(
        verdict=worst([reason.verdict for reason in reasons]),
        wait_until=wait_until,
        reasons=tuple(reasons),
        shelf_days=_days(on_shelf),
        shelf_is_at_least=on_shelf is not None and bool(on_shelf.lead),
        wound_days=_days(wound),
        due=min([reason.due for reason in reasons if reason.due is not None], default=None),
    )


def _kept(storage: Storage, today: date, house: House) -> Iterator[Reason]:
    """What air and winding did to film."""
    if storage.air is not None:
        yield climate(storage.kind, storage.air, house)
    if storage.curl is not None:
        yield memory(storage, today)


def _waits(
    storage: Storage, moment: datetime, house: House
) -> Iterator[tuple[Reason, datetime | None]]:
    """The rules that ask for time, and until when, if it comes to that."""
    if storage.printed is not None:
        yield _rest(storage.printed, moment, house)
    if storage.warm_up is not None:
        reason = warm_up(storage.warm_up, moment)
        yield reason, storage.warm_up.ready if reason.verdict is Verdict.WAIT else None


def _heat(
    storage: Storage, ages: tuple[Age | None, Age | None], today: date, house: House
) -> Reason:
    """The limits of shelf and winding in days at 23 °C: the one that asks for more."""
    on_shelf, wound = ages
    found: list[Reason] = []
    if on_shelf is not None and storage.shelf_heat and storage.shelf_heat.coverage:
        found.append(_shelf(storage, warmed(on_shelf, storage.shelf_heat), today, house))
    if wound is not None and storage.wound_heat and storage.wound_heat.coverage:
        found.append(_wound(storage, warmed(wound, storage.wound_heat), today, house))
    if not found:
        return NOT_MEASURED
    asked = worst([reason.verdict for reason in found])
    reason = next((one for one in found if one.verdict is asked), found[0])
    return reason._replace(rule=HEAT)


_NOTHING_HELD = Reason(rule="held", verdict=Verdict.USE, said="nothing held")


def _held(why: str | None) -> Reason:
    if why is None:
        return _NOTHING_HELD
    return Reason(rule="held", verdict=Verdict.STOP, said=f"held: {why}")


def shelf_age(storage: Storage, today: date) -> Age | None:
    """Age since the event the maker counts from, else since the first one known.

    A partial date counts from its first day. The age is "at least" so much when only a later event
    than the maker's is known.
    """
    dates = (storage.made, storage.shipped, storage.received)
    return age_of(dates, storage.counted_from, today)


@lru_cache(maxsize=20_000)
def age_of(
    dates: tuple[PartialDate | None, ...], counted_from: CountedFrom, today: date
) -> Age | None:
    """The same of the days it was made, shipped and received; kept, for pieces come in by the pallet."""
    wanted = _EVENTS.index(counted_from)
    for place in (wanted, 0, 1, 2):
        known = dates[place]
        if known is None:
            continue
        start, is_exact = known.first, known.is_exact
        is_assumed = place != wanted or not is_exact
        return Age(
            days=max(0, (today - start).days),
            anchor=start,
            lead="at least " if place > wanted and is_exact else "",
            event=_EVENTS[place],
            known=known if is_assumed else None,
        )
    return None


def _shelf(storage: Storage, age: Age | None, today: date, house: House) -> Reason:
    limit = storage.shelf_limit or house.shelf(storage.kind)
    if age is None or limit is None:
        text = "no limit entered" if limit is None else "no date known"
        return Reason(rule="shelf", verdict=None, measured=_days(age), unit="days", said=text)
    return _compare("shelf", age, limit, storage.passed.get("shelf"), today, house)


def wound_age(storage: Storage, on_shelf: Age | None, today: date) -> Age | None:
    """Days wound since printing or lamination, else since made; lying flat only stops them."""
    before = storage.wound_days_before
    since = storage.wound_since
    if since is None and storage.printed is not None:
        since = storage.printed.began
    if since is None and on_shelf is not None:
        since = on_shelf.anchor
    if not storage.is_wound:
        lead = "lies flat, "
        return Age(before, since or _ORDINARY_DAY, lead, " wound", grows=False)
    if since is None:
        return None
    days = before + max(0, (today - since).days)
    return Age(days, since - timedelta(days=before), tail=" wound")


def _wound(storage: Storage, age: Age | None, today: date, house: House) -> Reason:
    limit = storage.wound_limit
    is_treated = storage.printed is not None or storage.laminated
    if not is_treated and (limit is None or storage.kind.is_printed_on):
        return _never_past(_days(age))
    if age is None:
        return Reason(rule="wound", verdict=None, unit="days", said="no date known")
    limit = limit or house.wound(tight=_is_tight(storage, house))
    return _compare("wound", age, limit, storage.passed.get("wound"), today, house)


@lru_cache(maxsize=10_000)
def _never_past(days: int | None) -> Reason:
    """What is found of most pieces; one value serves all of an age."""
    said = "no limit for unprinted film"
    return Reason(rule="wound", verdict=Verdict.USE, measured=days, unit="days", said=said)


def _is_tight(storage: Storage, house: House) -> bool:
    core = storage.core_outside_mm
    return storage.in_tube or (core is not None and core < house.tight_below_mm)


def _rest(printed: Print, moment: datetime, house: House) -> tuple[Reason, datetime | None]:
    """What the rule finds, and until when to wait, if it comes to that."""
    hours, basis = house.rest_hours(printed.ink)
    ready = printed.done_by + hours * _HOUR
    is_waiting = moment < ready
    need = (
        f"rests {hours} h after {printed.ink} ink ({basis})"
        if hours
        else f"{printed.ink} ink needs no rest ({basis})"
    )
    left = f": {ceil((ready - moment) / _HOUR)} h to go" if is_waiting else ""
    reason = Reason(
        rule="rest",
        verdict=Verdict.WAIT if is_waiting else Verdict.USE,
        measured=max(0, (moment - printed.done_by) // _HOUR),
        limit=hours,
        unit="hours",
        basis=basis,
        said=need + left,
    )
    return reason, ready if is_waiting else None


def _mixed(mixed: Mix, today: date, house: House) -> Reason:
    """What is in the bottle keeps so long from then on; past that no trial helps."""
    days = max(0, (today - mixed.day).days)
    old = f"{mixed.event} {counted(days, 'day')} ago"
    if mixed.keeps_days is None:
        return Reason(rule=mixed.event, verdict=None, measured=days, unit="days", said=old)
    left = mixed.keeps_days - days
    verdict, then = Verdict.USE, ""
    if left < 0:
        verdict, then = Verdict.STOP, _PAST_ITS_LABEL[mixed.event]
    elif left <= house.near_days(mixed.keeps_days):
        verdict, then = Verdict.USE_FIRST, f": {_left(left)}"
    return Reason(
        rule=mixed.event,
        verdict=verdict,
        measured=days,
        limit=mixed.keeps_days,
        unit="days",
        basis=ON_THE_BOTTLE,
        said=f"{old}, keeps {mixed.keeps_days} ({ON_THE_BOTTLE}){then}",
        due=mixed.day + timedelta(days=mixed.keeps_days),
    )


def _left(days: int) -> str:
    return f"{counted(days, 'day')} left" if days else "last day"


def _compare(
    rule: str, age: Age, limit: Limit, until: date | None, today: date, house: House
) -> Reason:
    """An age against its limit, and against the day to which a passed trial extended it."""
    return _compared(rule, age, limit, until, (today, house.near))


@lru_cache(maxsize=20_000)
def _compared(
    rule: str, age: Age, limit: Limit, until: date | None, on: tuple[date, Near]
) -> Reason:
    """The same, kept: what came in on one day is judged alike."""
    today, near = on
    end = limit.span.after(age.anchor)
    limit_days = (end - age.anchor).days
    left = limit_days - age.days
    due = end if age.grows else None
    basis = limit.basis
    if left >= near.of(limit_days):
        verdict, then = Verdict.USE, ""
    elif left >= 0:
        verdict, then = Verdict.USE_FIRST, f": {_left(left)}"
    elif until is None or (due is not None and until <= due):
        verdict, then = Verdict.TEST, f": {_TRIALS[rule]}"
    elif today <= until:
        verdict, due, basis = Verdict.USE_FIRST, until, Basis.TRIAL
        then = f": {_TRIALS[rule]} passed, good until {until}"
    else:
        verdict, due, basis = Verdict.STOP, until, Basis.TRIAL
        then = f": passed {_TRIALS[rule]} held good until {until}"
    months = whole_months(today - timedelta(days=age.days), today)
    return Reason(
        rule=rule,
        verdict=verdict,
        measured=age.days,
        limit=limit_days,
        unit="days",
        basis=basis,
        said=Compared(age=age, months=months, limit=limit, left=left, then=then),
        due=due,
    )
