"""What was understood of a logger's file, what is wrong with its lines, and what was written.

understood(looked, shop)     a line each for the file, the time, the temperature, the humidity …
findings(found)              line 12: -127 °C is no temperature, …
imported(done)               380 readings of north 1: 378 new, 2 known before.
heard(found)                 812 messages: 810 new readings, 2 dropped.
…_values(…)                  the same for a script
"""

from collections.abc import Sequence
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from stockroom.books.values import Shop
from stockroom.errors import clean_text
from stockroom.feeds.days import Decided, Order, Shown
from stockroom.feeds.headings import Scale
from stockroom.feeds.layout import Column
from stockroom.feeds.reading import Finding, Reading
from stockroom.feeds.understanding import Basis, Understood
from stockroom.lines import words
from stockroom.lines.text_table import pairs
from stockroom.units.shown import show_temperature
from stockroom.work.import_climate import Imported, Looked

if TYPE_CHECKING:
    from stockroom.feeds.mqtt import Heard  # which needs a package that may be missing

_MARKS = {"\t": "tabs", ";": "semicolons", ",": "commas", "|": "bars"}
_ORDERS = {Order.DMY: "day first", Order.MDY: "month first", Order.YMD: "year first"}
_SCALES = {Scale.CELSIUS: "°C", Scale.FAHRENHEIT: "°F"}
_MOST_SAID = 40


def understood(looked: Looked, shop: Shop) -> list[str]:
    """How a file was read, to be looked at before it is written."""
    log = looked.log
    layout, readings = log.understood.layout, log.readings
    rows = [
        ("file", _file(looked)),
        ("time", _time(log.understood)),
        ("temperature", _temperature(log.understood)),
        ("humidity", "none" if layout.humidity is None else _called(layout.humidity)),
    ]
    if layout.passed_over:
        rows.append(("passed over", ", ".join(f"“{one}”" for one in layout.passed_over)))
    first, last = (words.moment(_moment(one), shop) for one in (readings[0], readings[-1]))
    celsius = [one.temperature_c for one in readings]
    low, high = (show_temperature(one, shop.system) for one in (min(celsius), max(celsius)))
    rows += [
        ("readings", f"{len(readings)} from {log.lines} lines, {first} to {last}, {low} to {high}"),
        ("line " + str(log.line_of[0]), _said(readings[0], shop)),
        ("zone", looked.zone + " (new)" * looked.is_new_zone),
        ("sensor", looked.sensor + " (new)" * looked.is_new_sensor),
    ]
    return pairs(rows)


def _file(looked: Looked) -> str:
    layout = looked.log.understood.layout
    line = layout.heading_line
    heading = "no headings" if line is None else f"headings on line {line}"
    decimals = "decimal comma" if layout.has_decimal_comma else "decimal point"
    return f"{looked.encoding}, columns between {_MARKS[layout.frame.mark]}, {heading}, {decimals}"


def _time(found: Understood) -> str:
    columns = [_called(one) for one in (found.layout.day, found.layout.clock) if one is not None]
    order = "seconds since 1970" if found.order is None else _order(found.order)
    newest = ", newest line first" * found.is_newest_first
    return f"{' and '.join(columns)}, {order}, {_clock(found)}{newest}"


def _order(found: Decided) -> str:
    example = clean_text(found.example, 40)
    why = {
        Shown.TOLD: "as you say",
        Shown.YEAR_FIRST: "",
        Shown.ONLY_SO: f"{example} shows it",
        Shown.IN_A_ROW: "the days follow one another so",
        Shown.ASSUMED: f"assumed: {example} can be read in two ways",
    }[found.shown]
    return f"{_ORDERS[found.order]} ({why})" if why else _ORDERS[found.order]


def _clock(found: Understood) -> str:
    why = {
        Basis.TOLD: f"on the clock of {found.clock} (as you say)",
        Basis.LINES: "each line with its own distance from UTC",
        Basis.HEADING: f"on the clock of {found.clock} (its heading)",
        Basis.SHOP: f"on the clock of {found.clock} (the shop's)",
    }
    return "UTC" if found.order is None else why[found.clock_basis]


def _temperature(found: Understood) -> str:
    why = {
        Basis.TOLD: "as you say",
        Basis.HEADING: "its unit",
        Basis.ASSUMED: "assumed, for it would be too hot in °C"
        if found.layout.is_hot
        else "assumed, for no unit is written",
    }
    return f"{_called(found.layout.temperature)}, {_SCALES[found.scale]} ({why[found.scale_basis]})"


def _called(column: Column) -> str:
    return f"“{column.heading}”" if column.heading else f"column {column.place + 1}"


def _said(reading: Reading, shop: Shop) -> str:
    humidity = words.UNKNOWN if reading.rh_pct is None else f"{reading.rh_pct:g} %"
    celsius = show_temperature(reading.temperature_c, shop.system)
    return f"{words.moment(_moment(reading), shop)}, {celsius}, {humidity}"


def _moment(reading: Reading) -> datetime:
    return datetime.fromtimestamp(reading.at_s, UTC)


def findings(found: Sequence[Finding]) -> list[str]:
    """What is wrong, by line; of very many the first ones."""
    said = [f"{_lines(one)}: {one.text}." for one in found[:_MOST_SAID]]
    more = len(found) - len(said)
    return [*said, f"… and {more} more: --json has them all."] if more else said


def _lines(one: Finding) -> str:
    if one.first_line == one.last_line:
        return f"line {one.first_line}"
    return f"lines {one.first_line} to {one.last_line}"


def imported(done: Imported) -> str:
    """What was written of a file."""
    readings = _count(done.written + done.known, "reading")
    return f"{readings} of {done.sensor}: {done.written} new, {done.known} known before."


def heard(found: "Heard") -> str:
    """What came from a broker."""
    new = _count(found.written, "new reading")
    return f"{_count(found.messages, 'message')}: {new}, {found.dropped} dropped."


def _count(number: int, of: str) -> str:
    return f"1 {of}" if number == 1 else f"{number} {of}s"


def looked_values(looked: Looked) -> dict[str, Any]:
    """How a file was read, for a script."""
    log = looked.log
    found, layout = log.understood, log.understood.layout
    order = found.order
    return {
        "encoding": looked.encoding,
        "delimiter": layout.frame.mark,
        "heading_line": layout.heading_line,
        "decimal_comma": layout.has_decimal_comma,
        "date_order": None if order is None else order.order.value,
        "date_order_basis": None if order is None else order.shown.value,
        "time_zone": str(found.clock),
        "time_zone_basis": found.clock_basis.value,
        "scale": found.scale.value,
        "scale_basis": found.scale_basis.value,
        "newest_first": found.is_newest_first,
        "temperature_column": layout.temperature.place + 1,
        "humidity_column": None if layout.humidity is None else layout.humidity.place + 1,
        "passed_over": list(layout.passed_over),
        "zone": looked.zone,
        "new_zone": looked.is_new_zone,
        "sensor": looked.sensor,
        "new_sensor": looked.is_new_sensor,
        "lines": log.lines,
        "readings": len(log.readings),
        "from": _moment(log.readings[0]).isoformat(),
        "until": _moment(log.readings[-1]).isoformat(),
    }


def finding_values(one: Finding) -> dict[str, Any]:
    """A finding, for a script."""
    return {
        "first_line": one.first_line,
        "last_line": one.last_line,
        "kind": one.wrong.value,
        "text": one.text,
    }
