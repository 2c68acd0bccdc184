"""How much of a piece is kept for which job, and until when; read from the state of the piece."""

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import NamedTuple

from stockroom.books.chain import canonical
from stockroom.books.fold import State
from stockroom.books.pen import Pen
from stockroom.books.values import MoveDraft

RESERVE, UNRESERVE = "reserve", "unreserve"


class Reserved(NamedTuple):
    """So much of a piece is kept for a job, up to and with a shop day."""

    job: str
    along_nm: int
    until: str


def reserved(state: State, today: date) -> tuple[Reserved, ...]:
    """The reservations of a piece that hold on a day."""
    if state.ended is not None:
        return ()
    return tuple(one for one in all_reserved(state) if one.until >= today.isoformat())


def all_reserved(state: State) -> tuple[Reserved, ...]:
    """The reservations of a piece, lapsed ones among them."""
    if state.reserved is None:
        return ()
    return tuple(Reserved(*one) for one in json.loads(state.reserved))


def kept_for_others(state: State, job: str | None, today: date) -> tuple[Reserved, ...]:
    """What of a piece is kept for other jobs than this one."""
    return tuple(one for one in reserved(state, today) if one.job != job)


def written(reservations: Iterable[Reserved]) -> str | None:
    """Reservations as a piece keeps them; None where there are none."""
    found = sorted(reservations)
    return canonical([list(one) for one in found]) if found else None


def without(state: State, job: str) -> str | None:
    """The reservations of a piece without those of a job."""
    return written(one for one in all_reserved(state) if one.job != job)


def drawn_from(state: State, job: str | None, length_nm: int) -> str | None:
    """The reservations of a piece after a job has drawn so much of its own."""
    if state.reserved is None or job is None:
        return state.reserved
    left = (
        one._replace(along_nm=one.along_nm - length_nm) if one.job == job else one
        for one in all_reserved(state)
    )
    return written(one for one in left if one.along_nm > 0)


def let_go(pen: Pen, codes: Sequence[str], job: str) -> Iterator[MoveDraft]:
    """What lets go of the pieces on which a job has a reservation."""
    for code in dict.fromkeys(codes):
        state = pen.piece(code).state
        if any(one.job == job for one in all_reserved(state)):
            yield MoveDraft(code=code, kind=UNRESERVE, sets={"reserved": without(state, job)})


def reserved_for(found: Mapping[str, State], job: str) -> tuple[str, ...]:
    """Of pieces by their states, those on hand on which a job has a reservation, lapsed or not."""
    return tuple(
        code
        for code, state in found.items()
        if state.ended is None and any(one.job == job for one in all_reserved(state))
    )


def ever_for(found: Mapping[str, State], job: str) -> tuple[str, ...]:
    """The same with those that are gone: what a job lets go of when it is planned anew."""
    return tuple(
        code for code, state in found.items() if any(one.job == job for one in all_reserved(state))
    )


def short_jobs(
    found: Mapping[str, State], today: date, out_for: Mapping[str, str | None]
) -> Mapping[str, tuple[str, ...]]:
    """The jobs whose film was taken all the same, and the pieces that are gone or hold too little.

    `out_for` are the pieces that are out, each with the job it went out for.
    """
    short: dict[str, list[str]] = {}
    for code, state in found.items():
        kept = [one for one in all_reserved(state) if one.until >= today.isoformat()]
        if state.ended is not None or sum(one.along_nm for one in kept) > state.balance:
            lost = kept
        else:
            lost = [one for one in kept if code in out_for and one.job != out_for[code]]
        for one in lost:
            short.setdefault(one.job, []).append(code)
    return {job: tuple(codes) for job, codes in sorted(short.items())}
