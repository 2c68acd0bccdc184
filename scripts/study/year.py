"""A year of an invented shop that orders film by the plan, beside one that orders by a rule of thumb.

    simulated(films, runs)      Years: how many draws waited, what grew too old, what lay on the shelf

Both shops see the same draws (compound Poisson, gamma sizes) and wait as long for what they order.
The plan knows no more than the draws of the last 52 weeks, and is asked when something changed, or
once a week; the rule of thumb orders two rolls when the last one is opened. Some years pass before
the one that counts, for film keeps for about two. A draw is cut from the one piece that ends first
and is long enough, and waits where there is none.
"""

from collections import deque
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date
from math import inf
from random import Random  # noqa: TID251 - seeded
from typing import NamedTuple

from stockroom.plan.demand import WEEK, Demand, Draw, demand_of, now_of, weekly_m
from stockroom.plan.reorder import Goods, Supply, order, reorder_point_m
from stockroom.plan.rundown import Dated, run_down

SEED = 2_026
_SETTLING = 3
_YEAR = 52 * WEEK
_AGAIN = 4 * WEEK
"""So often the plan works its demand out anew."""
_AT_ONCE = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Film:
    """What is drawn of a film, how it comes, and what a metre costs."""

    demand: Demand
    supply: Supply
    goods: Goods
    price: float = 1.0


@dataclass(slots=True)
class Roll:
    """A piece on the shelf: what is left of it, the day it ends, and whether it was opened."""

    left_m: float
    end: float
    is_whole: bool = True


class Coming(NamedTuple):
    """Rolls that were ordered, and the day they come."""

    day: int
    rolls: int


@dataclass(slots=True)
class Shelf:
    """A film in one shop: what is there, what comes, who waits, and what was drawn."""

    film: Film
    rolls: list[Roll]
    coming: list[Coming] = field(default_factory=list)
    waiting: deque[float] = field(default_factory=deque)
    drawn: list[Draw] = field(default_factory=list)

    @property
    def on_order_m(self) -> float:
        """What was ordered and is not here yet."""
        return sum(one.rolls for one in self.coming) * self.film.goods.roll_m


Policy = Callable[[Shelf, int], int]
"""How many rolls to order of a film on a day."""


@dataclass(slots=True)
class Year:
    """What became of the draws and the film of a year; money by the price of each film."""

    draws: int = 0
    waited: int = 0
    too_old: float = 0.0
    used: float = 0.0
    shelf_days: float = 0.0

    @property
    def waited_pct(self) -> float:
        """Of all draws, those that had to wait for film."""
        return 100 * self.waited / max(1, self.draws)

    @property
    def too_old_pct(self) -> float:
        """What grew too old, of what was used."""
        return 100 * self.too_old / max(1e-9, self.used)

    @property
    def tied_up_pct(self) -> float:
        """What lay on the shelf in the mean, of what a year uses."""
        return 100 * self.shelf_days / _YEAR / max(1e-9, self.used)


class Years(NamedTuple):
    """The same years by the plan and by the rule of thumb."""

    planned: Year
    by_rule: Year


def simulated(films: Sequence[Film], runs: int, settling: int = _SETTLING) -> Years:
    """Every film in so many years, each after years in which the shelf settles, by both."""
    days = (settling + 1) * _YEAR
    years = Years(Year(), Year())
    for run in range(runs):
        for place, film in enumerate(films):
            chance = Random(f"{SEED}, {run}, {place}")  # noqa: S311 - no secret
            draws = tuple(_draws(film, days, chance))
            leads = [_lead(film.supply, chance) for _ in range(days)]
            _live(film, draws, leads, Plan(), years.planned)
            _live(film, draws, leads, two_when_the_last_is_opened, years.by_rule)
    return years


