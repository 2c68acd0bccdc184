"""A zone as a plot shows it: the levels of so many steps up to now, and what they come to.

plot_of(book, zone, …)   ZonePlot

The database thins the readings out, and what they come to is summed from stored parts, so that a
year of readings a minute apart costs little more than a day of them.
"""

from array import array
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from math import ceil
from typing import NamedTuple

from stockroom.books.catalog import name_key, places, shop
from stockroom.books.climate import ZoneNow, zones_now
from stockroom.books.course import Courses
from stockroom.books.opening import Book
from stockroom.books.pieces import film_at
from stockroom.books.readings import zone_readings
from stockroom.books.sensors import second_of, sensor_entries, stands, zone_named
from stockroom.books.thinned import Step, second_at, zone_steps
from stockroom.books.values import Reading
from stockroom.film.climate import HOUR_S
from stockroom.film.course import below, course
from stockroom.film.exposure import Exposure
from stockroom.film.limits import Air, Figure
from stockroom.film.sums import Quantity, hotter_than, outside_of
from stockroom.work.climate import Extreme


class Level(NamedTuple):
    """The lowest, mean and highest reading of one step."""

    lowest: float
    mean: float
    highest: float


Levels = tuple[Level | None, ...]
"""One for each step; None where nothing was read, nor on both sides of it within the longest gap."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ZonePlot:
    """What a zone was like up to now, thinned out; hours and exposure are of all its readings."""

    now: ZoneNow
    air: Air
    """What it should be."""
    since: datetime
    until: datetime
    warmth: Levels
    damp: Levels
    hottest: Extreme | None
    coldest: Extreme | None
    hot_hours: float
    too_hot_hours: float
    cold_hours: float
    dry_or_damp_hours: float
    humid_hours_measured: float
    exposure: Exposure
    mean_kinetic_c: float | None
    energy: Figure
    pieces: int
    """Film that stands there now."""


def plot_of(book: Book, zone: str, *, now: datetime, span: timedelta, steps: int) -> ZonePlot:
    """A zone over a span that ends now, in so many steps of the same length; of seconds, at least one."""
    until_s = second_of(now)
    step_s = max(1, round(span.total_seconds() / steps))
    stretch = range(until_s + 1 - step_s * steps, until_s + 1, step_s)
    with book.reading() as connection:
        shared = shop(connection, now)
        air, energy = shared.house.air, shared.house.energy()
        key = zone_named(connection, zone)
        those = stands(sensor_entries(connection)).get(key, ())
        # What was read shortly before tells where the line comes from.
        before = ceil(air.gap_s / step_s)
        longer = range(stretch.start - before * step_s, stretch.stop, step_s)
        warmth = zone_steps(connection, those, Quantity.TEMPERATURE, longer)
        damp = zone_steps(connection, those, Quantity.HUMIDITY, longer)
        inside = [one for one in warmth if one.number >= before]
        hottest = max(inside, key=lambda one: one.highest, default=None)
        coldest = min(inside, key=lambda one: one.lowest, default=None)
        cold_hours = 0.0
        if coldest is not None and coldest.lowest < air.cold_c:
            ends = stretch.start - air.gap_s, until_s + 1
            cold_hours = _cold_hours(zone_readings(connection, those, *ends), air, stretch)
        sums = Courses(connection, air.gap_s)
        ageing = sums.ageing(key, energy.value)
        about = zones_now(connection, now)[key]
        exposure = ageing.between(stretch.start, until_s, about.assumed_c.value)
        hot, too_hot, out = (
            sums.of(key, of).between(stretch.start, until_s)
            for of in (
                hotter_than(air.hot_c),
                hotter_than(air.too_hot_c),
                outside_of(air.rh_low_pct, air.rh_high_pct),
            )
        )
        return ZonePlot(
            now=about,
            air=air,
            since=datetime.fromtimestamp(stretch.start, UTC),
            until=now,
            warmth=_levels(warmth, before + steps, air.gap_s)[before:],
            damp=_levels(damp, before + steps, air.gap_s)[before:],
            hottest=hottest
            and _extreme(second_at(connection, those, hottest, hottest.highest), hottest.highest),
            coldest=coldest
            and _extreme(second_at(connection, those, coldest, coldest.lowest), coldest.lowest),
            hot_hours=hot.amount / HOUR_S,
            too_hot_hours=too_hot.amount / HOUR_S,
            cold_hours=cold_hours,
            dry_or_damp_hours=out.amount / HOUR_S,
            humid_hours_measured=out.measured_s / HOUR_S,
            exposure=exposure,
            mean_kinetic_c=ageing.mean_kinetic_c(exposure),
            energy=energy,
            pieces=film_at(
                connection,
                [one.id for one in places(connection, now).values() if name_key(one.zone) == key],
            ),
        )


def _cold_hours(found: Iterable[Sequence[Reading]], air: Air, stretch: range) -> float:
    """The hours colder than film should be; they are few, and not summed beforehand."""
    at_s, celsius = array("q"), array("d")
    for part in found:
        at_s.extend(one.at_s for one in part)
        celsius.extend(one.temperature_c for one in part)
    cold = course(at_s, celsius, below(air.cold_c), air.gap_s)
    return cold.between(stretch.start, stretch.stop - 1).amount / HOUR_S


def _extreme(at_s: int, temperature_c: float) -> Extreme:
    return Extreme(datetime.fromtimestamp(at_s, UTC), temperature_c)


def _levels(read: Sequence[Step], steps: int, gap_s: int) -> Levels:
    """The level of each step; between two that were read, on a straight line if the gap is short."""
    found: list[Level | None] = [None] * steps
    for one in read:
        found[one.number] = Level(one.lowest, one.mean, one.highest)
    for before, after in pairwise(read):
        if after.first_s - before.last_s <= gap_s:
            for number, level in _between(before, after):
                found[number] = Level(level, level, level)
    return tuple(found)


def _between(before: Step, after: Step) -> Iterator[tuple[int, float]]:
    """The steps between two, with the level of the line from one mean to the other."""
    count = after.number - before.number
    for number in range(before.number + 1, after.number):
        share = (number - before.number) / count
        yield number, before.mean + (after.mean - before.mean) * share
