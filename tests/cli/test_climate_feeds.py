"""What sensors read comes in by typing: shown first, written once, said where it is wrong."""

import json
from pathlib import Path

import pytest

from tests.cli.conftest import Shop

LINES = (
    "A logger;;",
    "Datum/Uhrzeit;Temperatur [°C];rel. Feuchte [%]",
    "14.03.2025 16:30;21,4;45",
    "14.03.2025 16:45;-127;45",
    "14.03.2025 17:00;21,6;146,5",
)
CLOCK = "on the clock of Europe/Berlin (as you say)"
UNDERSTOOD = [
    "file         Windows-1252, columns between semicolons, headings on line 2, decimal comma",
    f"time         “Datum/Uhrzeit”, day first (14.03.2025 shows it), {CLOCK}",
    "temperature  “Temperatur [°C]”, °C (its unit)",
    "humidity     “rel. Feuchte [%]”",
    "readings     2 from 3 lines, 2025-03-14 15:30 to 2025-03-14 16:00, 21.4 °C to 21.6 °C",
    "line 3       2025-03-14 15:30, 21.4 °C, 45 %",
    "zone         North",
    "sensor       North (new)",
]
WRONG = [
    "line 4: -127 °C is no temperature, a probe that is not connected says that.",
    "line 5: 146.5 % is no humidity: the temperature alone is kept.",
]


@pytest.fixture
def file(tmp_path: Path) -> str:
    """A logger's file."""
    path = tmp_path / "logger.csv"
    path.write_text("\n".join(LINES), encoding="cp1252")
    return str(path)


def _import(file: str, *more: str) -> tuple[str, ...]:
    return ("climate", "import", file, "--zone", "north", "--zone-time", "Europe/Berlin", *more)


def test_a_file_is_shown_before_it_is_written(shop: Shop, file: str) -> None:
    """--dry shows it alone; what is wrong is beside it, and the exit code is that of success."""
    before = shop.dump()

    dry = shop.run(*_import(file, "--dry"))
    after_dry = shop.dump()
    done = shop.run(*_import(file))
    again = shop.run(*_import(file))

    assert (dry.code, dry.out.splitlines()) == (0, [*UNDERSTOOD, "Nothing was written."])
    assert dry.err.splitlines() == WRONG
    assert after_dry == before
    assert (done.code, done.out) == (0, "2 readings of North: 2 new, 0 known before.\n")
    assert done.err.splitlines() == [*UNDERSTOOD, *WRONG]
    assert again.out == "2 readings of North: 0 new, 2 known before.\n"


def test_a_script_gets_all_of_it_as_values(shop: Shop, file: str) -> None:
    """With every finding."""
    values = shop.values(*_import(file))

    assert (values["written"], values["known"], values["readings"], values["lines"]) == (2, 0, 2, 3)
    assert (values["date_order"], values["scale"], values["time_zone"]) == (
        "dmy",
        "c",
        "Europe/Berlin",
    )
    assert values["from"] == "2025-03-14T15:30:00+00:00"
    assert values["findings"] == [
        {"first_line": 4, "last_line": 4, "kind": "error-code", "text": WRONG[0][8:-1]},
        {"first_line": 5, "last_line": 5, "kind": "no-humidity", "text": WRONG[1][8:-1]},
    ]


def test_the_clock_is_the_shops_unless_another_is_said(shop: Shop, file: str) -> None:
    """And the shop's clock is what times are shown on."""
    shop.lines("book", "set", "time-zone", "Asia/Tokyo", "--why", "moved")

    values = shop.values("climate", "import", file, "--zone", "north", "--dry")

    assert (values["time_zone"], values["time_zone_basis"]) == ("Asia/Tokyo", "shop")
    assert values["from"] == "2025-03-14T07:30:00+00:00"


def test_what_is_assumed_is_said_and_asked_before_anything_is_written(
    shop: Shop, tmp_path: Path
) -> None:
    """A day that can be read in two ways, and temperatures without a unit."""
    path = tmp_path / "open.csv"
    path.write_text("time,temp\n03/04/2025 4:30 PM,72.5\n")
    given = ("climate", "import", str(path), "--zone", "north")
    before = shop.dump()

    dry = shop.run(*given, "--dry")
    refused = [shop.run(*given), shop.run(*given, "--date-order", "mdy")]
    unchanged = shop.dump()
    done = shop.run(*given, "--date-order", "mdy", "--scale", "f", "--json")

    assert dry.code == 0
    assert "month first (assumed: 03/04/2025 can be read in two ways)" in dry.out
    assert "°F (assumed, for it would be too hot in °C)" in dry.out
    assert [one.code for one in refused] == [2, 2]
    assert "--date-order dmy or mdy" in refused[0].err
    assert "--scale f or c" in refused[1].err
    assert unchanged == before
    assert json.loads(done.out)["from"] == "2025-03-04T16:30:00+00:00"


def test_only_writing_makes_a_book(empty_shop: Shop, file: str) -> None:
    """Looking into a file needs none."""
    dry = empty_shop.run(*_import(file, "--dry"))

    assert (dry.code, empty_shop.book.exists()) == (0, False)
    assert "zone         north (new)" in dry.out

    done = empty_shop.run(*_import(file))

    assert (done.code, empty_shop.book.exists()) == (0, True)
    assert "A new book was made" in done.err


def test_very_many_findings_are_said_in_part(shop: Shop, tmp_path: Path) -> None:
    """A script gets all of them."""
    path = tmp_path / "bad.csv"
    lines = [
        f"2025-03-14 {hour:02}:{minute:02},21\n?\n" for hour in range(5) for minute in range(60)
    ]
    path.write_text("at,temperature_c\n" + "".join(lines))
    given = ("climate", "import", str(path), "--zone", "north", "--dry")

    shown = shop.run(*given).err.splitlines()

    assert len(shown) == 41
    assert shown[-1] == "… and 260 more: --json has them all."
    assert len(shop.values(*given)["findings"]) == 300
