"""Whose a piece is: only what is ours is stock and has a price without being told."""

import pytest

from stockroom.errors import Code
from stockroom.units import M
from stockroom.work.stock import stock
from tests.builders import FILM, ON_ONE_ENGINE, is_sound, refused
from tests.floor import Floor


@pytest.mark.parametrize("owner", ["client", "supplier", "sample"])
def test_what_is_not_ours_is_no_stock_and_has_no_price(floor: Floor, owner: str) -> None:
    """It can be cut for a job like any film; its parts are not ours either."""
    floor.material(cost_minor=45_000)
    ours = floor.roll(cost_minor=None)
    theirs = floor.roll(cost_minor=None, owner=owner)

    done = floor.cut(theirs, 5 * M, job=floor.job(), offcuts=((M, 2 * M),))

    assert (floor.state(ours).cost_minor, floor.state(theirs).cost_minor) == (45_000, None)
    assert done.cost_minor == 0
    assert floor.state(done.offcuts[0].code).owner == owner
    row = stock(floor.book, now=floor.now).rows[0]
    assert (row.pieces, row.value_minor) == (1, 45_000)
    assert is_sound(floor.book)


@ON_ONE_ENGINE
def test_refuses_an_owner_nobody_knows(floor: Floor) -> None:
    """A list of four."""
    floor.material(FILM)

    with refused(floor.book, Code.BAD_NAME, "ours, client, supplier, sample"):
        floor.roll(owner="nobody")
