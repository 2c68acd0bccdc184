"""Laws of reading loggers' files: what was written in any dialect is read back."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from hypothesis import assume, given
from hypothesis import strategies as st

from stockroom.errors import Refusal
from stockroom.feeds.days import Order, Shown
from stockroom.feeds.decoding import decoded
from stockroom.feeds.headings import Scale
from stockroom.feeds.logger import Log, read_log
from stockroom.feeds.reading import Reading, Wrong
from stockroom.feeds.understanding import Told
from tests.conftest import NOW

NOW_S = int(NOW.timestamp())
ZONES = (
    "UTC", "Europe/Berlin", "America/New_York", "Australia/Lord_Howe", "Asia/Kathmandu", "America/Sao_Paulo",
)  # fmt: skip
DAYS = {
    Order.YMD: ("%Y-%m-%d", "%Y/%m/%d", "%Y%m%d"),
    Order.DMY: ("%d.%m.%Y", "%d/%m/%Y", "%d. %m. %Y", "%d-%m-%y"),
    Order.MDY: ("%m/%d/%Y", "%m-%d-%Y", "%m/%d/%y"),
}
CLOCKS = ("%H:%M:%S", "%I:%M:%S %p", "%H.%M.%S", "%H:%M:%S.500")
HEADINGS = (
    ("Time", "Temperature", "Humidity"), ("Zeit", "Temperatur", "rel. Feuchte"), ("at", "temp", "rh_pct"),
    ("Heure", "Température", "Humidité"), ("Czas", "Temperatura", "Wilgotność"), ("日時", "温度", "湿度"),
)  # fmt: skip
UNITS = {Scale.CELSIUS: ("°C", "[C]", "Celsius"), Scale.FAHRENHEIT: ("°F", "(F)", "Fahrenheit")}


@dataclass(frozen=True, slots=True, kw_only=True)
class Dialect:
    """One way to write a file."""

    mark: str
    is_quoted: bool
    comma: bool
    order: Order
    day: str
    clock: str
    is_apart: bool
    words: tuple[str, str, str]
    scale: Scale
    unit: str
    titles: tuple[str, ...]
    newest_first: bool
    zone: str
    encoding: str
    newline: str
    places: Sequence[int]


@st.composite
def dialects(draw: st.DrawFn) -> Dialect:
    """Any dialect that does not divide two things by the same comma."""
    mark = draw(st.sampled_from(";\t|,"))
    comma = draw(st.booleans())
    order = draw(st.sampled_from(Order))
    scale = draw(st.sampled_from(Scale))
    words = draw(st.sampled_from(HEADINGS))
    clock = draw(st.sampled_from(CLOCKS))
    unicode = ("utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be")
    return Dialect(
        mark=mark,
        is_quoted=draw(st.booleans()) or (comma and mark == ","),
        comma=comma,
        order=order,
        day=draw(st.sampled_from(DAYS[order])),
        clock=clock,
        is_apart=draw(st.booleans()),
        words=words,
        scale=scale,
        unit=draw(st.sampled_from(UNITS[scale])),
        titles=draw(st.sampled_from(((), ("A file",), ("A file", "", "Serial: 17, 18; 19")))),
        newest_first=draw(st.booleans()),
        zone=draw(st.sampled_from(ZONES)),
        encoding=draw(
            st.sampled_from(
                (*unicode, "cp1252") if words[0].isascii() and words != HEADINGS[4] else unicode
            )
        ),
        newline=draw(st.sampled_from(("\n", "\r\n"))),
        places=draw(st.permutations(range(3))),
    )


STEPS_S = st.sampled_from([1, 60, 600, 900, 3_600])
DEGREES = st.integers(-300, 600).map(lambda tenths: tenths / 10)
PER_CENT = st.integers(0, 1_000).map(lambda tenths: tenths / 10)


@st.composite
def readings(draw: st.DrawFn) -> list[Reading]:
    """Evenly spaced readings, some of them without a humidity."""
    start = draw(st.integers(int(datetime(2010, 1, 1, tzinfo=UTC).timestamp()), NOW_S - 10**6))
    step = draw(STEPS_S)
    values = draw(st.lists(st.tuples(DEGREES, st.none() | PER_CENT), min_size=1, max_size=40))
    return [Reading(start + place * step, *value) for place, value in enumerate(values)]


def _written(given: Sequence[Reading], how: Dialect) -> bytes:
    words = (how.words[0], f"{how.words[1]} {how.unit}", f"{how.words[2]} %")
    heading = _line([[words[0], *["time"] * how.is_apart], [words[1]], [words[2]]], how)
    lines = [_line(_cells(one, how), how) for one in given]
    if how.newest_first:
        lines.reverse()
    return (how.newline.join([*how.titles, heading, *lines]) + how.newline).encode(how.encoding)


def _cells(one: Reading, how: Dialect) -> list[list[str]]:
    shown = datetime.fromtimestamp(one.at_s, ZoneInfo(how.zone))
    day, clock = f"{shown:{how.day}}", f"{shown:{how.clock}}"
    degrees = one.temperature_c
    if how.scale is Scale.FAHRENHEIT:
        degrees = degrees * 1.8 + 32
    return [
        [day, clock] if how.is_apart else [f"{day} {clock}"],
        [_number(f"{degrees:.2f}", how)],
        ["" if one.rh_pct is None else _number(f"{one.rh_pct:.1f}", how)],
    ]


def _number(text: str, how: Dialect) -> str:
    return text.replace(".", ",") if how.comma else text


def _line(groups: Sequence[list[str]], how: Dialect) -> str:
    cells = [cell for place in how.places for cell in groups[place]]
    return how.mark.join(f'"{cell}"' if how.is_quoted else cell for cell in cells)


def _read(raw: bytes, how: Dialect, order: Order | None = None) -> Log:
    told = Told(shop_clock=ZoneInfo(how.zone), order=order)
    return read_log(decoded(raw).text, told, NOW_S)


@given(readings(), dialects())
def test_what_was_written_in_any_dialect_is_read_back(written: list[Reading], how: Dialect) -> None:
    """Whatever divides cells, decimals and days, in whatever order, encoding and language."""
    raw = _written(written, how)

    log = _read(raw, how)
    if log.understood.order is not None and log.understood.order.shown is Shown.ASSUMED:
        log = _read(raw, how, how.order)

    assume(Wrong.REPEATED_HOUR not in {one.wrong for one in log.findings})
    assert list(log.findings) == []
    assert [one.at_s for one in log.readings] == [one.at_s for one in written]
    assert [one.rh_pct for one in log.readings] == [one.rh_pct for one in written]
    for one, other in zip(log.readings, written, strict=True):
        assert abs(one.temperature_c - other.temperature_c) < 1e-6


@given(readings(), dialects(), st.data())
def test_a_damaged_line_is_found_and_loses_no_other(
    written: list[Reading], how: Dialect, data: st.DataObject
) -> None:
    """Its number is right, whatever stands in it."""
    assume(len(written) > 1)
    clean = _read(_written(written, how), how, how.order)
    assume(not clean.findings)
    lines = decoded(_written(written, how)).text.splitlines()
    place = data.draw(st.integers(1, len(written) - 1))
    number = len(lines) - len(written) + place + 1
    lines[number - 1] = data.draw(st.sampled_from(("?", "\x1b[2J", '"', "End", how.mark * 9 + "x")))

    log = _read("\n".join(lines).encode(), how, how.order)

    lost = len(written) - 1 - place if how.newest_first else place
    assert list(log.readings) == [one for at, one in enumerate(clean.readings) if at != lost]
    assert [(one.first_line, one.last_line) for one in log.findings] == [(number, number)]


PIECES = st.sampled_from(
    ["2025-03-14", "16:30", " ", "T", ",", ";", "\t", "|", '"', "\n", "\n\n", "21.4", "21,4", "-127", "°C", "%",
     "Temp", "RH", "at", "03/04/2025", "4:30 PM", "Z", "1741966200", "85.0", "999", "x", "\0", "\u202e"]
)  # fmt: skip


@given(st.lists(PIECES, max_size=60).map("".join) | st.text(max_size=200))
def test_no_text_is_too_strange(text: str) -> None:
    """It is read, or refused in one printable sentence; never anything else."""
    try:
        said = [one.text for one in read_log(text, Told(shop_clock=UTC), NOW_S).findings]
    except Refusal as refusal:
        said = [refusal.sentence]

    assert all(one.isprintable() for one in said)
