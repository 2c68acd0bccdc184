"""What storage did to pieces: the climate of where each stood, since when, and what follows."""

from collections.abc import Iterable
from datetime import date, datetime, timedelta

import pytest

from stockroom.books.opening import Book
from stockroom.errors import Code
from stockroom.film.heat import ageing_rate
from stockroom.film.kinds import Kind
from stockroom.film.verdict import Reason, Verdict
from stockroom.units import MM, M
from stockroom.work.curl_trial import TryCurl, try_curl
from stockroom.work.forecast import forecast
from stockroom.work.judging import Judged
from stockroom.work.look import piece, rack
from tests.builders import refused
from tests.conftest import NOW
from tests.weather import HOUR_S, Given, Weather

DAY_S = 24 * HOUR_S


class Store(Weather):
    """Somebody who works on the floor and looks after its sensors."""

    def hours(self, since: datetime, days: int, *air: float, sensor: str = "door") -> None:
        """The same air every hour, for so many days."""
        first_s = int(since.timestamp())
        given: Iterable[Given] = (
            (first_s + hour * HOUR_S, air[0], *air[1:])  # type: ignore[misc]
            for hour in range(days * 24 + 1)
        )
        self.write(given, sensor=sensor)

    def judged(self, code: str, today: date | None = None) -> Judged:
        """A piece with its verdict."""
        return piece(self.book, code, now=self.now, today=today).judged

    def reason(self, code: str, rule: str) -> Reason | None:
        """What one rule found."""
        found = self.judged(code).judgement.reasons
        return next((one for one in found if one.rule == rule), None)

    def heat_days(self, code: str) -> float:
        """Days at 23 °C that its shelf age is like."""
        found = self.reason(code, "heat")
        assert found is not None
        assert found.measured is not None
        return found.measured


@pytest.fixture
def store(book: Book) -> Store:
    """An empty book, a zone called north with a sensor."""
    store = Store(book)
    store.sensor()
    return store


def test_a_hot_room_ages_film_beyond_its_calendar(store: Store) -> None:
    """A hundred days at 35 °C are like 372 at 23; the sensor's word, not the house's."""
    roll = store.roll(place=store.place("A1"), made="2026-11-25")
    store.wait(days=100)
    store.hours(NOW, 100, 35.0)

    heat = store.reason(roll, "heat")
    assert heat is not None
    assert heat.measured == pytest.approx(100 * ageing_rate(35.0), abs=2)
    assert "99 % measured" in heat.text
    climate = store.reason(roll, "climate")
    assert climate is not None
    assert (climate.verdict, climate.measured) == (Verdict.USE_FIRST, 100 * 24)


def test_what_nobody_measured_is_assumed_and_said(store: Store) -> None:
    """Half of the days before the sensor was there; the zone's own assumption counts."""
    store.assume("north", 23.0)
    roll = store.roll(place=store.place("A1"), made="2026-11-25")
    store.wait(days=100)
    store.hours(NOW + timedelta(days=50), 50, 23.0)

    heat = store.reason(roll, "heat")
    assert heat is not None
    assert heat.measured == pytest.approx(100, abs=1)
    assert "49 % measured" in heat.text


def test_without_a_reading_heat_is_not_known(store: Store) -> None:
    """Neither is the air; the calendar is not touched."""
    roll = store.roll(place=store.place("A1"))
    heat = store.reason(roll, "heat")
    assert heat is not None
    assert (heat.verdict, heat.text) == (None, "nobody measured how warm it was kept")
    assert store.reason(roll, "climate") is None
    assert store.judged(roll).judgement.verdict is Verdict.USE


def test_a_piece_that_is_moved_ages_elsewhere_from_then_on(store: Store) -> None:
    """Fifty days cool, fifty in the hot loft."""
    store.sensor("loft", "loft")
    north, loft = store.place("A1"), store.place("L1", zone="loft")
    roll = store.roll(place=north, made="2026-11-25")
    moved = store.wait(days=50)
    store.put(roll, loft)
    store.wait(days=50)
    store.hours(NOW, 100, 20.0)
    store.hours(NOW, 100, 35.0, sensor="loft")

    heat = store.reason(roll, "heat")
    assert heat is not None
    expected = 50 * ageing_rate(20.0) + 50 * ageing_rate(35.0)
    assert heat.measured == pytest.approx(expected, abs=2)
    assert moved < store.now


def test_a_place_that_lies_in_another_zone_ages_its_film_by_it_from_then_on(store: Store) -> None:
    """A wall was built, and is written down ten days later; what was before stays as it was."""
    store.sensor("ceiling", zone="attic")
    roll = store.roll(place=store.place("A1"), made="2026-11-25")
    store.wait(days=20)
    store.hours(NOW, 20, 23.0)
    store.hours(NOW, 20, 35.0, sensor="ceiling")
    assert store.heat_days(roll) == pytest.approx(20, abs=1)

    found = store.put_in_zone("A1", "Attic", at=NOW + timedelta(days=10))
    assert (found.place.name, found.place.zone, found.unmeasured) == ("A1", "attic", "")
    assert [zone for _, zone in found.zones] == ["north", "attic"]
    assert store.put_in_zone("A1", "ATTIC").zones == found.zones
    assert store.heat_days(roll) == pytest.approx(10 + 10 * ageing_rate(35.0), abs=1)

    gone = store.put_in_zone("A1", "")
    assert (gone.place.zone, gone.unmeasured) == ("", "")
    store.wait(days=10)
    assert store.heat_days(roll) == pytest.approx(
        10 + 10 * ageing_rate(35.0) + 10 * ageing_rate(21.0), abs=1
    )
    with refused(store.book, Code.FUTURE, "in the future"):
        store.put_in_zone("A1", "north", at=store.now + timedelta(days=1))
    with refused(store.book, Code.NO_PLACE):
        store.put_in_zone("A7", "north")


