"""The command that listens, from its settings to its last line."""

import os
import signal
import sqlite3
from contextlib import closing
from pathlib import Path
from threading import Event, Thread

import pytest

from tests.cli.conftest import Shop
from tests.conftest import NOW
from tests.feeds.mosquitto import PATIENCE_S, SECRET, Sensors, a_mosquitto, reading

pytestmark = pytest.mark.mosquitto

NOW_S = int(NOW.timestamp())


def _interrupt_once_two_are_written(book: Path) -> None:
    """Interrupt the command, which runs in this process, but never before it listens."""
    waiting = Event()
    with closing(sqlite3.connect(book)) as connection:
        for _ in range(PATIENCE_S * 100):
            if connection.execute("SELECT count(*) FROM reading").fetchone() == (2,):
                os.kill(os.getpid(), signal.SIGINT)
                return
            waiting.wait(0.01)


def test_what_comes_is_counted_until_it_is_interrupted(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The password is a setting of the station, and is never shown."""
    logger = tmp_path / "logger.csv"
    logger.write_text("at,temperature_c\n2026-11-24 09:00,21\n")
    shop.lines("climate", "import", str(logger), "--zone", "North")
    monkeypatch.setenv("STOCKROOM_MQTT_USER", "app")
    monkeypatch.setenv("STOCKROOM_MQTT_PASSWORD", SECRET)
    folder = tmp_path / "broker"
    folder.mkdir()
    interrupts = Thread(target=_interrupt_once_two_are_written, args=(shop.book,))

    with a_mosquitto(folder) as mosquitto, closing(Sensors(mosquitto)) as sensors:
        sensors.send("North", reading(NOW_S), retain=True)
        sensors.wait()
        interrupts.start()
        heard = shop.run("climate", "listen", "--host", "127.0.0.1", "--port", str(mosquitto.port))
        interrupts.join()

    assert (heard.code, heard.out) == (0, "1 message: 1 new reading, 0 dropped.\n")
    assert heard.err.startswith(f"Listening to shop/zone/+/climate at 127.0.0.1:{mosquitto.port}")
    assert SECRET not in heard.err
