"""Headings in plain words of several languages; the dew point is no temperature of the air."""

# ruff: noqa: RUF001 - words of other alphabets

from datetime import timedelta, timezone

import pytest

from stockroom.feeds.headings import Meaning, Scale, meaning_of, offset_of, scale_of

WARM = [
    "temperature_c", "Temp", "Temp.", "TEMPERATURE", "Temperatur [°C]", "Lufttemperatur", "Température",
    "Temperatura", "temperatura ºC", "Lämpötila", "Teplota", "Hőmérséklet", "Sıcaklık",
    "Температура", "Θερμοκρασία", "温度(℃)", "온도", "T (°C)", "T [F]", "Celsius", "Degrees C", "°F",
]  # fmt: skip
DAMP = [
    "rh_pct", "RH", "%RH", "Humidity(%rh)", "rel. Feuchte [%]", "Luftfeuchtigkeit", "r.F. %", "r. F.",
    "Humidité relative (%HR)", "Humedad (%)", "Umidità", "UR %", "Umidade", "Vochtigheid",
    "Luftfuktighet", "Luftfugtighed", "Kosteus %", "Wilgotność", "Vlhkost", "Vlažnost",
    "Páratartalom", "Nem", "Влажность", "Υγρασία", "湿度", "습도", "%",
]  # fmt: skip
NEITHER = [
    "Dew point (°C)", "Taupunkt [°C]", "Point de rosée (°C)", "Punto de rocío", "Daggpunkt °C",
    "Duggpunkt °C", "Dugpunkt °C", "Dauwpunt °C", "Kastepiste °C", "Rosný bod °C", "Точка росы, °C",
    "露点(℃)", "Battery %", "Batterie [%]", "Heat index (°F)", "MKT (°C)", "Max °C", "Abs. humidity g/m³",
    "Air pressure [hPa]",
]  # fmt: skip
UNKNOWN = [
    "",
    "at",
    "Datum/Uhrzeit",
    "Date",
    "Heure",
    "Fecha",
    "No.",
    "Serial",
    "Channel 1",
    "Höhe",
]


@pytest.mark.parametrize(
    ("heading", "meaning"),
    [(one, Meaning.TEMPERATURE) for one in WARM]
    + [(one, Meaning.HUMIDITY) for one in DAMP]
    + [(one, Meaning.OTHER) for one in NEITHER]
    + [(one, None) for one in UNKNOWN],
)
def test_a_heading_means(heading: str, meaning: Meaning | None) -> None:
    """By its word, or else by its unit."""
    assert meaning_of(heading) is meaning


@pytest.mark.parametrize(
    ("heading", "scale"),
    [
        ("Temperature (°C)", Scale.CELSIUS),
        ("temperature_c", Scale.CELSIUS),
        ("Temp [C]", Scale.CELSIUS),
        ("T (Â°C)", Scale.CELSIUS),
        ("Temp [?C]", Scale.CELSIUS),
        ("℃", Scale.CELSIUS),
        ("Temp, °F", Scale.FAHRENHEIT),
        ("temp_f", Scale.FAHRENHEIT),
        ("deg F", Scale.FAHRENHEIT),
        ("℉", Scale.FAHRENHEIT),
        ("Temp °C/°F", None),
        ("Temp", None),
        ("Frost depth", None),
        ("", None),
    ],
)
def test_a_heading_names_a_scale(heading: str, scale: Scale | None) -> None:
    """One that names both names none."""
    assert scale_of(heading) is scale


@pytest.mark.parametrize(
    ("heading", "hours"),
    [
        ("Time (UTC)", 0),
        ("Date Time, GMT+02:00", 2),
        ("Zeit UTC-3", -3),
        ("GMT+0530", 5.5),
        ("UTC\u22125", -5),
    ],
)
def test_a_heading_names_a_clock(heading: str, hours: float) -> None:
    """By its distance from UTC."""
    assert offset_of(heading) in (timezone(timedelta(hours=hours)),)


@pytest.mark.parametrize("heading", ["Time", "GMT+99", "Outcome", ""])
def test_a_heading_names_no_clock(heading: str) -> None:
    """Then the clock is the shop's."""
    assert offset_of(heading) is None
