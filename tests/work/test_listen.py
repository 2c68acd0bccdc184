"""Sensors send, a broker carries, the book keeps: on both engines, also when the listener is killed."""

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Event

import pytest

from stockroom.books.opening import Book
from stockroom.books.readings import raw_readings
from stockroom.work.listen import keeper
from tests.architecture.tree import ROOT
from tests.feeds.listening import Ear
from tests.feeds.mosquitto import PATIENCE_S, SECRET, Mosquitto, Sensors, a_mosquitto, reading
from tests.weather import NOW_S, Weather

pytestmark = pytest.mark.mosquitto

MANY = 300


@pytest.fixture
def mosquitto(tmp_path: Path) -> Iterator[Mosquitto]:
    """A broker of this test alone."""
    folder = tmp_path / "broker"
    folder.mkdir()
    with a_mosquitto(folder) as broker:
        yield broker


@pytest.fixture
def sensors(mosquitto: Mosquitto) -> Iterator[Sensors]:
    """Sensors that are connected to it."""
    made = Sensors(mosquitto)
    yield made
    made.close()


@pytest.fixture
def weather(book: Book) -> Weather:
    """Somebody with two sensors, at a time later than what they say."""
    weather = Weather(book)
    weather.sensor("door", "north")
    weather.sensor("van 2", "vans")
    weather.wait(days=10)
    return weather


def _seconds(book: Book, sensor_id: int = 1) -> list[int]:
    with book.reading() as connection:
        found = raw_readings(connection, sensor_id, 0, 2**40)
        return [one.at_s for part in found for one in part]


def test_what_a_sensor_sends_is_in_the_book_and_what_is_none_is_said(
    weather: Weather, mosquitto: Mosquitto, sensors: Sensors
) -> None:
    """A sensor nobody entered is said once; a fault, or another value for a second, once each."""
    keep = keeper(weather.book, operator="Ida M.", clock=lambda: weather.now)

    with Ear(mosquitto, keep) as ear:
        ear.hears("Listening")
        sensors.read("Door", range(NOW_S, NOW_S + 20))
        sensors.send("roof", reading(NOW_S), reading(NOW_S + 1), reading(NOW_S + 2))
        sensors.send("door", reading(NOW_S + 20, -127), reading(NOW_S + 21, -127))
        sensors.send("door", reading(NOW_S, 23), reading(NOW_S + 1, 23))
        sensors.send("van 2", reading(NOW_S + 30))
        sensors.wait()
        ear.hears("was written before")

    assert _seconds(weather.book) == [*range(NOW_S, NOW_S + 20)]
    assert _seconds(weather.book, 2) == [NOW_S + 30]
    assert ear.heard == (28, 21, 7)
    assert len([one for one in ear.said if "roof" in one]) == 1
    assert len([one for one in ear.said if "is no temperature" in one]) == 1
    assert len([one for one in ear.said if "was written before" in one]) == 1


def _wait_until_something_is_written(book: Book) -> None:
    waiting = Event()
    for _ in range(PATIENCE_S * 100):
        if _seconds(book):
            return
        waiting.wait(0.01)
    pytest.fail("nothing was written")


@contextmanager
def _listening(where: str, mosquitto: Mosquitto) -> Iterator[subprocess.Popen[str]]:
    """The command, from the moment it listens; it is killed if it was not ended."""
    environment = os.environ | {
        "STOCKROOM_BOOK": where,
        "STOCKROOM_MQTT_USER": "app",
        "STOCKROOM_MQTT_PASSWORD": SECRET,
    }
    command = [
        sys.executable,
        "-m",
        "stockroom",
        "climate",
        "listen",
        "--port",
        str(mosquitto.port),
    ]
    process = subprocess.Popen(
        command,
        cwd=ROOT,
        env=environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    assert process.stderr is not None
    try:
        assert process.stderr.readline().startswith("Listening")
        yield process
    finally:
        process.kill()
        process.wait(PATIENCE_S)
        process.stdout.close()
        process.stderr.close()


def test_a_listener_that_is_killed_while_it_writes_loses_nothing(
    book_url: str, weather: Weather, mosquitto: Mosquitto, sensors: Sensors
) -> None:
    """What the broker acknowledged to the sensor is in the book once the next one has listened."""
    with _listening(book_url, mosquitto) as killed:
        sensors.read("door", range(NOW_S, NOW_S + MANY))
        _wait_until_something_is_written(weather.book)
        assert killed.poll() is None
    sensors.read("door", range(NOW_S + MANY, NOW_S + 2 * MANY))
    sensors.wait()

    with _listening(book_url, mosquitto) as last:
        sensors.send("nobody", reading(NOW_S))
        assert last.stderr is not None
        assert "nobody" in last.stderr.readline()
        last.send_signal(signal.SIGTERM)
        out, err = last.communicate(timeout=PATIENCE_S)

    assert _seconds(weather.book) == [*range(NOW_S, NOW_S + 2 * MANY)]
    assert (last.returncode, err) == (0, "")
    assert " 1 dropped." in out
