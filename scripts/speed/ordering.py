"""What the plan of orders is worth: a simulated year of the demo shop, beside a rule of thumb."""

from collections.abc import Iterator

from scripts.drawing import NOW, a_shop
from scripts.speed.result import Gap, Part, Result
from scripts.study.year import Film, simulated
from stockroom.work.buying import buying
from stockroom.work.charging import area_mm2
from stockroom.work.drawing import amount_of
from stockroom.work.value import value

RUNS = 20


def ordering_results(runs: int = RUNS) -> Iterator[Result]:
    """Draws that waited, film that grew too old, and money on the shelf, beside "two when the last is opened"."""
    films = demo_films()
    plan, rule = simulated(films, runs)
    years = f"{len(films)} films, {runs} simulated years"
    yield Gap(f"draws that waited for film, %, {years}", plan.waited_pct, rule.waited_pct, 5)
    yield Part("grew too old, % of what was used", plan.too_old_pct, rule.too_old_pct, 0.5)
    yield Part("on the shelf, % of a year's use", plan.tied_up_pct, rule.tied_up_pct, 0.6)


def demo_films() -> tuple[Film, ...]:
    """The film that the demo shop drew in the last year, as its plan sees it, at its price."""
    with a_shop() as book:
        rows, pieces = buying(book, now=NOW).rows, value(book, now=NOW).pieces
    prices: dict[int, float] = {}
    for one in pieces:
        state, material = one.standing.state, one.standing.material
        if state.form == "roll" and state.width_nm and state.cost_minor:
            length_m = amount_of(area_mm2(state.width_nm, state.full), material)
            prices[material.id] = state.cost_minor / length_m
    return tuple(
        Film(
            demand=row.drawn.demand,
            supply=row.supply,
            goods=row.goods,
            price=prices[row.material.id],
        )
        for row in rows
        if row.material.id in prices and row.drawn.demand.per_day_m
    )
