"""The climate of a zone: what is said of it now, and what it was from one instant to another.

zones(book)               ZoneNow of each zone, by name; measured_zones of those with a sensor
climate_of(book, zone)    ZoneClimate: points for a plot, and what they come to
"""

from array import array
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from math import fsum
from typing import NamedTuple

from stockroom.books.catalog import shop
from stockroom.books.climate import ZoneNow, zones_now
from stockroom.books.opening import Book
from stockroom.books.readings import zone_readings
from stockroom.books.sensors import second_of, sensor_entries, stands, zone_named
from stockroom.books.values import Reading, Shop
from stockroom.errors import Code, Refusal
from stockroom.film.climate import HOUR_S, Band, Climate, climate
from stockroom.film.course import Course, above, course
from stockroom.film.exposure import Exposure, history
from stockroom.film.limits import Air, Figure

LATELY = timedelta(days=7)
"""What is looked at where nobody says since when."""
_BY_THE_HOUR = timedelta(days=14)
_LONGEST = timedelta(days=366 * 5)
_HOUR, _DAY = timedelta(hours=1), timedelta(days=1)


class Extreme(NamedTuple):
    """A temperature that was read, and when."""

    at: datetime
    temperature_c: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One hour or one shop day of a zone; None where nothing was measured of it."""

    since: datetime
    until: datetime
    temperature: Climate | None
    humidity: Climate | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneClimate:
    """What a zone was like from one instant to another, as far as it was measured."""

    now: ZoneNow
    air: Air
    """What it should be."""
    since: datetime
    until: datetime
    points: tuple[Point, ...]
    temperature: Climate | None
    humidity: Climate | None
    hottest: Extreme | None
    coldest: Extreme | None
    hot_hours: float
    too_hot_hours: float
    exposure: Exposure
    mean_kinetic_c: float | None
    energy: Figure


def zones(book: Book, *, now: datetime) -> tuple[ZoneNow, ...]:
    """Every zone a place or a sensor was ever put in, by name."""
    with book.reading() as connection:
        known = zones_now(connection, now)
    return tuple(known[key] for key in sorted(known))


def measured_zones(book: Book, *, now: datetime) -> tuple[ZoneNow, ...]:
    """The zones a sensor speaks for now, by name; a book without sensors is asked for nothing else."""
    with book.reading() as connection:
        known = zones_now(connection, now) if sensor_entries(connection) else {}
    return tuple(known[key] for key in sorted(known) if known[key].sensor is not None)


def climate_of(
    book: Book,
    zone: str,
    *,
    now: datetime,
    since: datetime | None = None,
    until: datetime | None = None,
    hourly: bool | None = None,
) -> ZoneClimate:
    """What a zone was like since an instant, else the last week; hour by hour, or by the shop day.

    By the hour for two weeks at most where nothing is said.
    """
    until = min(until or now, now)
    since = until - LATELY if since is None else since
    _refuse_wrong(since, until)
    by_the_hour = until - since <= _BY_THE_HOUR if hourly is None else hourly
    with book.reading() as connection:
        shared = shop(connection, now)
        key = zone_named(connection, zone)
        about = zones_now(connection, now)[key]
        gap_s = shared.house.air.gap_s
        those = stands(sensor_entries(connection)).get(key, ())
        found = zone_readings(
            connection, those, second_of(since) - gap_s, second_of(until) + gap_s + 1
        )
        warmth, damp = _courses(found, gap_s)
        cuts = list(_cuts(shared, since, until, by_the_hour=by_the_hour))
    return _summed(shared, about, cuts, warmth, damp)


def _refuse_wrong(since: datetime, until: datetime) -> None:
    if since >= until:
        raise Refusal(Code.FUTURE, "A climate is looked back on: give an instant that has been.")
    if until - since > _LONGEST:
        raise Refusal(Code.BAD_DATE, "A climate is shown for at most five years: begin later.")


def _courses(found: Iterable[Sequence[Reading]], gap_s: int) -> tuple[Course, Course]:
    """Temperature and humidity; some thousand readings are held as readings at once, and no more."""
    at_s, celsius = array("q"), array("d")
    damp_at_s, percent = array("q"), array("d")
    for part in found:
        at_s.extend(one.at_s for one in part)
        celsius.extend(one.temperature_c for one in part)
        damp = [(one.at_s, one.rh_pct) for one in part if one.rh_pct is not None]
        damp_at_s.extend(at for at, _ in damp)
        percent.extend(rh_pct for _, rh_pct in damp)
    return (
        course(at_s, celsius, longest_gap_s=gap_s),
        course(damp_at_s, percent, longest_gap_s=gap_s),
    )


def _summed(
    shared: Shop, about: ZoneNow, cuts: Sequence[datetime], warmth: Course, damp: Course
) -> ZoneClimate:
    """The points of a zone from each cut to the next, and what they come to."""
    since, until = cuts[0], cuts[-1]
    house = shared.house
    energy = house.energy()
    points = tuple(_points(house.air, cuts, warmth, damp))
    ageing = history(
        warmth.at_s, warmth.levels, energy_kj=energy.value, longest_gap_s=warmth.longest_gap_s
    )
    since_s, until_s = second_of(since), second_of(until)
    exposure = ageing.between(since_s, until_s, about.assumed_c.value)
    warm = [
        one for one in zip(warmth.levels, warmth.at_s, strict=True) if since_s <= one[1] <= until_s
    ]
    return ZoneClimate(
        now=about,
        air=house.air,
        since=since,
        until=until,
        points=points,
        temperature=_total([point.temperature for point in points]),
        humidity=_total([point.humidity for point in points]),
        hottest=_extreme(max(warm, key=lambda one: (one[0], -one[1]), default=None)),
        coldest=_extreme(min(warm, default=None)),
        hot_hours=_hours_above(house.air.hot_c, warmth, since_s, until_s),
        too_hot_hours=_hours_above(house.air.too_hot_c, warmth, since_s, until_s),
        exposure=exposure,
        mean_kinetic_c=ageing.mean_kinetic_c(exposure),
        energy=energy,
    )


def _hours_above(limit_c: float, warmth: Course, since_s: int, until_s: int) -> float:
    over = course(warmth.at_s, warmth.levels, above(limit_c), warmth.longest_gap_s)
    return over.between(since_s, until_s).amount / HOUR_S


def _points(air: Air, cuts: Sequence[datetime], warmth: Course, damp: Course) -> Iterator[Point]:
    for since, until in pairwise(cuts):
        ends = (second_of(since), second_of(until))
        yield Point(
            since=since,
            until=until,
            temperature=climate(warmth, *ends, Band(air.cold_c, air.hot_c)),
            humidity=climate(damp, *ends, Band(air.rh_low_pct, air.rh_high_pct)),
        )


def _cuts(
    shared: Shop, since: datetime, until: datetime, *, by_the_hour: bool
) -> Iterator[datetime]:
    """The ends of a stretch, and the full hours between them, or the beginnings of shop days."""
    yield since
    if by_the_hour:
        cut = since.astimezone(UTC).replace(minute=0, second=0, microsecond=0) + _HOUR
        while cut < until:
            yield cut
            cut += _HOUR
    else:
        day = shared.day_of(since) + _DAY
        while (cut := shared.begin_of(day).astimezone(UTC)) < until:
            yield cut
            day += _DAY
    yield until


def _total(points: Iterable[Climate | None]) -> Climate | None:
    """What points that follow each other come to; None where nothing was measured of any."""
    known = [point for point in points if point is not None]
    if not known:
        return None
    hours = fsum(point.hours_measured for point in known)
    means = [(point.mean, point.hours_measured) for point in known if point.mean is not None]
    return Climate(
        mean=fsum(mean * share for mean, share in means) / hours if hours else None,
        lowest=min(point.lowest for point in known),
        highest=max(point.highest for point in known),
        hours_outside=fsum(point.hours_outside for point in known),
        hours_measured=hours,
    )


def _extreme(found: tuple[float, int] | None) -> Extreme | None:
    return None if found is None else Extreme(datetime.fromtimestamp(found[1], UTC), found[0])
