"""What a job has used: of each piece so much film and money, and all of it together."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from stockroom.books.opening import Book
from stockroom.books.pen import UNDO
from stockroom.books.pieces import standing
from stockroom.books.values import Act, Job, Move, Standing
from stockroom.codes.own import Letter, letter_of
from stockroom.work.back import CHARGING
from stockroom.work.look import job


@dataclass(frozen=True, slots=True, kw_only=True)
class Used:
    """Area and money; of goods, how many were taken."""

    used_mm2: int
    wasted_mm2: int
    kept_mm2: int
    number: int
    cost_minor: int


@dataclass(frozen=True, slots=True)
class UsedOf:
    """What a job used of one piece."""

    standing: Standing
    used: Used


@dataclass(frozen=True, slots=True, kw_only=True)
class JobUse:
    """A job, its acts newest first, and what it used of each piece, first used first."""

    job: Job
    acts: tuple[Act, ...]
    pieces: tuple[UsedOf, ...]
    total: Used

    @property
    def unpriced(self) -> int:
        """How many of the pieces have no price, and are not in the cost."""
        return sum(one.standing.state.cost_minor is None for one in self.pieces)


def job_use(book: Book, code: str, *, now: datetime) -> JobUse:
    """Add up what was charged to a job and not taken back."""
    found, acts = job(book, code)
    charged = [move for act in reversed(acts) for move in _charged(act)]
    codes = tuple(dict.fromkeys(move.piece for move in charged))
    with book.reading() as connection:
        pieces = tuple(
            UsedOf(
                standing(connection, piece, now),
                _sum(move for move in charged if move.piece == piece),
            )
            for piece in codes
        )
    return JobUse(job=found, acts=acts, pieces=pieces, total=_sum(charged))


def _charged(act: Act) -> tuple[Move, ...]:
    if act.is_reversed or act.kind == UNDO:
        return ()
    return tuple(move for move in act.moves if move.kind in CHARGING)


def _sum(moves: Iterable[Move]) -> Used:
    known = tuple(moves)
    return Used(
        used_mm2=sum(move.used_mm2 for move in known),
        wasted_mm2=sum(move.wasted_mm2 for move in known),
        kept_mm2=sum(move.kept_mm2 for move in known),
        number=-sum(move.delta for move in known if _is_of_goods(move)),
        cost_minor=sum(move.cost_minor for move in known),
    )


def _is_of_goods(move: Move) -> bool:
    return letter_of(move.piece) is Letter.BOX
