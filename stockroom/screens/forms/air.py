"""The air of a zone: what its sensor says, which one stands there, and which places share it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from stockroom.books.catalog import name_key
from stockroom.books.climate import SensorNow, ZoneNow
from stockroom.books.values import Place, Shop
from stockroom.codes.own import Letter, looks_like_code, place_or_name
from stockroom.errors import Code, Refusal
from stockroom.lines import sensors as lines
from stockroom.lines.when import read_hours, read_instant
from stockroom.screens.form import Blank, Field, mending
from stockroom.screens.station import Station
from stockroom.units.shown import show_temperature
from stockroom.units.typed import parse_number, parse_temperature
from stockroom.work.readings import WriteReadings, write_readings
from stockroom.work.sensors import (
    MOST_OFF_C,
    MOST_OFF_PCT,
    SILENT_HOURS,
    AddSensor,
    PlaceSensor,
    PutInZone,
    add_a_sensor,
    place_a_sensor,
    put_in_zone,
    sensors,
)

_LIKE_C = 22.4
_NAME = 60
"""So many characters of a name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OnZone:
    """A zone at a station, and what can be named beside it."""

    station: Station
    zone: ZoneNow | None
    """None while no zone is known."""
    sensors: Sequence[SensorNow]
    places: Sequence[Place]
    zones: Sequence[str]
    """What every zone is called."""
    shop: Shop

    @property
    def name(self) -> str:
        """What the zone is called."""
        return self.zone.zone if self.zone else ""

    @property
    def speaks(self) -> SensorNow | None:
        """The sensor that stands in the zone."""
        return self.zone.sensor if self.zone else None


def reading_blank(on: OnZone) -> Blank:
    """How warm and damp is it, by the sensor that speaks for the zone?"""
    station, asking = on.station, on.station.asking()
    sensor = on.speaks
    if sensor is None:
        who = f"Nobody measures {on.name}" if on.name else "No sensor is known"
        raise Refusal(Code.NO_SENSOR, f"{who}: s says which one stands where.")

    unanswered: list[datetime] = []

    def write(said: Mapping[str, str]) -> str:
        now = station.now()
        with mending("temperature"):
            temperature_c = _temperature(said, on)
        with mending("humidity"):
            rh_pct = _number(said["humidity"], "a humidity", (0, 100), "%")
        with mending("read at"):
            at = (
                read_instant(said["read at"], on.shop, now)
                if said["read at"]
                else next(iter(unanswered), now)
            )
            if at > now:
                raise Refusal(Code.FUTURE, "That time is still to come.")
        _refuse_moved(sensor, on)
        reading = (int(at.timestamp()), temperature_c, rh_pct)
        request = WriteReadings(**asking, sensor=sensor.name, readings=(reading,))
        unanswered[:] = [at]  # asked again because no answer came, it is the same reading
        done = write_readings(request, book=station.book, now=now)
        unanswered.clear()
        if not (done.written or done.known):
            with mending("read at" if said["read at"] else "temperature"):
                raise Refusal(Code.BAD_NUMBER, lines.not_written(done, at, on.shop))
        return lines.written_at(done, at, temperature_c, on.shop)

    def foretells(said: Mapping[str, str]) -> str:
        temperature_c = _temperature(said, on) if said["temperature"] else None
        return lines.would_be_read(sensor, temperature_c, on.shop)

    return Blank(
        title=f"What {sensor.name} says in {sensor.zone}",
        fields=(
            Field(name="temperature", hint=f"like {show_temperature(_LIKE_C, on.shop.system)}"),
            Field(name="humidity", hint="like 48 %; nothing if it does not tell"),
            Field(name="read at", hint="now; or yesterday 16:00"),
        ),
        write=write,
        foretells=foretells,
        beside="As the sensor shows it: what calibration adds comes on top. It stays for good.",
    )


def _temperature(said: Mapping[str, str], on: OnZone) -> float:
    if not said["temperature"]:
        raise Refusal(Code.BAD_USAGE, "Say how warm it is.")
    return parse_temperature(said["temperature"], on.shop.system)


