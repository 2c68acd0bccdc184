"""Layouts beside a library, on public instances with known optima; and plans for many jobs.

The numbers are those of the packingsolver data (MIT); the papers, from memory, stand in each row.
The library is rectpack: all its algorithms in all its orders, in film made shorter until nothing fits.
"""

import csv
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from itertools import groupby, product
from math import log
from pathlib import Path
from random import Random  # noqa: TID251 - seeded
from typing import Any

import rectpack

from scripts.speed.result import Gap, Growth, Result, timed
from stockroom.plan.choosing import Wanted, choose
from stockroom.plan.covering import Rules
from stockroom.plan.layout import Knife, lay_out
from stockroom.plan.panels import Panel
from stockroom.plan.stock import Age, Film, Form
from stockroom.units import MM, M

_EFFORT = {Knife.STRAIGHT: 100_000, Knife.FREE: 40_000}
"""Evaluations for each instance: up to half a minute, far more than a job gets unless it asks for them."""
_AIMS = {"C1": (1.7, 0.0), "C2": (2.2, 0.0), "C3": (3.3, 1.1), "C4": (3.9, 2.2)}
"""The mean gap in per cent that is aimed at: cut by a straight knife, and laid freely."""
_MISSED_STRIPS = 2
_KNIFE_ALGORITHMS = [
    getattr(rectpack, f"Guillotine{score}{split}")
    for score in ("Bssf", "Blsf", "Baf")
    for split in ("Sas", "Las", "Slas", "Llas", "Maxas", "Minas")
]
_FREE_ALGORITHMS = [
    *(getattr(rectpack, f"MaxRects{how}") for how in ("Bl", "Bssf", "Baf", "Blsf")),
    *(getattr(rectpack, f"Skyline{how}") for how in ("Bl", "BlWm", "Mwf", "MwfWm", "Mwfl")),
]
_ORDERS = (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE, rectpack.SORT_PERI)

Item = tuple[int, int]


def laying_results() -> Iterator[Result]:
    """Gaps to the optima beside the library's, the strips of Hifi, and planning twenty jobs."""
    text = Path(__file__).with_name("strips.csv").read_text("utf-8")
    rows = list(csv.DictReader(text.splitlines()))
    rows.sort(key=lambda row: row["class"])
    for name, group in groupby(rows, key=lambda row: row["class"]):
        of_class = list(group)
        if name in _AIMS:
            for knife, most in zip(Knife, _AIMS[name], strict=True):
                yield _gap(name, of_class, knife, most)
        else:
            missed = [
                row["name"]
                for row in of_class
                if _ours(row, Knife.STRAIGHT) > _known(row, Knife.STRAIGHT)
            ]
            said = f"of {len(of_class)} strips of Hifi above the published value"
            yield Gap(f"{said}: {' '.join(missed)}", len(missed), None, _MISSED_STRIPS)
    yield Result("plan 20 jobs of 12 panels, 500 pieces of 25 films", _twenty_jobs(), None, 3)
    sizes = (10, 30, 100, 300, 1_000)
    times = [timed(partial(_planned, number, 20, effort=0)) for number in sizes]
    yield Growth("plan 10 to 1,000 panels", times[-1], times[0], 2, _exponent(sizes, times))


def _gap(name: str, rows: Sequence[dict[str, str]], knife: Knife, most: float) -> Gap:
    ours = [100 * (_ours(row, knife) / _known(row, knife) - 1) for row in rows]
    theirs = [100 * (_theirs(row, knife) / _known(row, knife) - 1) for row in rows]
    said = "by knife" if knife is Knife.STRAIGHT else "freely"
    return Gap(f"gap to the optimum, {name} {said}", _mean(ours), _mean(theirs), most)


def _mean(gaps: Sequence[float]) -> float:
    return sum(gaps) / len(gaps)


def _known(row: dict[str, str], knife: Knife) -> int:
    return int(row["knife" if knife is Knife.STRAIGHT else "free"])


def _items(row: dict[str, str]) -> list[Item]:
    found: list[Item] = []
    for text in row["items"].split():
        size, _, number = text.partition("*")
        across, along = map(int, size.split("x"))
        found += [(across, along)] * int(number or 1)
    return found


def _ours(row: dict[str, str], knife: Knife) -> int:
    panels = [
        Panel(name=str(place), across=across, along=along)
        for place, (across, along) in enumerate(_items(row))
    ]
    chance = Random(1)  # noqa: S311
    effort = _EFFORT[knife]
    return lay_out(panels, int(row["width"]), chance=chance, knife=knife, effort=effort).length


def _theirs(row: dict[str, str], knife: Knife) -> int:
    """The shortest film in which the library finds room for everything."""
    items, width = _items(row), int(row["width"])
    algorithms = _KNIFE_ALGORITHMS if knife is Knife.STRAIGHT else _FREE_ALGORITHMS
    return min(
        _shortest(partial(_fits, items, width, how), items, width)
        for how in product(algorithms, _ORDERS)
    )


def _shortest(fits: Callable[[int], bool], items: Sequence[Item], width: int) -> int:
    short = -(-sum(across * along for across, along in items) // width) - 1
    long = sum(along for _, along in items)
    while long - short > 1:
        middle = (short + long) // 2
        short, long = (short, middle) if fits(middle) else (middle, long)
    return long


def _fits(items: Sequence[Item], width: int, how: tuple[Any, Any], length: int) -> bool:
    algorithm, order = how
    packer = rectpack.newPacker(
        mode=rectpack.PackingMode.Offline, pack_algo=algorithm, sort_algo=order, rotation=False
    )
    for across, along in items:
        packer.add_rect(across, along)
    packer.add_bin(width, length)
    packer.pack()
    return len(packer.rect_list()) == len(items)


def _twenty_jobs() -> float:
    """Each job is of one film, of which there are twenty pieces."""
    return timed(lambda: [_planned(12, 20, seed=job, effort=0) for job in range(20)])


def _planned(panels: int, pieces: int, *, seed: int = 1, effort: int | None = None) -> object:
    chance = Random(seed)  # noqa: S311
    wanted = [
        Wanted(
            panel=Panel(
                name=f"P{place}",
                across=chance.randrange(200, 1_400) * MM,
                along=chance.randrange(300, 2_600) * MM,
                turns=True,
            )
        )
        for place in range(panels)
    ]
    films = [
        Film(
            code=f"R{place}",
            width=1_514 * MM,
            stretches=((0, chance.randrange(1, 30) * M * max(1, panels // 100)),),
            age=Age(chance.randrange(3)),
            form=Form(chance.randrange(3)),
            lot=str(chance.randrange(6)),
        )
        for place in range(pieces)
    ]
    return choose(wanted, films, Rules(keep=(300 * MM, M), table=3 * M), effort=effort)


def _exponent(sizes: Sequence[int], times: Sequence[float]) -> float:
    return log(times[-1] / times[0]) / log(sizes[-1] / sizes[0])
