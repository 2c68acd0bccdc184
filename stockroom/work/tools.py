"""The service life of tools: how long each kind is in use before it fails, and what that costs a month.

The mean life is all time in use over the number that failed, so that those still in use count with the time they
have: the estimate of an exponential life from data of which a part has not failed yet (maximum likelihood,
from memory; checked against scipy in the tests).
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from itertools import groupby

from stockroom.books.catalog import shop
from stockroom.books.fold import GONE
from stockroom.books.opening import Book
from stockroom.books.pieces import standings
from stockroom.books.values import Material, Shop, Standing
from stockroom.film.kinds import Kind
from stockroom.work.begin import FAILED
from stockroom.work.receive import OURS

DAYS_A_MONTH = 365.25 / 12


@dataclass(frozen=True, slots=True, kw_only=True)
class ServiceLife:
    """One kind of tool that was ever put in use: how many are, failed or ended otherwise, and for how long."""

    material: Material
    in_use: int
    failed: int
    ended: int
    days: int
    """In use, all together."""
    cost_minor: int | None
    """What one cost, in the mean; None where a price is not known."""

    @property
    def life_days(self) -> float | None:
        """How long one lasts in the mean; None until one has failed."""
        return self.days / self.failed if self.failed else None

    @property
    def month_minor(self) -> float | None:
        """What it costs a month to keep one in use; None until one has failed, or without a price."""
        life = self.life_days
        if not life or self.cost_minor is None:
            return None
        return self.cost_minor * DAYS_A_MONTH / life


@dataclass(frozen=True, slots=True)
class Tools:
    """The service life of each kind of tool of ours, by name."""

    shop: Shop
    today: date
    kinds: tuple[ServiceLife, ...]


def tools(book: Book, *, now: datetime) -> Tools:
    """How long tools lasted, up to today."""
    with book.reading() as connection:
        shared = shop(connection, now)
        found = [one for one in standings(connection, now, ended=True) if _is_tool(one)]
    found.sort(key=lambda one: one.material.name.casefold())
    today = shared.day_of(now)
    kinds = groupby(found, key=lambda one: one.material)
    return Tools(shared, today, tuple(_life(of, list(those), shared, today) for of, those in kinds))


def _is_tool(one: Standing) -> bool:
    state = one.state
    is_in_use = state.begun is not None and state.ended != GONE
    return one.material.kind is Kind.TOOL and is_in_use and state.owner == OURS


def _life(of: Material, those: Iterable[Standing], shared: Shop, today: date) -> ServiceLife:
    states = [one.state for one in those]
    ends = [one.state.ended for one in those]
    costs = [one.cost_minor for one in states if one.cost_minor is not None]
    return ServiceLife(
        material=of,
        in_use=ends.count(None),
        failed=ends.count(FAILED),
        ended=len(ends) - ends.count(None) - ends.count(FAILED),
        days=sum(_days(one, shared, today) for one in those),
        cost_minor=round(sum(costs) / len(costs)) if len(costs) == len(states) else None,
    )


def _days(one: Standing, shared: Shop, today: date) -> int:
    """How many days a tool was in use; at least one, for it was."""
    state = one.state
    until = today if state.ended is None else shared.day_of(one.piece.last_at)
    return max(1, (until - date.fromisoformat(state.begun or str(until))).days)
