"""A real broker on loopback: what it acknowledged to a sensor is kept, whatever breaks on the way."""

import gc
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from paho.mqtt import client as paho
from paho.mqtt.enums import CallbackAPIVersion
from paho.mqtt.packettypes import PacketTypes
from paho.mqtt.reasoncodes import ReasonCode

from stockroom.errors import Code, Refusal
from stockroom.feeds.broker import Arrived, Connection, Lost, _Inbox
from stockroom.feeds.message import Topic
from tests.architecture.tree import ROOT
from tests.books.at_work import pipe, start
from tests.feeds.listening import Ear, Shelf, broker_at, hold_and_never_keep
from tests.feeds.mosquitto import (
    CERTIFICATE,
    PATIENCE_S,
    SECRET,
    Mosquitto,
    Sensors,
    a_mosquitto,
    reading,
)

pytestmark = pytest.mark.mosquitto

BUSY = Refusal(Code.BOOK_LOCKED, "The book was not used: another station is writing.")
NO_SESSION = paho.ConnectFlags(session_present=False)
FIRST_S, MANY = 1_741_969_800, 400
SECONDS = range(FIRST_S, FIRST_S + MANY)


@pytest.fixture
def mosquitto(tmp_path: Path) -> Iterator[Mosquitto]:
    """A broker of this test alone."""
    with a_mosquitto(tmp_path) as broker:
        yield broker


@pytest.fixture
def sensors(mosquitto: Mosquitto) -> Iterator[Sensors]:
    """Sensors that are connected to it."""
    made = Sensors(mosquitto)
    yield made
    made.close()


def _listened_once(mosquitto: Mosquitto) -> None:
    """From now on the broker keeps for us what comes."""
    with Ear(mosquitto, Shelf()) as ear:
        ear.hears("Listening")


def test_all_that_is_acknowledged_is_kept(mosquitto: Mosquitto, sensors: Sensors) -> None:
    """Three sensors send, and somebody listens."""
    shelf = Shelf()

    with Ear(mosquitto, shelf) as ear:
        ear.hears("Listening")
        for name in ("north", "south", "van 2"):
            sensors.read(name, SECONDS)
        sensors.wait()
        shelf.wait(3 * MANY)

    assert sensors.acknowledged == 3 * MANY
    assert {name for name, _ in shelf.kept} == {"north", "south", "van 2"}
    assert shelf.seconds == sorted([*SECONDS] * 3)
    assert ear.heard == (3 * MANY, 3 * MANY, 0)


def test_what_comes_while_nobody_listens_waits_at_the_broker(
    mosquitto: Mosquitto, sensors: Sensors
) -> None:
    """The session outlives the connection."""
    _listened_once(mosquitto)
    sensors.read("north", SECONDS)
    sensors.wait()
    shelf = Shelf()

    with Ear(mosquitto, shelf) as ear:
        shelf.wait(MANY)

    assert shelf.seconds == [*SECONDS]
    assert "keeps for us" not in ear.said[0]


def test_a_broker_that_is_started_again_loses_nothing(
    mosquitto: Mosquitto, sensors: Sensors
) -> None:
    """Whoever listens connects again by itself."""
    shelf = Shelf()

    with Ear(mosquitto, shelf) as ear:
        ear.hears("Listening")
        sensors.read("north", SECONDS)
        mosquitto.restart()
        sensors.read("south", SECONDS)
        sensors.wait()
        shelf.wait(2 * MANY)
        ear.hears("trying again")

    assert shelf.seconds == sorted([*SECONDS] * 2)
    assert ear.said[-1].startswith("Listening")


def test_nor_does_one_that_is_started_again_while_nobody_listens(
    mosquitto: Mosquitto, sensors: Sensors
) -> None:
    """Both were away."""
    _listened_once(mosquitto)
    sensors.read("north", SECONDS)
    sensors.wait()
    mosquitto.restart()
    shelf = Shelf()

    with Ear(mosquitto, shelf):
        shelf.wait(MANY)

    assert shelf.seconds == [*SECONDS]


def test_a_listener_that_is_killed_between_receipt_and_commit_loses_nothing(
    mosquitto: Mosquitto, sensors: Sensors
) -> None:
    """It had the messages, and had not kept them."""
    _listened_once(mosquitto)
    reader, writer = pipe()
    process = start(hold_and_never_keep, mosquitto.port, writer)
    writer.close()
    sensors.read("north", SECONDS)
    sensors.wait()
    assert reader.poll(PATIENCE_S)
    assert reader.recv() > 0
    process.kill()
    process.join()
    shelf = Shelf()

    with Ear(mosquitto, shelf):
        shelf.wait(MANY)

    assert shelf.seconds == [*SECONDS]


