"""What people type about quantities is read exactly, or refused in one sentence."""

import pytest

from stockroom.errors import Code, Refusal
from stockroom.units import FOOT, INCH, MIL, MM, M, System
from stockroom.units.typed import (
    parse_count,
    parse_density,
    parse_duration,
    parse_length,
    parse_mass,
    parse_number,
    parse_size,
    parse_temperature,
    parse_thickness,
)

METRIC, US = System.METRIC, System.US


@pytest.mark.parametrize(
    ("text", "length_nm"),
    [
        ("3.2m", 3200 * MM),
        ("3200", 3200 * MM),
        ("320cm", 3200 * MM),
        ("  3.2   M ", 3200 * MM),
        ("3,2 m", 3200 * MM),
        ("0,250 m", 250 * MM),
        ("1.524 m", 1524 * MM),
        (".5m", 500 * MM),
        ("3.2 metres", 3200 * MM),
        ("100 km", 100_000 * M),
        ("10'6\"", 126 * INCH),
        ("10' 6 1/2\"", 126 * INCH + INCH // 2),
        ("10'-6 1/2\"", 126 * INCH + INCH // 2),
        ("10' 6", 126 * INCH),
        ("10\u2032 6\u00bd\u2033", 126 * INCH + INCH // 2),
        ("10\u2019 6\u201d", 126 * INCH),
        ("10' 6''", 126 * INCH),
        ("12ft 6 1/2in", 150 * INCH + INCH // 2),
        ("12 ft. 6 in.", 150 * INCH),
        ("12 foot 6 inches", 150 * INCH),
        ("10.5 ft", 126 * INCH),
        ("126 in", 126 * INCH),
        ('126"', 126 * INCH),
        ("6-1/2 in", 6 * INCH + INCH // 2),
        ("6\u00bdin", 6 * INCH + INCH // 2),
        ("1/64 in", 396_875),
        ("50 yd", 150 * FOOT),
        ("50yds", 150 * FOOT),
        ("2mil", 2 * MIL),
        ("2 thou", 2 * MIL),
        ("200 ga", 2 * MIL),
        ("50um", 50_000),
        ("50 \u00b5m", 50_000),
        ("50 \u03bcm", 50_000),
        ("3.2\u00a0m", 3200 * MM),
        ("\uff13.\uff12m", 3200 * MM),
    ],
)
def test_a_length_is_read_as_people_write_it(text: str, length_nm: int) -> None:
    """Each way of writing a length is worth what a tape would show."""
    assert parse_length(text) == length_nm


@pytest.mark.parametrize(
    ("text", "length_nm"),
    [("126", 126 * INCH), ("6 1/2", 6 * INCH + INCH // 2), ("3200 mm", 3200 * MM)],
)
def test_a_bare_length_in_an_american_book_is_inches(text: str, length_nm: int) -> None:
    """A bare number has the book's unit; a unit that was typed stands."""
    assert parse_length(text, US) == length_nm


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "A length is missing; write it like"),
        (" ", "A length is missing; write it like"),
        ("wide", "is not a length"),
        ("nan", "is not a length"),
        ("inf", "is not a length"),
        ("1e3 m", "is not a length"),
        ("+3m", "is not a length"),
        ("3m 20cm", "is not a length"),
        ("3 furlongs", "is not a length"),
        ("3 kg", "is not a length"),
        ("3 1/0 in", "is not a length"),
        ("10'14\"", "is not a length"),
        ("\u0663 m", "is not a length"),
        ("3 200 mm", "is not a length"),
        ("0.0000001 mm", "is not a length"),
        ("9" * 10_000, "is not a length"),
        ("0", "is more than zero"),
        ("0' 0\"", "is more than zero"),
        ("-3m", "is more than zero"),
        ("\u22123m", "is more than zero"),
        ("\u20133 m", "is more than zero"),
        ("100.001 km", "is more than 100 km"),
        ("9" * 50, "is more than 100 km"),
        ("1,000", "in two ways"),
        ("12,500 mm", "in two ways"),
        ("1,000.5", "in two ways"),
        ("1.000,5", "in two ways"),
        ("1,000,000", "in two ways"),
    ],
)
def test_a_length_that_cannot_be_meant_is_refused(text: str, says: str) -> None:
    """Unreadable, empty, negative, huge and ambiguous lengths get one sentence each."""
    with pytest.raises(Refusal, match=says) as refused:
        parse_length(text)

    assert refused.value.code is Code.BAD_LENGTH
    assert len(refused.value.sentence) < 140


@pytest.mark.parametrize("text", ["0", "0 m", "0'", '0"'])
def test_zero_is_a_length_where_it_is_allowed(text: str) -> None:
    """Nothing wasted is an answer; less than nothing is none."""
    assert parse_length(text, zero=True) == 0
    with pytest.raises(Refusal, match="more than zero"):
        parse_length(f"-{text}", zero=True)


def test_hostile_text_is_made_harmless_in_the_sentence() -> None:
    """Escapes, line ends and direction marks never reach the screen by way of a refusal."""
    with pytest.raises(Refusal) as refused:
        parse_length("\x1b[31m3\u202em\n[red]")

    assert refused.value.sentence.isprintable()


@pytest.mark.parametrize(
    ("text", "system", "thickness_nm"),
    [
        ("50.8", METRIC, 50_800),
        ("2", US, 50_800),
        ("200 ga", METRIC, 50_800),
        ("0.1 mm", METRIC, 100_000),
        ("3/4 mil", US, 19_050),
    ],
)
def test_a_thickness_is_micrometres_or_mils(text: str, system: System, thickness_nm: int) -> None:
    """A bare thickness has the book's small unit."""
    assert parse_thickness(text, system) == thickness_nm


def test_a_thickness_of_a_hand_is_refused() -> None:
    """Metres typed where micrometres belong are caught."""
    with pytest.raises(Refusal, match="more than 100 mm"):
        parse_thickness("1.52 m")


@pytest.mark.parametrize(
    ("text", "system", "size"),
    [
        ("300x1000", METRIC, (300 * MM, 1000 * MM)),
        ("300 X 1000", METRIC, (300 * MM, 1000 * MM)),
        ("300 mm x 1.2 m", METRIC, (300 * MM, 1200 * MM)),
        ("300 \u00d7 1000 mm", METRIC, (300 * MM, 1000 * MM)),
        ("4ft x 8ft", METRIC, (4 * FOOT, 8 * FOOT)),
        ("4'6\"x8'", METRIC, (54 * INCH, 8 * FOOT)),
        ("12 x 40 in", US, (12 * INCH, 40 * INCH)),
        ("3 1/2 x 10 1/2 in", US, (3 * INCH + INCH // 2, 10 * INCH + INCH // 2)),
        ("600x1m", METRIC, (600 * MM, 1000 * MM)),
    ],
)
def test_a_size_is_across_by_along(text: str, system: System, size: tuple[int, int]) -> None:
    """Both sides are lengths of their own."""
    assert parse_size(text, system) == size


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("300", "is not a size"),
        ("x1000", "is not a size"),
        ("300x", "is not a size"),
        ("1x2x3", "is not a size"),
        ("0x1000", "more than zero"),
        ("300x-5", "more than zero"),
        ("axb", "is not a length"),
        ("60x100cm", "in two ways"),
        ("60cm x 100", "in two ways"),
        ("6 x 1.2 m", "in two ways"),
    ],
)
def test_a_size_that_cannot_be_meant_is_refused(text: str, says: str) -> None:
    """A lone unit that may belong to both sides is asked for, never guessed."""
    with pytest.raises(Refusal, match=says) as refused:
        parse_size(text)

    assert refused.value.code is Code.BAD_LENGTH


@pytest.mark.parametrize(
    ("text", "system", "mass_mg"),
    [
        ("4.1 kg", METRIC, 4_100_000),
        ("4.1", METRIC, 4_100_000),
        ("350g", METRIC, 350_000),
        ("9 lb", METRIC, 4_082_331),
        ("9", US, 4_082_331),
        ("16 oz", METRIC, 453_592),
    ],
)
def test_a_mass_is_kilograms_or_pounds(text: str, system: System, mass_mg: int) -> None:
    """A bare mass has the book's unit."""
    assert parse_mass(text, system) == mass_mg


@pytest.mark.parametrize("text", ["0", "-1 kg", "4 m", "11 t", "heavy"])
def test_a_mass_that_cannot_be_meant_is_refused(text: str) -> None:
    """A scale reads neither zero nor less nor a lorry."""
    with pytest.raises(Refusal) as refused:
        parse_mass(text)

    assert refused.value.code is Code.BAD_MASS


@pytest.mark.parametrize(
    "text", ["1390", "1390 kg/m3", "1390 kg/m\u00b3", "1.39 g/cm3", "1.39 g/cc"]
)
def test_a_density_is_read_in_either_unit(text: str) -> None:
    """The two ways a data sheet writes the density of polyester are one."""
    assert parse_density(text) == 1390.0


@pytest.mark.parametrize("text", ["0", "-1390", "1390 g/cm3", "dense"])
def test_a_density_that_cannot_be_meant_is_refused(text: str) -> None:
    """Nothing is a thousand times heavier than gold."""
    with pytest.raises(Refusal) as refused:
        parse_density(text)

    assert refused.value.code is Code.BAD_LAYER


@pytest.mark.parametrize(("text", "count"), [("1", 1), (" 12 ", 12), ("1000000", 1_000_000)])
def test_a_count_is_a_whole_number(text: str, count: int) -> None:
    """Pieces are counted from one."""
    assert parse_count(text) == count


@pytest.mark.parametrize(
    "text",
    ["", "0", "-1", "1.5", "1,000", "1000001", "1_000", "1e3", "9" * 9_999, "1" + " " * 99 + "2"],
)
def test_a_count_that_cannot_be_meant_is_refused(text: str) -> None:
    """Nothing is counted that is not a whole number of pieces."""
    with pytest.raises(Refusal) as refused:
        parse_count(text)

    assert refused.value.code is Code.BAD_NUMBER


@pytest.mark.parametrize(
    ("text", "system", "celsius"),
    [
        ("23", METRIC, 23.0),
        ("-5 \u00b0C", METRIC, -5.0),
        ("21,5 c", METRIC, 21.5),
        ("0", METRIC, 0.0),
        ("77", US, 25.0),
        ("77F", METRIC, 25.0),
        ("25 \u2103", US, 25.0),
    ],
)
def test_a_temperature_is_celsius_or_fahrenheit(text: str, system: System, celsius: float) -> None:
    """A bare temperature has the book's scale."""
    assert parse_temperature(text, system) == pytest.approx(celsius)


@pytest.mark.parametrize("text", ["", "warm", "nan", "inf", "-300", "999", "23 K", "1e1"])
def test_a_temperature_no_store_has_is_refused(text: str) -> None:
    """A logger's fault value is no climate."""
    with pytest.raises(Refusal, match="temperature") as refused:
        parse_temperature(text)

    assert refused.value.code is Code.BAD_NUMBER


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        ("6", 21_600),
        ("6h", 21_600),
        ("90 min", 5_400),
        ("1/2 h", 1_800),
        ("1,5 hours", 5_400),
        ("2d", 172_800),
        ("45 s", 45),
    ],
)
def test_a_length_of_time_is_hours_unless_it_says_otherwise(text: str, seconds: int) -> None:
    """Whole seconds."""
    assert parse_duration(text) == seconds


@pytest.mark.parametrize("text", ["", "0", "-6h", "soon", "6 m", "nan", "200 y", "99999999d"])
def test_a_length_of_time_that_cannot_be_meant_is_refused(text: str) -> None:
    """Metres are no minutes."""
    with pytest.raises(Refusal, match=r"length of time|a century") as refused:
        parse_duration(text)

    assert refused.value.code is Code.BAD_SPAN


@pytest.mark.parametrize(
    ("text", "number"), [("50", 50), ("50%", 50), (" 50,5 % ", 50.5), (".5", 0.5), ("100", 100)]
)
def test_a_number_is_read_with_its_unit_or_without(text: str, number: float) -> None:
    """Within what was asked for."""
    assert parse_number(text, "a humidity", (0.5, 100), "%") == number
    assert parse_number(f"-{text.strip()}", "an offset", (-100, 100), "%") == -number


@pytest.mark.parametrize("text", ["", "%", "0", "-5", "101", "nan", "inf", "1e1", "5 C", "9" * 999])
def test_a_number_that_cannot_be_meant_is_refused_by_its_name(text: str) -> None:
    """With the numbers it lies within."""
    says = "is not a humidity; write a number from 0.5 to 100 %"
    with pytest.raises(Refusal, match=says) as refused:
        parse_number(text, "a humidity", (0.5, 100), "%")

    assert refused.value.code is Code.BAD_NUMBER
