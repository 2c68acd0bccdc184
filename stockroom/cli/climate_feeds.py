"""Readings that come in: climate import, climate listen."""

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from enum import StrEnum
from pathlib import Path
from threading import Event
from typing import TYPE_CHECKING, Annotated, TypeVar

import typer

from stockroom.cli.desk import Desk, clock, enters, name, reads
from stockroom.cli.files import content_of
from stockroom.cli.saying import Answer
from stockroom.errors import Code, Refusal

if TYPE_CHECKING:
    from stockroom.feeds.broker import Broker
    from stockroom.settings import Settings

E = TypeVar("E", bound=StrEnum)


@enters
def import_(
    desk: Desk,
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A logger's CSV file.")],
    zone: Annotated[str, typer.Option(metavar="ZONE", help="The zone the logger hung in.")],
    sensor: Annotated[
        str | None,
        typer.Option(metavar="NAME", help="The sensor it is of, if not the zone's own."),
    ] = None,
    zone_time: Annotated[
        str | None,
        typer.Option(metavar="IANA", help="The logger's clock, like Europe/Lisbon or Etc/GMT-1."),
    ] = None,
    date_order: Annotated[
        str | None, typer.Option(metavar="dmy|mdy|ymd", help="In which order it writes a day.")
    ] = None,
    scale: Annotated[
        str | None, typer.Option(metavar="c|f", help="The scale of its temperatures.")
    ] = None,
    dry: Annotated[bool, typer.Option("--dry", help="Only show what is understood.")] = False,
) -> Answer:
    """Read a logger's file: show what is understood of it, then write what is not known yet.

    Bad lines are named by their number; the good ones are kept.
    """
    from stockroom.feeds.days import Order
    from stockroom.feeds.headings import Scale
    from stockroom.lines import imports
    from stockroom.work.import_climate import ImportClimate, keep, look_into

    request = ImportClimate(
        raw=content_of(file),
        zone=name(zone),
        sensor=None if sensor is None else name(sensor),
        clock=zone_time,
        order=_one_of(Order, "--date-order", date_order),
        scale=_one_of(Scale, "--scale", scale),
        **desk.asked(),
    )
    book = desk.book if desk.door.is_there() else None
    looked = look_into(request, book=book, shop=desk.shop, now=desk.now)
    lines, found = imports.understood(looked, desk.shop), list(looked.log.findings)
    values = imports.looked_values(looked)
    if dry:
        lines.append("Nothing was written.")
    else:
        if not desk.told.as_json:
            typer.echo("\n".join(lines), err=True)
        done = keep(request, looked, book=desk.book, now=desk.now)
        found += done.findings
        values |= {"written": done.written, "known": done.known}
        lines = [imports.imported(done)]
    values["findings"] = [imports.finding_values(one) for one in found]
    return Answer(values=values, lines=lines, notes=imports.findings(found))


def _one_of(choices: type[E], option: str, text: str | None) -> E | None:
    """The choice that was typed, if one was."""
    if text is None:
        return None
    try:
        return choices(text.casefold())
    except ValueError:
        raise Refusal(Code.BAD_USAGE, f"{option} is one of {', '.join(choices)}.") from None


@reads
def listen(
    desk: Desk,
    host: Annotated[
        str | None, typer.Option(metavar="HOST", help="Where the broker is; else mqtt-host.")
    ] = None,
    port: Annotated[
        int | None, typer.Option(metavar="PORT", help="Its port; else mqtt-port, or 1883.")
    ] = None,
    topic: Annotated[
        str | None,
        typer.Option(metavar="TOPIC", help="Like shop/zone/+/climate: + is the sensor's name."),
    ] = None,
) -> Answer:
    """Take what sensors send to an MQTT broker, until it is interrupted.

    User, password and TLS are settings of the station: mqtt-user, mqtt-password, mqtt-tls, mqtt-ca.
    """
    from stockroom.feeds.mqtt import listen as listen_to
    from stockroom.lines import imports
    from stockroom.work.listen import keeper

    broker = _broker(desk.settings, host, port, topic)
    keep = keeper(desk.book, operator=desk.operator, clock=clock)
    with _until_interrupted() as stop:
        heard = listen_to(broker, keep, say=_say, stop=stop)
    return Answer(values=heard._asdict(), lines=[imports.heard(heard)])


def _broker(
    settings: "Settings", host: str | None, port: int | None, topic: str | None
) -> "Broker":
    """The broker as it was typed, and for the rest as the station is set."""
    from stockroom.feeds.broker import PORT, TLS_PORT, Broker
    from stockroom.feeds.message import Topic

    has_tls = settings.mqtt_tls == "on"
    usual = settings.mqtt_port or (TLS_PORT if has_tls else PORT)
    return Broker(
        host=settings.mqtt_host if host is None else host,
        port=usual if port is None else port,
        topic=Topic(settings.mqtt_topic if topic is None else topic),
        client=settings.mqtt_client,
        user=settings.mqtt_user,
        password=settings.mqtt_password,
        has_tls=has_tls,
        ca_file=settings.mqtt_ca,
    )


def _say(sentence: str) -> None:
    typer.echo(sentence, err=True)


@contextmanager
def _until_interrupted() -> Iterator[Event]:
    """Set when the program is asked to end; what is being kept then is kept first."""
    stop = Event()
    signals = (signal.SIGINT, signal.SIGTERM)
    before = [signal.signal(one, lambda _number, _frame: stop.set()) for one in signals]
    try:
        yield stop
    finally:
        for one, handler in zip(signals, before, strict=True):
            signal.signal(one, handler)
