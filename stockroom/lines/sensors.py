"""Sensors and what they said, as people and programs read them.

sensors, sensor_values      every sensor: where it stands, what it said, whether it is silent
said                        temperature, humidity and time of a reading
placed                      where a sensor stands now, and whose place it took
would_be_placed             the same before it is written
would_be_read, written_at, not_written   a reading by hand: before it is written, after, and if not
now_in_zone                 in which zone a place lies now, and whether anybody measures it
written, written_values     what was told by hand
"""

from collections.abc import Sequence
from datetime import UTC, datetime

from stockroom.books.catalog import name_key
from stockroom.books.climate import SensorNow
from stockroom.books.values import Reading, Shop
from stockroom.lines import words
from stockroom.lines.text_table import Columns, table
from stockroom.units.shown import show_temperature
from stockroom.work.readings import ReadingsWritten
from stockroom.work.sensors import SensorPlaced, ZonedPlace

Values = dict[str, object]

_SENSORS = Columns(heads=("sensor", "zone", "said", "humidity", "at", "adds", "silent"), flex=1)


def sensors(known: Sequence[SensorNow], shared: Shop, width: int) -> list[str]:
    """Every sensor, one a line; what it said is shown with what calibration adds to it."""
    if not known:
        return ["No sensor is entered yet: `stockroom climate add-sensor NAME --zone Z`."]
    rows = [
        (
            one.name,
            one.zone or "put away",
            *said(one.corrected, shared),
            _adds(one),
            f"SILENT for over {one.silent_hours} h" if one.is_silent else "",
        )
        for one in known
    ]
    return table(_SENSORS, rows, width)


def sensor_values(one: SensorNow) -> Values:
    """A sensor for a script."""
    return {
        "name": one.name,
        "zone": one.zone or None,
        "since": None if one.since is None else one.since.isoformat(),
        "offset_c": one.offset_c,
        "offset_rh_pct": one.offset_rh_pct,
        "silent_hours": one.silent_hours,
        "is_silent": one.is_silent,
        "latest": None if one.corrected is None else reading_values(one.corrected),
    }


def reading_values(reading: Reading) -> Values:
    """A reading for a script."""
    return {
        "at": _instant(reading.at_s).isoformat(),
        "temperature_c": reading.temperature_c,
        "rh_pct": reading.rh_pct,
    }


def placed(done: SensorPlaced) -> list[str]:
    """Where a sensor stands, and whose place it took."""
    one = done.sensor
    where = f"speaks for {one.zone}" if one.zone else "is put away, and speaks for no zone"
    adds = f", with {_adds(one)} added" if _adds(one) else ""
    lines = [f"{one.name} {where}{adds}; silent after {one.silent_hours} h."]
    if done.replaced is not None:
        lines.append(f"{done.replaced} spoke for it until then, and hangs nowhere now.")
    return lines


def would_be_placed(name: str, zone: str, known: Sequence[SensorNow]) -> str:
    """What placing a sensor would do: whether it is new, moves, and whose place it takes."""
    one = next((one for one in known if name_key(one.name) == name_key(name)), None)
    if not name:
        return "next: the name of the sensor"
    if not zone:
        return f"{one.name} is put away" if one else "next: the zone it stands in"
    if one is None:
        what = f"{name} is new and speaks for {zone}"
    elif name_key(one.zone) == name_key(zone):
        return f"{one.name} stays in {zone}"
    else:
        what = f"{one.name} moves from {one.zone or 'where it was put away'} to {zone}"
    there = [one.name for one in known if name_key(one.zone) == name_key(zone)]
    return f"{what}, in place of {there[0]}" if there else what


def would_be_read(sensor: SensorNow, temperature_c: float | None, shared: Shop) -> str:
    """A reading before it is written, beside what the sensor said last."""
    warm, _, when = said(sensor.latest, shared)
    before = "it never said anything before" if sensor.latest is None else f"it said {warm}, {when}"
    if temperature_c is None:
        return f"next: the temperature; {before}"
    now = show_temperature(temperature_c, shared.system)
    return f"{sensor.name} in {sensor.zone}: {now}; {before}"


def written_at(done: ReadingsWritten, at: datetime, temperature_c: float, shared: Shop) -> str:
    """What was written by hand, and what is the matter with it."""
    warm, when = show_temperature(temperature_c, shared.system), words.moment(at, shared)
    kept = f"{done.sensor}: {warm}, {when}" if done.written else f"{done.sensor} said so before."
    return " ".join([kept, *(f"{text}." for _, text in done.findings)])


def not_written(done: ReadingsWritten, at: datetime, shared: Shop) -> str:
    """Why a reading by hand was not written."""
    ((_, text),) = done.findings
    if "was written before" in text:
        return f"{done.sensor} has another reading of {words.moment(at, shared)}, which stays."
    return f"Nothing was written: {text}."


def now_in_zone(one: ZonedPlace) -> str:
    """In which zone a place lies now, and whether its climate is known."""
    name, zone = one.place.name, one.place.zone
    if not zone:
        return f"{name} shares no climate that is known"
    unmeasured = ", for which no sensor ever spoke" if one.unmeasured else ""
    return f"{name} lies in {zone}{unmeasured}"


def written(done: ReadingsWritten) -> str:
    """Whether a reading is kept, or was known."""
    return (
        f"A reading of {done.sensor} is kept." if done.written else f"{done.sensor} said so before."
    )


def written_values(done: ReadingsWritten) -> Values:
    """The same for a script."""
    return {
        "sensor": done.sensor,
        "written": done.written,
        "known": done.known,
        "findings": [text for _, text in done.findings],
    }


def said(reading: Reading | None, shared: Shop) -> tuple[str, str, str]:
    """Temperature, humidity and time of a reading; what was not read is unknown."""
    if reading is None:
        return words.UNKNOWN, words.UNKNOWN, "never"
    damp = words.UNKNOWN if reading.rh_pct is None else f"{reading.rh_pct:.0f} %"
    warm = show_temperature(reading.temperature_c, shared.system)
    return warm, damp, words.moment(_instant(reading.at_s), shared)


def _adds(one: SensorNow) -> str:
    """What calibration adds: -0.4 K, +2 %."""
    adds = [(one.offset_c, "K"), (one.offset_rh_pct, "%")]
    return ", ".join(f"{off:+g} {unit}" for off, unit in adds if off)


def _instant(at_s: int) -> datetime:
    return datetime.fromtimestamp(at_s, UTC)