def test_nothing_is_acknowledged_while_the_book_cannot_be_written(
    mosquitto: Mosquitto, sensors: Sensors
) -> None:
    """It is tried again, and said once; whoever is stopped meanwhile leaves all to the next one."""
    stopped = Shelf(*[BUSY] * 1_000)
    with Ear(mosquitto, stopped) as ear:
        ear.hears("Listening")
        sensors.read("north", SECONDS)
        sensors.wait()
        ear.hears("nothing is lost")
    shelf = Shelf(BUSY, BUSY)

    with Ear(mosquitto, shelf) as next_one:
        shelf.wait(MANY)

    assert stopped.kept == []
    assert ear.heard == (0, 0, 0)
    assert shelf.seconds == [*SECONDS]
    assert sum("nothing is lost" in one for one in next_one.said) == 1


def test_a_book_that_will_not_do_ends_it_and_loses_nothing(
    mosquitto: Mosquitto, sensors: Sensors
) -> None:
    """A damaged book is not better a second later."""
    damaged = Refusal(Code.BOOK_DAMAGED, "The file is damaged.")
    with Ear(mosquitto, Shelf(damaged)) as ear:
        ear.hears("Listening")
        sensors.read("north", SECONDS)
        assert ear.ends() is damaged
    sensors.wait()
    shelf = Shelf()

    with Ear(mosquitto, shelf):
        shelf.wait(MANY)

    assert shelf.seconds == [*SECONDS]


def test_what_is_no_reading_is_said_once_and_does_not_come_again(
    mosquitto: Mosquitto, sensors: Sensors
) -> None:
    """The good ones between are kept."""
    shelf = Shelf()
    with Ear(mosquitto, shelf) as ear:
        ear.hears("Listening")
        sensors.send("north", b"\xff", "warm", "{}", reading(FIRST_S), "[]", "\x1b[2J")
        sensors.read("south", SECONDS[:2])
        sensors.wait()
        shelf.wait(3)
    with Ear(mosquitto, Shelf()) as later:
        later.hears("Listening")

    assert ear.heard == (8, 3, 5)
    assert later.heard == (0, 0, 0)
    assert [one for one in ear.said if "dropped" in one] == [
        "A message of shop/zone/north/climate is dropped: it is no JSON object.",
        "A message of shop/zone/north/climate is dropped: it has no temperature_c.",
    ]


def test_numbers_that_are_missing_are_said(mosquitto: Mosquitto, sensors: Sensors) -> None:
    """A sensor that numbers what it sends shows what never reached the broker."""
    with Ear(mosquitto, shelf := Shelf()) as ear:
        ear.hears("Listening")
        sensors.send("north", reading(FIRST_S), reading(FIRST_S + 4))
        shelf.wait(2)
        ear.hears(f"north: 3 missing before number {FIRST_S + 4}.")


def test_a_message_the_broker_holds_for_newcomers_is_kept_once(
    mosquitto: Mosquitto, sensors: Sensors
) -> None:
    """A retained message comes with every connection."""
    shelf = Shelf()
    with Ear(mosquitto, shelf) as ear:
        ear.hears("Listening")
        sensors.send("north", reading(FIRST_S), retain=True)
        shelf.wait(1)
    with Ear(mosquitto, shelf) as again:
        again.hears("Listening")
        sensors.send("north", reading(FIRST_S + 1))
        shelf.wait(2)

    assert shelf.seconds == [FIRST_S, FIRST_S + 1]


@pytest.mark.parametrize("wrong", [{"password": "guessed"}, {"user": "nobody"}, {"user": ""}])
def test_a_wrong_password_is_refused_and_never_said(
    mosquitto: Mosquitto, wrong: dict[str, str]
) -> None:
    """In one sentence that says what to look at."""
    broker = broker_at(mosquitto.port, **wrong)

    with Ear(broker, Shelf()) as ear:
        refusal = ear.ends()

    assert refusal.code is Code.BAD_SETTING
    assert "user and the password" in refusal.sentence
    for secret in (SECRET, "guessed"):
        assert secret not in f"{refusal.sentence} {ear.said} {broker!r}"


def test_a_broker_that_is_not_there_yet_is_waited_for(mosquitto: Mosquitto) -> None:
    """A station may be switched on before its server."""
    mosquitto.stop()

    with Ear(mosquitto, Shelf()) as ear:
        ear.hears("Connection refused")
        mosquitto.start()
        ear.hears("Listening")


def test_a_host_that_has_no_address_is_said() -> None:
    """A name that was mistyped."""
    with Ear(broker_at(1883, host="no.such.host.invalid"), Shelf()) as ear:
        ear.hears("no.such.host.invalid:1883 is not reached")


