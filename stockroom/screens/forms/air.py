"""The air of a zone: what its sensor says, which one stands there, and which places share it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from stockroom.books.catalog import name_key
from stockroom.books.climate import SensorNow, ZoneNow
from stockroom.books.values import Place, Shop
from stockroom.codes.own import Letter, looks_like_code, read_place
from stockroom.errors import Code, Refusal
from stockroom.lines import sensors as lines
from stockroom.lines.when import read_instant
from stockroom.screens.form import Blank, Field, Misfilled, mending
from stockroom.screens.station import Station
from stockroom.units.shown import show_temperature
from stockroom.units.typed import parse_duration, parse_number, parse_temperature
from stockroom.work.readings import WriteReadings, write_readings
from stockroom.work.sensors import (
    SILENT_HOURS,
    AddSensor,
    PlaceSensor,
    PutInZone,
    add_a_sensor,
    place_a_sensor,
    put_in_zone,
)

_HOUR_S = 3_600
_LIKE_C = 22.4
_MOST_ADDED = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class OnZone:
    """A zone at a station, and what can be named beside it."""

    station: Station
    zone: ZoneNow | None
    """None while no zone is known."""
    sensors: Sequence[SensorNow]
    places: Sequence[Place]
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

    def write(said: Mapping[str, str]) -> str:
        now = station.now()
        with mending("temperature"):
            temperature_c = parse_temperature(said["temperature"], on.shop.system)
        with mending("humidity"):
            rh_pct = _number(said["humidity"], "a humidity", (0, 100), "%")
        with mending("read at"):
            at = read_instant(said["read at"], on.shop, now) if said["read at"] else now
        reading = (int(at.timestamp()), temperature_c, rh_pct)
        request = WriteReadings(**asking, sensor=sensor.name, readings=(reading,))
        done = write_readings(request, book=station.book, now=now)
        if not (done.written or done.known):
            what = Refusal(Code.BAD_NUMBER, f"Nothing was written: {done.findings[0][1]}.")
            raise Misfilled("read at" if said["read at"] else "temperature", what)
        return " ".join([lines.written(done), *(f"{text}." for _, text in done.findings)])

    return Blank(
        title=f"What {sensor.name} says in {sensor.zone}",
        fields=(
            Field(name="temperature", hint=f"like {show_temperature(_LIKE_C, on.shop.system)}"),
            Field(name="humidity", hint="like 48 %; nothing if it does not tell"),
            Field(name="read at", hint="now; or yesterday 16:00"),
        ),
        write=write,
        beside="As the sensor shows it: what calibration adds comes on top.",
    )


def sensor_blank(on: OnZone) -> Blank:
    """Which sensor stands in the zone from now on, and what does calibration add to it?"""
    station, asking = on.station, on.station.asking()
    known = {name_key(one.name): one for one in on.sensors}

    def write(said: Mapping[str, str]) -> str:
        book, now = station.book, station.now()
        name, zone = said["sensor"], said["zone"]
        adds_c = _added("offset K", said, "k")
        adds_pct = _added("offset RH", said, "%")
        with mending("silent after"):
            silent = said["silent after"]
            hours = ceil(parse_duration(silent) / _HOUR_S) if silent else None
        with mending("sensor"):
            if name_key(name) in known:
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
        one = known.get(name_key(said["sensor"]))
        return lines.would_be_placed(said["sensor"], one, said["zone"], on.speaks)

    return Blank(
        title="Which sensor stands where",
        fields=(
            Field(name="sensor", hint="a new one, or one that is known"),
            Field(name="zone", hint="nowhere: it is put away", value=on.name),
            Field(name="offset K", hint="what calibration adds, like -0.4"),
            Field(name="offset RH", hint="what it adds to the humidity, like 2"),
            Field(name="silent after", hint=f"how long it may say nothing, like {SILENT_HOURS}h"),
        ),
        write=write,
        foretells=foretells,
        beside="From now on: what it said before counts where it stood.",
    )


def place_blank(on: OnZone) -> Blank:
    """Which place lies in the zone from now on?"""
    station, asking = on.station, on.station.asking()
    names = {place.code: place.name for place in on.places}

    def write(said: Mapping[str, str]) -> str:
        if not said["place"]:
            raise Refusal(Code.BAD_USAGE, "Say which place: scan it, or type its name.")
        named = said["place"]
        place = read_place(named) if looks_like_code(named) else named
        request = PutInZone(**asking, place=place, zone=said["zone"])
        found = put_in_zone(request, book=station.book, now=station.now())
        return lines.now_in_zone(found)

    return Blank(
        title="Which place shares whose climate",
        fields=(
            Field(name="place", hint="scan it, or its name", takes=Letter.PLACE, names=names),
            Field(name="zone", hint="nobody knows", value=on.name),
        ),
        write=write,
        beside="From now on: until now its film aged by the zone it lay in.",
    )


def _added(field: str, said: Mapping[str, str], unit: str) -> float | None:
    with mending(field):
        between = (-_MOST_ADDED, _MOST_ADDED)
        return _number(said[field], "what calibration adds", between, unit)


def _number(text: str, what: str, between: tuple[int, int], unit: str) -> float | None:
    return parse_number(text, what, between, unit) if text else None