def test_an_hour_above_40_asks_for_a_trial(store: Store) -> None:
    """However short."""
    roll = store.roll(place=store.place("A1"), made="2026-11-25")
    store.wait(days=3)
    first_s = int(NOW.timestamp())
    store.write([(first_s, 20.0), (first_s + HOUR_S, 45.0), (first_s + 2 * HOUR_S, 20.0)])

    climate = store.reason(roll, "climate")
    assert climate is not None
    assert climate.verdict is Verdict.TEST
    assert "above 40 °C: adhesion trial" in climate.text


def test_a_day_gone_by_knows_only_what_was_read_of_it(store: Store) -> None:
    """The hot weeks came after."""
    roll = store.roll(place=store.place("A1"), made="2026-11-25")
    store.wait(days=100)
    store.hours(NOW, 50, 20.0)
    store.hours(NOW + timedelta(days=50, hours=1), 49, 39.0)

    then = store.judged(roll, (NOW + timedelta(days=40)).date()).judgement.reasons
    heat = next(one for one in then if one.rule == "heat")
    assert heat.measured == pytest.approx(40.6 * ageing_rate(20.0), abs=2)


def test_the_coming_weeks_are_like_the_last_month(store: Store) -> None:
    """In a hot room film reaches its limit sooner than by the calendar."""
    hot = store.roll(place=store.place("A1"), made="2025-12-30")
    cool = store.roll(made="2025-12-30")
    store.wait(days=40)
    store.hours(NOW, 40, 33.0)

    found = forecast(store.book, now=store.now, days=200)

    first = {code: min(one.on for one in found.changes if one.then.code == code) for code in [hot]}
    assert first[hot] < date(2027, 7, 1)
    assert cool not in {one.then.code for one in found.changes}


def test_film_wound_long_on_a_small_core_asks_for_a_curl_trial(store: Store) -> None:
    """Passed, it is asked again when the roll is drawn down past the diameter of the strip."""
    store.material("silver 20", Kind.WINDOW_FILM, core_inside_nm=50 * MM)
    roll = store.roll(material="silver 20", made="2025-04-01", length_nm=8 * M)
    memory = store.reason(roll, "memory")
    assert memory is not None
    assert memory.verdict is Verdict.TEST

    request = TryCurl(**store.asked(piece=roll, chord_nm=200 * MM, height_nm=12 * MM))
    assert try_curl(request, book=store.book, now=store.now).passed
    passed = store.reason(roll, "memory")
    assert passed is not None
    assert passed.verdict is Verdict.USE

    store.cut(roll, 3 * M)
    again = store.reason(roll, "memory")
    assert again is not None
    assert again.verdict is Verdict.TEST


def test_a_rack_says_of_each_piece_what_its_own_card_says(store: Store) -> None:
    """What is worked out once for many pieces is what is worked out for one alone."""
    store.sensor("ceiling", zone="south")
    north, south = store.place("A1"), store.place("B1", zone="south")
    codes = list(store.rolls(pieces=3, place=north, made="2026-06-01"))
    codes.append(store.roll(place=south, made="2026-09"))
    store.wait(days=40)
    store.put(codes[1], south)
    codes.extend(
        one.code for one in store.cut(codes[1], 2 * M, offcuts=((500 * MM, 2 * M),)).offcuts
    )
    store.wait(hours=5)
    store.put(codes[1], north)
    store.rewind(codes[2])
    store.wait(days=20)
    store.hours(NOW, 58, 27.0, 50.0)
    store.hours(NOW + timedelta(days=9), 30, 34.0, 70.0, sensor="ceiling")
    store.hours(NOW + timedelta(days=41), 1, 41.0, 40.0, sensor="ceiling")

    for today in (None, NOW.date() + timedelta(days=45), NOW.date() + timedelta(days=90)):
        found = rack(store.book, now=store.now, today=today).pieces
        alone = [store.judged(code, today) for code in sorted(codes)]
        assert [one.code for one in found] == [one.code for one in alone]
        for one, other in zip(found, alone, strict=True):
            assert one.judgement == other.judgement
        assert len({one.judgement.reasons for one in found}) > 3


def test_a_roll_from_a_cold_van_waits_for_its_dew(store: Store) -> None:
    """Moisture would form on it; by the next day it is warm."""
    store.sensor("van sensor", "road")
    bay, van = store.place("A1"), store.place("van 2", zone="road")
    roll = store.roll(place=van)
    store.wait(days=1)
    store.hours(NOW, 1, 2.0, 80.0, sensor="van sensor")
    store.hours(NOW, 1, 21.0, 60.0)
    store.put(roll, bay)

    judgement = store.judged(roll).judgement
    assert judgement.wait_until is not None
    assert store.now < judgement.wait_until < store.now + timedelta(hours=12)
    store.wait(hours=20)
    store.hours(NOW + timedelta(days=1, hours=1), 1, 21.0, 60.0)
    assert store.judged(roll).judgement.wait_until is None