def _draws(film: Film, days: int, chance: Random) -> Iterator[Draw]:
    """Draws by day, from a year before the first one; none is longer than a roll."""
    day = -float(_YEAR)
    while (day := day + chance.expovariate(film.demand.draws_per_day)) < days:
        yield Draw(_day(int(day // 1)), min(film.goods.roll_m, _size(film.demand, chance)))


def _size(demand: Demand, chance: Random) -> float:
    if not demand.draw_variance_m2:
        return demand.draw_mean_m
    scale = demand.draw_variance_m2 / demand.draw_mean_m
    return chance.gammavariate(demand.draw_mean_m / scale, scale)


def _lead(supply: Supply, chance: Random) -> int:
    return max(1, round(chance.gauss(supply.days, supply.variance_days2**0.5)))


def _day(number: int) -> date:
    return date.fromordinal(number + _YEAR + 1)


def _live(
    film: Film, draws: Sequence[Draw], leads: Sequence[int], policy: Policy, year: Year
) -> None:
    """One film through all its days; the last year counts."""
    shelf = Shelf(film, [_new(film, 0), _new(film, 0)])
    settling = Year()
    queue = deque(draws)
    for number in range(len(leads)):
        counted = settling if number < len(leads) - _YEAR else year
        _receive(shelf, number, counted)
        while queue and queue[0].day <= _day(number):
            one = queue.popleft()
            shelf.drawn.append(one)
            if one.day == _day(number):
                _ask(shelf, one.length_m, counted)
        if rolls := policy(shelf, number):
            shelf.coming.append(Coming(number + leads[number], rolls))
        counted.shelf_days += sum(one.left_m for one in shelf.rolls) * film.price


def _new(film: Film, day: int) -> Roll:
    life = film.goods.life_days
    return Roll(film.goods.roll_m, inf if life is None else day + life)


def _receive(shelf: Shelf, number: int, year: Year) -> None:
    """What is too old goes, what was ordered comes, and who waited is served first."""
    film = shelf.film
    year.too_old += film.price * sum(one.left_m for one in shelf.rolls if one.end <= number)
    shelf.rolls = [one for one in shelf.rolls if one.end > number]
    came = sum(one.rolls for one in shelf.coming if one.day <= number)
    shelf.coming = [one for one in shelf.coming if one.day > number]
    shelf.rolls += [_new(film, number) for _ in range(came)]
    while shelf.waiting and _cut(shelf, shelf.waiting[0], year):
        shelf.waiting.popleft()


def _ask(shelf: Shelf, length_m: float, year: Year) -> None:
    year.draws += 1
    if shelf.waiting or not _cut(shelf, length_m, year):
        year.waited += 1
        shelf.waiting.append(length_m)


def _cut(shelf: Shelf, length_m: float, year: Year) -> bool:
    """Cut the piece that ends first of those that are long enough, an opened one before a whole one."""
    enough = [one for one in shelf.rolls if one.left_m >= length_m]
    if not enough:
        return False
    roll = min(enough, key=lambda one: (one.end, one.is_whole, one.left_m))
    roll.left_m -= length_m
    roll.is_whole = False
    year.used += length_m * shelf.film.price
    shelf.rolls = [one for one in shelf.rolls if one.left_m > 0]
    return True


def two_when_the_last_is_opened(shelf: Shelf, _number: int) -> int:
    """The rule of thumb."""
    is_last = not any(one.is_whole for one in shelf.rolls)
    return _AT_ONCE if is_last and not shelf.coming else 0


class Plan:
    """The plan of the program, with what it learns of its draws from time to time."""

    def __init__(self) -> None:
        self._demand: Demand | None = None
        self._point_m = 0.0
        self._last = (inf, 0)
        self._so_far = (0, 0, 0)

    def __call__(self, shelf: Shelf, number: int) -> int:
        """Order when the position is below the point."""
        film = shelf.film
        so_far = len(shelf.drawn), len(shelf.rolls), len(shelf.coming)
        if self._demand is not None and number % WEEK and so_far == self._so_far:
            return 0
        self._so_far = so_far
        if self._demand is None or number % _AGAIN == 0:
            self._demand = _seen(shelf.drawn, number)
            self._point_m = reorder_point_m(self._demand, film.supply)
            self._last = (inf, 0)
        position_m = _position_m(shelf, self._demand, number)
        if position_m >= self._point_m:
            return 0
        if position_m != self._last[0]:
            found = order(self._demand, film.supply, film.goods, position_m=position_m)
            self._last = position_m, found.rolls
        return self._last[1]


def _seen(drawn: Sequence[Draw], number: int) -> Demand:
    """The demand that the draws of the last 52 weeks tell of."""
    first, last = _day(number - _YEAR + 1), _day(number)
    those = [one for one in drawn if first <= one.day]
    return now_of(demand_of(those, _YEAR), weekly_m(those, first, last))


def _position_m(shelf: Shelf, demand: Demand, number: int) -> float:
    """What serves a typical draw and is not too old before an order comes, less what waits."""
    lots = [
        Dated(one.left_m, None if one.end == inf else one.end - number)
        for one in shelf.rolls
        if one.left_m >= demand.draw_mean_m
    ]
    lost = run_down(lots, demand.per_day_m)
    before = sum(
        amount
        for amount, lot in zip(lost, lots, strict=True)
        if lot.days_left is not None and lot.days_left <= shelf.film.supply.days
    )
    on_hand = sum(lot.amount for lot in lots) - before
    return on_hand + shelf.on_order_m - sum(shelf.waiting)
