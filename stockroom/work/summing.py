"""The sums reports of storage rest on: stored by whoever writes, so that who reads need not.

They change with readings, with sensors that move, and with what film and house say of heat and air.
"""

from collections.abc import Iterable
from datetime import datetime

from stockroom.books.catalog import materials, shop
from stockroom.books.course import keep_courses
from stockroom.books.opening import Book
from stockroom.books.parts import forget_all, forget_others
from stockroom.books.sensors import SensorEntry, lock_sensors, sensor_entries, stands
from stockroom.books.values import Material
from stockroom.film.limits import House
from stockroom.film.sums import Quantity, Sum, ageing, hotter_than, outside_of
from stockroom.work.settling import keep_settled


def keep_all(book: Book, *, now: datetime, sensor: str | None = None) -> None:
    """Store what is missing of sums, and settle what the climate did to pieces."""
    keep_sums(book, now=now, sensor=sensor)
    keep_settled(book, now=now)


def keep_sums(book: Book, *, now: datetime, sensor: str | None = None) -> None:
    """Store what is summed over every zone for every film, as far as the book may be written.

    Only over the zones a sensor ever spoke for, where one is named. Nothing is refused: what is
    not stored is summed by whoever needs it, each time anew.
    """
    with book.reading() as connection:
        zones = _zones(sensor_entries(connection), sensor)
        if not zones:
            return
        house = shop(connection, now).house
        sums = _sums(house, materials(connection, now).values())
    keep_courses(book, house.air.gap_s, dict.fromkeys(zones, sums))


def sum_otherwise(book: Book, *, now: datetime) -> None:
    """Drop the sums nobody wants since film or house changed, and store those that are wanted."""
    with book.transaction() as connection:
        lock_sensors(connection)
        house = shop(connection, now).house
        sums = _sums(house, materials(connection, now).values())
        names = [*Quantity, *(of.name for of in sums)]
        forget_others(connection, house.air.gap_s, names)
    keep_all(book, now=now)


def sum_again(book: Book, *, now: datetime) -> None:
    """Drop every stored sum, and store those that are wanted now anew."""
    with book.transaction() as connection:
        lock_sensors(connection)
        forget_all(connection)
    keep_all(book, now=now)


def _sums(house: House, films: Iterable[Material]) -> list[Sum]:
    """What is summed over a zone: for each energy a film has, and for the air it should be in."""
    air = house.air
    energies_kj = {house.energy().value} | {
        film.facts["energy"].value for film in films if "energy" in film.facts
    }
    return [
        *(ageing(energy_kj) for energy_kj in sorted(energies_kj)),
        hotter_than(air.hot_c),
        hotter_than(air.too_hot_c),
        outside_of(air.rh_low_pct, air.rh_high_pct),
    ]


def _zones(entries: tuple[SensorEntry, ...], sensor: str | None) -> list[str]:
    """The keys of the zones that were spoken for, by one sensor or by any."""
    ids = {entry.sensor_id for entry in entries if sensor in (None, entry.sensor)}
    return [
        zone
        for zone, those in stands(entries).items()
        if any(stand.sensor_id in ids for stand in those)
    ]
