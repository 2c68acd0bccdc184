"""One value at a time in words."""

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from stockroom.books.values import Place, Shop
from stockroom.film.kinds import Kind
from stockroom.film.verdict import Judgement, Reason, Verdict
from stockroom.lines import words
from stockroom.units import MM, M, System
from stockroom.work import look
from tests.builders import Station
from tests.lines.conftest import standing

TODAY = date(2026, 11, 25)
BY = "\N{MULTIPLICATION SIGN}"
SOUND = Judgement(
    verdict=Verdict.USE,
    wait_until=None,
    reasons=(),
    shelf_days=130,
    shelf_is_at_least=False,
    wound_days=None,
    due=None,
)


@pytest.mark.parametrize("verdict", Verdict)
def test_a_sign_never_stands_without_its_word(verdict: Verdict) -> None:
    """Colour and shape only repeat what the word says."""
    sign, _, word = words.marked(verdict).partition(" ")

    assert sign == words.MARKS[verdict]
    assert word == verdict.value


def test_each_verdict_has_a_sign_of_its_own() -> None:
    """Five words, five shapes."""
    assert len(set(words.MARKS.values())) == len(Verdict)


def test_a_rule_that_cannot_know_is_unknown() -> None:
    """A question mark, never a blank."""
    assert words.marked(None) == "?"
    assert words.reason(Reason(rule="shelf", verdict=None, said="no date known")) == (
        "? no date known"
    )


def test_a_wait_stands_beside_the_verdict_on_the_clock_of_the_shop() -> None:
    """With its day, for a rest may end tomorrow."""
    until = datetime(2026, 7, 1, 23, 30, tzinfo=UTC)
    shop = Shop(zone="Europe/Lisbon")

    said = words.verdict(replace(SOUND, wait_until=until), shop)

    assert said == "● USE  ◷ WAIT until 2026-07-02 00:30"
    assert words.verdict(SOUND, shop) == "● USE"


@pytest.mark.parametrize(
    ("days", "said"),
    [
        (None, "?"),
        (0, "0 d"),
        (1, "1 d"),
        (120, "120 d"),
        (121, "3 mo"),  # 27 July: a day short of four calendar months
        (123, "4 mo"),
        (365, "12 mo"),
        (731, "24 mo"),
    ],
)
def test_an_age_is_in_days_up_to_120_then_in_whole_months(days: int | None, said: str) -> None:
    """Calendar months, counted back from the day of the report."""
    assert words.age(days, TODAY) == said


def test_months_are_counted_on_the_calendar() -> None:
    """A month that lacks the day ends on its last, as limits do."""
    assert words.age(364, date(2025, 2, 27)) == "11 mo"
    assert words.age(365, date(2025, 2, 28)) == "12 mo"


@pytest.mark.parametrize(
    ("dates", "said"),
    [
        ({"made": "2026-07-10"}, "4 mo"),
        ({"made": "2026-07"}, "4 mo assumed"),
        ({"made": None, "received": "2026-11-20"}, "at least 5 d"),
        ({"made": None, "received": "2026-07"}, "4 mo assumed"),
    ],
)
def test_an_age_says_how_sure_it_is(
    station: Station, dates: dict[str, str | None], said: str
) -> None:
    """Known from the maker's date, assumed from one known in part, at least since it came."""
    judged = look.piece(station.book, station.roll(**dates), now=station.now).judged

    assert words.shelf_age(judged, TODAY) == said


def test_what_is_left_is_a_length_a_size_or_a_number(station: Station) -> None:
    """As the piece is measured."""
    roll, box = standing(station, station.roll()), standing(station, station.box(1))
    offcut = standing(station, station.offcut((600 * MM, 1 * M)))

    assert words.left(roll, System.METRIC) == "30 m"
    assert words.left(roll, System.US) == "98' 5 1/8\""
    assert words.left(offcut, System.METRIC) == f"600 {BY} 1000 mm"
    assert words.left(box, System.METRIC) == "1 pc"


def test_film_says_what_its_name_does_not(station: Station) -> None:
    """The width of a roll, unless the name has it; that it is printed; its job."""
    for name, width_nm in (("white cast 1370", 1370 * MM), ("white cast", 1370 * MM)):
        station.material(name, Kind.PRINT_VINYL, width_nm=width_nm)
    named = standing(station, station.roll(material="white cast 1370"))
    plain = standing(station, station.roll(material="white cast", printed="2026-11-20"))

    assert words.film(named, System.METRIC) == "white cast 1370"
    assert words.film(plain, System.METRIC) == "white cast, 1370 mm, printed"
    assert words.film(standing(station, station.box()), System.METRIC) == "snap blades"


def test_places_codes_and_moments_read_as_people_write_them() -> None:
    """A place by its name, a code in groups, ISO dates."""
    shop = Shop(zone="Europe/Lisbon")

    assert words.place(None) == "?"
    assert words.place(Place(1, "P000002G", "bay B2", "")) == "bay B2"
    assert words.code("R000002J") == "R000 002J"
    assert words.day(TODAY) == "2026-11-25"
    assert words.moment(datetime(2026, 7, 1, 12, 0, tzinfo=UTC), shop) == "2026-07-01 13:00"


def test_nothing_and_none_are_unknown_and_zero_is_a_value() -> None:
    """A value that is there is shown."""
    assert [words.known(one) for one in (None, "", 0, "L-22")] == ["?", "?", "0", "L-22"]
    assert words.width(None, System.METRIC) == "?"
    assert (words.counted(1, "piece"), words.counted(0, "piece")) == ("1 piece", "0 pieces")
