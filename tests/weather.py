"""A shop with sensors to test in: what a station does about the climate, and readings to give it."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from stockroom.work.readings import ReadingsWritten, WriteReadings, write_readings
from stockroom.work.sensors import (
    AddSensor,
    Assume,
    PlaceSensor,
    PutInZone,
    SensorPlaced,
    ZonedPlace,
    add_a_sensor,
    assume,
    place_a_sensor,
    put_in_zone,
)
from tests.conftest import NOW
from tests.floor import Floor

HOUR_S = 3_600
NOW_S = int(NOW.timestamp())

Given = tuple[int, float] | tuple[int, float, float | None]


class Weather(Floor):
    """Somebody who also looks after sensors."""

    def sensor(self, name: str = "door", zone: str = "north", **given: Any) -> SensorPlaced:
        """A sensor in a zone."""
        request = AddSensor(**self.asked(name=name, zone=zone, **given))
        return add_a_sensor(request, book=self.book, now=self.now)

    def move(self, sensor: str = "door", **given: Any) -> SensorPlaced:
        """A sensor moves, or is calibrated."""
        request = PlaceSensor(**self.asked(sensor=sensor, **given))
        return place_a_sensor(request, book=self.book, now=self.now)

    def assume(self, zone: str, temperature_c: float | None, at: datetime | None = None) -> str:
        """How warm a zone is taken to be."""
        request = Assume(**self.asked(zone=zone, temperature_c=temperature_c, at=at))
        return assume(request, book=self.book, now=self.now)

    def put_in_zone(self, place: str, zone: str, at: datetime | None = None) -> ZonedPlace:
        """A place lies in another zone."""
        request = PutInZone(**self.asked(place=place, zone=zone, at=at))
        return put_in_zone(request, book=self.book, now=self.now)

    def read(self, *given: Given, sensor: str = "door") -> ReadingsWritten:
        """What a sensor said: seconds from now on, °C and perhaps %."""
        return self.write(((NOW_S + one[0], *one[1:]) for one in given), sensor=sensor)

    def write(self, given: Iterable[Given], sensor: str = "door") -> ReadingsWritten:
        """What a sensor said, at seconds of UTC."""
        readings = tuple((one[0], one[1], one[2] if len(one) == 3 else None) for one in given)
        request = WriteReadings(**self.asked(sensor=sensor, readings=readings))
        return write_readings(request, book=self.book, now=self.now)
