"""Which columns fit."""

from stockroom.screens.widgets.columns import Column, fit

CODE = Column(title="code", width=9)
MATERIAL = Column(title="material", width=20, grows=True)
LEFT = Column(title="left", width=8, right=True)
PLACE = Column(title="place", width=6, rank=1)
LOT = Column(title="lot", width=10, rank=2)


def test_everything_fits_in_a_wide_room_and_the_growing_column_takes_what_is_left_over() -> None:
    """Widths and gaps add up to the room."""
    laid_out = fit((CODE, MATERIAL, LEFT, PLACE, LOT), 80)

    assert laid_out == ((0, 9), (1, 39), (2, 8), (3, 6), (4, 10))
    assert sum(width for _, width in laid_out) + 4 * 2 == 80


def test_columns_that_grow_share_what_is_left_over() -> None:
    """An odd cell goes to the first of them."""
    also_growing = Column(title="why", width=10, grows=True)

    assert fit((MATERIAL, also_growing), 37) == ((0, 23), (1, 12))


def test_a_room_just_wide_enough_keeps_every_column() -> None:
    """Nothing is dropped while it fits to the cell."""
    assert len(fit((CODE, MATERIAL, LEFT, PLACE, LOT), 61)) == 5
    assert len(fit((CODE, MATERIAL, LEFT, PLACE, LOT), 60)) == 4


def test_columns_go_by_rank_the_highest_first() -> None:
    """The order of the columns does not decide, their rank does."""
    assert [index for index, _ in fit((CODE, LOT, MATERIAL, PLACE), 50)] == [0, 2, 3]
    assert [index for index, _ in fit((CODE, LOT, MATERIAL, PLACE), 38)] == [0, 2]


def test_columns_of_rank_nought_stay_where_nothing_fits() -> None:
    """A code is never dropped for want of room."""
    assert fit((CODE, MATERIAL, PLACE), 10) == ((0, 9), (1, 20))


def test_no_columns_need_no_room() -> None:
    """An empty table is no error."""
    assert fit((), 80) == ()
