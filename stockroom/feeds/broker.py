"""The connection to an MQTT broker, in a session that outlives it.

    Broker                     where the broker is, who we are there, which topics we read
    Connection(broker)         opened by connect(), let go by close()
      .waiting(seconds)        what came in meanwhile: Arrived, Connected, Lost
      .acknowledge(arrived)    tells the broker that a message need not come again

A network thread puts what comes in into a queue and connects again, after 1, 2, 4 … 60 seconds,
whenever the connection was lost. An acknowledgement belongs to the connection on which its message
came: on a later one the broker has sent the message again, and that copy is acknowledged.
"""

import ssl
from contextlib import suppress
from dataclasses import dataclass, field
from queue import Empty, SimpleQueue
from typing import TYPE_CHECKING, NamedTuple

from stockroom.errors import Code, Refusal, clean_text
from stockroom.feeds.message import Topic

try:
    from paho.mqtt import client as paho
    from paho.mqtt.enums import CallbackAPIVersion
except ModuleNotFoundError as missing:
    raise Refusal(
        Code.BAD_USAGE,
        "Listening needs the package paho-mqtt: install stockroom with its extra mqtt.",
    ) from missing

if TYPE_CHECKING:
    from paho.mqtt.properties import Properties
    from paho.mqtt.reasoncodes import ReasonCode

PORT, TLS_PORT = 1883, 8883
"""The ports registered for MQTT, and for MQTT over TLS (IANA)."""

_HERE = ("localhost", "127.0.0.1", "::1")
_AT_LEAST_ONCE = 1
_LAST_PORT = 65_535
_SHORTEST_WAIT_S, _LONGEST_WAIT_S = 1, 60
_MOST_AT_ONCE = 5_000
_NOT_LET_IN = (134, 135)  # bad user name or password, not authorized: MQTT 5.0, 2.4


@dataclass(frozen=True, slots=True, kw_only=True)
class Broker:
    """Where the broker is, who we are there, and the topics we read.

    `client` names the session: two who listen at the same time need two names.
    """

    host: str
    port: int
    topic: Topic
    client: str
    user: str = ""
    password: str = field(default="", repr=False)
    has_tls: bool = False
    ca_file: str = ""

    def __post_init__(self) -> None:
        if not self.host or not self.host.isprintable() or " " in self.host:
            raise Refusal(Code.BAD_SETTING, "The broker needs the name or address of its host.")
        if not self.client or not self.client.isprintable():
            raise Refusal(Code.BAD_SETTING, "We need a name at the broker: set mqtt-client.")
        if not 1 <= self.port <= _LAST_PORT:
            raise Refusal(Code.BAD_SETTING, f"A port is a number from 1 to {_LAST_PORT}.")

    @property
    def tells_password(self) -> bool:
        """Whether the password goes over a network that others may read along."""
        return bool(self.user) and not self.has_tls and self.host not in _HERE

    @property
    def address(self) -> str:
        """Host and port, as people write them."""
        return f"{self.host}:{self.port}"


class Arrived(NamedTuple):
    """A message, and the connection on which it came."""

    connection: int
    mid: int
    qos: int
    topic: str
    payload: bytes
    is_sent_again: bool


class Connected(NamedTuple):
    """We are connected and may read; without a kept session, what came before is lost."""

    is_session_kept: bool


class Lost(NamedTuple):
    """There is no connection, and another try is made by itself."""

    why: str


Event = Arrived | Connected | Lost | Refusal


class Connection:
    """A connection that comes back."""

    def __init__(self, broker: Broker) -> None:
        self._broker = broker
        self._inbox = _Inbox(broker.topic)
        self._client = _client(broker, self._inbox)

    def connect(self) -> None:
        """Connect, and go on trying where that cannot be done yet."""
        broker = self._broker
        try:
            self._client.connect(broker.host, broker.port)
        except ssl.SSLError as error:
            said = str(error.reason).replace("_", " ").lower()
            raise Refusal(
                Code.BAD_SETTING,
                f"The broker at {broker.address} is not trusted ({said}): check the settings "
                "mqtt-tls and mqtt-ca.",
            ) from error
        except (OSError, UnicodeError) as error:
            self._inbox.put(Lost(getattr(error, "strerror", None) or "no such host"))
            self._client.connect_async(broker.host, broker.port)
        self._client.loop_start()

    def close(self) -> None:
        """Send the acknowledgements that are under way, and leave; the session stays."""
        self._client.disconnect()
        self._client.loop_stop()

    def waiting(self, seconds: float) -> list[Event]:
        """What came in, in its order; waits so long for the first."""
        return self._inbox.taken(seconds)

    def acknowledge(self, arrived: Arrived) -> None:
        """Tell the broker that a message was kept, if it is still this connection's."""
        if arrived.qos and arrived.connection == self._inbox.connection:
            self._client.ack(arrived.mid, arrived.qos)


