"""A lot is held in one act, wherever its pieces are, and released in one."""

from stockroom.errors import Code
from stockroom.units import M
from tests.builders import CLEAR, is_sound, refused
from tests.floor import Floor


def test_a_recall_holds_rolls_offcuts_prints_and_laminates_of_a_lot(floor: Floor) -> None:
    """And leaves other lots, unknown ones and what has ended alone."""
    blank, clear = floor.blank(lot="L-22"), floor.clear(lot="K-7")
    film = floor.print(blank, 4 * M).code
    laminate = floor.laminate(floor.print(blank, 2 * M).code, clear, 2 * M).code
    offcut, other, unknown = floor.offcut(lot="l-22"), floor.roll(lot="L-23"), floor.roll()
    gone = floor.roll(lot="L-22")
    floor.discard(gone)

    act = floor.hold_lot("L-22")

    roll = floor.history(offcut)[-1].moves[0].piece
    assert {move.piece for move in act.moves} == {blank, film, laminate, roll, offcut}
    assert floor.state(laminate).held == "lot L-22: maker's notice"
    assert [floor.state(code).held for code in (other, unknown, gone, clear)] == [None] * 4
    assert is_sound(floor.book)


def test_the_laminate_on_a_print_is_recalled_too(floor: Floor) -> None:
    """The second lot of a laminated piece counts like the first."""
    clear = floor.clear(lot="K-7")
    laminate = floor.laminate(floor.print(floor.blank(), 2 * M).code, clear, 2 * M).code

    floor.hold_lot("K-7")

    assert floor.state(laminate).held is not None


def test_one_material_of_a_lot_can_be_recalled(floor: Floor) -> None:
    """Two makers may use the same number."""
    roll, clear = floor.roll(lot="7"), floor.clear(lot="7")

    floor.hold_lot("7", material=CLEAR)

    assert (floor.state(roll).held, floor.state(clear).held is None) == (None, False)


def test_a_release_leaves_what_was_held_for_itself(floor: Floor) -> None:
    """Neither reason paints over the other."""
    creased, plain = floor.rolls(pieces=2, lot="L-22")
    floor.hold(creased, "creased")
    floor.hold_lot("L-22", "notice; see mail")
    both = floor.state(creased).held

    act = floor.release_lot("L-22")

    assert both == "creased; lot L-22: notice, see mail"
    assert {move.piece for move in act.moves} == {creased, plain}
    assert (floor.state(creased).held, floor.state(plain).held) == ("creased", None)
    with refused(floor.book, Code.NOT_HELD):
        floor.release_lot("L-22")
    assert is_sound(floor.book)


def test_a_piece_that_came_later_joins_the_recall_when_it_is_said_again(floor: Floor) -> None:
    """What is held already stays as it is."""
    floor.roll(lot="L-22")
    floor.hold_lot("L-22")
    with refused(floor.book, Code.ALREADY_THERE):
        floor.hold_lot("L-22")
    late = floor.roll(lot="L-22")

    assert [move.piece for move in floor.hold_lot("L-22").moves] == [late]


def test_an_unknown_lot_matches_nothing(floor: Floor) -> None:
    """Not even a piece whose lot is unknown."""
    floor.roll()

    with refused(floor.book, Code.NO_LOT):
        floor.hold_lot("?")
    with refused(floor.book, Code.BAD_USAGE):
        floor.hold_lot("")
    with refused(floor.book, Code.BAD_USAGE):
        floor.release_lot("L-22", "")
    with refused(floor.book, Code.NO_MATERIAL):
        floor.hold_lot("L-22", material="unobtainium")


def test_a_recall_is_undone_whole(floor: Floor) -> None:
    """From any of its pieces."""
    first, second = floor.rolls(pieces=2, lot="L-22")
    floor.hold_lot("L-22")

    floor.undo(second)

    assert (floor.state(first).held, floor.state(second).held) == (None, None)
    assert is_sound(floor.book)
