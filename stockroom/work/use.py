"""Use: what was taken of each material, for jobs and without one, lost, and found by counts.

Only what is ours counts. Film counts once, as it does for a job: what is kept of it, as an offcut or
a print, is used when that is cut; film that is laid over other film is used.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, fields
from datetime import date, datetime, timedelta
from enum import StrEnum
from itertools import groupby

from stockroom.books.catalog import ALWAYS, materials, shop
from stockroom.books.opening import Book
from stockroom.books.use import Line, lines
from stockroom.books.values import Material
from stockroom.units import MM
from stockroom.work.back import CHARGING
from stockroom.work.begin import FAILED
from stockroom.work.charge import VARIANCE
from stockroom.work.charging import area_mm2
from stockroom.work.judging import View, view
from stockroom.work.laminate import LAMINATE, LAMINATED
from stockroom.work.receive import OURS

LOST = ("discard", "scrap")
COUNTED = ("count", "finished")
TAKING = (*CHARGING, *LOST, *COUNTED, VARIANCE, LAMINATED, FAILED)
"""The kinds of move that use looks at."""
_LATE = "charge"
"""A count had seen what it charges; what the count had cost goes to the job."""


class By(StrEnum):
    """What use is added up by."""

    WEEK = "week"
    MONTH = "month"


@dataclass(frozen=True, slots=True, kw_only=True)
class Amounts:
    """Areas in mm², or numbers of goods, and money."""

    used: int = 0
    """For jobs, less what came back; goods have no waste."""
    wasted: int = 0
    """The waste of cuts for jobs."""
    without_job: int = 0
    """Spoiled, samples, training, leaders, tools that failed; waste among it."""
    discarded: int = 0
    counted: int = 0
    """What counts found; below zero they missed it. The money likewise."""
    cost_minor: int = 0
    """Of what was taken for jobs."""
    without_job_minor: int = 0
    discarded_minor: int = 0
    counted_minor: int = 0

    def __add__(self, other: "Amounts") -> "Amounts":
        return Amounts(
            **{one.name: getattr(self, one.name) + getattr(other, one.name) for one in _ALL}
        )

    @property
    def for_jobs(self) -> int:
        """All that jobs took, waste among it."""
        return self.used + self.wasted


_ALL = fields(Amounts)
NOTHING = Amounts()


@dataclass(frozen=True, slots=True)
class UseOf:
    """What was taken of a material, in the week or month that begins on a day."""

    material: Material
    begins: date | None
    amounts: Amounts


@dataclass(frozen=True, slots=True)
class Use:
    """What was taken from a day on, or ever; by material and by time."""

    view: View
    since: date | None
    by: By | None
    rows: tuple[UseOf, ...]


def use(
    book: Book,
    *,
    now: datetime,
    today: date | None = None,
    since: date | None = None,
    by: By | None = None,
    material: str = "",
) -> Use:
    """Add up what was taken, by material and, where it is asked for, by week or month."""
    with book.reading() as connection:
        shared = shop(connection, now)
        seen = view(shared, now=now, today=today)
        known = materials(connection, seen.moment)
        begin = ALWAYS if since is None else shared.begin_of(since)
        found = lines(connection, TAKING, since=begin, until=seen.moment)
        sums: dict[tuple[int, date | None], Amounts] = {}
        for line, amounts in taken(found):
            key = line.material_id, _begin(shared.day_of(line.at), by)
            sums[key] = sums.get(key, NOTHING) + amounts
    wanted = material.casefold()
    rows = (UseOf(known[of], begins, amounts) for (of, begins), amounts in sums.items())
    those = [
        row for row in rows if wanted in row.material.name.casefold() and row.amounts != NOTHING
    ]
    return Use(seen, since, by, tuple(sorted(those, key=_order)))


def taken(found: Iterable[Line]) -> Iterator[tuple[Line, Amounts]]:
    """What each move took of what is ours; nothing where it took nothing."""
    for _, act in groupby(found, key=lambda line: line.act):
        moves = tuple(act)
        for line in moves:
            if line.owner == OURS and line.kind != LAMINATED:
                yield line, _amounts(line, laid_over_mm2(line, moves))


def laid_over_mm2(line: Line, act: Iterable[Line]) -> int:
    """The area of a piece that its act laid over another film."""
    if line.kind != LAMINATE:
        return 0
    return sum(
        area_mm2(born.width_nm or 0, born.delta)
        for born in act
        if born.kind == LAMINATED and born.parent != line.piece
    )


def _amounts(line: Line, laid_mm2: int) -> Amounts:
    changed, cost = _changed(line), line.cost_minor
    if line.kind in LOST:
        return Amounts(discarded=-changed, discarded_minor=cost)
    if line.kind in (*COUNTED, VARIANCE):
        return Amounts(counted=changed, counted_minor=-cost)
    is_counted = line.form == "box"
    used = -changed if is_counted else line.used_mm2 + laid_mm2
    wasted = 0 if is_counted else line.wasted_mm2
    if line.job is None:
        return Amounts(without_job=used + wasted, without_job_minor=cost)
    found = used if line.kind == _LATE else 0
    return Amounts(used=used, wasted=wasted, counted=found, cost_minor=cost)


def _changed(line: Line) -> int:
    """The area that came to a piece, or the number of goods."""
    if line.form == "box":
        return line.delta
    across_nm = line.width_nm or 0
    return area_mm2(across_nm, line.balance) - area_mm2(across_nm, line.balance - line.delta)


def _begin(day: date, by: By | None) -> date | None:
    """The first day of the week or month a day lies in; a week begins on Monday (ISO 8601)."""
    match by:
        case By.WEEK:
            return day - timedelta(days=day.weekday())
        case By.MONTH:
            return day.replace(day=1)
        case None:
            return None


def _order(row: UseOf) -> tuple[str, date]:
    return row.material.name.casefold(), row.begins or date.min


def full_width_m(area: int, material: Material) -> float | None:
    """An area as metres of the material's full width; None where that is not known."""
    is_film = material.kind.comes_in_rolls and material.width_nm
    return area / (material.width_nm / MM) / 1_000 if is_film and material.width_nm else None
