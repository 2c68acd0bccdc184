"""Order quantities, reorder points and forecasts against textbooks and independent libraries.

Not in the vector files, for the program does not use them: backorders, service by share of demand,
(r, Q) and (s, S) policies, and Croston's method.
"""

import csv
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from stockroom.plan.demand import Demand, Pattern, pattern_of, tsb
from stockroom.plan.quantity import (
    Break,
    Quantity,
    Year,
    cheapest_rolls,
    checked,
    economic,
    for_once,
    with_breaks,
    with_steps,
    yearly_cost_of_rolls,
)
from stockroom.plan.reorder import Supply, during, reorder_point_m


def _read(name: str) -> Iterator[dict[str, str]]:
    with (Path(__file__).parent / name).open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)


def _rows(name: str) -> Iterator[object]:
    for row in _read(name):
        yield pytest.param(row, id=row["row"])


def _year(words: list[str]) -> Year:
    demand, order_cost, holding_rate = map(float, words[:3])
    return Year(demand=demand, order_cost=order_cost, holding_rate=holding_rate)


def _breaks(words: list[str]) -> tuple[Break, ...]:
    pairs = (word.split(":") for word in words if ":" in word)
    return tuple(Break(float(least), float(price)) for least, price in pairs)


def _economic(words: list[str]) -> Quantity:
    demand, order_cost, holding = map(float, words)
    return economic(demand, order_cost, holding)


def _economic_in_all(words: list[str]) -> float:
    demand, order_cost, rate, price = map(float, words)
    return price * demand + economic(demand, order_cost, rate * price).cost


def _demand(words: list[str]) -> Demand:
    often, mean, variance = map(float, words[:3])
    return Demand(draws_per_day=often, draw_mean_m=mean, draw_variance_m2=variance)


def _reorder_point(words: list[str]) -> float:
    days, variance, service = map(float, words[3:])
    return reorder_point_m(
        _demand(words), Supply(days=days, variance_days2=variance, service=service)
    )


_QUANTITIES: dict[str, Callable[[list[str]], float]] = {
    "eoq": lambda words: _economic(words).quantity,
    "eoq_cost": lambda words: _economic(words).cost,
    "eoq_all": _economic_in_all,
    "breaks": lambda words: with_breaks(_year(words), checked(_breaks(words))).quantity,
    "breaks_cost": lambda words: with_breaks(_year(words), checked(_breaks(words))).cost,
    "steps": lambda words: with_steps(_year(words), checked(_breaks(words))).quantity,
    "steps_cost": lambda words: with_steps(_year(words), checked(_breaks(words))).cost,
    "rolls": lambda words: cheapest_rolls(
        _year(words), _breaks(words), float(words[3]), range(1, 61)
    ),
    "rolls_cost": lambda words: yearly_cost_of_rolls(
        _year(words), _breaks(words), float(words[3]), int(words[4])
    ),
    "for_once": lambda words: for_once(*map(float, words)),
    "lead_mean": lambda words: during(_demand(words), *map(float, words[3:])).mean,
    "lead_variance": lambda words: during(_demand(words), *map(float, words[3:])).variance,
    "reorder_point": _reorder_point,
}


@pytest.mark.parametrize("row", list(_rows("buying.csv")))
def test_every_row_of_the_vector_file_comes_out(row: dict[str, str]) -> None:
    """Each with its own tolerance; the source stands in the row."""
    result = _QUANTITIES[row["quantity"]](row["arguments"].split())

    assert result == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]), rel=0)
    assert row["source"]


@pytest.mark.parametrize("row", list(_rows("demand.csv")))
def test_what_the_next_period_asks_is_what_two_libraries_said(row: dict[str, str]) -> None:
    """Kept as constants, for the libraries are heavy; the source stands in the row."""
    series = [float(number) for number in row["series"].split()]

    result = tsb(series, float(row["size_weight"]), float(row["chance_weight"]))

    assert result == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]), rel=0)
    assert row["source"]


def test_a_series_that_ended_years_ago_is_dying_and_one_that_goes_on_is_lumpy() -> None:
    """The two published series; Croston's method would go on buying for the first."""
    series = {
        row["row"]: [float(number) for number in row["series"].split()]
        for row in _read("demand.csv")
    }

    assert pattern_of(series["scripts"]) is Pattern.DYING
    assert pattern_of(series["counts"]) is Pattern.LUMPY
