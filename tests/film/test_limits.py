"""The house's values: defaults read as defaults, changes as the house's own."""

import pytest

from stockroom.errors import Code, Refusal
from stockroom.film.dates import Span
from stockroom.film.kinds import Ink, Kind
from stockroom.film.limits import HOUSE_NAMES, Basis, Figure, House, Limit
from stockroom.units import MM, M, System


@pytest.mark.parametrize(
    ("name", "shown"),
    [
        ("shelf.window-film", "24mo"),
        ("shelf.protective-film", "24mo"),
        ("shelf.print-vinyl", "24mo"),
        ("shelf.calendered-vinyl", "12mo"),
        ("shelf.laminate", None),
        ("shelf.transfer-tape", None),
        ("shelf.liquid", None),
        ("shelf.blade", None),
        ("shelf.tool", None),
        ("shelf.other", None),
        ("wound.printed", "90d"),
        ("wound.tight", "30d"),
        ("wound.tight-below", "100 mm"),
        ("rest.solvent", "24h"),
        ("rest.eco-solvent", "24h"),
        ("rest.latex", "0h"),
        ("rest.uv", "0h"),
        ("rest.unknown", "24h"),
        ("near.days", "30d"),
        ("near.percent", "20%"),
        ("keep.across", "300 mm"),
        ("keep.along", "1 m"),
        ("keep.protective-film-across", "600 mm"),
        ("keep.protective-film-along", "600 mm"),
        ("core.unusable", "500 mm"),
        ("count.tolerance-percent", "3%"),
        ("buying.lead", "7d"),
        ("buying.lead-spread", "3d"),
        ("buying.review", "1d"),
        ("buying.service-percent", "95%"),
        ("climate.gap", "6h"),
        ("climate.assumed", "21 °C"),
        ("climate.cold", "10 °C"),
        ("climate.hot", "30 °C"),
        ("climate.hot-hours", "48h"),
        ("climate.too-hot", "40 °C"),
        ("climate.rh-low", "35%"),
        ("climate.rh-high", "65%"),
        ("energy", "83.144 kJ/mol"),
        ("curl.window-film", "200 mm"),
        ("curl.protective-film", "150 mm"),
        ("curl.print-vinyl", "150 mm"),
        ("curl.calendered-vinyl", "150 mm"),
        ("curl.laminate", "150 mm"),
        ("extension.shelf", "6mo"),
        ("extension.wound", "30d"),
    ],
)
def test_the_defaults_are_those_of_common_practice(name: str, shown: str | None) -> None:
    """Common practice, no source; none for kinds nobody agrees about."""
    house = House()

    assert house.shown(name) == shown
    assert house.basis(name) is Basis.DEFAULT


def test_every_name_can_be_shown_and_every_default_typed_again() -> None:
    """The names are those of the table, and what is shown is what can be typed."""
    house = House()
    for name in HOUSE_NAMES:
        if (shown := house.shown(name)) is not None:
            assert house.changed(name, shown).shown(name) == shown
    assert len(HOUSE_NAMES) == len(set(HOUSE_NAMES)) == 56


def test_a_changed_limit_reads_as_the_houses_and_leaves_the_first_house_alone() -> None:
    """A house is a value; only what was set loses the word default."""
    before = House()

    after = before.changed("shelf.window-film", "3y")

    assert after.shelf(Kind.WINDOW_FILM) == Limit(Span(36), Basis.HOUSE)
    assert after.shelf(Kind.PRINT_VINYL) == Limit(Span(24), Basis.DEFAULT)
    assert before.shelf(Kind.WINDOW_FILM) == Limit(Span(24), Basis.DEFAULT)


def test_a_kind_without_a_default_answers_unknown_until_the_house_sets_one() -> None:
    """No default is invented."""
    assert House().shelf(Kind.LAMINATE) is None
    assert House().changed("shelf.laminate", "18mo").shelf(Kind.LAMINATE) == Limit(
        Span(18), Basis.HOUSE
    )


def test_wound_limits_tell_a_tight_core_from_a_wide_one() -> None:
    """Ninety days, or thirty below 100 mm."""
    house = House().changed("wound.tight", "20d").changed("wound.tight-below", "90mm")

    assert house.wound(tight=False) == Limit(Span(days=90), Basis.DEFAULT)
    assert house.wound(tight=True) == Limit(Span(days=20), Basis.HOUSE)
    assert house.tight_below_mm == 90.0


def test_rest_depends_on_the_ink_and_says_what_it_rests_on() -> None:
    """Hours and their basis."""
    house = House().changed("rest.latex", "6 hours")

    assert house.rest_hours(Ink.SOLVENT) == (24, Basis.DEFAULT)
    assert house.rest_hours(Ink.LATEX) == (6, Basis.HOUSE)
    assert house.rest_hours(Ink.UNKNOWN) == (24, Basis.DEFAULT)


@pytest.mark.parametrize(
    ("limit_days", "near"), [(730, 30), (150, 30), (149, 29), (90, 18), (31, 6), (4, 0)]
)
def test_near_is_a_fifth_of_the_limit_or_thirty_days_whichever_is_less(
    limit_days: int, near: int
) -> None:
    """In whole days, never more than the share."""
    assert House().near_days(limit_days) == near


