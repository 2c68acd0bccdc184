"""Jobs as the screens show them.

ordered(jobs, find)    the open ones by day, then the closed ones, as far as the words are found
cells(job, stages)     J000 046K, tram shelter 4, Mill Lane, Fri 2026-11-27, open
summary(use, …)        3 pieces · used 12.4 m² · waste 1.2 m² · cost 124.00 EUR
piece_cells(…)         R000 1231, white cast, 4.1 m², 0.2 m², 1.9 m left at B2, 41.00 EUR
"""

from collections.abc import Iterable, Mapping

from stockroom.books.values import Job, Shop
from stockroom.lines import words
from stockroom.lines.job import amounts, areas, cost
from stockroom.lines.today import day_of, named
from stockroom.work.job_use import JobUse, UsedOf

NOTHING_HERE = "There is no job yet: n opens one."
NONE_LIKE_THAT = "No job is like that: Esc shows every job again."


def ordered(known: Iterable[Job], find: str, *, only_open: bool) -> tuple[Job, ...]:
    """The jobs that are asked for: open ones by the day they are wanted, then the closed ones."""
    sought = find.casefold().split()
    found = [
        one
        for one in known
        if not (only_open and one.is_closed) and all(word in _text(one) for word in sought)
    ]
    return tuple(sorted(found, key=lambda one: (one.is_closed, one.on_day or "9", one.code)))


def _text(one: Job) -> str:
    return f"{one.code} {one.name} {one.site} {one.note}".casefold()


def cells(one: Job, stages: Mapping[str, str]) -> tuple[str, ...]:
    """One job, with how far it has come where its panels are written down."""
    return (
        words.code(one.code),
        one.name,
        one.site,
        day_of(one),
        stages.get(one.code, state(one)),
        one.kind,
    )


def state(one: Job) -> str:
    """Whether film can be charged to it."""
    return "closed" if one.is_closed else "open"


def said(shown: int, known: int, find: str, *, only_open: bool) -> str:
    """How many jobs are shown, and what they were chosen by."""
    total = words.counted(known, "job")
    by = [*(["open"] if only_open else []), *([f"“{find}”"] if find else [])]
    return "  ·  ".join([f"{shown} of {total}", *by]) if by else total


def title(one: Job) -> str:
    """Which job it is."""
    return f"{words.code(one.code)}  {named(one)}"


def facts(one: Job) -> str:
    """When it is wanted, whether it is open, and what was remarked."""
    return " · ".join(filter(None, (f"on {day_of(one)}", state(one), one.kind, one.note)))


def summary(use: JobUse, shop: Shop, *, shows_money: bool) -> str:
    """What a job used so far, all together."""
    used, wasted, kept = areas(use.total, shop)
    if not use.pieces:
        return "nothing was used for it yet"
    parts = [words.counted(len(use.pieces), "piece"), f"used {used}", f"waste {wasted}"]
    parts += [f"kept {kept}"] if use.total.kept_mm2 else []
    parts += [f"cost {cost(use, shop)}"] if shows_money else []
    return " · ".join(parts)


def piece_cells(one: UsedOf, shop: Shop, *, shows_money: bool) -> tuple[str, ...]:
    """What a job used of one piece, and what is left of that."""
    standing = one.standing
    used, wasted, _, paid = amounts(one.used, standing, shop)
    stays = (
        standing.state.ended
        or f"{words.left(standing, shop.system)} at {words.place(standing.place)}"
    )
    return (
        words.code(standing.code),
        words.film(standing, shop.system),
        used,
        wasted,
        stays,
        paid if shows_money else "",
    )


def close_question(one: Job) -> str:
    """Whether a job is done."""
    return f"close {title(one)}? Nothing more is charged to it; r opens it again."
