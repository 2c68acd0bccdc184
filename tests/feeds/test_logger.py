"""Files of loggers: what is understood of them, what is kept, and what is found wrong."""

import pytest

from stockroom.errors import Code, Refusal
from stockroom.feeds.days import Order, Shown
from stockroom.feeds.headings import Scale
from stockroom.feeds.reading import Wrong
from stockroom.feeds.understanding import Basis
from tests.feeds.files import at, found, log_of

PLAIN = ("at,temperature_c,rh_pct", "2025-03-14 16:30,21.4,45", "2025-03-14 16:45,21.6,46.5")
TWO = [at("2025-03-14 16:30", 21.4, 45), at("2025-03-14 16:45", 21.6, 46.5)]


def test_a_plain_file_is_read() -> None:
    """The columns of `calc`, in UTC."""
    log = log_of(*PLAIN)

    understood = log.understood
    assert list(log.readings) == TWO
    assert (log.lines, list(log.line_of), list(log.findings)) == (2, [2, 3], [])
    assert understood.order is not None
    assert understood.order.shown is Shown.YEAR_FIRST
    assert (understood.scale, understood.scale_basis) == (Scale.CELSIUS, Basis.HEADING)
    assert understood.clock_basis is Basis.SHOP
    assert (understood.layout.heading_line, understood.layout.frame.mark) == (1, ",")


@pytest.mark.parametrize(
    "lines",
    [
        ("Datum;Uhrzeit;Temperatur [°C];rel. Feuchte [%]", "14.03.2025;16:30;21,4;45,0",
         "14.03.2025;16:45;21,6;46,5"),
        ("Date/heure\tTempérature (°C)\tHumidité (%)", "14/03/2025 16:30:00\t21,4\t45",
         "14/03/2025 16:45:00\t21,6\t46,5"),
        ('"Time","Temp, °F","RH, %"', '"03/14/2025, 4:30:00 PM",70.52,45',
         '"03/14/2025, 4:45:00 PM",70.88,46.5'),
        ("Time,Temp (°F),RH", "03/14/2025, 4:30:00 PM,70.52,45", "03/14/2025, 4:45:00 PM,70.88,46.5"),
        ("Fecha|Hora|Temperatura|Humedad", "2025-03-14|16:30|21.4|45", "2025-03-14|16:45|21.6|46.5"),
        ("Datum;Teplota;Vlhkost", "14. 3. 2025 16:30;21,4;45", "14. 3. 2025 16:45;21,6;46,5"),
        ("timestamp,temp,hum", "1741969800,21.4,45", "1741970700,21.6,46.5"),
        ("RH;T (°C);at", "45;21.4;2025-03-14T16:30Z", "46.5;21.6;2025-03-14T16:45Z"),
        ("2025-03-14T18:30+02:00;21,4;45", "2025-03-14T18:45+02:00;21,6;46,5"),
        ("2025-03-14 16:30;21,4 °C;45 %", "2025-03-14 16:45;21,6 °C;46,5 %RH"),
        ("time;note;humidity;temperature", "20250314 16:30;x;45;21.4", "20250314 16:45;y;46.5;21.6"),
        ("No.;Time (UTC);T1 (°C);Dew point (°C);RH (%)", "1;2025-03-14 16:30;21.4;9;45",
         "2;2025-03-14 16:45;21.6;9;46.5"),
        ("Zeit;Temp;Feuchte;", ";°C;%;", "14.03.2025 16:30;21,4;45;", "14.03.2025 16:45;21,6;46,5;"),
        ("Report of a device", "Serial;A-17", "Exported;2025-04-01 09:00", "", *(
            line.replace(",", ";") for line in PLAIN)),
    ],
)  # fmt: skip
def test_many_dialects_say_the_same(lines: tuple[str, ...]) -> None:
    """Marks, decimal commas, words of several languages, orders of the day, titles above."""
    log = log_of(*lines)

    assert list(log.readings) == TWO
    assert list(log.findings) == []


def test_the_clock_is_the_typed_one_else_the_headings_else_the_shops() -> None:
    """And what a line says itself goes over all."""
    heading, line = "Date Time, GMT+02:00;temp", "2025-03-14 18:30;21"

    by_heading = log_of(heading, line, shop="Asia/Tokyo")
    typed = log_of(heading, line, shop="Asia/Tokyo", clock="Europe/Lisbon")
    by_shop = log_of("Time;temp", line, shop="Asia/Tokyo")
    own = log_of(heading, f"{line.removesuffix(';21')}Z;21", clock="Asia/Tokyo")

    assert (by_heading.readings[0], by_heading.understood.clock_basis) == (
        at("2025-03-14 16:30", 21),
        Basis.HEADING,
    )
    assert (typed.readings[0], typed.understood.clock_basis) == (
        at("2025-03-14 18:30", 21),
        Basis.TOLD,
    )
    assert (by_shop.readings[0], by_shop.understood.clock_basis) == (
        at("2025-03-14 09:30", 21),
        Basis.SHOP,
    )
    assert (own.readings[0], own.understood.clock_basis) == (
        at("2025-03-14 18:30", 21),
        Basis.LINES,
    )


