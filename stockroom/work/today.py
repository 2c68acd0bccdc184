"""The first minute of the morning: what needs a hand."""

from collections import Counter
from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from stockroom.books.journal import acts
from stockroom.books.opening import Book
from stockroom.books.orders import Order, orders
from stockroom.books.pieces import reserved_pieces
from stockroom.books.values import Job
from stockroom.film.dates import parse_partial_date
from stockroom.film.verdict import Verdict
from stockroom.work.away import OUT, out_for_job
from stockroom.work.judging import Judged, View
from stockroom.work.look import jobs, rack
from stockroom.work.orders import is_late
from stockroom.work.reserved import short_jobs
from stockroom.work.scrap import is_scrap

MOST_LINES = 10
DAYS_AHEAD = 7
_FROM_WORST = (Verdict.STOP, Verdict.TEST, Verdict.USE_FIRST, Verdict.USE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Today:
    """What needs a hand: counts of all, the worst pieces, the jobs of the coming days, late orders.

    `of_jobs` are all pieces that serve one job only and need a hand, whether among the worst or not.
    `short` are the jobs whose reserved film was taken all the same, each with the pieces it was of.
    """

    view: View
    counts: dict[Verdict, int]
    waiting: int
    pieces: tuple[Judged, ...]
    of_jobs: tuple[Judged, ...]
    jobs: tuple[Job, ...]
    short: Mapping[str, tuple[str, ...]]
    late: tuple[Order, ...]


def today(book: Book, *, now: datetime, today: date | None = None) -> Today:
    """The ten worst pieces, grouped by material, the material with the worst piece first."""
    found = rack(book, now=now, today=today)
    shown = [one for one in found.pieces if not _is_scrap(one, found.view)]
    need_a_hand = [one for one in shown if _needs_a_hand(one)]
    with book.reading() as connection:
        kept = reserved_pieces(connection)
        out_for = {
            code: out_for_job(acts(connection, piece=code, kind=OUT, limit=1)[0])
            for code, state in kept.items()
            if state.out_to is not None
        }
        coming = orders(connection, are_open=True)
    short: Mapping[str, tuple[str, ...]] = {}
    late: tuple[Order, ...] = ()
    if not found.view.is_past:
        short = short_jobs(kept, found.view.today, out_for)
        late = tuple(one for one in coming if is_late(one, found.view.today))
    return Today(
        view=found.view,
        counts=Counter(one.judgement.verdict for one in shown),
        waiting=sum(one.judgement.wait_until is not None for one in shown),
        pieces=_worst(need_a_hand),
        of_jobs=tuple(one for one in need_a_hand if one.standing.job is not None),
        jobs=_coming(jobs(book), found.view.today, short),
        short=short,
        late=tuple(sorted(late, key=lambda one: (one.expected or date.max, one.code))),
    )


def _needs_a_hand(one: Judged) -> bool:
    return one.judgement.verdict is not Verdict.USE or one.judgement.wait_until is not None


def _is_scrap(one: Judged, seen: View) -> bool:
    """Whether nothing is left of a piece, or an offcut is below the size that is kept."""
    standing = one.standing
    return not standing.state.balance or is_scrap(
        standing.state, standing.material, seen.shop.house
    )


def _worst(pieces: Iterable[Judged]) -> tuple[Judged, ...]:
    """The worst pieces of all, as many as a page holds, grouped by material."""
    worst = sorted(pieces, key=_urgency)[:MOST_LINES]
    leads: dict[int, int] = {}
    for rank, one in enumerate(worst):
        leads.setdefault(one.standing.material.id, rank)
    return tuple(sorted(worst, key=lambda one: leads[one.standing.material.id]))


def _urgency(one: Judged) -> tuple[int, date, str]:
    return _FROM_WORST.index(one.judgement.verdict), one.judgement.due or date.max, one.code


def _coming(known: Iterable[Job], running: date, short: Container[str]) -> tuple[Job, ...]:
    """The open jobs of the coming days, and those whose film is short whenever they are."""
    last = running + timedelta(days=DAYS_AHEAD)
    dated = (
        (parse_partial_date(job.on_day).first if job.on_day else date.max, job) for job in known
    )
    open_ones = [
        (day, job) for day, job in dated if not job.is_closed and (day <= last or job.code in short)
    ]
    return tuple(job for _, job in sorted(open_ones, key=lambda one: (one[0], one[1].code)))