def _refuse_moved(sensor: SensorNow, on: OnZone) -> None:
    """Refuse to write for a zone what is said in another one by now."""
    known = sensors(on.station.book, now=on.station.now())
    zone = next(one.zone for one in known if one.name == sensor.name)
    if zone != sensor.zone:
        where = f"in {zone}" if zone else "nowhere"
        raise Refusal(Code.LATER_ACT, f"{sensor.name} stands {where} by now.")


def sensor_blank(on: OnZone) -> Blank:
    """Which sensor stands in the zone from now on, and what does calibration add to it?"""
    station, asking = on.station, on.station.asking()

    def write(said: Mapping[str, str]) -> str:
        book, now = station.book, station.now()
        name, zone = said["sensor"], _known_as(said["zone"], on)
        adds_c = _added("offset K", said, MOST_OFF_C, "K")
        adds_pct = _added("offset RH", said, MOST_OFF_PCT, "%")
        with mending("silent after"):
            silent = said["silent after"]
            hours = read_hours(silent) if silent else None
        with mending("sensor"):
            _refuse_code(name)
            if name_key(name) in {name_key(one.name) for one in sensors(book, now=now)}:
                placing = PlaceSensor(
                    **asking,
                    sensor=name,
                    zone=zone,
                    offset_c=adds_c,
                    offset_rh_pct=adds_pct,
                    silent_hours=hours,
                )
                return " ".join(lines.placed(place_a_sensor(placing, book=book, now=now)))
            adding = AddSensor(
                **asking,
                name=name,
                zone=zone,
                offset_c=adds_c or 0.0,
                offset_rh_pct=adds_pct or 0.0,
                silent_hours=SILENT_HOURS if hours is None else hours,
            )
            return " ".join(lines.placed(add_a_sensor(adding, book=book, now=now)))

    def foretells(said: Mapping[str, str]) -> str:
        return lines.would_be_placed(said["sensor"], _known_as(said["zone"], on), on.sensors)

    return Blank(
        title="Which sensor stands where",
        fields=(
            Field(name="sensor", hint="a new one, or one that is known", most=_NAME),
            Field(name="zone", hint="nowhere: it is put away", value=on.name, most=_NAME),
            Field(name="offset K", hint="what calibration adds, like -0.4"),
            Field(name="offset RH", hint="what it adds to the humidity, like 2"),
            Field(name="silent after", hint=f"how long it may say nothing, like {SILENT_HOURS}h"),
        ),
        write=write,
        foretells=foretells,
        beside="From now on; the first one a zone ever gets speaks for it from the beginning.",
    )


def _known_as(zone: str, on: OnZone) -> str:
    """A zone as it is written already, whatever its capitals."""
    return next((one for one in on.zones if name_key(one) == name_key(zone)), zone)


def _refuse_code(name: str) -> None:
    if looks_like_code(name):
        raise Refusal(Code.BAD_NAME, "That is a code, and no name of a sensor.")


def place_blank(on: OnZone) -> Blank:
    """Which place lies in the zone from now on?"""
    station, asking = on.station, on.station.asking()
    names = {place.code: place.name for place in on.places}

    def write(said: Mapping[str, str]) -> str:
        if not said["place"]:
            raise Refusal(Code.BAD_USAGE, "Say which place: scan it, or type its name.")
        place = place_or_name(said["place"])
        request = PutInZone(**asking, place=place, zone=_known_as(said["zone"], on))
        found = put_in_zone(request, book=station.book, now=station.now())
        return lines.now_in_zone(found)

    return Blank(
        title="Which place shares whose climate",
        fields=(
            Field(name="place", hint="scan it, or its name", takes=Letter.PLACE, names=names),
            Field(name="zone", hint="nobody knows", value=on.name, most=_NAME),
        ),
        write=write,
        beside="From now on: until now its film aged by the zone it lay in.",
    )


def _added(field: str, said: Mapping[str, str], most: float, unit: str) -> float | None:
    with mending(field):
        text = said[field].removeprefix("+")
        return _number(text, "what calibration adds", (-most, most), unit)


def _number(text: str, what: str, between: tuple[float, float], unit: str) -> float | None:
    return parse_number(text, what, between, unit) if text else None
