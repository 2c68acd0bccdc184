"""What the coming days bring, and the air now."""

from datetime import timedelta

import pytest

from stockroom.books.opening import Book
from stockroom.film.kinds import Kind
from stockroom.lines.coming import coming, head
from stockroom.work.climate import measured_zones
from stockroom.work.forecast import LOOKED_AHEAD, Forecast
from stockroom.work.forecast import coming as read_coming
from stockroom.work.setup import settings
from tests.conftest import NOW
from tests.weather import HOUR_S, Weather


@pytest.fixture
def weather(book: Book) -> Weather:
    """Somebody at work at an empty book."""
    return Weather(book)


def ahead(weather: Weather) -> Forecast:
    found = read_coming(weather.book, 10, now=weather.now)
    assert found is not None
    return found


def air(weather: Weather, room: int = 75) -> str:
    """The head of Today."""
    shop = settings(weather.book, now=weather.now)[0]
    zones = measured_zones(weather.book, now=weather.now)
    return head(zones, shop, weather.now, "on: Ida M.", room)


def test_a_line_is_a_material_with_all_its_pieces_the_soonest_first(weather: Weather) -> None:
    """A piece that changes twice is told by what it comes to."""
    name = weather.material("urethane clear", Kind.PROTECTIVE_FILM)
    first = weather.roll(made="2024-11-27", material=name)
    weather.roll(made="2024-12-01", material=name)
    last = weather.roll(made="2024-12-28")
    weather.roll(made="2026-06-01")

    assert coming(ahead(weather), 10) == (
        f"soon  Sat 2026-11-28  urethane clear  ▲ 2 to test  {first[:4]} {first[4:]} and 1 more",
        f"      Sun 2026-11-29  clear 50  ◐ 1 to use first  {last[:4]} {last[4:]}",
    )


def test_what_has_no_room_is_said_to_be_left_out_and_nothing_is_quiet(weather: Weather) -> None:
    """No line at all where nothing changes; nobody waits for too many pieces."""
    assert coming(ahead(weather), 10) == ()
    assert coming(None, 10) == (
        "soon  `stockroom forecast` tells it: of so many pieces that takes a while",
    )
    assert read_coming(weather.book, LOOKED_AHEAD + 1, now=weather.now) is None

    for number in range(4):
        film = weather.material(f"film {number}", Kind.PROTECTIVE_FILM)
        weather.roll(made=f"2024-12-0{number + 1}", material=film)
    said = coming(ahead(weather), 3)
    assert len(said) == 3
    assert said[-1] == "      2 more materials: `stockroom forecast` shows every piece"


def test_each_zone_with_a_sensor_has_its_air_those_that_need_a_look_first(
    weather: Weather,
) -> None:
    """How hot, how cold, or for how long nothing was said; in words."""
    weather.place("A1", "nobody's")
    assert air(weather) == "on: Ida M."

    for number, zone in enumerate(("North", "Attic", "South", "Yard")):
        weather.sensor(f"door {number}", zone)
    weather.read((-HOUR_S, 22.4, 48.0), sensor="door 0")
    weather.read((-HOUR_S, 31.0, 40.0), sensor="door 1")
    weather.read((-HOUR_S, 4.0), sensor="door 3")
    assert (
        air(weather, 90)
        == "Attic 31 °C HOT 40 %   South ?   North 22.4 °C 48 %   Yard 4 °C COLD   on: Ida M."
    )


def test_where_room_lacks_humidity_goes_first_then_the_person_and_then_the_last_zones(
    weather: Weather,
) -> None:
    """How many are left out is said."""
    for number, zone in enumerate(("North", "South")):
        weather.sensor(f"door {number}", zone)
        weather.read((-HOUR_S, 22.4, 48.0), sensor=f"door {number}")

    assert air(weather, 52) == "North 22.4 °C 48 %   South 22.4 °C 48 %   on: Ida M."
    assert air(weather, 51) == "North 22.4 °C   South 22.4 °C   on: Ida M."
    assert air(weather, 41) == "North 22.4 °C 48 %   South 22.4 °C 48 %"
    assert air(weather, 38) == "North 22.4 °C   South 22.4 °C"
    assert air(weather, 28) == "North 22.4 °C   +1"
    assert air(weather, 5) == ""


@pytest.mark.parametrize(
    ("wait", "says"),
    [
        (timedelta(hours=2), "North 22.4 °C   on: Ida M."),
        (timedelta(hours=5), "North ? 5 h   on: Ida M."),
        (timedelta(days=9), "North ? 9 d   on: Ida M."),
    ],
)
def test_a_silent_sensor_is_not_believed(weather: Weather, wait: timedelta, says: str) -> None:
    """It may have been warm since."""
    weather.sensor("door", "North")
    weather.read((0, 22.4))
    weather.now = NOW + wait

    assert air(weather) == says
