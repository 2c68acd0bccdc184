"""A zone as the Climate screen shows it."""

from datetime import timedelta

import pytest

from stockroom.books.opening import Book
from stockroom.books.values import Shop
from stockroom.lines import zone as lines
from stockroom.lines.plot import LABEL
from stockroom.units import System
from stockroom.work.setup import settings
from stockroom.work.zone_plot import ZonePlot, plot_of
from tests.weather import HOUR_S, Given, Weather

WEEK = lines.SPANS["week"]


@pytest.fixture
def weather(book: Book) -> Weather:
    """Somebody with one sensor, which may be silent for three hours."""
    weather = Weather(book)
    weather.sensor("door", "North")
    return weather


def plotted(weather: Weather, zone: str = "North", span: lines.Span = WEEK) -> ZonePlot:
    return plot_of(weather.book, zone, now=weather.now, span=span.length, steps=100)


def said(weather: Weather, zone: str = "North") -> str:
    """The sentence on top."""
    shop = settings(weather.book, now=weather.now)[0]
    return lines.sentence(plotted(weather, zone), WEEK, shop)


def hourly(*celsius: float) -> list[Given]:
    """A reading an hour, the last one now."""
    return [(-HOUR_S * place, one) for place, one in enumerate(reversed(celsius))]


def test_the_sentence_says_how_hot_it_was_and_what_that_does_to_the_film_there(
    weather: Weather,
) -> None:
    """Computed of what was measured; 29 °C ages film about twice as fast as 23 °C does."""
    weather.roll(place=weather.place("A1", "North"))
    weather.read(*hourly(*[29.0] * 169))
    assert said(weather) == (
        "North stayed within 10 °C to 30 °C in the last 7 days (all measured); "
        "1 piece ages twice as fast as at 23 °C there."
    )


@pytest.mark.parametrize(
    ("celsius", "says"),
    [
        ((20.0, 41.0, 41.0, 20.0), "was above 40 °C for 1 h and above 30 °C for 2 h"),
        ((20.0, 31.0, 31.0, 20.0), "was above 30 °C for 1 h in"),
        ((20.0, 5.0, 5.0, 20.0), "was below 10 °C for 2 h"),
        ((23.0, 23.0, 23.0), "film ages as at 23 °C there (none stands there now)"),
        ((12.0, 12.0, 12.0), "film ages at 27 % of the pace at 23 °C there"),
        ((20.0, 20.0), "(0 % measured)"),
    ],
)
def test_what_was_out_of_band_is_named_the_worst_first(
    weather: Weather, celsius: tuple[float, ...], says: str
) -> None:
    """And how much of the time that is known of."""
    weather.read(*hourly(*celsius))

    assert says in said(weather)


def test_a_zone_nobody_measures_says_what_to_do(weather: Weather) -> None:
    """And as how warm it counts until then."""
    weather.place("B2", "South")

    assert said(weather, "South") == (
        "Nobody measures South: its film is taken to age as at 21 °C (default). Put a sensor there "
        'and bring in what it wrote: `stockroom climate import FILE --zone "South"`.'
    )


def test_a_silent_sensor_is_named_first(weather: Weather) -> None:
    """Whether it never spoke, not lately, or only not in this span."""
    assert said(weather).startswith("door has said nothing yet. Look at its battery")

    weather.read((-HOUR_S, 20.0), (0, 20.0))
    weather.wait(hours=6)
    assert said(weather).startswith("door is SILENT. North stayed within")

    weather.wait(days=20)
    assert "nothing in the last 7 days; the last time was 2026-11-25 09:00." in said(weather)


def test_the_facts_stand_in_two_columns_of_a_small_terminal(weather: Weather) -> None:
    """What is not known is ?, never nothing."""
    shop = Shop()
    assert lines.facts(plotted(weather), shop) == (
        "measured nothing: 21 °C (default) assumed    hottest ?",
        "kinetic  ?                                   coldest ?",
        "outside  ? hot, ? cold, ? dry/damp           sensor  door, SILENT",
    )

    weather.read((-2 * HOUR_S, 31.0, 70.0), (-HOUR_S, 31.0, 70.0), (0, 21.0, 50.0))
    found = lines.facts(plotted(weather), shop)
    assert found == (
        "measured 1 %, else 21 °C (default) assumed   hottest 31 °C    2026-11-25 07:00",
        "kinetic  29.3 °C (83.144 kJ/mol, default)    coldest 21 °C    2026-11-25 09:00",
        "outside  1 h hot, 0 h cold, 1 h dry/damp     sensor  door",
    )
    assert max(map(len, found)) <= 80


def test_humidity_is_plotted_where_it_was_read(weather: Weather) -> None:
    """A sensor that knows only the temperature leaves no empty plot."""
    weather.read((0, 20.0))
    assert len(lines.panels(plotted(weather), Shop())) == 1

    weather.read((-HOUR_S, 20.0, 48.0))
    warmth, damp = lines.panels(plotted(weather), Shop(system=System.US))
    assert [one.label for one in warmth.limits] == ["cold 50 °F", "hot 86 °F", "104 °F"]
    assert warmth.written == ("68 °F", "68 °F")
    assert [one.label for one in damp.limits] == ["dry 35 %", "damp 65 %"]


@pytest.mark.parametrize(
    ("span", "zone", "says"),
    [
        ("day", "UTC", ["12:00", "15:00", "18:00", "21:00", "00:00", "03:00", "06:00"]),
        (
            "day",
            "Asia/Kolkata",
            ["15:00", "18:00", "21:00", "00:00", "03:00", "06:00", "09:00", "12:00"],
        ),
        ("week", "UTC", ["Thu 19", "Fri 20", "Sat 21", "Sun 22", "Mon 23", "Tue 24", "Wed 25"]),
        ("month", "UTC", ["10-31", "11-05", "11-10", "11-15", "11-20"]),
        ("year", "UTC", ["2025-11", "2026-01", "2026-03", "2026-05", "2026-07", "2026-09"]),
    ],
)
def test_ticks_are_on_the_shops_clock_and_never_run_into_each_other(
    weather: Weather, span: str, zone: str, says: list[str]
) -> None:
    """Full hours, midnights, first days of a month."""
    back = lines.SPANS[span]
    seen = lines.ticks(plotted(weather, span=back), back, Shop(zone=zone), LABEL + 69)

    shown = [one.strip() for one in seen.split("╵")[1:]]
    assert [one for one in says if one in shown] == shown
    assert len(shown) >= len(says) - 1
    assert len(seen) == LABEL + 69


def test_a_night_in_which_the_clock_is_set_back_has_its_ticks(weather: Weather) -> None:
    """The hour that comes twice is no tick of its own."""
    weather.now = weather.now - timedelta(days=31)
    back = lines.SPANS["day"]

    seen = lines.ticks(plotted(weather, span=back), back, Shop(zone="Europe/Lisbon"), LABEL + 90)
    assert "╵03:00" in seen
