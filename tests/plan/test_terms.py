"""How a material is bought: kept as it was typed, read in days and numbers."""

import pytest

from stockroom.errors import Code, Refusal
from stockroom.plan.terms import TERMS, Terms, parse_term, terms_of


def test_terms_are_read_in_days_and_numbers() -> None:
    """What was not entered is none, and one roll is sold."""
    typed = {"supplier": " Film  house ", "lead": "2w", "spread": "1mo", "pack": "4", "least": "8"}
    entered = {name: parse_term(name, text) for name, text in typed.items()}

    assert tuple(entered) == TERMS
    assert terms_of(entered) == Terms(
        supplier="Film house", lead_days=14, spread_days=365.25 / 12, pack=4, least=8
    )
    assert terms_of({}) == Terms(supplier=None, lead_days=None, spread_days=None, pack=1, least=1)


@pytest.mark.parametrize(
    ("name", "text", "code"),
    [
        ("supplier", "\x07 ", Code.BAD_NAME),
        ("lead", "soon", Code.BAD_SPAN),
        ("lead", "0d", Code.BAD_SPAN),
        ("spread", "-1d", Code.BAD_SPAN),
        ("pack", "0", Code.BAD_NUMBER),
        ("least", "1.5", Code.BAD_NUMBER),
    ],
)
def test_what_cannot_be_a_term_is_refused(name: str, text: str, code: Code) -> None:
    """In one sentence."""
    with pytest.raises(Refusal) as refused:
        parse_term(name, text)

    assert refused.value.code is code
