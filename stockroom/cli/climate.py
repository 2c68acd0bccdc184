"""`stockroom climate`: how warm and damp it was where film is kept, and the sensors that say so."""

from typing import TYPE_CHECKING, Annotated

import typer

from stockroom.cli import climate_feeds
from stockroom.cli.desk import Desk, enters, maybe, name, note, reads, sets_up
from stockroom.cli.saying import Answer
from stockroom.errors import Code, Refusal
from stockroom.units.typed import parse_number, parse_temperature

if TYPE_CHECKING:
    from stockroom.work.sensors import SensorPlaced

app = typer.Typer(help="How warm and damp it was where film is kept.")

Sensor = Annotated[str, typer.Argument(metavar="SENSOR", help="What it is called.")]
Zone = Annotated[str, typer.Argument(metavar="ZONE", help="The area that shares its climate.")]
OffsetC = Annotated[
    str | None,
    typer.Option(metavar="KELVIN", help="What calibration adds to its temperature, like -0.4."),
]
OffsetRh = Annotated[
    str | None,
    typer.Option(metavar="PERCENT", help="What calibration adds to its humidity, like 2."),
]
Silent = Annotated[
    str | None,
    typer.Option(metavar="TIME", help="How long it may say nothing, like 3h or 40d."),
]


@app.command()
@reads
def show(
    desk: Desk,
    zone: Annotated[
        str, typer.Argument(metavar="[ZONE]", help="Without one: every zone as it is now.")
    ] = "",
    since: Annotated[
        str | None, typer.Option(metavar="TIME", help="From when on; else the last week.")
    ] = None,
    hours: Annotated[bool, typer.Option("--hours", help="Hour by hour, not day by day.")] = False,
) -> Answer:
    """Show what a zone was like, as far as it was measured."""
    from stockroom.lines import climate as lines
    from stockroom.lines.when import read_instant
    from stockroom.work.climate import climate_of, zones

    if not zone:
        known = zones(desk.book, now=desk.now)
        return Answer(
            values={"zones": [lines.zone_values(one) for one in known]},
            lines=lines.zones(known, desk.shop, desk.width),
        )
    found = climate_of(
        desk.book,
        name(zone),
        now=desk.now,
        since=maybe(since, lambda text: read_instant(text, desk.shop, desk.now)),
        hourly=hours,
    )
    return Answer(
        values=lines.of_zone_values(found), lines=lines.of_zone(found, desk.shop, desk.width)
    )


@app.command()
@reads
def sensors(desk: Desk) -> Answer:
    """List every sensor: where it stands, what it said last, and whether it is silent."""
    from stockroom.lines import sensors as lines
    from stockroom.work.sensors import sensors as every

    known = every(desk.book, now=desk.now)
    return Answer(
        values={"sensors": [lines.sensor_values(one) for one in known]},
        lines=lines.sensors(known, desk.shop, desk.width),
    )


@app.command("add-sensor")
@sets_up
def add_sensor(
    desk: Desk,
    called: Sensor,
    zone: Annotated[str, typer.Option(metavar="ZONE", help="Where it stands.")],
    offset_c: OffsetC = None,
    offset_rh: OffsetRh = None,
    silent: Silent = None,
) -> Answer:
    """Enter a sensor; the first one of a zone spoke for it from the beginning."""
    from stockroom.lines.when import read_hours
    from stockroom.work.sensors import SILENT_HOURS, AddSensor, add_a_sensor

    hours = maybe(silent, read_hours)
    request = AddSensor(
        name=name(called),
        zone=name(zone),
        offset_c=maybe(offset_c, _kelvin) or 0.0,
        offset_rh_pct=maybe(offset_rh, _percent) or 0.0,
        silent_hours=SILENT_HOURS if hours is None else hours,
        **desk.asked(),
    )
    return _placed(add_a_sensor(request, book=desk.book, now=desk.now))


