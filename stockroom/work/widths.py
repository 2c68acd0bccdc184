"""The cheaper of two widths: what no film covers of a job, on new film of every width it is sold in.

alike(materials, of)        the materials of one series, that one among them
widths(choice, sold, …)     Width of each that would cover what is missing, the cheapest first
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from stockroom.books.catalog import name_key
from stockroom.books.use import Arrival
from stockroom.books.values import Material
from stockroom.film.limits import House
from stockroom.plan.choosing import Choice
from stockroom.plan.covering import Rules, Workshop
from stockroom.work.wanted import usable_nm


@dataclass(frozen=True, slots=True)
class Width:
    """New film of one width that would cover all that is missing: how much, and what that costs.

    The cost is that part of a roll as the last one came, in minor units.
    """

    material: Material
    length_nm: int
    cost_minor: int


def alike(materials: Iterable[Material], of: Material) -> list[Material]:
    """Every width of a film, by its series; nothing where no series was entered."""
    series = name_key(of.terms.get("series", ""))
    return [one for one in materials if series and name_key(one.terms.get("series", "")) == series]


def widths(
    choice: Choice, sold: Iterable[tuple[Material, Arrival]], rules: Rules, house: House
) -> tuple[Width, ...]:
    """What new film would cost for the items that are left; what has no price is left out."""
    if not choice.left:
        return ()
    found = _priced(choice, sold, rules, house)
    return tuple(sorted(found, key=lambda one: (one.cost_minor, one.length_nm)))


def _priced(
    choice: Choice, sold: Iterable[tuple[Material, Arrival]], rules: Rules, house: House
) -> Iterator[Width]:
    workshop = Workshop(choice.items, rules)
    for material, last in sold:
        if material.cost_minor is None or last.width_nm is None:
            continue
        laid = workshop.shortest(choice.left, usable_nm(last.width_nm, house))
        if laid is not None:  # else a panel is wider
            yield Width(material, laid[0], round(material.cost_minor * laid[0] / last.full))
