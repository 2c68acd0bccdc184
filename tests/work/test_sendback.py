"""What goes back to its supplier ends, and its credit is awaited."""

from stockroom.errors import Code
from stockroom.units import M
from stockroom.work.sendback import claims
from tests.builders import is_sound, refused, written
from tests.floor import Floor


def test_a_piece_sent_back_ends_with_its_value_as_an_open_claim(floor: Floor) -> None:
    """What is left of it left without being used or wasted."""
    roll = floor.roll()
    floor.cut(roll, 10 * M)

    act = floor.send_back(roll, claim="RMA-1")

    assert written(act) == [(roll, "send-back", -20 * M, 0, 0, 0, 0, 30_000)]
    assert (floor.state(roll).ended, floor.state(roll).claim) == ("sent back", "RMA-1")
    found = claims(floor.book, now=floor.now)
    only = found.claims[0]
    assert (only.number, only.why, only.amount) == ("RMA-1", "crushed core", 20 * M)
    assert (only.value_minor, found.value_minor) == (30_000, 30_000)
    assert is_sound(floor.book)


def test_a_credit_closes_the_claim_and_stays_on_record(floor: Floor) -> None:
    """Once, and never less than nothing."""
    roll = floor.roll()
    floor.send_back(roll)

    with refused(floor.book, Code.BAD_MONEY):
        floor.credit(roll, -1)
    act = floor.credit(roll, 40_000)

    assert act.moves[0].facts == {"claim": "RMA-7", "credit_minor": 40_000}
    assert claims(floor.book, now=floor.now).claims == ()
    with refused(floor.book, Code.NO_CLAIM):
        floor.credit(roll, 40_000)
    assert is_sound(floor.book)


def test_both_can_be_undone(floor: Floor) -> None:
    """The claim is open again; then the piece is here again."""
    roll = floor.roll()
    floor.send_back(roll)
    floor.credit(roll, 0)

    floor.undo(roll)
    reopened = claims(floor.book, now=floor.now).claims
    floor.undo(roll)

    assert [one.number for one in reopened] == ["RMA-7"]
    assert claims(floor.book, now=floor.now).claims == ()
    assert (floor.state(roll).balance, floor.state(roll).ended) == (30 * M, None)
    assert is_sound(floor.book)


def test_a_claim_needs_a_number_and_a_reason(floor: Floor) -> None:
    """The supplier will ask for both."""
    roll = floor.roll()

    with refused(floor.book, Code.BAD_USAGE, "--claim"):
        floor.send_back(roll, claim="")
    with refused(floor.book, Code.BAD_USAGE, "--why"):
        floor.send_back(roll, "")


def test_goods_that_came_in_damaged_are_held_from_the_beginning(floor: Floor) -> None:
    """They cannot be cut; they can be sent back."""
    roll = floor.roll(damaged="core crushed")

    assert floor.state(roll).held == "came in damaged: core crushed"
    with refused(floor.book, Code.HELD):
        floor.cut(roll, M)
    floor.send_back(roll)
    assert is_sound(floor.book)
