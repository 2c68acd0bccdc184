"""Suppliers on the screen: what each sells, how long it takes, what to order there and what comes.

cells(one)        a row of the list
detail(one, …)    what to order there, what was agreed, and when it is closed
"""

from datetime import date

from stockroom.film.limits import Basis
from stockroom.lines import basket, words
from stockroom.lines.buying import lasting
from stockroom.lines.text_reports import stretch
from stockroom.units.money import show_money
from stockroom.work.lead import Lead
from stockroom.work.selling import Seller

NOTHING_HERE = "Nobody sells anything yet: `material change NAME --supplier S` says who does."
NOTHING_AGREED = (
    "Nothing was agreed: `supplier change` says the least order, carriage and closed days."
)


def cells(one: Seller) -> tuple[str, ...]:
    """Who, of how many materials, in how long, how many rolls or boxes to order, and how many come."""
    rolls = sum(item.rolls for item in one.basket.items) if one.basket else 0
    longest = max((row.lead for row in one.rows), key=lambda lead: lead.days, default=None)
    return (
        one.supplier.name,
        str(len(one.rows) or "-"),
        words.UNKNOWN if longest is None else _takes(longest),
        str(rolls or "-"),
        str(len(one.coming) or "-"),
    )


def _takes(lead: Lead) -> str:
    """How long, how much that varies, and whose word it is."""
    basis = {Basis.ORDERS: f"{lead.orders} orders", Basis.HOUSE: "entered"}.get(
        lead.basis, lead.basis
    )
    return f"{lasting(lead.days)} ± {round(lead.spread_days)} d ({basis})"


def detail(one: Seller, currency: str, today: date, *, shows_money: bool) -> str:
    """What to order there, what was agreed, and when it is closed from today on."""
    said: list[str] = []
    if one.basket is not None:
        said += basket.lines(one.basket, currency, shows_money=shows_money)
    supplier = one.supplier
    agreed = {
        "least order": supplier.least_minor,
        "carriage paid from": supplier.paid_minor,
        "carriage else": supplier.carriage_minor,
    }
    terms = [
        f"{name} {show_money(minor, currency)}"
        for name, minor in agreed.items()
        if minor is not None
    ]
    if terms and shows_money:
        said.append(" · ".join(terms))
    said += [f"closed {stretch(days)}" for days in supplier.closed if days.last >= today]
    if not terms and not supplier.closed:
        said.append(NOTHING_AGREED)
    return "\n".join(said)
