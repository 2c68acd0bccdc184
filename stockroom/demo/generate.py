"""The invented shop: its fourteen months go through the scripts that a person's work goes through."""

from dataclasses import replace
from datetime import UTC, date, datetime, time
from random import Random
from zoneinfo import ZoneInfo

from stockroom.books.opening import Book
from stockroom.demo.desk import Desk
from stockroom.demo.distances import day_of
from stockroom.demo.fitting import agree, fit_out
from stockroom.demo.playing import play
from stockroom.demo.story import lines, read_climate, read_shop
from stockroom.demo.weather import furnish, measure

_BEFORE_THE_DOORS_OPEN = time(7, 45)


def generate(book: Book, *, seed: int = 7, today: date) -> None:
    """Fill an empty book with the shop as it stands on the morning of `today`.

    The same seed and day write the same book, to the byte; nothing is done on `today` itself, and
    loggers are read out at dawn.
    """
    shop, climate = read_shop(), read_climate()
    values = {one["name"]: one["value"] for one in shop["setting"]}
    zone = ZoneInfo(values["time-zone"])
    opened = datetime.combine(day_of(shop["opened"], today), _BEFORE_THE_DOORS_OPEN, zone)
    desk = Desk(book=book, today=today, chance=Random(seed), zone=zone, currency=values["currency"])
    weather = replace(desk, chance=Random(seed + 1))
    fit_out(desk, shop, now=opened.astimezone(UTC))
    furnish(weather, climate, now=opened.astimezone(UTC))
    told = lines(shop, today, zone, desk.chance)
    agree(desk, shop, now=opened.astimezone(UTC))
    for line in told:
        play(desk, line)
    measure(weather, climate)
