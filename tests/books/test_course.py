"""Stored sums: whatever is written in whatever order, they say what direct integration says."""

from array import array
from collections.abc import Mapping
from contextlib import closing
from datetime import timedelta
from pathlib import Path
from shutil import copyfile
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import text

from stockroom.books import course
from stockroom.books.course import Courses, keep_courses
from stockroom.books.migrating import migrate
from stockroom.books.opening import Book, create_book, open_book
from stockroom.books.opening import book_url as url_of
from stockroom.books.packed import unpacked
from stockroom.books.parts import forget_all
from stockroom.books.readings import ALL_TIME, zone_readings
from stockroom.books.sensors import sensor_entries, stands
from stockroom.film.course import Measure, above, outside, under_line
from stockroom.film.heat import ageing_rate
from stockroom.film.sums import Quantity, Sum, ageing, hotter_than, outside_of
from tests.builders import ON_ONE_ENGINE, dump, is_sound
from tests.conftest import NOW
from tests.film.integrating import Readings, directly
from tests.weather import NOW_S, Given, Weather

GAP_S = 100
SUMS = (ageing(83.144), ageing(60.0), hotter_than(25.0), outside_of(35, 65))
ZONES = ("north", "south", "attic")


@pytest.fixture(autouse=True)
def _small_parts(monkeypatch: pytest.MonkeyPatch) -> None:
    """Parts of a few readings, so that a test needs only a few more."""
    monkeypatch.setattr(course, "PART", 4)


@pytest.fixture
def weather(book: Book) -> Weather:
    """Somebody with two sensors in two zones, some days after the readings."""
    weather = Weather(book)
    weather.sensor("door", "north")
    weather.sensor("window", "south")
    weather.wait(days=2)
    return weather


def _raw(book: Book, zone: str) -> list[tuple[int, float, float | None]]:
    """What was read in a zone, with calibration, reading by reading."""
    with book.reading() as connection:
        those = stands(sensor_entries(connection)).get(zone, ())
        found = zone_readings(connection, those, ALL_TIME.start, ALL_TIME.stop)
        return [(one.at_s, one.temperature_c, one.rh_pct) for part in found for one in part]


def _levels(raw: list[tuple[int, float, float | None]], of: Sum) -> tuple[Readings, Measure]:
    """The readings as a sum sees them, and what it adds, told apart from the program."""
    if of.name.startswith("outside"):
        return [(at_s, rh) for at_s, _, rh in raw if rh is not None], outside(35, 65)
    if of.energy_kj is not None:
        return [(at_s, ageing_rate(c, of.energy_kj)) for at_s, c, _ in raw], under_line
    return [(at_s, c) for at_s, c, _ in raw], above(25.0)


def agrees(book: Book, instants: range) -> bool:
    """Whether every sum over every zone is the direct one, between all of these instants."""
    raw = {zone: _raw(book, zone) for zone in ZONES}
    with book.reading() as connection:
        courses = Courses(connection, GAP_S)
        for zone in ZONES:
            for of in SUMS:
                levels, measure = _levels(raw[zone], of)
                for start in instants:
                    for end in instants[instants.index(start) :: 3]:
                        found = courses.of(zone, of).between(start, end)
                        amount, measured_s = directly(levels, start, end, GAP_S, measure)
                        assert found.amount == pytest.approx(amount, rel=1e-9, abs=1e-9)
                        assert found.measured_s == measured_s
    return True


def _parts(book: Book) -> list[tuple[str, str, int]]:
    return [(row["zone"], row["measure"], row["part"]) for row in _rows(book)]


def _rows(book: Book) -> list[Mapping[Any, Any]]:
    """The parts of the gap these tests are about; the house's own are stored beside them."""
    return [row for row in dump(book)["course_part"] if row["gap_s"] == GAP_S]


def _keep(book: Book) -> None:
    keep_courses(book, GAP_S, dict.fromkeys(ZONES, SUMS))


def _patchy(first: int, number: int, each_s: int = 30) -> list[Given]:
    """Readings with a gap after every sixth, every third of them without humidity."""
    at_s = NOW_S + first
    found: list[Given] = []
    for place in range(number):
        at_s += each_s if place % 6 else 5 * each_s
        rh_pct = None if place % 3 == 2 else 30 + place % 40
        found.append((at_s, 15 + (place * 7) % 20, rh_pct))
    return found


WINDOW = range(NOW_S - 50, NOW_S + 2_000, 171)


