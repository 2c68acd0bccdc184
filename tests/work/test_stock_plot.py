"""A material week by week: what there was, what was drawn, and what is to come."""

from datetime import timedelta

import pytest

from stockroom.units import MM, M
from stockroom.work.buying import buying
from stockroom.work.stock_plot import StockPlot, stock_plot
from stockroom.work.weekly import WEEKS
from tests.builders import Station
from tests.ordering import Buyer


def _plot(station: Station) -> StockPlot:
    found = buying(station.book, now=station.now)
    return stock_plot(station.book, found.rows[0], found.view)


def test_what_there_was_ends_in_what_there_is_and_goes_on_from_what_is_fit(
    station: Station,
) -> None:
    """By hand: 30 m came, 3 m a week went for four weeks; a half-width offcut is half as much."""
    job, roll = station.job(), station.roll()
    for _ in range(4):
        station.cut(roll, 3 * M, job=job)
        station.wait(days=7)
    station.cut(roll, 4 * M, job=job, offcuts=((750 * MM, 4 * M),))

    found = _plot(station)

    before = [one.mean for one in found.stock if one][:WEEKS]
    assert before[-6:] == pytest.approx([0, 27, 24, 21, 18, 16])
    first = found.stock[WEEKS - 5]
    assert first is not None
    assert (first.lowest, first.highest) == (0, 30)
    drawn = [one.mean for one in found.drawn if one]
    assert drawn[WEEKS - 6 : WEEKS] == pytest.approx([0, 0, 3, 3, 3, 2])
    assert drawn[WEEKS:] == pytest.approx([found.planned.drawn.demand.per_day_m * 7] * WEEKS)
    assert len(found.stock) == len(found.drawn) == 2 * WEEKS
    coming = found.stock[WEEKS]
    assert coming is not None
    assert coming.lowest <= coming.mean <= coming.highest <= found.planned.on_hand.fit


def test_a_print_is_no_stock_any_more_and_an_undone_cut_is(station: Station) -> None:
    """What came long ago is there from the first week on."""
    blank = station.blank()
    station.wait(days=500)
    station.print(blank, 5 * M)
    station.cut(blank, 5 * M)
    station.undo(blank)

    levels = [one for one in _plot(station).stock[:WEEKS] if one]

    assert [one.mean for one in levels] == [30.0] * (WEEKS - 1) + [25.0]


def test_what_is_on_order_comes_on_its_day(station: Station) -> None:
    """Two rolls of 30 m, in ten days, to what is there; a draft does not."""
    buyer = Buyer(station.book, station.now)
    buyer.roll()
    buyer.draft()
    buyer.send(buyer.draft().code, expected=(buyer.now + timedelta(days=10)).date())

    levels = [one.mean for one in _plot(buyer).stock[WEEKS:] if one]

    assert levels[:3] == [30, 90, 90]
