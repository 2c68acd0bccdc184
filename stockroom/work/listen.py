"""Readings that a broker brings are written for their sensors, batch by batch."""

import re
from collections.abc import Callable, Mapping, Sequence
from datetime import datetime
from uuid import uuid4

from stockroom.books.opening import Book
from stockroom.errors import Code, Refusal
from stockroom.feeds.mqtt import Keep, Kept
from stockroom.feeds.reading import Reading
from stockroom.work.readings import WriteReadings, write_readings

_NUMBERS = re.compile(r"[-\d.:]+")


def keeper(book: Book, *, operator: str, clock: Callable[[], datetime]) -> Keep:
    """What writes the readings of some sensors; those of one nobody entered are dropped."""

    def keep(readings: Mapping[str, Sequence[Reading]]) -> Kept:
        written = dropped = 0
        sentences: dict[str, str] = {}
        for sensor, those in readings.items():
            request = WriteReadings(
                request=uuid4().hex, operator=operator, sensor=sensor, readings=tuple(those)
            )
            try:
                done = write_readings(request, book=book, now=clock())
            except Refusal as refusal:
                if refusal.code is not Code.NO_SENSOR:
                    raise
                dropped += len(those)
                sentences[sensor] = f"{refusal.sentence} What it sends is dropped."
                continue
            written += done.written
            dropped += len(those) - done.written - done.known
            for _, text in done.findings:
                sentences[f"{sensor}: {_NUMBERS.sub('', text)}"] = f"{done.sensor}: {text}."
        return Kept(written, dropped, sentences)

    return keep