@app.command("place-sensor")
@sets_up
def place_sensor(
    desk: Desk,
    called: Sensor,
    zone: Annotated[
        str | None, typer.Option(metavar="ZONE", help="Where it stands from then on.")
    ] = None,
    away: Annotated[bool, typer.Option("--away", help="It is put away.")] = False,
    offset_c: OffsetC = None,
    offset_rh: OffsetRh = None,
    silent: Silent = None,
    why: Annotated[str, typer.Option(help="The reason, in a few words.")] = "",
) -> Answer:
    """Move a sensor or enter its calibration, from an instant on; before it, all stays as it was."""
    from stockroom.lines.when import read_hours
    from stockroom.work.sensors import PlaceSensor, place_a_sensor

    if away and zone is not None:
        raise Refusal(Code.BAD_USAGE, "A sensor stands in a --zone, or it is --away.")
    if not away and {zone, offset_c, offset_rh, silent} == {None}:
        raise Refusal(
            Code.BAD_USAGE, "Nothing to change was named: see `climate place-sensor --help`."
        )
    request = PlaceSensor(
        sensor=name(called),
        zone="" if away else maybe(zone, name),
        offset_c=maybe(offset_c, _kelvin),
        offset_rh_pct=maybe(offset_rh, _percent),
        silent_hours=maybe(silent, read_hours),
        note=note(why),
        **desk.asked(),
    )
    return _placed(place_a_sensor(request, book=desk.book, now=desk.now))


@app.command()
@sets_up
def read(
    desk: Desk,
    called: Sensor,
    temperature: Annotated[
        str, typer.Argument(metavar="TEMPERATURE", help="What it says, like 22.4C or -3C.")
    ],
    rh: Annotated[
        str | None, typer.Option("--rh", metavar="PERCENT", help="The humidity, like 48.")
    ] = None,
) -> Answer:
    """Write down what a sensor says, read by hand."""
    from stockroom.lines import sensors as lines
    from stockroom.work.readings import WriteReadings, write_readings

    asked = desk.asked()
    at = asked["at"] or desk.now
    reading = (
        int(at.timestamp()),
        parse_temperature(temperature, desk.shop.system),
        maybe(rh, lambda text: parse_number(text, "a humidity", (0, 100), "%")),
    )
    request = WriteReadings(sensor=name(called), readings=(reading,), **asked)
    done = write_readings(request, book=desk.book, now=desk.now)
    if not (done.written or done.known):
        raise Refusal(Code.BAD_NUMBER, f"Nothing was written: {done.findings[0][1]}.")
    return Answer(
        values=lines.written_values(done),
        lines=[lines.written(done)],
        notes=[f"{text}." for _, text in done.findings],
    )


@app.command()
@sets_up
def assume(
    desk: Desk,
    zone: Zone,
    temperature: Annotated[
        str,
        typer.Argument(metavar="TEMPERATURE", help='Like 21C; "none" for the value of the house.'),
    ],
    why: Annotated[str, typer.Option(help="The reason, in a few words.")] = "",
) -> Answer:
    """Say how warm a zone is taken to be while nobody measures."""
    from stockroom.lines import climate as lines
    from stockroom.work.climate import zones
    from stockroom.work.sensors import Assume
    from stockroom.work.sensors import assume as take_to_be

    is_none = temperature.strip().lower() == "none"
    request = Assume(
        zone=name(zone),
        temperature_c=None if is_none else parse_temperature(temperature, desk.shop.system),
        note=note(why),
        **desk.asked(),
    )
    named = take_to_be(request, book=desk.book, now=desk.now)
    found = next(one for one in zones(desk.book, now=desk.now) if one.zone == named)
    return Answer(values=lines.zone_values(found), lines=[lines.assumed(found, desk.shop)])


@app.command("sum-again")
@enters
def sum_again(desk: Desk) -> Answer:
    """Drop what is summed over the climate of every zone, and sum it anew; nothing else changes."""
    from stockroom.work.summing import sum_again as drop_and_sum

    drop_and_sum(desk.book, now=desk.now)
    return Answer(values={}, lines=["All sums were made again from the readings."])


app.command("import")(climate_feeds.import_)
app.command()(climate_feeds.listen)


def _kelvin(text: str) -> float:
    return parse_number(text, "what calibration adds", (-100, 100), "K")


def _percent(text: str) -> float:
    return parse_number(text, "what calibration adds", (-100, 100), "%")


def _placed(done: "SensorPlaced") -> Answer:
    from stockroom.lines import sensors as lines

    return Answer(
        values=lines.sensor_values(done.sensor) | {"replaced": done.replaced},
        lines=lines.placed(done),
    )
