"""How a material is bought: kept as it was typed, read in days and numbers."""

import pytest

from stockroom.errors import Code, Refusal
from stockroom.film.kinds import Kind
from stockroom.plan.demand import Demand
from stockroom.plan.quantity import Break
from stockroom.plan.terms import TERMS, Terms, parse_term, price_of, show_term, terms_of
from stockroom.units import System


def test_terms_are_read_in_days_and_numbers() -> None:
    """What was not entered is none, and one roll is sold."""
    typed = {"supplier": " Film  house ", "lead": "2w", "spread": "1mo", "pack": "4", "least": "8"}
    typed |= {"expect": "8 x 3m", "breaks": "20:440 10:460", "series": "grey"}
    entered = {name: parse_term(name, text, Kind.WINDOW_FILM) for name, text in typed.items()}

    assert tuple(entered) == TERMS
    assert entered["expect"] == "8x3000mm"
    assert entered["breaks"] == "10:46000 20:44000"
    assert show_term("breaks", entered["breaks"]) == "460.00 EUR from 10, 440.00 EUR from 20"
    assert terms_of(entered) == Terms(
        supplier="Film house",
        lead_days=14,
        spread_days=365.25 / 12,
        pack=4,
        least=8,
        expected=Demand(draws_per_day=8 / (365.25 / 12), draw_mean_m=3, draw_variance_m2=9),
        breaks=(Break(10, 46_000), Break(20, 44_000)),
        series="grey",
    )
    assert terms_of({}) == Terms(supplier=None, lead_days=None, spread_days=None, pack=1, least=1)


def test_a_price_holds_from_its_number_on() -> None:
    """Nine cost as one does; without any price nothing is known."""
    terms = terms_of({"breaks": "10:46000 20:44000"})

    assert [price_of(terms, 48_000, pieces) for pieces in (1, 9, 10, 19, 20, 200)] == [
        48_000,
        48_000,
        46_000,
        46_000,
        44_000,
        44_000,
    ]
    assert price_of(terms_of({}), None, 5) is None


def test_goods_are_expected_in_numbers_and_bare_lengths_in_the_books_unit() -> None:
    """Ten blades twice a month; ten times 10 ft."""
    goods = parse_term("expect", "2x10", Kind.BLADE)
    film = terms_of({"expect": parse_term("expect", "10x120", Kind.LAMINATE, System.US)})

    assert (goods, terms_of({"expect": goods}).expected) == (
        "2x10",
        Demand(draws_per_day=2 / (365.25 / 12), draw_mean_m=10, draw_variance_m2=100),
    )
    assert show_term("expect", "10x3048mm", System.US) == "10 x 10'"
    assert show_term("expect", goods) == "2x10"
    assert film.expected is not None
    assert film.expected.draw_mean_m == pytest.approx(3.048)


@pytest.mark.parametrize(
    ("name", "text", "code"),
    [
        ("supplier", "\x07 ", Code.BAD_NAME),
        ("lead", "soon", Code.BAD_SPAN),
        ("lead", "0d", Code.BAD_SPAN),
        ("spread", "-1d", Code.BAD_SPAN),
        ("pack", "0", Code.BAD_NUMBER),
        ("least", "1.5", Code.BAD_NUMBER),
        ("breaks", "460", Code.BAD_MONEY),
        ("breaks", " ", Code.BAD_MONEY),
        ("breaks", "10:-1", Code.BAD_MONEY),
        ("breaks", "10:460 20:480", Code.BAD_USAGE),
        ("breaks", "10:460 10:440", Code.BAD_USAGE),
        ("expect", "24m", Code.BAD_NUMBER),
        ("expect", "0x3m", Code.BAD_NUMBER),
        ("expect", "8x-3m", Code.BAD_LENGTH),
        ("expect", "8xnan", Code.BAD_LENGTH),
    ],
)
def test_what_cannot_be_a_term_is_refused(name: str, text: str, code: Code) -> None:
    """In one sentence."""
    with pytest.raises(Refusal) as refused:
        parse_term(name, text, Kind.WINDOW_FILM)

    assert refused.value.code is code
