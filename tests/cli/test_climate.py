"""Sensors and zones at the command line: entered, moved, read by hand, looked back on."""

import pytest

from tests.cli.conftest import Shop


def _measured(shop: Shop) -> None:
    """Three readings of a sensor that is half a degree off."""
    shop.lines("climate", "add-sensor", "door", "--zone", "north", "--offset-c", "-0.5")
    for hour, temperature in ((8, "20.5C"), (9, "32.5C"), (10, "32.5C")):
        shop.lines(
            *("climate", "read", "door", temperature, "--rh", "48%"),
            *("--at", f"2026-11-24T{hour:02}:00"),
        )


def test_a_sensor_is_entered_moved_and_put_away(shop: Shop) -> None:
    """The answers say where it stands, and whose place it took."""
    added = shop.values(
        *("climate", "add-sensor", "door", "--zone", "north", "--silent", "90min"),
    )
    second = shop.lines("climate", "add-sensor", "window", "--zone", "North")
    moved = shop.values("climate", "place-sensor", "door", "--zone", "attic", "--offset-rh", "2")
    away = shop.lines("climate", "place-sensor", "door", "--away", "--why", "battery")

    assert (added["zone"], added["silent_hours"], added["is_silent"]) == ("North", 2, True)
    assert (added["since"], added["latest"], added["replaced"]) == (None, None, None)
    assert second == [
        "window speaks for North; silent after 3 h.",
        "door spoke for it until then, and hangs nowhere now.",
    ]
    assert (moved["zone"], moved["offset_rh_pct"], moved["replaced"]) == ("attic", 2, None)
    assert away == ["door is put away, and speaks for no zone, with +2 % added; silent after 2 h."]
    listed = shop.lines("climate", "sensors")
    assert listed[0].split() == ["sensor", "zone", "said", "humidity", "at", "adds", "silent"]
    assert listed[1].split() == ["door", "put", "away", "?", "?", "never", "+2", "%"]
    assert listed[2].split()[:5] == ["window", "North", "?", "?", "never"]
    assert listed[2].endswith("SILENT for over 3 h")


def test_what_a_zone_was_like_is_shown_day_by_day(shop: Shop) -> None:
    """With calibration, and how much of it was measured."""
    _measured(shop)

    lines = shop.lines("climate", "show", "NORTH", "--since", "2026-11-24T08:00")
    shown = dict(line.split("  ", 1) for line in lines if "  " in line.strip())

    assert lines[0] == "North"
    assert shown["sensor"].strip() == "door, SILENT"
    assert shown["measured"].strip() == "8 % measured"
    assert shown["unmeasured"].strip() == "assumed 21 °C (default)"
    assert shown["mean"].strip() == "29 °C"
    assert shown["mean kinetic"].strip().endswith("(83.144 kJ/mol, default)")
    assert shown["hottest"].strip() == "32 °C at 2026-11-24 09:00"
    assert shown["hot"].strip() == "1 h above 30 °C, limit 48 h"
    assert shown["too hot"].strip() == "0 h above 40 °C"
    assert shown["humidity"].strip() == "48 %, 48 to 48 %; outside 35 to 65 %: 0 h of 2 h"
    assert lines[-1].split("  ")[0] == "2026-11-24 08:00"
    assert lines[-1].split()[2:] == [*["29", "°C", "20", "°C", "32", "°C", "48", "%", "9", "%"]]


def test_what_a_zone_was_like_is_a_value_too(shop: Shop) -> None:
    """Hour by hour, with null for what was not measured."""
    _measured(shop)

    found = shop.values("climate", "show", "north", "--since", "2026-11-24T08:00", "--hours")

    assert (found["zone"], found["assumed_c"], found["assumed_basis"]) == ("North", 21, "default")
    assert found["sensor"]["latest"] == {
        "at": "2026-11-24T10:00:00+00:00",
        "temperature_c": 32.0,
        "rh_pct": 48,
    }
    assert found["temperature"]["mean_c"] == 29
    assert found["humidity"]["mean_pct"] == 48
    assert (found["hot_hours"], found["too_hot_hours"]) == (pytest.approx(1 + 1 / 6), 0)
    assert found["hottest"] == {"at": "2026-11-24T09:00:00+00:00", "temperature_c": 32.0}
    assert found["calendar_days"] > 1 > found["aged_like_days"] > 0.9
    assert found["points"][0]["temperature"]["mean_c"] == 26
    assert found["points"][0]["until"] == "2026-11-24T09:00:00+00:00"
    assert found["points"][5]["temperature"] is None


