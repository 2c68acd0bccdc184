"""Somebody who listens to a broker, and keeps what comes in memory, or in nobody's."""

from collections.abc import Mapping, Sequence
from multiprocessing.connection import Connection
from threading import Condition, Event, Thread
from typing import Any, Self

from stockroom.errors import Refusal
from stockroom.feeds.broker import Broker
from stockroom.feeds.message import Topic
from stockroom.feeds.mqtt import Heard, Keep, Kept, listen
from stockroom.feeds.reading import Reading
from tests.feeds.mosquitto import PATIENCE_S, SECRET, Mosquitto

TOPIC = "shop/zone/+/climate"


def broker_at(port: int, **given: Any) -> Broker:
    """The broker of a test, for the user who may read."""
    facts: dict[str, Any] = {
        "host": "127.0.0.1",
        "topic": Topic(TOPIC),
        "client": "stockroom",
        "user": "app",
        "password": SECRET,
    }
    return Broker(port=port, **facts | given)


class Shelf:
    """Keeps readings in memory; refuses to, once for each refusal it was given."""

    def __init__(self, *refusals: Refusal) -> None:
        self.kept: list[tuple[str, Reading]] = []
        self._refusals = list(refusals)
        self._changed = Condition()

    def __call__(self, readings: Mapping[str, Sequence[Reading]]) -> Kept:
        """Keep what is not kept yet."""
        with self._changed:
            self._changed.notify_all()
            if self._refusals:
                raise self._refusals.pop(0)
            there = set(self.kept)
            given = [(sensor, one) for sensor, those in readings.items() for one in those]
            new = [one for one in dict.fromkeys(given) if one not in there]
            self.kept += new
        return Kept(written=len(new), dropped=0, sentences={})

    def wait(self, number: int) -> None:
        """Until so many readings are kept."""
        with self._changed:
            assert self._changed.wait_for(lambda: len(self.kept) >= number, PATIENCE_S)

    @property
    def seconds(self) -> list[int]:
        """The seconds of all readings, in order."""
        return sorted(reading.at_s for _, reading in self.kept)


class Ear:
    """Listens in a thread until it is left."""

    def __init__(self, broker: Broker | Mosquitto, keep: Keep) -> None:
        self.said: list[str] = []
        self.heard: Heard | None = None
        self.refusal: Refusal | None = None
        self._broker = broker_at(broker.port) if isinstance(broker, Mosquitto) else broker
        self._keep = keep
        self._stop = Event()
        self._has_said = Condition()
        self._thread = Thread(target=self._listen)

    def _listen(self) -> None:
        try:
            self.heard = listen(self._broker, self._keep, say=self._say, stop=self._stop)
        except Refusal as refusal:
            self.refusal = refusal

    def _say(self, sentence: str) -> None:
        with self._has_said:
            self.said.append(sentence)
            self._has_said.notify_all()

    def hears(self, words: str) -> None:
        """Wait until something is said with these words in it."""
        with self._has_said:
            assert self._has_said.wait_for(
                lambda: any(words in one for one in self.said), PATIENCE_S
            ), self.said

    def __enter__(self) -> Self:
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._stop.set()
        self._thread.join(PATIENCE_S)
        assert not self._thread.is_alive()

    def ends(self) -> Refusal:
        """Wait until it ends by itself, and say why."""
        self._thread.join(PATIENCE_S)
        assert self.refusal is not None
        return self.refusal


def hold_and_never_keep(port: int, answer: Connection) -> None:
    """Listen, say what came, and be at it for ever: the moment between receipt and commit."""

    def hold(readings: Mapping[str, Sequence[Reading]]) -> Kept:
        answer.send(sum(map(len, readings.values())))
        Event().wait()
        raise AssertionError

    listen(broker_at(port), hold, say=lambda _: None, stop=Event())
