"""What a job has used: of each piece so much film and money, and all of it together.

Film counts once. What was kept of a piece, as an offcut or a print, is kept no more when the job
takes that up again; film that is laid over other film is used.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from stockroom.books.catalog import shop
from stockroom.books.job_entries import minutes_of
from stockroom.books.opening import Book
from stockroom.books.pen import UNDO
from stockroom.books.pieces import standing
from stockroom.books.values import Act, Job, Move, Standing
from stockroom.codes.own import Letter, letter_of
from stockroom.work.back import CHARGING
from stockroom.work.laminate import laid_over_mm2
from stockroom.work.look import job
from stockroom.work.panel_cost import PanelCost, expected_minor, panel_costs


@dataclass(frozen=True, slots=True, kw_only=True)
class Used:
    """Area and money; of goods, how many were taken."""

    used_mm2: int = 0
    wasted_mm2: int = 0
    kept_mm2: int = 0
    number: int = 0
    cost_minor: int = 0


@dataclass(frozen=True, slots=True)
class UsedOf:
    """What a job used of one piece."""

    standing: Standing
    used: Used


@dataclass(frozen=True, slots=True, kw_only=True)
class JobUse:
    """A job, its acts newest first, and what it used of each piece, first used first.

    `panels` are those that were cut as planned, each name with its share of film, waste and cost;
    `expected_minor` is what the film first kept for the job was to cost; `labour_minor` is what the
    minutes of work cost at the rate of now.
    """

    job: Job
    acts: tuple[Act, ...]
    pieces: tuple[UsedOf, ...]
    total: Used
    panels: tuple[PanelCost, ...]
    expected_minor: int | None
    minutes: int | None
    labour_minor: int | None

    @property
    def unpriced(self) -> int:
        """How many of the pieces have no price, and are not in the cost."""
        return sum(one.standing.state.cost_minor is None for one in self.pieces)


def job_use(book: Book, code: str, *, now: datetime) -> JobUse:
    """Add up what was charged to a job and not taken back."""
    found, acts = job(book, code)
    charged: dict[str, list[Used]] = {}
    for piece, used in _charged(acts[::-1]):
        charged.setdefault(piece, []).append(used)
    with book.reading() as connection:
        minutes, rate = minutes_of(connection, found.id), shop(connection, now).labour_minor
        pieces = tuple(
            UsedOf(standing(connection, piece, now), _sum(parts))
            for piece, parts in charged.items()
        )
    return JobUse(
        job=found,
        acts=acts,
        pieces=pieces,
        total=_sum(one.used for one in pieces),
        panels=panel_costs(acts),
        expected_minor=expected_minor(acts),
        minutes=minutes,
        labour_minor=None
        if None in (minutes, rate)
        else round(Fraction((rate or 0) * (minutes or 0), 60)),
    )


def _charged(acts: Iterable[Act]) -> Iterator[tuple[str, Used]]:
    """What each move took of its piece; and of what its piece was made of, where the job made it."""
    made_of: dict[str, str] = {}
    for act in acts:
        if act.is_reversed or act.kind == UNDO:
            continue
        for move in act.moves:
            if (parent := move.sets.get("parent")) is not None:
                made_of[move.piece] = str(parent)
            if move.kind in CHARGING:
                yield move.piece, _used(move, laid_over_mm2(act, move))
                if move.piece in made_of:
                    left_mm2 = move.used_mm2 + move.wasted_mm2 + move.kept_mm2
                    yield made_of[move.piece], Used(kept_mm2=-left_mm2)


def _used(move: Move, laid_mm2: int) -> Used:
    return Used(
        used_mm2=move.used_mm2 + laid_mm2,
        wasted_mm2=move.wasted_mm2,
        kept_mm2=move.kept_mm2 - laid_mm2,
        number=-move.delta if letter_of(move.piece) is Letter.BOX else 0,
        cost_minor=move.cost_minor,
    )


def _sum(parts: Iterable[Used]) -> Used:
    """All of them together; a print that a count found longer leaves less than nothing kept."""
    known = tuple(parts)
    return Used(
        used_mm2=sum(one.used_mm2 for one in known),
        wasted_mm2=sum(one.wasted_mm2 for one in known),
        kept_mm2=max(0, sum(one.kept_mm2 for one in known)),
        number=sum(one.number for one in known),
        cost_minor=sum(one.cost_minor for one in known),
    )