def _client(broker: Broker, inbox: "_Inbox") -> paho.Client:
    """A client that keeps its session, acknowledges when it is told to, and fills the inbox."""
    client = paho.Client(
        CallbackAPIVersion.VERSION2,
        client_id=broker.client,
        clean_session=False,
        protocol=paho.MQTTv311,
        manual_ack=True,
    )
    if broker.user:
        client.username_pw_set(broker.user, broker.password or None)
    if broker.has_tls:
        try:
            client.tls_set(ca_certs=broker.ca_file or None)
        except OSError as error:
            raise Refusal(
                Code.BAD_SETTING,
                f"The certificates in {clean_text(broker.ca_file)} cannot be read.",
            ) from error
    client.reconnect_delay_set(_SHORTEST_WAIT_S, _LONGEST_WAIT_S)
    client.on_connect = inbox.on_connect
    client.on_subscribe = inbox.on_subscribe
    client.on_connect_fail = inbox.on_connect_fail
    client.on_disconnect = inbox.on_disconnect
    client.on_message = inbox.on_message
    return client


class _Inbox:
    """What the network thread puts in and the listening one takes out; knows no client."""

    def __init__(self, topic: Topic) -> None:
        self.connection = 0
        self._is_session_kept = False
        self._topic = topic
        self._events: SimpleQueue[Event] = SimpleQueue()
        self.put = self._events.put

    def taken(self, seconds: float) -> list[Event]:
        """All that is in it; waits so long for the first."""
        found: list[Event] = []
        with suppress(Empty):
            found.append(self._events.get(timeout=seconds))
            while len(found) < _MOST_AT_ONCE:
                found.append(self._events.get_nowait())
        return found

    def on_connect(
        self,
        client: paho.Client,
        _data: object,
        flags: paho.ConnectFlags,
        reason: "ReasonCode",
        _properties: "Properties | None",
    ) -> None:
        """A connection was made, or the broker would not have it; it counts once we may read."""
        if reason.value in _NOT_LET_IN:
            said = "The broker does not let us in: check the user and the password."
            self.put(Refusal(Code.BAD_SETTING, said))
        elif reason.is_failure:
            self.put(Lost(clean_text(str(reason))))
        else:
            self.connection += 1
            self._is_session_kept = flags.session_present
            client.subscribe(self._topic.template, qos=_AT_LEAST_ONCE)

    def on_subscribe(
        self,
        _client: paho.Client,
        _data: object,
        _mid: int,
        reasons: "list[ReasonCode]",
        _properties: "Properties | None",
    ) -> None:
        """From now on the broker keeps for us what comes, or it does not let us read."""
        if any(reason.is_failure for reason in reasons):
            said = (
                f"The broker does not let us read {self._topic.template}: check the user's rights."
            )
            self.put(Refusal(Code.BAD_SETTING, said))
        else:
            self.put(Connected(is_session_kept=self._is_session_kept))

    def on_connect_fail(self, _client: paho.Client, _data: object) -> None:
        """Another try found nobody."""
        self.put(Lost("no answer"))

    def on_disconnect(
        self,
        _client: paho.Client,
        _data: object,
        _flags: paho.DisconnectFlags,
        reason: "ReasonCode",
        _properties: "Properties | None",
    ) -> None:
        """The connection ended, and not because we left."""
        if reason.is_failure:
            self.put(Lost("the connection was lost"))

    def on_message(self, _client: paho.Client, _data: object, message: paho.MQTTMessage) -> None:
        """A message came."""
        try:
            topic = message.topic
        except UnicodeDecodeError:
            topic = ""
        self.put(
            Arrived(
                self.connection,
                message.mid,
                message.qos,
                topic,
                bytes(message.payload),
                message.dup,
            )
        )
