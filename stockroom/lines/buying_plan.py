"""What to buy: as plain lines and as values. Film in metres of full width, goods in numbers."""

from collections.abc import Sequence
from typing import Any

from stockroom.books.values import Material
from stockroom.film.limits import Basis
from stockroom.lines import basket, buying, today, words
from stockroom.lines.text_table import Columns, table
from stockroom.plan.reorder import Why
from stockroom.units import M, System
from stockroom.units.shown import show_length
from stockroom.work.basket import baskets
from stockroom.work.buying import Buying, Planned

_HEADS = ("material", "demand", "a month", "fit", "reserved", "lost", "coming", "below", "order")
_COMING = _HEADS.index("coming")
"""A column for which there is room only where something is on order."""
_DAYS_A_MONTH = 365.25 / 12
_STEPS_NM = {System.METRIC: M // 10, System.US: 25_400_000}
"""A tenth of a metre, or an inch: nobody orders finer."""
_SAID = (Why.BELOW, Why.CHEAPEST, Why.LIMIT, Why.JOBS, Why.OUTLIVES)
NOTHING = "Nothing is to be ordered."
MEANING = (
    "fit: blank and not to be tested, in pieces that serve a typical draw; lost: of that, what is "
    "too old before it is used; coming: on order, for stock; below: order when there is less."
)
DEFAULTS = (
    "(default): `material change NAME --lead 7d --lead-spread 3d --pack 2` says how it is bought."
)


def lines(found: Buying, width: int) -> list[str]:
    """What to order and why, then every material."""
    system = found.view.shop.system
    said = [sentence(row, system) for row in found.rows if row.order.why in _SAID]
    body = ["", *_table(found.rows, system, width)] if found.rows else []
    currency = found.view.shop.currency
    at_once = [line for one in baskets(found) for line in basket.lines(one, currency)]
    return [today.title(found.view), *(said or [NOTHING]), *at_once, *body]


def _table(found: Sequence[Planned], system: System, width: int) -> list[str]:
    """Every material; what is coming only where something is."""
    is_coming = any(row.on_hand.on_order for row in found)
    heads, *rows = (
        tuple(cell for place, cell in enumerate(cells) if is_coming or place != _COMING)
        for cells in (_HEADS, *(_row(row, system) for row in found))
    )
    return table(Columns(heads=heads, right=frozenset(range(2, len(heads)))), rows, width)


def sentence(row: Planned, system: System) -> str:
    """What to order of one material, and why."""
    on_hand = row.on_hand
    there = max(0.0, on_hand.position)
    left = amount(there, row.material, system) if there else "nothing"
    point = amount(row.order.reorder_point_m, row.material, system)
    supplier = f" from {row.terms.supplier}" if row.terms.supplier else ""
    lead = buying.lasting(row.supply.days)
    said = [f"{row.material.name}{supplier}: {left} to draw on"]
    if on_hand.on_order:
        said.append(f"{amount(on_hand.on_order, row.material, system)} of it on order")
    said += [f"ordered below {point}", f"here in {lead}{lead_basis(row)}"]
    if row.drawn.is_expected:
        said.append("drawn as you expect")
    if row.never_came:
        one = amount(row.goods.roll_m, row.material, system)
        said.append(f"none ever came, and a {noun(row.material)} is taken to be {one}")
    if on_hand.needed:
        said.append(f"{amount(on_hand.needed, row.material, system)} needed for open jobs")
    return f"{', '.join(said)}. {buying.why(row.order, noun(row.material))}"


def lead_basis(row: Planned) -> str:
    """What a lead time rests on, where that is not what was entered."""
    match row.lead_basis:
        case Basis.DEFAULT:
            return f" ({row.lead_basis})"
        case Basis.ORDERS:
            return f" (by {row.lead.orders} orders)"
        case _:
            return ""


def noun(material: Material) -> str:
    """What a material comes in."""
    return "roll" if material.kind.comes_in_rolls else "box"


def amount(number: float, material: Material, system: System) -> str:
    """A length of full width, or a number of goods; nothing is a dash."""
    if not number:
        return "-"
    if material.kind.comes_in_rolls:
        step_nm = _STEPS_NM[system]
        return show_length(round(number * M / step_nm) * step_nm, system)
    return words.count(round(number)) if number >= 1 else "under 1 pc"


def _row(row: Planned, system: System) -> Sequence[str]:
    on_hand, demand = row.on_hand, row.drawn.demand
    figures = (
        demand.per_day_m * _DAYS_A_MONTH,
        on_hand.fit,
        on_hand.reserved,
        on_hand.lost,
        on_hand.on_order,
        row.order.reorder_point_m,
    )
    return (
        row.material.name,
        "expected" if row.drawn.is_expected else row.drawn.pattern.value,
        *(amount(one, row.material, system) for one in figures),
        str(row.order.rolls) if row.order.rolls else "-",
    )


def notes(found: Buying) -> list[str]:
    """What the figures mean, and where they are only defaults."""
    if not found.rows:
        return []
    is_default = any(row.lead_basis is Basis.DEFAULT for row in found.rows)
    return [MEANING, *([DEFAULTS] if is_default else [])]


def values(found: Buying) -> dict[str, Any]:
    """The plan for a script."""
    return {
        "day": found.view.today.isoformat(),
        "materials": [_values(row) for row in found.rows],
        "orders": [basket.values(one) for one in baskets(found)],
    }


def _values(row: Planned) -> dict[str, Any]:
    on_hand, demand = row.on_hand, row.drawn.demand
    amounts = {
        "fit": on_hand.fit,
        "small_pieces": on_hand.small,
        "to_test": on_hand.to_test,
        "reserved": on_hand.reserved,
        "lost_to_age": on_hand.lost,
        "on_order": on_hand.on_order,
        "needed_for_jobs": on_hand.needed,
        "position": on_hand.position,
        "reorder_point": row.order.reorder_point_m,
        "drawn_per_day": demand.per_day_m,
        "draw_mean": demand.draw_mean_m,
        "one_roll_or_box": row.goods.roll_m,
    }
    unit = "m" if row.material.kind.comes_in_rolls else "count"
    return {
        "material": row.material.name,
        "kind": row.material.kind.value,
        "supplier": row.terms.supplier,
        "pattern": row.drawn.pattern.value,
        "demand_basis": "expected" if row.drawn.is_expected else "drawn",
        "history_days": row.drawn.days,
        "draws_per_day": round(demand.draws_per_day, 9),
        **{f"{name}_{unit}": round(number, 6) for name, number in amounts.items()},
        "one_basis": "assumed" if row.never_came else "last",
        "lead_days": row.supply.days,
        "lead_basis": row.lead_basis.value,
        "lead_spread_days": round(row.lead.spread_days, 3),
        "lead_orders": row.lead.orders,
        "service": row.supply.service,
        "keeps_days": row.goods.life_days,
        "pack": row.goods.pack,
        "least": row.goods.least,
        **buying.order_values(row.order),
        "sentence": buying.why(row.order, noun(row.material)),
    }
