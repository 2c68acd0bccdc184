"""What to buy, as the Buying screen shows it.

chosen(found, supplier)      what is to be ordered first, then what will be below its point first
cells(row, system)           white cast 1370, lumpy, 8.7 m, 119.7 m, …
sentence(row, system)        what to order of one material, and why
panels(plot, …)         what is plotted: what there is of it, and what is drawn a week
ticks(plot, width)           the months under the plot
facts(row, system)           how it is drawn and bought
"""

from collections.abc import Sequence
from math import inf

from stockroom.film.sentences import counted
from stockroom.lines import buying_plan, plot, words
from stockroom.lines.buying import lasting
from stockroom.lines.buying_plan import amount, lead_basis, noun
from stockroom.lines.plot import LABEL, Limit, Panel, months, stretched
from stockroom.units import System
from stockroom.work.buying import Buying, Planned
from stockroom.work.stock_plot import StockPlot
from stockroom.work.zone_plot import Levels

NOTHING_HERE = (
    "Nothing ever came in, so there is nothing to plan by. F5 receives film and goods; how each is "
    "bought is entered with `stockroom material change NAME --supplier S --lead 7d`."
)
NO_SUPPLIER = "Nobody is entered who sells it: `stockroom material change NAME --supplier S`."
_DAYS_A_MONTH = 365.25 / 12
_FOOT = "'"
_TODAY = 0.5
"""Half of the way."""
_ROOM = 0.13
"""The part of the way that the words under a plot take on the smallest screen."""


def chosen(found: Buying, supplier: str) -> tuple[Planned, ...]:
    """The materials of a supplier, or all: what is to be ordered, then what will be first."""
    those = (row for row in found.rows if not supplier or row.terms.supplier == supplier)
    return tuple(sorted(those, key=lambda row: (row.order.rolls == 0, _days_to_point(row))))


def _days_to_point(row: Planned) -> float:
    """In how many days at the mean demand a material is below its point; never, where none is drawn."""
    spare = row.on_hand.position - row.order.reorder_point_m
    per_day_m = row.drawn.demand.per_day_m
    return spare / per_day_m if per_day_m else inf


def said(found: Buying, shown: Sequence[Planned], supplier: str) -> str:
    """How many materials are shown, and of how many something is to be ordered."""
    all_of_them = counted(len(found.rows), "material")
    known = f"{len(shown)} of {all_of_them}" if supplier else all_of_them
    to_order = sum(row.order.rolls > 0 for row in shown)
    return "  ·  ".join(filter(None, (known, f"{to_order} to order", supplier)))


def cells(row: Planned, system: System) -> tuple[str, ...]:
    """One material."""
    on_hand = row.on_hand
    figures = (
        row.drawn.demand.per_day_m * _DAYS_A_MONTH,
        on_hand.fit,
        on_hand.reserved,
        on_hand.lost,
        on_hand.on_order,
        row.order.reorder_point_m,
    )
    return (
        row.material.name,
        *(amount(one, row.material, system) for one in figures),
        str(row.order.rolls) if row.order.rolls else "-",
        _pattern(row),
        words.known(row.terms.supplier),
    )


def _pattern(row: Planned) -> str:
    return "expected" if row.drawn.is_expected else row.drawn.pattern.value


def sentence(row: Planned, system: System) -> str:
    """What to order of one material, and why; what of it is too old before it is used."""
    said_of_it = buying_plan.sentence(row, system)
    if not row.on_hand.lost:
        return said_of_it
    return f"{said_of_it} {amount(row.on_hand.lost, row.material, system)} grows too old unused."


def facts(row: Planned, system: System) -> tuple[str, ...]:
    """How it is drawn and what there is of it, and how it is bought."""
    return _drawn(row, system), _bought(row, system)


def _drawn(row: Planned, system: System) -> str:
    demand, on_hand = row.drawn.demand, row.on_hand

    def shown(number: float) -> str:
        return amount(number, row.material, system)

    drawn = (
        f"{shown(demand.per_day_m * _DAYS_A_MONTH)} a month, {shown(demand.draw_mean_m)} at a time"
        if demand.per_day_m
        else "nothing"
    )
    parts = [f"drawn {drawn} ({_pattern(row)}, {counted(row.drawn.days, 'day')})"]
    parts += [f"{shown(on_hand.to_test)} to test"] if on_hand.to_test else []
    parts += [f"{shown(on_hand.small)} in small pieces"] if on_hand.small else []
    return " · ".join(parts)


def _bought(row: Planned, system: System) -> str:
    goods, terms = row.goods, row.terms
    one = noun(row.material)
    parts = [
        f"from {words.known(terms.supplier)}",
        f"a {one} is {amount(goods.roll_m, row.material, system)}",
    ]
    parts += [f"in packs of {goods.pack}"] if goods.pack > 1 else []
    parts += [f"at least {goods.least}"] if goods.least > 1 else []
    parts += [f"keeps {lasting(goods.life_days)}"] if goods.life_days is not None else []
    return " · ".join([*parts, f"here in {lasting(row.supply.days)}{lead_basis(row)}"])


def panels(found: StockPlot, system: System, steps: int) -> tuple[Panel, ...]:
    """What there is of a material above the point at which it is ordered, and what is drawn a week."""
    row = found.planned
    limits = [Limit(at=0.0, label="none", upwards=False)]
    if point := row.order.reorder_point_m:
        label = _short(f"at {amount(point, row.material, system)}")
        limits.append(Limit(at=point, label=label, upwards=False))
    return (
        Panel(stretched(found.stock, steps), tuple(limits), _ends(found.stock, row, system)),
        Panel(stretched(found.drawn, steps), (), _ends(found.drawn, row, system)),
    )


def _ends(levels: Levels, row: Planned, system: System) -> tuple[str, str]:
    """The lowest and the highest of all."""
    known = [one for one in levels if one is not None]
    ends = (min(one.lowest for one in known), max(one.highest for one in known))
    lowest, highest = (_short(amount(end, row.material, system)) for end in ends)
    return lowest, highest


def _short(length: str) -> str:
    """A length that has room beside a plot; of a long one the feet alone."""
    return length if len(length) < LABEL else f"{length.partition(_FOOT)[0]}{_FOOT}"


def ticks(found: StockPlot, width: int) -> str:
    """The months under a plot, and today between what was and what is to come."""
    days = (found.until - found.since).days
    marks = (
        (((day - found.since).days / days), f"{day:%Y-%m}")
        for day in months(found.since, found.until)
    )
    far = ((share, month) for share, month in marks if not -_ROOM < share - _TODAY < _ROOM)
    return plot.ticks(sorted([*far, (_TODAY, "today")]), width)
