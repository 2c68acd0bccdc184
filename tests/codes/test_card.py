"""The wall card: one code a sign, and the same one for years."""

import pytest

from stockroom.codes.card import SIGNS, Operator, Order, Sign, Typed, code_of, sign_of
from stockroom.codes.own import Letter, build, is_code, letter_of, numbers
from stockroom.codes.recognise import Own, recognise
from stockroom.errors import Code, Refusal

# What hangs on walls: these must never change.
HANGING = {
    Order.OK: "K000001T",
    Order.SPOILED: "K000008F",
    Typed("0"): "K000009D",
    Typed("9"): "K0000199",
    Typed("."): "K000020N",
    Operator(1): "K000022J",
    Operator(9): "K000030J",
}


@pytest.mark.parametrize("sign", SIGNS, ids=str)
def test_every_sign_has_a_code_that_says_it(sign: Sign) -> None:
    """What is printed for a sign is what a scan of it means."""
    code = code_of(sign)

    assert is_code(code)
    assert letter_of(code) is Letter.CARD
    assert sign_of(code) == sign
    assert recognise(code) == Own(code, Letter.CARD)


@pytest.mark.parametrize(("sign", "code"), HANGING.items(), ids=str)
def test_a_card_that_hangs_stays_right(sign: Sign, code: str) -> None:
    """A printed code means the same in every version."""
    assert code_of(sign) == code


def test_the_card_has_what_a_hand_in_gloves_needs() -> None:
    """Seven orders, ten digits and the point, nine people; none has the code of another."""
    assert [order.value for order in Order] == [
        *("OK", "undo", "finished", "out", "in", "back", "spoiled"),
    ]
    assert [one.character for one in SIGNS if isinstance(one, Typed)] == [*"0123456789."]
    assert [one.key for one in SIGNS if isinstance(one, Operator)] == [*range(1, 10)]
    assert len({code_of(sign) for sign in SIGNS}) == len(SIGNS) == 27


def test_a_code_no_card_carries_stands_for_nothing() -> None:
    """A right code of the letter K that was never printed is refused in one sentence."""
    code = build(Letter.CARD, numbers(Letter.CARD, 500, 1)[0])

    with pytest.raises(Refusal, match="stands for nothing: no wall card carries it") as refused:
        sign_of(code)

    assert refused.value.code is Code.MISREAD