def test_an_order_nothing_shows_is_assumed_and_can_be_told() -> None:
    """3 April or 4 March."""
    lines = ("time;temp", "03/04/2025 16:30;21")

    assumed, told = log_of(*lines), log_of(*lines, order=Order.MDY)

    assert assumed.understood.order is not None
    assert assumed.understood.order.shown is Shown.ASSUMED
    assert list(assumed.readings) == [at("2025-04-03 16:30", 21)]
    assert list(told.readings) == [at("2025-03-04 16:30", 21)]


def test_the_order_is_seen_in_the_last_line_of_a_long_file() -> None:
    """Twelve days of every minute show nothing."""
    lines = [f"{day:02}/02/2025 {hour:02}:00;21" for day in range(1, 29, 9) for hour in range(24)]

    order = log_of("time;temp", *lines).understood.order

    assert order is not None
    assert (order.order, order.shown, order.example) == (Order.DMY, Shown.ONLY_SO, "19/02/2025")


def test_numbers_too_high_for_celsius_are_taken_for_fahrenheit_until_told() -> None:
    """No unit is written; a store at 72 °C is none."""
    lines = ("time,temp", "2025-03-14 16:30,72.5")

    assumed, told = log_of(*lines), log_of(*lines, scale=Scale.CELSIUS)

    assert assumed.readings[0].temperature_c == 22.5
    assert assumed.understood.layout.is_hot
    assert assumed.understood.scale_basis is Basis.ASSUMED
    assert told.readings[0].temperature_c == 72.5
    assert told.understood.scale_basis is Basis.TOLD


def test_a_unit_in_a_cell_goes_over_the_columns() -> None:
    """One line in °F among others in °C."""
    log = log_of("time;temp (°C)", "2025-03-14 16:30;21,4", "2025-03-14 16:45;70,52 °F")

    assert [one.temperature_c for one in log.readings] == [21.4, 21.4]


def test_other_temperatures_are_passed_over_by_name() -> None:
    """The first one is taken, and that is said."""
    log = log_of("time;inside (°C);outside (°C)", "2025-03-14 16:30;21.4;9")

    assert log.understood.layout.passed_over == ("outside (°C)",)
    assert log.readings[0].temperature_c == 21.4


@pytest.mark.parametrize(
    ("line", "wrong"),
    [
        ("2025-03-14 16:35,-127,45", Wrong.ERROR_CODE),
        ("2025-03-14 16:35,999,45", Wrong.ERROR_CODE),
        ("2025-03-14 16:35,-9999,45", Wrong.ERROR_CODE),
        ("2025-03-14 16:35,NaN,45", Wrong.ERROR_CODE),
        ("2025-03-14 16:35,---,45", Wrong.ERROR_CODE),
        ("2025-03-14 16:35,n/a,45", Wrong.ERROR_CODE),
        ("2025-03-14 16:35,85.0,45", Wrong.ERROR_CODE),
        ("2025-03-14 16:35,185 °F,45", Wrong.ERROR_CODE),
        ("2025-03-14 16:35,,45", Wrong.NO_TEMPERATURE),
        ("2025-03-14 16:35,warm,45", Wrong.NO_TEMPERATURE),
        ("2025-03-14 16:35,45 %,21", Wrong.NO_TEMPERATURE),
        ("2025-03-14 16:35,1_0,45", Wrong.NO_TEMPERATURE),
        ("2025-03-14 16:35,1e1,45", Wrong.NO_TEMPERATURE),
        ("2025-03-14 16:35,\u0662\u0661,45", Wrong.NO_TEMPERATURE),
        ("2025-03-14 16:35,150,45", Wrong.OUT_OF_RANGE),
        ("2025-03-14 16:35,-80,45", Wrong.OUT_OF_RANGE),
        ("2025-03-14 25:35,21,45", Wrong.NO_INSTANT),
        ("2025-02-30 16:35,21,45", Wrong.NO_INSTANT),
        ("End of file,21,45", Wrong.NO_INSTANT),
        ("2027-03-14 16:35,21,45", Wrong.FUTURE),
        ("1970-01-01 00:00,21,45", Wrong.CLOCK_NOT_SET),
        ("2025-03-14 16:35", Wrong.NOT_A_LINE),
        ("2025-03-14 16:35,21,4,45", Wrong.NOT_A_LINE),
        ("\0\x1b[31m\u202e,21,45", Wrong.NO_INSTANT),
        ('"2025-03-14 16:35,21,45', Wrong.NOT_A_LINE),
        ("2025-03-14 16:30,21.4,45", Wrong.SAID_TWICE),
        ("2025-03-14 16:30,21.5,45", Wrong.OTHERWISE),
        ("2025-03-14 16:30,21.4,", Wrong.OTHERWISE),
    ],
)
def test_a_bad_line_is_a_finding_and_the_others_are_kept(line: str, wrong: Wrong) -> None:
    """By its number, in harmless words."""
    log = log_of(PLAIN[0], PLAIN[1], line, PLAIN[2])

    assert list(log.readings) == TWO
    assert found(log) == [(3, 3, wrong)]
    assert log.findings[0].text.isprintable()
    assert not wrong.is_kept


