"""The plan of what to buy of one supplier, as the lines of an order."""

from collections.abc import Iterable
from datetime import datetime

from stockroom.books.catalog import materials, name_key
from stockroom.books.journal import act_by_request
from stockroom.books.opening import Book
from stockroom.books.orders import lines_of_act
from stockroom.errors import Code, Refusal
from stockroom.plan.reorder import Why
from stockroom.work.basket import Basket, Item, baskets
from stockroom.work.buying import buying
from stockroom.work.order_draft import Wanted

Planned = tuple[str, tuple[Wanted, ...]]
"""A supplier, and what to order there."""


def planned_order(book: Book, supplier: str | None, *, now: datetime) -> Planned:
    """What to order of a supplier; of the only one where none is named. Nothing is refused."""
    found = baskets(buying(book, now=now))
    basket = _chosen(found, supplier)
    return basket.supplier.name, tuple(wanted_of(basket.items))


def wanted_of(items: Iterable[Item]) -> Iterable[Wanted]:
    """What a basket orders: each like the last of it that came, and for a job that alone needs it."""
    for one in items:
        material, last = one.planned.material, one.planned.usual
        is_film = material.kind.comes_in_rolls
        yield Wanted(
            material=material.name,
            pieces=one.rolls,
            length_nm=last.full if is_film else None,
            number=None if is_film else last.full,
            width_nm=last.width_nm if is_film else None,
            cost_minor=one.each_minor,
            job=_job(one),
        )


def _job(one: Item) -> str | None:
    """The job that what is ordered is for, where only that one needs it."""
    jobs = tuple(one.planned.for_jobs)
    return jobs[0] if one.planned.order.why is Why.JOBS and len(jobs) == 1 else None


def drafted_by(book: Book, request: str, *, now: datetime) -> Planned | None:
    """The supplier and the lines of the draft a request wrote; None where it wrote none."""
    with book.reading() as connection:
        found = act_by_request(connection, request)
        if found is None:
            return None
        supplier, lines = lines_of_act(connection, found[0].id)
        if not lines:
            raise Refusal(
                Code.OTHER_CONTENT,
                f"The request {request} was used for something else: ask with a new id.",
            )
        known = materials(connection, now)
    return supplier, tuple(
        Wanted(
            material=known[line.material_id].name,
            pieces=line.pieces,
            length_nm=line.length_nm,
            number=line.number,
            width_nm=line.width_nm,
            cost_minor=line.cost_minor,
            job=line.job,
        )
        for line in lines
    )


def _chosen(found: tuple[Basket, ...], supplier: str | None) -> Basket:
    if supplier is not None:
        key = name_key(supplier)
        found = tuple(one for one in found if name_key(one.supplier.name) == key)
    if len(found) > 1:
        names = ", ".join(one.supplier.name for one in found)
        raise Refusal(Code.BAD_USAGE, f"Something is to be ordered of {names}: name one of them.")
    if not found:
        of = "" if supplier is None else f" of {supplier}"
        raise Refusal(
            Code.BAD_USAGE,
            f"The plan orders nothing{of}: see `buying`, or name a material and how many.",
        )
    return found[0]
