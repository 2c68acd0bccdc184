"""The sums reports of storage rest on, stored before they are asked for: what for, and how far."""

from datetime import datetime

from stockroom.books.catalog import materials, shop
from stockroom.books.course import keep_courses
from stockroom.books.opening import Book
from stockroom.books.parts import forget_all
from stockroom.books.sensors import sensor_entries, stands
from stockroom.film.sums import ageing, hotter_than, outside_of


def sum_again(book: Book, *, now: datetime) -> None:
    """Drop every stored sum, and store those that are wanted now anew."""
    with book.transaction() as connection:
        forget_all(connection)
    keep_sums(book, now=now)


def keep_sums(book: Book, *, now: datetime) -> None:
    """Store what is summed over every zone for every film, as far as the book may be written.

    Nothing is refused: what is not stored is summed by whoever needs it, each time anew.
    """
    with book.reading() as connection:
        zones = stands(sensor_entries(connection))
        if not zones:
            return
        house = shop(connection, now).house
        films = materials(connection, now).values()
    air = house.air
    energies_kj = {house.energy().value} | {
        film.facts["energy"].value for film in films if "energy" in film.facts
    }
    sums = [
        *(ageing(energy_kj) for energy_kj in sorted(energies_kj)),
        hotter_than(air.hot_c),
        hotter_than(air.too_hot_c),
        outside_of(air.rh_low_pct, air.rh_high_pct),
    ]
    keep_courses(book, air.gap_s, dict.fromkeys(zones, sums))