def test_sums_are_those_of_direct_integration_stored_or_not(weather: Weather) -> None:
    """On both engines; each full part is stored once, and nothing of the last readings is."""
    weather.write(_patchy(0, 23), "door")
    weather.write(_patchy(100, 9), "window")
    assert agrees(weather.book, WINDOW)

    _keep(weather.book)
    kept = _parts(weather.book)
    _keep(weather.book)

    assert agrees(weather.book, WINDOW)
    assert _parts(weather.book) == kept
    assert ("north", "temperature", 4) in kept
    assert ("north", "temperature", 5) not in kept
    assert ("north", SUMS[0].name, 4) in kept
    assert ("south", "temperature", 1) in kept
    assert is_sound(weather.book)


def test_a_late_reading_drops_the_parts_from_there_on_and_no_others(weather: Weather) -> None:
    """What is before it, and other zones, keep theirs."""
    weather.write(_patchy(0, 23), "door")
    weather.write(_patchy(0, 23), "window")
    _keep(weather.book)
    before = _parts(weather.book)
    late = _patchy(0, 23)[10][0] - 1

    weather.write([(late, 33.0, 20)], "door")

    after = _parts(weather.book)
    north = [part for zone, _, part in after if zone == "north"]
    assert [one for one in after if one[0] == "south"] == [
        one for one in before if one[0] == "south"
    ]
    assert set(north) == {0, 1}
    assert agrees(weather.book, WINDOW)
    _keep(weather.book)
    assert agrees(weather.book, WINDOW)


def test_readings_behind_the_last_ones_drop_nothing(weather: Weather) -> None:
    """As they come, minute by minute."""
    weather.write(_patchy(0, 12), "door")
    _keep(weather.book)
    before = _parts(weather.book)

    weather.write(_patchy(1_000, 2), "door")

    assert _parts(weather.book) == before
    assert agrees(weather.book, WINDOW)


def test_a_sensor_that_moves_changes_both_zones_from_then_on(weather: Weather) -> None:
    """Never before: the parts of the time before stay."""
    weather.write(_patchy(0, 23), "door")
    weather.write(_patchy(0, 23), "window")
    _keep(weather.book)
    tenth_s = _patchy(0, 23)[10][0]

    weather.move("door", zone="south", at=NOW + timedelta(seconds=tenth_s - NOW_S))

    kept = {zone for zone, _, part in _parts(weather.book) if part == 1}
    assert kept == {"north", "south"}
    assert {part for _, _, part in _parts(weather.book)} == {0, 1}
    assert agrees(weather.book, WINDOW)
    _keep(weather.book)
    assert agrees(weather.book, WINDOW)


def test_all_parts_dropped_the_answers_are_the_same(weather: Weather) -> None:
    """They are made again, or done without."""
    weather.write(_patchy(0, 40), "door")
    _keep(weather.book)
    kept = _rows(weather.book)
    with weather.book.transaction() as connection:
        forget_all(connection)

    assert _parts(weather.book) == []
    assert agrees(weather.book, WINDOW)
    _keep(weather.book)
    assert _rows(weather.book) == kept


def test_the_parts_of_an_older_book_are_written_anew(weather: Weather) -> None:
    """They took eight bytes for every second, level and sum; nobody has to wait for new sums."""
    weather.write(_patchy(0, 23), "door")
    weather.write([(NOW_S + 60 * place, 21.37, None) for place in range(12)], "window")
    _keep(weather.book)
    kept = dump(weather.book)["course_part"]

    with weather.book.transaction() as connection:
        for row in kept:
            given = {name: row[name] for name in ("zone", "gap_s", "measure", "part")}
            connection.execute(_REWRITE, given | {"content": _as_before(row)})
        connection.execute(text("DROP TABLE settled"))
        connection.execute(text("UPDATE alembic_version SET version_num = '0006'"))
        migrate(connection)

    assert dump(weather.book)["course_part"] == kept
    assert agrees(weather.book, WINDOW)


_REWRITE = text(
    "UPDATE course_part SET content = :content WHERE zone = :zone AND gap_s = :gap_s "
    "AND measure = :measure AND part = :part"
)


def _as_before(row: Mapping[Any, Any]) -> bytes:
    """The content of a part as it was written until revision 0006."""
    content = bytes(row["content"])
    if row["measure"] not in tuple(Quantity):
        if not content:
            return b""
        first, last = array("d", content)
        return array("d", [first, 0, 0, 0, last]).tobytes()
    at_s, levels, measured_s = unpacked(content)
    before = len(at_s).to_bytes(8, "little") + array("q", at_s).tobytes()
    before += array("d", levels).tobytes()
    if measured_s[-1] != at_s[-1] - at_s[0]:
        before += array("q", measured_s).tobytes()
    return before


