"""What is typed at the bench, and the words of its line."""

from dataclasses import replace
from datetime import timedelta

import pytest

from stockroom.books.values import Job
from stockroom.errors import Code, Refusal
from stockroom.film.kinds import Kind
from stockroom.film.roll import Layer
from stockroom.lines import bench
from stockroom.units import INCH, MM, M, System
from stockroom.work import look
from stockroom.work.cut import Cut
from stockroom.work.look import Card
from stockroom.work.take import Take
from tests.builders import Station
from tests.conftest import NOW

METRIC, US = System.METRIC, System.US
BY = "\N{MULTIPLICATION SIGN}"


def card(station: Station, code: str) -> Card:
    return look.piece(station.book, code, now=station.now)


@pytest.mark.parametrize(
    ("typed", "nm"),
    [
        ("2.8", 2_800 * MM),
        ("2,8", 2_800 * MM),
        ("0.5", 500 * MM),
        ("2.8m", 2_800 * MM),
        ("2800", 2_800 * MM),
        ("100", 100 * MM),
        ("3m", 3 * M),
        ("50 mm", 50 * MM),
        ("10'6\"", 126 * INCH),
        ("4x1.25", 5 * M),
        ("4 x 1.25m", 5 * M),
        (f"4{BY}1250", 5 * M),
        ("2X300mm", 600 * MM),
        ("=3.6", 2_800 * MM),
        ("= 3600", 2_800 * MM),
        ("=0", 6_400 * MM),
        ("=2x1.5m", 3_400 * MM),
    ],
)
def test_lengths_are_read_as_people_say_them(typed: str, nm: int) -> None:
    """Of 6.4 m: with a point it is metres, from 100 on millimetres; = says what is left."""
    assert bench.length(typed, METRIC, 6_400 * MM) == nm


@pytest.mark.parametrize("typed", ["3", "99", "100.5", "12"])
def test_a_number_that_could_be_metres_or_millimetres_is_refused(typed: str) -> None:
    """And the sentence shows both ways to write it."""
    with pytest.raises(Refusal, match=rf"write {typed}m or {typed}mm") as caught:
        bench.length(typed, METRIC)

    assert caught.value.code is Code.BAD_LENGTH


@pytest.mark.parametrize(
    "typed", ["", "-3m", "0", "nan", "=", "=6.4", "=9m", "0x1m", ".8", "4x", "x"]
)
def test_what_is_no_length_of_the_roll_is_refused(typed: str) -> None:
    """Nothing, less than nothing, no number, more than there is."""
    with pytest.raises(Refusal):
        bench.length(typed, METRIC, 6_400 * MM)


def test_a_bare_number_in_inches_is_inches() -> None:
    """Only metric numbers are read in two ways."""
    assert bench.length("126", US) == 126 * INCH
    assert bench.length("3", US) == 3 * INCH
    assert bench.length("=12", US, 20 * INCH) == 8 * INCH


def test_nothing_is_allowed_where_it_means_none() -> None:
    """As for waste."""
    assert bench.length("0", METRIC, zero=True) == 0


@pytest.mark.parametrize(
    ("typed", "sizes"),
    [
        ("", ()),
        ("300x1000", ((300 * MM, 1_000 * MM),)),
        ("0.6x1.2", ((600 * MM, 1_200 * MM),)),
        (f"300 mm {BY} 1.2 m", ((300 * MM, 1_200 * MM),)),
        ("300x1000 + 400x500", ((300 * MM, 1_000 * MM), (400 * MM, 500 * MM))),
    ],
)
def test_offcuts_are_sizes_divided_by_a_plus(
    typed: str, sizes: tuple[tuple[int, int], ...]
) -> None:
    """Across by along, each side read as a length is."""
    assert bench.sizes(typed, METRIC) == sizes


@pytest.mark.parametrize("typed", ["300", "300x", "3x1000", "1x2x3", "300x1000+x"])
def test_what_is_no_size_is_refused(typed: str) -> None:
    """One wrong offcut refuses all of them."""
    with pytest.raises(Refusal):
        bench.sizes(typed, METRIC)


def test_the_line_says_what_the_piece_is_how_much_is_left_and_where(station: Station) -> None:
    """And a place that is not known reads as unknown."""
    code = station.roll(place=station.place("B2"))

    assert bench.piece(card(station, code)).endswith("clear 50, 1500 mm   30 m left   at B2")
    assert bench.piece(card(station, station.roll())).endswith("at ?")


def test_sound_film_warns_of_nothing_and_film_near_its_limit_says_why(station: Station) -> None:
    """The reason comes with its sign."""
    assert bench.warnings(card(station, station.roll())) == ()

    old = bench.warnings(card(station, station.roll(made="2024-12-10")))
    assert old == ("◐ 23 months, limit 24 (default): 15 days left",)


def test_a_piece_that_is_held_or_no_more_cannot_be_taken(station: Station) -> None:
    """Each with its own code and what to do."""
    held, ended, sound = station.rolls(pieces=3)
    station.hold(held, "creased")
    station.finish(ended)

    refusals = [bench.refused_piece(card(station, code)) for code in (held, ended, sound)]

    assert [one and one.code for one in refusals] == [Code.HELD, Code.ENDED, None]
    assert "is held (creased)" in str(refusals[0])


