"""Before the doors open: the shop's settings, places, people and closed days, and what it buys."""

from collections.abc import Mapping
from datetime import UTC, datetime, time
from typing import Any

from stockroom.demo.desk import Desk
from stockroom.demo.distances import day_of
from stockroom.film.kinds import Kind
from stockroom.film.limits import CountedFrom
from stockroom.film.roll import parse_layer
from stockroom.plan.terms import TERMS
from stockroom.units.money import parse_money
from stockroom.units.typed import parse_length, parse_thickness
from stockroom.work.closed import CloseDays, close_days
from stockroom.work.people import AddPerson, add_a_person
from stockroom.work.setup import (
    AddMaterial,
    AddPlace,
    SetValue,
    add_a_material,
    add_a_place,
    set_value,
)
from stockroom.work.suppliers import ChangeSupplier, change_supplier

Written = Mapping[str, Any]
_LENGTHS = ("width", "thickness", "applied", "core_inside", "core_wall")
_THIN = ("thickness", "applied")
_AGREED = ("paid", "carriage")


def fit_out(desk: Desk, shop: Written, *, now: datetime) -> None:
    """Enter everything a shop has before its first roll."""
    by = shop["by"]
    since = datetime.combine(shop["since"], time(), UTC)
    for one in shop["setting"]:
        set_value(SetValue(**desk.asking(by), at=since, **one), book=desk.book, now=now)
    for one in shop["place"]:
        add_a_place(AddPlace(**desk.asking(by), **one), book=desk.book, now=now)
    for one in shop["person"]:
        add_a_person(AddPerson(**desk.asking(by), **one), book=desk.book)
    for one in shop["closed"]:
        first, last = (day_of(one[end], desk.today) for end in ("first", "last"))
        closed = CloseDays(**desk.asking(by), first=first, last=last, why=one["why"])
        close_days(closed, book=desk.book, now=now)
    for one in shop["material"]:
        request = AddMaterial(**desk.asking(by), **_facts(one, desk.currency))
        add_a_material(request, book=desk.book, now=now)


def agree(desk: Desk, shop: Written, *, now: datetime) -> None:
    """Enter what was agreed with those who sell."""
    for one in shop["supplier"]:
        amounts = {f"{name}_minor": parse_money(one[name], desk.currency) for name in _AGREED}
        agreed = ChangeSupplier(**desk.asking(shop["by"]), name=one["name"], terms=amounts)
        change_supplier(agreed, book=desk.book, now=now)


def _facts(written: Written, currency: str) -> dict[str, Any]:
    lengths = {
        f"{name}_nm": (parse_thickness if name in _THIN else parse_length)(written[name])
        for name in _LENGTHS
        if name in written
    }
    return lengths | {
        "name": written["name"],
        "kind": Kind(written["kind"]),
        "layers": tuple(parse_layer(layer) for layer in written.get("layers", ())),
        "counted_from": written.get("counted_from", CountedFrom.MADE.value),
        "cost_minor": parse_money(written["cost"], currency),
        "terms": {name: written[name] for name in TERMS if name in written},
        "limits": {"shelf": written["shelf"]} if "shelf" in written else {},
    }