@pytest.mark.parametrize("cell", ["101", "-1", "wet", "21 °C"])
def test_a_humidity_that_is_none_is_not_known(cell: str) -> None:
    """The temperature beside it stands."""
    log = log_of(PLAIN[0], f"2025-03-14 16:30,21.4,{cell}")

    assert list(log.readings) == [at("2025-03-14 16:30", 21.4)]
    assert found(log) == [(2, 2, Wrong.NO_HUMIDITY)]


@pytest.mark.parametrize("cell", ["", " ", "---", "NaN", "n.a."])
def test_a_humidity_nobody_measured_is_no_finding(cell: str) -> None:
    """Many loggers have no sensor for it."""
    log = log_of(PLAIN[0], f"2025-03-14 16:30,21.4,{cell}")

    assert list(log.readings) == [at("2025-03-14 16:30", 21.4)]
    assert list(log.findings) == []


def test_a_line_out_of_order_is_put_where_it_belongs() -> None:
    """Its time is what it says."""
    log = log_of(PLAIN[0], PLAIN[2], PLAIN[1])

    assert list(log.readings) == TWO
    assert log.understood.is_newest_first

    log = log_of(PLAIN[0], PLAIN[1], PLAIN[2], "2025-03-14 16:00,20,40", "2025-03-14 17:00,20,40")

    assert [one.temperature_c for one in log.readings] == [20, 21.4, 21.6, 20]
    assert found(log) == [(4, 4, Wrong.OUT_OF_ORDER)]


def test_an_oven_at_85_degrees_says_so_more_than_once() -> None:
    """Only a lone 85 is what a sensor says when it has been switched on."""
    hot = [f"2025-03-14 17:{minute},85.0,5" for minute in (10, 20, 30)]

    log = log_of(*PLAIN, *hot, "2025-03-14 18:00,85.0,5", "2025-03-14 19:00,20,5")

    assert [one.temperature_c for one in log.readings][2:] == [85, 85, 85, 85, 20]
    assert list(log.findings) == []


def test_bad_lines_in_a_row_are_one_finding() -> None:
    """A sensor that was off for a night is said once."""
    off = [f"2025-03-14 17:{minute},-127,0" for minute in range(10, 60)]

    log = log_of(*PLAIN, *off, "2025-03-14 18:00,20,5", off[0])

    assert found(log) == [(4, 53, Wrong.ERROR_CODE), (55, 55, Wrong.ERROR_CODE)]


def test_empty_lines_and_a_second_heading_say_nothing() -> None:
    """Files that were joined are read on."""
    log = log_of(*PLAIN[:2], "", "  ", *PLAIN[:1], PLAIN[2])

    assert list(log.readings) == TWO
    assert (log.lines, list(log.findings)) == (2, [])


def test_a_day_alone_is_its_midnight() -> None:
    """Spreadsheets leave the time out at 00:00."""
    log = log_of("at;temperature_c", "14.03.2025 23:45;21", "15.03.2025;20", "15.03.2025 00:15;19")

    assert log.readings[1] == at("2025-03-15 00:00", 20)


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ((), "no line"),
        (("",), "no line"),
        (("hello", "world"), "no line"),
        (("date,temp", "2025-03-14,21.4", "2025-03-15,21.6"), "no line"),
        (("14.03.2025;21.50;45.10",), "no line"),
        (("time,temp,rh", "2025-03-14 16:30,21,4,45,2"), "5"),
        (("time,temp", "2025-03-14 16:30,21,4"), "comma"),
        (("2025-03-14 16:30,21,4",), "comma"),
        (("time,temp,note", "2025-03-14 16:30,21,4"), "comma"),
        (("Datum/Zeit;Temperatur", "14.03.2025;16:30;21,4"), None),
        (("time;x;y;z", "2025-03-14 16:30;1;2;3"), "temperature_c"),
        (("time;Taupunkt °C;volt", "2025-03-14 16:30;9;3"), "temperature_c"),
        (("at;temperature_c", "2025-03-14 16:30;-127", "2025-03-14 16:45;-127"), "line 2"),
        (("at;temperature_c", "2027-03-14 16:30;21"), "in the future"),
    ],
)
def test_a_file_that_can_be_read_in_two_ways_or_in_none_is_refused(
    lines: tuple[str, ...], says: str | None
) -> None:
    """Nothing is taken rather than something wrong."""
    if says is None:
        assert log_of(*lines).readings[0] == at("2025-03-14 16:30", 21.4)
        return
    with pytest.raises(Refusal) as caught:
        log_of(*lines)

    assert caught.value.code is Code.BAD_FILE
    assert says in caught.value.sentence.lower()
