"""A broker on loopback, and the sensors that send to it; only what was started here is ended here."""

import getpass
import json
import os
import shutil
import socket
import subprocess
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from threading import Event, Lock

import pytest
from paho.mqtt import client as paho
from paho.mqtt.enums import CallbackAPIVersion

SECRET = "tested, not secret"  # noqa: S105
CERTIFICATE = "certificate.pem"
PATIENCE_S = 20
QUEUED = 100_000


def _program(name: str) -> str:
    """A program of the broker; without it the test is skipped, or fails where it is required."""
    found = shutil.which(name, path=f"{os.environ['PATH']}:/usr/sbin:/usr/local/sbin")
    if found is not None:
        return found
    if os.environ.get("STOCKROOM_REQUIRE_MOSQUITTO") == "1":
        pytest.fail(f"{name} is not installed, and it is required here")
    pytest.skip(f"{name} is not installed; scripts/test installs it")


@dataclass(slots=True)
class Mosquitto:
    """A broker with two users, sensors and app, each allowed its own side of the topics."""

    folder: Path
    port: int
    process: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        """Start the broker, and wait until it answers."""
        self.process = subprocess.Popen(
            [_program("mosquitto"), "-c", str(self.folder / "broker.conf")],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        waiting = Event()
        for _ in range(PATIENCE_S * 20):
            with socket.socket() as line:
                if line.connect_ex(("127.0.0.1", self.port)) == 0:
                    return
            waiting.wait(0.05)
        pytest.fail("the broker does not answer")

    def stop(self) -> None:
        """Stop the broker; what it keeps for its sessions it writes down."""
        if self.process is not None:
            self.process.terminate()
            self.process.wait(PATIENCE_S)
            self.process = None

    def restart(self) -> None:
        """Stop the broker and start it again."""
        self.stop()
        self.start()


@contextmanager
def a_mosquitto(folder: Path, *, has_tls: bool = False) -> Iterator[Mosquitto]:
    """A running broker that keeps its files in a folder."""
    with socket.socket() as line:
        line.bind(("127.0.0.1", 0))
        port = line.getsockname()[1]
    broker = Mosquitto(folder, port)
    passwords, rights = folder / "passwords", folder / "rights"
    passwords.touch(0o600)
    for user in ("sensors", "app"):
        command = [_program("mosquitto_passwd"), "-b", str(passwords), user, SECRET]
        subprocess.run(command, check=True, capture_output=True)
    rights.touch(0o600)
    rights.write_text(
        "user sensors\ntopic write shop/zone/+/climate\nuser app\ntopic read shop/zone/#\n"
    )
    if has_tls:
        _write_certificate(folder)
    (folder / "broker.conf").write_text(
        f"user {getpass.getuser()}\n"
        f"listener {port} 127.0.0.1\n"
        "allow_anonymous false\n"
        f"password_file {passwords}\nacl_file {rights}\n"
        f"persistence true\npersistence_location {folder}/\n"
        f"max_queued_messages {QUEUED}\n"
        + f"certfile {folder / CERTIFICATE}\nkeyfile {folder / 'key.pem'}\n"
        * has_tls
    )
    try:
        broker.start()
        yield broker
    finally:
        broker.stop()


def _write_certificate(folder: Path) -> None:
    """A certificate for this machine that only who knows it trusts."""
    command = (
        f"{_program('openssl')} req -x509 -newkey ec -pkeyopt ec_paramgen_curve:prime256v1 -nodes"
        f" -days 2 -subj /CN=localhost -addext subjectAltName=IP:127.0.0.1"
        f" -keyout {folder / 'key.pem'} -out {folder / CERTIFICATE}"
    )
    subprocess.run(command.split(), check=True, capture_output=True)


class Sensors:
    """Sensors that send, and count what the broker took: after that it is the broker's to lose."""

    def __init__(self, broker: Mosquitto) -> None:
        self.acknowledged = 0
        self._is_counting = Lock()
        self._has_all = Event()
        self._sent = 0
        self._client = paho.Client(
            CallbackAPIVersion.VERSION2, client_id="sensors", clean_session=False
        )
        self._client.username_pw_set("sensors", SECRET)
        self._client.reconnect_delay_set(1, 1)
        self._client.on_publish = self._on_publish
        self._client.connect("127.0.0.1", broker.port)
        self._client.loop_start()

    def _on_publish(self, *_: object) -> None:
        with self._is_counting:
            self.acknowledged += 1
            if self.acknowledged >= self._sent:
                self._has_all.set()

    def send(self, sensor: str, *payloads: str | bytes, retain: bool = False) -> None:
        """Send something as a sensor."""
        with self._is_counting:
            self._sent += len(payloads)
            self._has_all.clear()
        for payload in payloads:
            self._client.publish(f"shop/zone/{sensor}/climate", payload, qos=1, retain=retain)

    def read(self, sensor: str, seconds: Iterable[int]) -> None:
        """Send one reading for each second, numbered by it."""
        self.send(sensor, *(reading(at_s) for at_s in seconds))

    def wait(self) -> None:
        """Until the broker has acknowledged all that was sent."""
        assert self._has_all.wait(PATIENCE_S)

    def close(self) -> None:
        """Send no more."""
        self._client.disconnect()
        self._client.loop_stop()


def reading(at_s: int, temperature_c: float = 21.5) -> str:
    """What a sensor sends."""
    said = {"at": at_s, "temperature_c": temperature_c, "rh_pct": 45.0, "sequence": at_s}
    return json.dumps(said)
