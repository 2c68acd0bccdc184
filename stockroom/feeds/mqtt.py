"""Readings from an MQTT broker: acknowledged once they are kept, and not before.

    listen(broker, keep, …)   takes what comes in until it is stopped, and says how much: Heard
    Keep                      the function that keeps readings for good before it returns: Kept

Messages come at least once (QoS 1): what arrives while nobody listens waits at the broker, and what
was not acknowledged comes again. All that is waiting is kept at once, then acknowledged. While the
book cannot be written nothing is acknowledged, and keeping is tried again and again. What is no
reading, and a sensor nobody entered, would be no better the second time: said once, acknowledged,
and dropped.
"""

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass, field
from threading import Event
from typing import NamedTuple, Protocol

from stockroom.errors import Code, Refusal, clean_text
from stockroom.feeds.broker import Arrived, Broker, Connected, Connection, Lost
from stockroom.feeds.message import Sequences, read_message
from stockroom.feeds.reading import Reading, Unread

_PATIENCE_S = 0.5
_SHORTEST_WAIT_S, _LONGEST_WAIT_S = 1.0, 60.0
_MOST_SAID = 1_000

PASSING = frozenset({Code.BOOK_LOCKED, Code.BOOK_FULL, Code.BOOK_UNREACHABLE, Code.ALREADY_THERE})
"""What may be over when it is tried again: the book is busy, full, away, or written by another."""


class Kept(NamedTuple):
    """How many readings were new and how many were dropped.

    Of the sentences for a person, one is said about each thing.
    """

    written: int
    dropped: int
    sentences: Mapping[str, str]


class Keep(Protocol):
    """Keeps the readings of some sensors, by name, for good before it returns."""

    def __call__(self, readings: Mapping[str, Sequence[Reading]]) -> Kept: ...


class Heard(NamedTuple):
    """How many messages came, how many of their readings were new, and how many were dropped."""

    messages: int
    written: int
    dropped: int


def listen(
    broker: Broker,
    keep: Keep,
    *,
    say: Callable[[str], None],
    stop: Event,
) -> Heard:
    """Take readings until stopped; refused where the broker does not let us in."""
    with closing(Connection(broker)) as connection:
        listener = _Listener(broker, keep, say, stop)
        if broker.tells_password:
            say(f"The password goes to {broker.host} unprotected: set mqtt-tls where you can.")
        connection.connect()
        while not stop.is_set():
            arrived = listener.sorted_out(connection.waiting(_PATIENCE_S))
            if listener.has_kept(arrived):
                for message in arrived:
                    connection.acknowledge(message)
    return Heard(listener.messages, listener.written, listener.dropped)


@dataclass(slots=True)
class _Listener:
    broker: Broker
    keep: Keep
    say: Callable[[str], None]
    stop: Event
    messages: int = 0
    written: int = 0
    dropped: int = 0
    _is_connected: bool | None = None
    _sequences: Sequences = field(default_factory=Sequences)
    _said: set[str] = field(default_factory=set[str])

    def sorted_out(self, events: Sequence[Arrived | Connected | Lost | Refusal]) -> list[Arrived]:
        """The messages among what came in; the rest is said to the person."""
        arrived: list[Arrived] = []
        for event in events:
            if isinstance(event, Arrived):
                arrived.append(event)
            elif isinstance(event, Refusal):
                raise event
            else:
                self._say_of_connection(event)
        return arrived

    def has_kept(self, arrived: Sequence[Arrived]) -> bool:
        """Keep what these messages say, however long it takes; False where we were stopped first."""
        if not arrived:
            return False
        readings = self._read(arrived)
        wait_s = _SHORTEST_WAIT_S
        while readings:
            try:
                kept = self.keep(readings)
            except Refusal as refusal:
                if refusal.code not in PASSING:
                    raise
                if wait_s == _SHORTEST_WAIT_S:
                    self.say(f"{refusal.sentence} Trying again; nothing is lost.")
                if self.stop.wait(wait_s):
                    return False
                wait_s = min(wait_s * 2, _LONGEST_WAIT_S)
                continue
            self.written += kept.written
            self.dropped += kept.dropped
            for about, sentence in kept.sentences.items():
                self._say_once(about, sentence)
            break
        self.messages += len(arrived)
        return True

    def _read(self, arrived: Sequence[Arrived]) -> dict[str, list[Reading]]:
        """The readings of each sensor; what is none is said."""
        readings: dict[str, list[Reading]] = defaultdict(list)
        for message in arrived:
            try:
                sensor = self.broker.topic.sensor_of(message.topic)
                sent = read_message(message.payload)
            except Unread as unread:
                self.dropped += 1
                topic = clean_text(message.topic)
                self._say_once(
                    f"{topic} {unread.wrong}", f"A message of {topic} is dropped: {unread.text}."
                )
                continue
            readings[sensor].append(sent.reading)
            missing = self._sequences.missing(
                sensor, sent.sequence, is_sent_again=message.is_sent_again
            )
            if missing:
                self.say(f"{sensor}: {missing} missing before number {sent.sequence}.")
        return readings

    def _say_of_connection(self, event: Connected | Lost) -> None:
        address = self.broker.address
        if isinstance(event, Connected):
            kept = "" if event.is_session_kept else "; from now on it keeps for us what comes"
            self.say(f"Listening to {self.broker.topic.template} at {address}{kept}.")
        elif self._is_connected is not False:
            self.say(f"The broker at {address} is not reached ({event.why}); trying again.")
        self._is_connected = isinstance(event, Connected)

    def _say_once(self, about: str, sentence: str) -> None:
        if about not in self._said and len(self._said) < _MOST_SAID:
            self._said.add(about)
            self.say(sentence)
