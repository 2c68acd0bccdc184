"""When to order and how much, as people and programs read it.

reorder, reorder_values      below what to order, and how many rolls
why                          what an order rests on, in a sentence
quantity, quantity_values    how much at once, and what it costs
lasting                      5 weeks
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from stockroom.film.sentences import counted
from stockroom.plan.demand import Demand
from stockroom.plan.quantity import Quantity
from stockroom.plan.reorder import Order, Why
from stockroom.units import M, System
from stockroom.units.shown import show_length

_WEEK, _MONTH, _YEAR = 7, 30.4375, 365.25
_LAST_SAID_AS_DAYS, _LAST_SAID_AS_WEEKS, _LAST_SAID_AS_MONTHS = 20, 120, 730
_LONG_DAYS = 36_500
_ORDERED: Mapping[Why, str] = MappingProxyType(
    {
        Why.BELOW: "",
        Why.CHEAPEST: ", the number that costs least a year",
        Why.JOBS: ", which open jobs need",
        Why.LIMIT: ", for more would not be used before its storage limit",
    }
)


def lasting(days: float) -> str:
    """How long something lasts, no finer than it is known."""
    if days >= _LONG_DAYS:
        return "more than a century"
    for last, unit, name in (
        (_LAST_SAID_AS_DAYS, 1.0, "day"),
        (_LAST_SAID_AS_WEEKS, _WEEK, "week"),
        (_LAST_SAID_AS_MONTHS, _MONTH, "month"),
    ):
        if days <= last:
            return counted(round(days / unit), name)
    return counted(round(days / _YEAR), "year")


def reorder(lead_m: float, point_m: float, system: System) -> str:
    """Below what to order."""
    return (
        f"Order when less than {_m(point_m, system)} is there or on order; "
        f"until it comes, {_m(lead_m, system)} is drawn on average."
    )


def why(found: Order, noun: str = "roll") -> str:
    """What to order, and why."""
    if found.why is Why.OUTLIVES:
        return "Order nothing: the smallest order would outlive its storage limit."
    over = _over(found)
    if found.why is Why.ENOUGH:
        return f"Order nothing: what there is {_covers(found)}{over}."
    said = f"Order {many(found.rolls, noun)}{_ORDERED[found.why]}"
    if found.why is Why.JOBS and found.covers_days is None:
        return f"{said}."
    return f"{said}: it {_covers(found)}{over}."


def many(number: int, noun: str) -> str:
    """So many rolls or boxes."""
    return f"{number} {noun}es" if noun == "box" and number > 1 else counted(number, noun)


def _covers(found: Order) -> str:
    if found.covers_days is None:
        return "is not drawn"
    return f"covers {lasting(found.covers_days)}"


def _over(found: Order) -> str:
    if found.more_over_days is None:
        return ""
    return f"; one more would be {lasting(found.more_over_days)} past its limit"


def order_values(found: Order) -> dict[str, Any]:
    """What to order, for a script."""
    return {
        "order_rolls": found.rolls,
        "why": found.why.value,
        "covers_days": _rounded(found.covers_days),
        "one_more_over_limit_days": _rounded(found.more_over_days),
    }


def demand_values(demand: Demand) -> dict[str, Any]:
    """How often and how much is drawn."""
    return {
        "draws_per_day": round(demand.draws_per_day, 9),
        "draw_mean_m": round(demand.draw_mean_m, 9),
        "draw_variance_m2": round(demand.draw_variance_m2, 9),
    }


def quantity(found: Quantity, *, has_prices: bool) -> str:
    """How much at once, and what a year costs."""
    what = "all" if has_prices else "ordering and keeping it"
    return f"Order {found.quantity:,.2f} at once: {what} costs {found.cost:,.2f} a year."


def quantity_values(found: Quantity) -> dict[str, float]:
    """The same for a script."""
    return {"quantity": round(found.quantity, 9), "cost": round(found.cost, 9)}


def _m(length_m: float, system: System) -> str:
    return show_length(round(length_m * M), system)


def _rounded(days: float | None) -> float | None:
    return None if days is None else round(days, 1)
