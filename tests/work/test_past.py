"""What storage left in a piece: its air block by block, its curl, and what holds that flat."""

from datetime import date, timedelta

import pytest

from stockroom.books.opening import Book
from stockroom.film.kinds import Kind
from stockroom.film.limits import Basis
from stockroom.lines.roll import beside, past_values
from stockroom.units import MM, UM, System
from stockroom.work.past import Past, past_of
from stockroom.work.plan_job import plan_job
from stockroom.work.planned import planned_cuts
from stockroom.work.reserve import Reserve, reserve
from tests.conftest import NOW
from tests.weather import HOUR_S, Weather

WARM_C, COOL_C = 28.0, 18.0
DAYS = {"pier": "2027-03-01", "depot": "2026-12-20"}


@pytest.fixture
def weather(book: Book) -> Weather:
    """Somebody with a sensor in the north."""
    weather = Weather(book)
    weather.sensor("door", "north")
    return weather


def past(weather: Weather, code: str) -> Past:
    return past_of(weather.book, code, now=weather.now)


def test_the_strip_has_a_block_for_each_day_since_it_was_made_in_the_zones_it_stood_in(
    weather: Weather,
) -> None:
    """Warm for five days in the north, then in the south, where nobody measures."""
    roll = weather.roll(made="2026-11-25", place=weather.place("A1", "north"))
    weather.wait(days=5)
    weather.put(roll, weather.place("B2", "south"))
    weather.wait(days=5)
    weather.read(*((HOUR_S * hour, WARM_C) for hour in range(10 * 24)))

    air = past(weather, roll).air

    assert air is not None
    assert (air.since, air.block_days, len(air.kinetic_c)) == (date(2026, 11, 25), 1, 11)
    assert air.kinetic_c[:6] == pytest.approx((WARM_C,) * 6)
    assert set(air.kinetic_c[6:]) == {None}


@pytest.mark.parametrize(
    ("days", "block", "count"),
    [(35, 1, 36), (36, 7, 6), (251, 7, 36), (252, 28, 10), (1007, 28, 36), (3000, 91, 33)],
)
def test_a_block_is_as_long_as_it_has_to_be_for_all_to_fit(
    weather: Weather, days: int, block: int, count: int
) -> None:
    """A day, a week, four weeks, thirteen."""
    made = (NOW - timedelta(days=days)).date().isoformat()
    air = past(weather, weather.roll(made=made)).air

    assert air is not None
    assert (air.block_days, len(air.kinetic_c)) == (block, count)


def test_a_print_has_a_strip_since_it_was_wound_and_one_without_a_date_none(
    weather: Weather,
) -> None:
    """Its film is older; and before twenty-five years nothing is drawn."""
    printed = weather.blank(made="2025-01-01", printed="2026-11-20", job=weather.job())
    air = past(weather, printed).air
    assert air is not None
    assert air.since == date(2026, 11, 20)

    old = past(weather, weather.roll(made="2000-01-01")).air
    assert old is not None
    assert len(old.kinetic_c) == 36


def test_without_any_sensor_or_film_there_is_no_strip(book: Book) -> None:
    """A box keeps nothing."""
    weather = Weather(book)

    assert past(weather, weather.roll()).air is None
    nothing = Past(air=None, curl=None, wraps=None, holding=None, is_film=False)
    assert past(weather, weather.box()) == nothing


def test_what_holds_it_flat_is_told_where_a_bond_was_entered(weather: Weather) -> None:
    """E t³ / 12 (1 - 0.38²) for 50 µm at 4.5 GPa, times half of the curvature squared."""
    plain = past(weather, weather.roll(made="2026-01-01"))
    assert plain.holding is None
    weather.material("stiff", applied_nm=50 * UM, figures={"bond": "0.5"})
    weather.material("odd", Kind.LAMINATE, figures={"bond": "0.5"})

    found = past(weather, weather.roll(material="stiff", made="2026-01-01"))
    odd = past(weather, weather.roll(material="odd", made="2026-01-01"))

    assert found.curl is not None
    assert found.curl.outer_mm is not None
    assert found.holding is not None
    stiffness = 4.5e9 * 50e-6**3 / 12 / (1 - 0.38**2)
    curvature = 2_000 / found.curl.outer_mm
    assert found.holding.flat_j_m2 == pytest.approx(stiffness * curvature**2 / 2)
    assert found.holding.modulus is not None
    assert found.holding.modulus.basis is Basis.DEFAULT
    assert odd.holding is not None
    assert (odd.holding.flat_j_m2, odd.holding.modulus) == (None, None)


def test_film_that_lies_flat_has_no_wraps(weather: Weather) -> None:
    """It still remembers those it had."""
    roll = weather.roll(made="2026-01-01")
    wraps = past(weather, roll).wraps
    assert wraps is not None
    assert wraps.core_outside_nm == 86_200_000

    weather.wait(days=1)
    weather.lay_flat(roll)
    found = past(weather, roll)
    assert found.wraps is None
    assert found.curl is not None
    assert wraps.outside_nm > 100 * MM


def test_what_it_curls_to_is_told_of_the_day_it_is_installed_too(weather: Weather) -> None:
    """Of the first job to come that it is kept for; the longer it lies, the tighter it curls."""
    roll = weather.roll(made="2026-11-01")
    assert past(weather, roll).installed is None
    later, sooner = (weather.job(name, on_day=day) for name, day in DAYS.items())
    for job in (later, sooner):
        weather.panels(job, (900, 1_500))
        cuts = planned_cuts(plan_job(weather.book, job, now=weather.now))
        request = Reserve(**weather.asked(job=job, cuts=cuts))
        reserve(request, book=weather.book, now=weather.now)

    found = past(weather, roll)

    assert found.installed is not None
    assert (found.installed.on, found.installed.job) == (date(2026, 12, 20), sooner)
    assert found.curl is not None
    assert found.curl.outer_mm is not None
    assert found.installed.curl.outer_mm is not None
    assert found.installed.curl.outer_mm < found.curl.outer_mm
    assert any(line.startswith("on 2026-12-20, for J") for line in beside(found, System.METRIC))
    told = past_values(found)["installed"]
    assert isinstance(told, dict)
    assert (told["on"], told["job"]) == ("2026-12-20", sooner)