def test_another_rule_of_gaps_has_sums_of_its_own(weather: Weather) -> None:
    """Both stay."""
    weather.write(_patchy(0, 12), "door")
    _keep(weather.book)
    keep_courses(weather.book, 1_000, {"north": SUMS[:1]})

    with weather.book.reading() as connection:
        one, other = (
            Courses(connection, gap_s).of("north", SUMS[0]).between(NOW_S, NOW_S + 2_000)
            for gap_s in (GAP_S, 1_000)
        )
    assert one.measured_s == 10 * 30
    assert other.measured_s == 10 * 30 + 150


@ON_ONE_ENGINE
def test_a_book_that_may_only_be_read_makes_its_sums_in_memory(
    book_url: str, tmp_path: Path
) -> None:
    """Nothing is refused, and nothing written."""
    with closing(create_book(book_url)) as book:
        weather = Weather(book)
        weather.sensor()
        weather.wait(days=1)
        weather.write(_patchy(0, 23))
    with closing(Book(url_of(book_url), read_only=True)) as book:
        _keep(book)
        assert _parts(book) == []
        assert agrees(book, WINDOW)


SENSORS = ("door", "window")
SECONDS = st.integers(0, 1_200)
WRITES = st.tuples(
    st.just("write"),
    st.sampled_from(SENSORS),
    st.lists(
        st.tuples(SECONDS, st.integers(-20, 45), st.one_of(st.none(), st.integers(0, 100))),
        min_size=1,
        max_size=12,
    ),
)
MOVES = st.tuples(
    st.just("move"),
    st.sampled_from(SENSORS),
    st.fixed_dictionaries(
        {
            "zone": st.sampled_from(["", *ZONES]),
            "offset_c": st.sampled_from([0.0, -0.75]),
            "offset_rh_pct": st.sampled_from([0.0, 30.0]),
            "seconds": SECONDS,
        }
    ),
)
STEPS = st.lists(
    st.one_of(WRITES, WRITES, MOVES, st.just(("keep",)), st.just(("drop",))), max_size=10
)


def _do(weather: Weather, step: tuple[Any, ...]) -> None:
    match step:
        case ("write", sensor, readings):
            weather.write([(NOW_S + at_s, c, rh) for at_s, c, rh in readings], sensor)
        case ("move", sensor, given):
            at = NOW + timedelta(seconds=given.pop("seconds"))
            weather.move(sensor, at=at, **given)
        case ("keep",):
            _keep(weather.book)
        case _:
            with weather.book.transaction() as connection:
                forget_all(connection)


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book with two sensors, to be copied."""
    folder = tmp_path_factory.mktemp("bare")
    with closing(create_book(str(folder / "book.db"))) as book:
        weather = Weather(book)
        for sensor, zone in zip(SENSORS, ZONES, strict=False):
            weather.sensor(sensor, zone)
        book.copy_to(folder / "copy.db")
    return folder / "copy.db"


@settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None, max_examples=30
)
@given(STEPS)
def test_in_whatever_order_things_are_written_the_sums_are_the_direct_ones(
    bare: Path, tmp_path: Path, steps: list[tuple[Any, ...]]
) -> None:
    """Late readings, sensors that move or are calibrated in the past, parts stored and dropped."""
    path = copyfile(bare, tmp_path / "book.db")
    for beside in ("-wal", "-shm"):
        Path(f"{path}{beside}").unlink(missing_ok=True)
    with closing(open_book(str(path))) as book:
        weather = Weather(book)
        weather.wait(days=1)
        weather.write(_patchy(100, 23), "door")
        weather.write(_patchy(300, 14), "window")
        _keep(book)
        for step in steps:
            _do(weather, step)
            assert agrees(book, range(NOW_S - 20, NOW_S + 1_300, 233))


def test_a_zone_nobody_measured_tells_nothing(weather: Weather) -> None:
    """Not even that it was cold."""
    with weather.book.reading() as connection:
        exposure = Courses(connection, GAP_S).ageing("nowhere", 83.144).between(NOW_S, NOW_S + 60)

    assert (exposure.coverage, exposure.like_days, exposure.like_days_measured) == (0, None, 0)
