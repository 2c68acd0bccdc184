"""Ordinary work, drawn from the seed: job after job, and the film and goods each of them takes.

ordinary(usual, closed, chance)    what is done, as rows like those of the other files
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import product
from random import Random

from stockroom.demo.line import Row, Written
from stockroom.demo.shelf import LEADER_MM, Shelf, Step, Usual
from stockroom.units import MM
from stockroom.units.typed import parse_length

_WEEK = 5
_OPENS, _CLOSES = 8 * 60 + 20, 17 * 60 + 20
_FROM, _UNTIL = 9 * 60, 15 * 60
_LAID_OVER_AFTER, _PUT_UP_AFTER = 2, 3
"""Days after the print."""

Closed = Iterable[tuple[int, int]]


def ordinary(usual: Usual, closed: Closed, chance: Random) -> Iterator[Written]:
    """Everything of every job, in the order of time; nothing on the days the shop is closed."""
    shelf = Shelf(usual, chance)
    steps = [replace(step, day=_open_day(step.day, closed)) for step in _jobs(usual, chance)]
    for step in sorted(steps):
        yield from shelf.done(step)


def _open_day(day: int, closed: Closed) -> int:
    """The day itself, or the last one before the shop was closed."""
    return next((first - 1 for first, last in closed if first <= day <= last), day)


def _jobs(usual: Usual, chance: Random) -> Iterator[Step]:
    names = usual["names"]
    sites = list(product(names["sites"], names["parts"]))
    chance.shuffle(sites)
    trades = [trade for trade in usual["trade"] for _ in range(trade["of_ten"])]
    number = 0
    for week in range(int(usual["first"]), int(usual["last"]) - _WEEK, _WEEK):
        for _ in range(chance.randint(*usual["jobs_a_week"])):
            job = {
                "job": f"usual-{number}",
                "name": " ".join(sites[number % len(sites)]),
                "site": chance.choice(names["streets"]),
                "by": chance.choice(names["people"]),
            }
            number += 1
            opened = week + chance.randrange(_WEEK)
            yield from _job(job, chance.choice(trades), opened, usual, chance)


def _job(job: Row, trade: Usual, opened: int, usual: Usual, chance: Random) -> Iterator[Step]:
    """A job from the day it is opened to the day after it was done."""
    lead = chance.randint(*usual["days_to_the_site"])
    on = opened + lead
    opening = {**job, "kind": trade["kind"], "on": str(on)}
    yield Step(opened, _OPENS, "open", opening)
    row = {"by": job["by"], "for": job["job"]}
    for number in range(chance.randint(*trade["steps"])):
        day = opened + chance.randint(1, lead - _PUT_UP_AFTER)
        film, amount = chance.choice(trade["films"]), chance.randrange(*_between(trade), 10)
        if "over" in trade:
            yield from _graphic(row, trade, (day, number), (film, amount), chance)
        else:
            minute = chance.randrange(_FROM, _UNTIL, 5)
            yield Step(day, minute, "cut", row, film, amount)
    goods = chance.choice(trade["goods"])
    yield Step(on, _FROM, "take", row, goods, chance.randint(3, 12))
    yield Step(on + 1, _CLOSES, "close", job)


def _graphic(
    row: Row, trade: Usual, when: tuple[int, int], what: tuple[str, int], chance: Random
) -> Iterator[Step]:
    """A print, the film that is laid over it, and the day it is put up."""
    (day, number), (film, amount) = when, what
    printed, covered = (f"{row['for']}-{number}-{step}" for step in ("printed", "covered"))
    ink = chance.choice(trade["inks"])
    more = f"ink={ink}; leader={LEADER_MM}mm; core=152.4mm; place=print table"
    printing = {**row, "makes": printed, "more": more}
    yield Step(day, _FROM + 20 * number, "print", printing, film, amount)
    covering = {**row, "piece": printed, "makes": covered}
    later = day + _LAID_OVER_AFTER
    yield Step(later, _FROM + 90 + 20 * number, "laminate", covering, trade["over"], amount)
    putting = {**row, "piece": covered, "amount": "all"}
    yield Step(day + _PUT_UP_AFTER, _UNTIL + 20 * number, "put up", putting)


def _between(trade: Usual) -> tuple[int, int]:
    """The least and the most millimetres of a step."""
    least, most = (parse_length(text) // MM for text in trade["length"])
    return least, most
