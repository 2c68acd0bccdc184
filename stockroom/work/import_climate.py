"""The content of a logger's file: looked into first, then its readings are written for the sensor it is of.

    look_into(request)       Looked: what the file says, and whose readings they are; writes nothing
    keep(request, looked)    Imported: what was written of it

What a file leaves open is asked before anything is written, for readings are written for good.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from zoneinfo import ZoneInfo

from stockroom.books.catalog import name_key
from stockroom.books.opening import Book
from stockroom.books.sensors import Stand, sensor_entries, stands, zone_names
from stockroom.books.values import Asked, Shop
from stockroom.errors import Code, Refusal, clean_text
from stockroom.feeds.days import Order, Shown
from stockroom.feeds.decoding import decoded
from stockroom.feeds.headings import Scale
from stockroom.feeds.logger import Log, read_log
from stockroom.feeds.reading import Finding, Wrong
from stockroom.feeds.understanding import Basis, Told, Understood
from stockroom.work.readings import WriteReadings, write_readings
from stockroom.work.sensors import AddSensor, add_a_sensor
from stockroom.work.setup import checked_zone

READ_OUT_HOURS = 45 * 24
"""How long a logger that is read out by hand may be silent: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ImportClimate(Asked):
    """A file of a logger, the zone it hung in, and what a person knows better than the file.

    Without a sensor it is of the one that speaks for the zone now; a zone that never had one gets
    one of its own name.
    """

    raw: bytes = field(repr=False)
    zone: str
    sensor: str | None = None
    clock: str | None = None
    order: Order | None = None
    scale: Scale | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """What a file says, and whose readings they are.

    A sensor that is new is made when they are kept, and with it a zone that is new.
    """

    encoding: str
    log: Log
    zone: str
    sensor: str
    is_new_zone: bool
    is_new_sensor: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Imported:
    """How many readings were new and how many known before; the findings are the book's own."""

    sensor: str
    written: int
    known: int
    findings: Sequence[Finding]


def look_into(request: ImportClimate, *, book: Book | None, shop: Shop, now: datetime) -> Looked:
    """Understand a file, and find the sensor it is of; where no book is yet, that is a new one."""
    if not request.zone:
        raise Refusal(Code.BAD_NAME, "Say in which zone the logger hung.")
    told = Told(
        shop_clock=ZoneInfo(shop.zone),
        clock=None if request.clock is None else ZoneInfo(checked_zone(request.clock)),
        order=request.order,
        scale=request.scale,
    )
    text, encoding = decoded(request.raw)
    log = read_log(text, told, int(now.timestamp()))
    known, sensor = (None, None) if book is None else _known(request, book)
    zone = known or request.zone
    return Looked(
        encoding=encoding,
        log=log,
        zone=zone,
        sensor=sensor or request.sensor or zone,
        is_new_zone=known is None,
        is_new_sensor=sensor is None,
    )


def keep(request: ImportClimate, looked: Looked, *, book: Book, now: datetime) -> Imported:
    """Write the readings of a file that are not there yet; what it leaves open is refused."""
    _refuse_assumed(looked.log.understood)
    if looked.is_new_sensor:
        sensor = AddSensor(
            request=request.request,
            operator=request.operator,
            name=looked.sensor,
            zone=looked.zone,
            silent_hours=READ_OUT_HOURS,
        )
        add_a_sensor(sensor, book=book, now=now)
    readings = WriteReadings(
        request=request.request,
        operator=request.operator,
        sensor=looked.sensor,
        readings=tuple(looked.log.readings),
    )
    done = write_readings(readings, book=book, now=now)
    lines = looked.log.line_of
    return Imported(
        sensor=done.sensor,
        written=done.written,
        known=done.known,
        findings=[
            Finding(lines[index], lines[index], Wrong.IN_THE_BOOK, text)
            for index, text in done.findings
        ],
    )


def _known(request: ImportClimate, book: Book) -> tuple[str | None, str | None]:
    """The zone and the sensor as the book calls them; None for what is new."""
    key = name_key(request.zone)
    with book.reading() as connection:
        entries = sensor_entries(connection)
        zone = zone_names(connection).get(key)
    those = stands(entries).get(key, ())
    names = {entry.sensor_id: entry.sensor for entry in entries}
    if request.sensor is None:
        return zone, _speaking(those, names, request.zone)
    ids = [one for one, name in names.items() if name_key(name) == name_key(request.sensor)]
    if not ids and not those:
        return zone, None
    if not ids:
        raise Refusal(
            Code.NO_SENSOR, f"No sensor is called “{request.sensor}”: see `climate sensors`."
        )
    if ids[0] not in {stand.sensor_id for stand in those}:
        raise Refusal(
            Code.NO_SENSOR,
            f"{names[ids[0]]} never stood in {request.zone}: see `climate sensors`.",
        )
    return zone, names[ids[0]]


def _speaking(those: Sequence[Stand], names: Mapping[int, str], zone: str) -> str | None:
    """The sensor that speaks for a zone now; None for a zone that never had one."""
    now = next((stand for stand in those if stand.until_s is None), None)
    if those and now is None:
        raise Refusal(
            Code.NO_SENSOR, f"No sensor stands in {zone} now: say which one it was with --sensor."
        )
    return None if now is None else names[now.sensor_id]


def _refuse_assumed(understood: Understood) -> None:
    """Refuse to write what was only assumed, for it could not be taken back."""
    order = understood.order
    if order is not None and order.shown is Shown.ASSUMED:
        raise Refusal(
            Code.BAD_DATE,
            f"“{clean_text(order.example, 40)}” can be read in two ways: say --date-order dmy or "
            "mdy, or look first with --dry.",
        )
    if understood.scale_basis is Basis.ASSUMED and understood.layout.is_hot:
        raise Refusal(
            Code.BAD_NUMBER,
            "The temperatures look like °F, and no unit is written: say --scale f or c, or look "
            "first with --dry.",
        )