def test_enter_is_told_beforehand_what_it_writes(station: Station) -> None:
    """Length, purpose, waste, offcuts, and what stays or what is missing."""
    seen = card(station, station.roll())
    cut = Cut(
        request="r",
        operator="Ida M.",
        piece=seen.judged.code,
        length_nm=2_800 * MM,
        waste_nm=300 * MM,
        offcuts=((600 * MM, 1 * M),),
    )

    assert bench.writes(cut, seen, "for sample") == (
        f"cut 2.8 m for sample · 300 mm of it waste · keep 600 {BY} 1000 mm · 27.2 m stays"
    )
    assert bench.writes(replace(cut, length_nm=31 * M), seen, "for sample").endswith(
        "1 m more than the books have"
    )


def test_goods_say_how_many_stay(station: Station) -> None:
    """A number and no length."""
    box = card(station, station.box(12))
    take = Take(request="r", operator="Ida M.", piece=box.judged.code, number=1)

    assert bench.writes(take, box, "for J000 0019") == "take 1 pc for J000 0019 · 11 pcs stay"


def test_what_was_done_names_what_has_to_be_labelled_now(station: Station) -> None:
    """Or what stays, where nothing was kept."""
    code, shop = station.roll(), card(station, station.roll()).view.shop
    kept = station.cut(code, 2 * M, offcuts=((600 * MM, 1 * M),))
    plain = station.cut(code, 1 * M)

    assert f"label C000 001H 600 {BY} 1000 mm" in bench.cut_done(kept, shop)
    assert bench.cut_done(plain, shop).endswith("cut 1 m for sample · 27 m stays")
    assert bench.taken(station.take(station.box(9), 2), shop).endswith("7 pcs stay")


def test_jobs_used_last_come_first_then_those_wanted_soonest(station: Station) -> None:
    """Closed ones are not among them, and opening a job is no use of it."""
    late = station.job("late", on_day="2026-12-30")
    soon = station.job("soon", on_day="2026-11-26")
    used = station.job("used", on_day="2026-12-31")
    station.close(station.job("closed"))
    station.job("undated")
    station.cut(station.roll(), 1 * M, job=used)
    acts, jobs = look.log(station.book, now=station.now), look.jobs(station.book)

    found = bench.choices(jobs, acts, 9)

    assert [one.code for one in found][:3] == [used, soon, late]
    assert [one.name for one in found] == ["used", "soon", "late", "undated"]
    assert len(bench.choices(jobs, acts, 2)) == 2


def test_each_choice_stands_beside_its_key() -> None:
    """Number, code, day, name and site, in columns."""
    job = Job(
        id=1, code="J0000019", name="shelter", site="Mill Lane", on_day="2026-11-27",
        kind="graphic", note="", is_closed=False,
    )  # fmt: skip

    assert bench.choices_shown([job, replace(job, on_day=None, site="")]) == (
        "1   J000 0019   Fri 2026-11-27   shelter, Mill Lane",
        "2   J000 0019   ?                shelter",
    )


def test_two_people_lift_what_is_wide_or_heavy_and_blades_have_their_own_caution(
    station: Station,
) -> None:
    """The mass is that of what is left."""
    narrow = station.material("narrow", width_nm=500 * MM)
    heavy = station.material("heavy", width_nm=1_000 * MM, layers=(Layer(500.0, 1_400.0),))

    def caution(code: str) -> str:
        return bench.cautions(card(station, code))

    assert caution(station.roll(material=narrow)) == "blade and edge"
    assert caution(station.roll()) == "blade and edge · two people lift it: 1500 mm"
    assert caution(station.roll(material=heavy)) == (
        "blade and edge · two people lift it: 1000 mm, 21 kg of film"
    )
    assert caution(station.box()).startswith("blades cut")
    other = station.material("squeegee", Kind.TOOL)
    assert caution(station.box(material=other)) == ""


def test_the_questions_name_the_piece_the_place_and_the_amount(station: Station) -> None:
    """So that y and n are answers."""
    old = card(station, station.roll(made="2025-03-01", place=station.place("A1")))

    assert bench.older(old.judged, old.view.shop) == (
        "older sound roll R000 002J at A1, 30 m: take that?"
    )
    assert bench.bare_core(old) == "is the core of R000 002J bare? The books still say 30 m."
    short = Refusal(Code.TOO_LONG, "R000 002J: books short by 0.4 m: count it first.")
    assert bench.short(short) == "the books are short by 0.4 m: cut it, and count the roll by it?"


def test_what_was_written_last_is_said_on_the_clock_of_the_shop(station: Station) -> None:
    """Newest first, one line each."""
    code = station.roll()
    station.cut(code, 1 * M)
    shop = card(station, code).view.shop
    acts = look.log(station.book, now=NOW)

    assert bench.just_now(acts, shop, ())[0] == "✓ 09:00 R000 002J cut 1 m for sample"


def test_a_flaw_is_told_and_louder_when_the_cut_runs_through_it(station: Station) -> None:
    """Counted from the outer end, where the cut begins."""
    code = station.roll()
    station.flaw(code, 2 * M, "splice")
    one = card(station, code)

    def told(length_nm: int) -> tuple[str, ...]:
        request = Cut(**station.asked(piece=code, length_nm=length_nm, reason="sample"))
        return bench.flaws(one, request)

    assert bench.flaws(one, None) == told(1 * M) == ("▲ splice at 2 m",)
    assert told(3 * M) == ("▲ splice at 2 m: the cut runs through it",)


def test_what_is_written_down_later_says_when_it_was_done(station: Station) -> None:
    """On the shop's clock, with the weekday."""
    code = station.roll()
    one, at = card(station, code), station.now - timedelta(hours=17)
    request = Cut(**station.asked(piece=code, length_nm=1 * M, reason="sample", at=at))

    assert bench.writes(request, one, "for sample").endswith("done Tue 2026-11-24 16:00")
