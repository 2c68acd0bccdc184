"""Which sensor spoke for a zone, second by second, and from when a new entry changes that."""

from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from stockroom.books.catalog import name_key
from stockroom.books.sensors import SensorEntry, Stand, changed_from, stands, zone_of

START = datetime(2026, 6, 1, tzinfo=UTC)
START_S = int(START.timestamp())
LONG = 12
"""Seconds looked at in the laws below."""


def entry(sensor_id: int, zone: str, second: int, *, offset_c: float = 0.0) -> SensorEntry:
    """A sensor in a zone from a second on."""
    return SensorEntry(
        sensor_id=sensor_id,
        sensor=f"sensor {sensor_id}",
        zone=zone,
        offset_c=offset_c,
        offset_rh_pct=0.0,
        silent_hours=3,
        from_at=START + timedelta(seconds=second),
        operator="Ida M.",
        why="",
    )


ENTRIES = st.lists(
    st.builds(
        entry,
        st.integers(1, 3),
        st.sampled_from(["north", "North ", "south", ""]),
        st.integers(0, LONG),
        offset_c=st.sampled_from([0.0, -0.5]),
    ),
    max_size=8,
).map(lambda those: tuple(sorted(those, key=lambda one: one.from_at)))


def _speaking(entries: tuple[SensorEntry, ...], second: int) -> dict[str, tuple[int, float]]:
    """Who speaks for each zone at a second, told the slow way: one entry after the other."""
    speaking: dict[str, tuple[int, float]] = {}
    for one in entries:
        if one.from_at > START + timedelta(seconds=second):
            break
        speaking = {zone: who for zone, who in speaking.items() if who[0] != one.sensor_id}
        if one.zone:
            speaking[name_key(one.zone)] = (one.sensor_id, one.offset_c)
    return speaking


@given(ENTRIES)
def test_one_sensor_speaks_for_a_zone_as_if_each_second_were_asked(
    entries: tuple[SensorEntry, ...],
) -> None:
    """Stretches do not overlap, and nobody speaks for two zones."""
    spoken_for = stands(entries)

    for second in range(-1, LONG + 2):
        at_s = START_S + second
        found = {
            zone: (stand.sensor_id, stand.offset_c)
            for zone, those in spoken_for.items()
            for stand in those
            if stand.holds(at_s)
        }
        assert found == _speaking(entries, second)
        for zone, (sensor_id, _) in found.items():
            there = zone_of(spoken_for, sensor_id, at_s)
            assert there is not None
            assert there[0] == zone


@given(ENTRIES, ENTRIES)
def test_a_change_is_told_from_the_first_second_that_differs(
    before: tuple[SensorEntry, ...], more: tuple[SensorEntry, ...]
) -> None:
    """Not later, or sums would be wrong; not earlier, or they would be made again for nothing."""
    after = tuple(sorted((*before, *more), key=lambda one: one.from_at))

    changed = changed_from(stands(before), stands(after))

    seconds = range(-1, LONG + 2)
    differing = {
        zone: START_S + second
        for second in reversed(seconds)
        for zone in ("north", "south")
        if _speaking(before, second).get(zone) != _speaking(after, second).get(zone)
    }
    assert changed == differing


def test_a_sensor_whose_place_is_taken_hangs_nowhere_until_it_is_placed_again() -> None:
    """Also when the other one goes away."""
    entries = (entry(1, "north", 0), entry(2, "North", 3), entry(2, "south", 6))

    assert stands(entries) == {
        "north": (
            Stand(1, 0.0, 0.0, START_S, START_S + 3),
            Stand(2, 0.0, 0.0, START_S + 3, START_S + 6),
        ),
        "south": (Stand(2, 0.0, 0.0, START_S + 6),),
    }


def test_an_entry_that_changes_nothing_of_the_readings_ends_no_stretch() -> None:
    """A sensor that may be silent for longer stands where it stood."""
    assert stands((entry(1, "north", 0), entry(1, "north", 5))) == {
        "north": (Stand(1, 0.0, 0.0, START_S),)
    }