def test_a_zone_nobody_measured_says_so(shop: Shop) -> None:
    """Never that it was nothing."""
    lines = shop.lines("climate", "show", "north")
    listed = shop.lines("climate", "show")

    assert "measured      0 % measured" in lines
    assert "mean          ?" in lines
    assert "sensor        nobody measures" in lines
    assert listed[1].split() == [
        "North",
        "?",
        "?",
        "never",
        "nobody",
        "measures",
        *["assumed", "21", "°C", "(default)"],
    ]
    assert shop.values("climate", "show")["zones"] == [
        {"zone": "North", "sensor": None, "assumed_c": 21, "assumed_basis": "default"}
    ]


def test_a_zone_is_assumed_to_be_as_warm_as_somebody_says(shop: Shop) -> None:
    """And as the house says again, where nobody does."""
    said = shop.lines("climate", "assume", "north", "24.5C")
    back = shop.values("climate", "assume", "north", "none")

    assert said == ["North: assumed 24.5 °C (house) while nobody measures."]
    assert (back["assumed_c"], back["assumed_basis"]) == (21, "default")


def test_a_reading_told_by_hand_is_written_once(shop: Shop) -> None:
    """Below freezing too."""
    shop.lines("climate", "add-sensor", "door", "--zone", "north")
    at = ("--at", "2026-11-24T08:00")

    first = shop.lines("climate", "read", "door", "-3C", *at)
    again = shop.values("climate", "read", "door", "-3C", *at)

    assert first == ["A reading of door is kept."]
    assert (again["written"], again["known"]) == (0, 1)
    assert shop.lines("climate", "read", "door", "-3C", *at) == ["door said so before."]


@pytest.mark.parametrize(
    ("arguments", "code", "says"),
    [
        ("read door 150C", 2, "150 °C"),
        ("read door warm", 2, "not a temperature of a store"),
        ("read door 21C --rh 101", 2, "not a humidity"),
        ("read door 21C --at 2027-01-01", 2, "in the future"),
        ("read dor 21C", 4, "No sensor is called “dor”"),
        ("add-sensor door --zone north", 3, "already called"),
        ("add-sensor x --zone north --offset-c 30", 2, "adds at most 20 K"),
        ("add-sensor x --zone north --silent soon", 2, "soon"),
        ("place-sensor door", 2, "Nothing to change was named"),
        ("place-sensor door --away --zone attic", 2, "or it is --away"),
        ("place-sensor door --zone attic --at 2027-01-01", 3, "in the future"),
        ("assume nowhere 21C", 4, "No zone is called “nowhere”"),
        ("assume north 150C", 2, "No store is at 150 °C"),
        ("show nowhere", 4, "No zone is called “nowhere”"),
        ("show north --since 2027-01-01", 3, "looked back on"),
        ("show north --since 2001-01-01", 2, "at most five years"),
    ],
)
def test_what_cannot_be_is_said_in_one_line(
    shop: Shop, arguments: str, code: int, says: str
) -> None:
    """Nothing is written."""
    shop.lines("climate", "add-sensor", "door", "--zone", "north")
    before = shop.dump()

    ran = shop.run("climate", *arguments.split())

    assert (ran.code, ran.out) == (code, "")
    assert says in ran.err
    assert len(ran.err.splitlines()) == 1
    assert shop.dump() == before


def test_a_piece_tells_how_it_was_kept(shop: Shop) -> None:
    """Its air and its curl, today; of another day nothing is told of them."""
    _measured(shop)
    lines = shop.lines("piece", "{roll}")
    values = shop.values("piece", "{roll}")

    assert "Kept" in lines
    assert any(line.startswith("air     ") for line in lines)
    assert values["kept"]["curl"]["limit_mm"] == 150
    assert values["kept"]["air"]["block_days"] in (1, 7, 28, 91)
    assert shop.values("piece", "{roll}", "--today", "2027-01-01")["kept"] is None
    assert "Kept" not in shop.lines("piece", "{box}")