@pytest.mark.parametrize(
    ("kind", "across_mm", "along_mm", "kept"),
    [
        (Kind.WINDOW_FILM, 300, 1000, True),
        (Kind.WINDOW_FILM, 1000, 300, True),
        (Kind.WINDOW_FILM, 299, 2000, False),
        (Kind.WINDOW_FILM, 900, 900, False),
        (Kind.PROTECTIVE_FILM, 600, 600, True),
        (Kind.PROTECTIVE_FILM, 599, 1500, False),
        (Kind.PRINT_VINYL, 1370, 1000, True),
    ],
)
def test_an_offcut_is_kept_from_a_size_that_may_lie_either_way(
    kind: Kind, across_mm: int, along_mm: int, *, kept: bool
) -> None:
    """Common practice, no source: 300 mm by 1 m, urethane 600 by 600."""
    assert House().keeps(kind, across_mm * MM, along_mm * MM) is kept


def test_lengths_are_read_and_shown_in_the_units_of_the_book() -> None:
    """A bare number is inches in a US book."""
    house = House().changed("keep.across", "12", System.US)

    assert house.numbers["keep.across"] == 304_800_000
    assert house.shown("keep.across", System.US) == "1'"
    assert House().core_unusable_nm == M // 2


@pytest.mark.parametrize("text", ["100%", "49", "0"])
def test_a_service_is_neither_certain_nor_a_coin(text: str) -> None:
    """From 50 to 99 per cent."""
    with pytest.raises(Refusal, match="from 50 to 99%"):
        House().changed("buying.service-percent", text)


def test_extensions_after_a_passed_trial_are_house_values() -> None:
    """One for each rule that asks for a trial."""
    assert House().extension("shelf") == Span(6)
    assert House().changed("extension.wound", "2w").extension("wound") == Span(days=14)


@pytest.mark.parametrize(
    ("name", "hint"),
    [
        ("shelf.windowfilm", "did you mean shelf.window-film?"),
        ("wound.tihgt", "did you mean wound.tight?"),
        ("rest.ecosolvent", "did you mean rest.eco-solvent?"),
        ("zzz", "use one of shelf.window-film"),
    ],
)
def test_a_wrong_name_is_refused_with_the_nearest(name: str, hint: str) -> None:
    """A misspelt value is never set in silence."""
    with pytest.raises(Refusal) as refused:
        House().changed(name, "24mo")

    assert refused.value.code is Code.BAD_SETTING
    assert hint in refused.value.sentence


@pytest.mark.parametrize(
    ("name", "text", "code"),
    [
        ("shelf.window-film", "0d", Code.BAD_SPAN),
        ("shelf.window-film", "long", Code.BAD_SPAN),
        ("rest.uv", "-1", Code.BAD_SETTING),
        ("rest.uv", "1.5h", Code.BAD_SETTING),
        ("rest.uv", "9999h", Code.BAD_SETTING),
        ("rest.uv", "3d", Code.BAD_SETTING),
        ("rest.uv", "nan", Code.BAD_SETTING),
        ("near.percent", "101%", Code.BAD_SETTING),
        ("near.days", "", Code.BAD_SETTING),
        ("near.days", "366", Code.BAD_SETTING),
        ("keep.along", "-1m", Code.BAD_LENGTH),
    ],
)
def test_a_value_that_does_not_suit_its_name_is_refused(name: str, text: str, code: Code) -> None:
    """Each with the code of what it should have been."""
    with pytest.raises(Refusal) as refused:
        House().changed(name, text)

    assert refused.value.code is code


def test_a_rest_or_a_length_may_be_none_at_all() -> None:
    """Some shops keep every offcut."""
    house = House().changed("keep.across", "0").changed("keep.along", "0").changed("rest.uv", "0")

    assert house.keeps(Kind.WINDOW_FILM, 1, 1)
    assert house.rest_hours(Ink.UV) == (0, Basis.HOUSE)


def test_the_air_of_a_store_is_a_value_of_the_house() -> None:
    """In the units the climate is computed in; Fahrenheit and a factor per ten kelvin are understood."""
    house = House()
    for name, text in (("climate.gap", "2h"), ("climate.assumed", "70F"), ("energy", "Q10 2")):
        house = house.changed(name, text)

    assert (House().air.gap_s, House().air.assumed_c) == (6 * 3_600, 21.0)
    assert house.air.gap_s == 2 * 3_600
    assert house.air.assumed_c == pytest.approx(21.111)
    assert house.energy() == Figure(51.216, Basis.HOUSE)
    assert house.shown("climate.assumed", System.US) == "70 °F"


def test_a_kind_that_is_not_wound_to_be_applied_has_no_curl() -> None:
    """No default is invented; one that is known reads as a default."""
    assert House().curl(Kind.BLADE) is None
    assert House().curl(Kind.WINDOW_FILM) == Figure(200, Basis.DEFAULT)
    assert House().changed("curl.window-film", "120mm").curl(Kind.WINDOW_FILM) == Figure(
        120, Basis.HOUSE
    )


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("climate.cold", "31C"),
        ("climate.hot", "9C"),
        ("climate.hot", "41C"),
        ("climate.too-hot", "29C"),
        ("climate.rh-low", "66%"),
        ("climate.rh-high", "34%"),
    ],
)
def test_a_low_limit_is_not_put_above_the_high_one(name: str, text: str) -> None:
    """Nothing would ever be within."""
    with pytest.raises(Refusal) as caught:
        House().changed(name, text)

    assert caught.value.code is Code.BAD_SETTING
