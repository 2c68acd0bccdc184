"""How a logger's file was read is said so that a person sees what was assumed."""

from typing import Any

import pytest

from stockroom.books.values import Shop
from stockroom.feeds.days import Order
from stockroom.feeds.headings import Scale
from stockroom.feeds.reading import Finding, Wrong
from stockroom.lines.imports import findings, imported, looked_values, understood
from stockroom.units import System
from stockroom.work.import_climate import Imported, Looked
from tests.feeds.files import log_of


def _looked(*lines: str, **told: Any) -> Looked:
    log = log_of(*lines, **told)
    return Looked(
        encoding="UTF-8",
        log=log,
        zone="North",
        sensor="door",
        is_new_zone=False,
        is_new_sensor=False,
    )


@pytest.mark.parametrize(
    ("lines", "told", "head", "says"),
    [
        (("at,temperature_c", "2025-03-14 16:30,21"), {}, "time",
         "“at”, year first, on the clock of UTC (the shop's)"),
        (("at,temperature_c", "2025-03-14T16:30Z,21"), {}, "time",
         "“at”, year first, each line with its own distance from UTC"),
        (("GMT+02:00;temp", "2025-03-14 16:30;21"), {}, "time",
         "“GMT+02:00”, year first, on the clock of UTC+02:00 (its heading)"),
        (("day;time;temp", "03/04/2025;16:30;21", "04/04/2025;16:30;21"), {}, "time",
         "“day” and “time”, day first (the days follow one another so), on the clock of UTC (the shop's)"),
        (("time;temp", "03/04/2025 16:30;21"), {"order": Order.MDY, "clock": "Asia/Tokyo"}, "time",
         "“time”, month first (as you say), on the clock of Asia/Tokyo (as you say)"),
        (("time;temp", "1741969800;21"), {}, "time", "“time”, seconds since 1970, UTC"),
        (("at;temp", "2025-03-14 16:45;21", "2025-03-14 16:30;21"), {}, "time",
         "“at”, year first, on the clock of UTC (the shop's), newest line first"),
        (("2025-03-14 16:30\t21\t45",), {}, "file",
         "UTF-8, columns between tabs, no headings, decimal point"),
        (("2025-03-14 16:30\t21\t45",), {}, "temperature",
         "column 2, °C (assumed, for no unit is written)"),
        (("2025-03-14 16:30\t21\t45",), {}, "humidity", "column 3"),
        (("at;temp", "2025-03-14 16:30;70"), {"scale": Scale.FAHRENHEIT}, "temperature",
         "“temp”, °F (as you say)"),
        (("at;temp", "2025-03-14 16:30;21"), {}, "humidity", "none"),
        (("at;T1 °C;T2 °C;T3 °C", "2025-03-14 16:30;21;9;8"), {}, "passed over", "“T2 °C”, “T3 °C”"),
        (("at;temp", "2025-03-14 16:30;21"), {}, "zone", "North"),
    ],
)  # fmt: skip
def test_each_thing_that_was_understood_is_a_line(
    lines: tuple[str, ...], told: dict[str, Any], head: str, says: str
) -> None:
    """With what it rests on."""
    said = understood(_looked(*lines, **told), Shop())

    assert [line.removeprefix(head).strip() for line in said if line.startswith(head)] == [says]


def test_temperatures_are_said_in_the_shops_own_unit() -> None:
    """The file's unit is another matter."""
    said = understood(_looked("at;temp °C;rh", "2025-03-14 16:30;21,5;"), Shop(system=System.US))

    assert said[-3].endswith("2025-03-14 16:30, 70.7 °F, ?")


def test_a_script_gets_what_a_file_of_seconds_has_not_as_null() -> None:
    """It has no order of days, and here no humidity."""
    values = looked_values(_looked("time;temp", "1741969800;21"))

    assert (values["date_order"], values["date_order_basis"], values["humidity_column"]) == (
        None,
    ) * 3


def test_findings_name_their_lines() -> None:
    """One, or several in a row."""
    found = [Finding(3, 3, Wrong.FUTURE, "it is early"), Finding(5, 9, Wrong.ERROR_CODE, "-127")]

    assert findings(found) == ["line 3: it is early.", "lines 5 to 9: -127."]


def test_one_reading_is_one() -> None:
    """In the singular."""
    done = Imported(sensor="door", written=1, known=0, findings=())

    assert imported(done) == "1 reading of door: 1 new, 0 known before."