@pytest.mark.parametrize(
    "wrong", [{"host": ""}, {"host": "a b"}, {"port": 0}, {"port": 70_000}, {"client": ""}]
)
def test_what_can_be_no_broker_is_refused(wrong: dict[str, str | int]) -> None:
    """Before anything is tried."""
    facts = {"host": "127.0.0.1", "port": 1883} | wrong
    with pytest.raises(Refusal) as caught:
        broker_at(**facts)  # type: ignore[arg-type]

    assert caught.value.code is Code.BAD_SETTING


@pytest.mark.filterwarnings("ignore:Exception ignored in. <ssl.SSLSocket")
def test_a_broker_with_a_certificate_we_know_is_trusted(tmp_path: Path) -> None:
    """And one nobody vouches for is not; the library leaves its half-made socket behind."""
    known = str(tmp_path / CERTIFICATE)
    with a_mosquitto(tmp_path, has_tls=True) as mosquitto:
        with Ear(broker_at(mosquitto.port, has_tls=True, ca_file=known), Shelf()) as ear:
            ear.hears("Listening")
        with Ear(broker_at(mosquitto.port, has_tls=True), Shelf()) as ear:
            refusal = ear.ends()

    assert refusal.code is Code.BAD_SETTING
    assert "not trusted (certificate verify failed)" in refusal.sentence
    del refusal, ear
    gc.collect()


def test_certificates_that_cannot_be_read_are_refused() -> None:
    """The file was mistyped."""
    with Ear(broker_at(1883, has_tls=True, ca_file="no/such.pem"), Shelf()) as ear:
        assert "no/such.pem cannot be read" in ear.ends().sentence


def test_a_password_that_others_can_read_along_is_said_to_be_so() -> None:
    """Only on the way to another machine."""
    with Ear(broker_at(1883, host="no.such.host.invalid"), Shelf()) as ear:
        ear.hears("unprotected")

    assert not broker_at(1883).tells_password
    assert not broker_at(1883, host="far.away.invalid", has_tls=True).tells_password


def test_only_topics_that_match_are_read(mosquitto: Mosquitto, sensors: Sensors) -> None:
    """Another template, another listener."""
    broker = broker_at(mosquitto.port, topic=Topic("shop/+/north/climate"), client="other")

    with Ear(broker, shelf := Shelf()) as ear:
        ear.hears("Listening")
        sensors.read("south", SECONDS[:1])
        sensors.read("north", SECONDS[:1])
        shelf.wait(1)

    assert [name for name, _ in shelf.kept] == ["zone"]


def test_what_the_broker_answers_otherwise_is_said() -> None:
    """Rights that are missing end it; a server that is not available is tried again."""
    inbox = _Inbox(Topic("shop/zone/+/climate"))
    unavailable = ReasonCode(PacketTypes.CONNACK, "Server unavailable")
    not_granted = ReasonCode(PacketTypes.SUBACK, "Unspecified error")

    inbox.on_connect(paho.Client(CallbackAPIVersion.VERSION2), None, NO_SESSION, unavailable, None)
    inbox.on_subscribe(paho.Client(CallbackAPIVersion.VERSION2), None, 1, [not_granted], None)

    lost, refused = inbox.taken(0)
    assert lost == Lost("Server unavailable")
    assert isinstance(refused, Refusal)
    assert refused.code is Code.BAD_SETTING
    assert "shop/zone/+/climate" in refused.sentence


def test_an_acknowledgement_belongs_to_its_connection(monkeypatch: pytest.MonkeyPatch) -> None:
    """On a later one the broker sends the message again; what came without a promise needs none."""
    acknowledged: list[tuple[int, int]] = []
    connection = Connection(broker_at(1883))
    monkeypatch.setattr(connection._client, "ack", lambda *given: acknowledged.append(given))
    connection._inbox.connection = 2
    here = Arrived(2, 7, 1, "", b"", is_sent_again=False)

    for arrived in (here._replace(connection=1, mid=6), here, here._replace(mid=8, qos=0)):
        connection.acknowledge(arrived)

    assert acknowledged == [(7, 1)]


def test_without_the_package_it_is_said_which_one_is_missing() -> None:
    """In one sentence, and nothing else of the program needs it."""
    code = (
        "import sys; sys.modules['paho'] = None\n"
        "from stockroom.errors import Refusal\n"
        "try:\n    import stockroom.feeds.mqtt\n"
        "except Refusal as refusal:\n    print(refusal.code, refusal.sentence)"
    )
    said = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout

    assert said.startswith("bad-usage Listening needs the package paho-mqtt")
    assert said.count("\n") == 1
