"""The stocktakes of every place: when it was seen, what is missing or waits, how far the books were off."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from stockroom.books.catalog import place_named, places, shop
from stockroom.books.journal import acts
from stockroom.books.opening import Book
from stockroom.books.pieces import standings
from stockroom.books.values import Act, Move, Place, Standing
from stockroom.work.charging import area_between_mm2
from stockroom.work.judging import View, view
from stockroom.work.receive import OURS
from stockroom.work.stocktake import SEEN, Found, Taken, taken

_COUNTING = ("count", "finished", "variance")
_LEAVES_UNSEEN = (SEEN, "hold", "release")
"""The acts after which a piece nobody saw is still unseen: nobody had it in hand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceTaken:
    """One place, and its newest stocktake; the variance is that of our pieces since that day."""

    place: Place
    pieces: int
    seen_at: datetime | None
    seen_by: str | None
    missing: tuple[Standing, ...]
    waiting: tuple[Standing, ...]
    variance_mm2: int
    """Less than nothing where film was short."""
    variance_minor: int


@dataclass(frozen=True, slots=True)
class Stocktakes:
    """Every place that was asked for."""

    view: View
    places: tuple[PlaceTaken, ...]


def stocktakes(book: Book, *, now: datetime, place: str | None = None) -> Stocktakes:
    """The newest stocktake of each place, or of one."""
    with book.reading() as connection:
        seen = view(shop(connection, now), now=now, today=None)
        asked = (
            places(connection, now).values()
            if place is None
            else (place_named(connection, place, now),)
        )
        newest = _newest(acts(connection, kind=SEEN))
        since = min((_begin(seen, one) for one in newest.values()), default=now)
        counted = [act for act in acts(connection, since=since) if not act.is_reversed]
        known = standings(connection, now, ended=True)
    rows = (_of(one, newest.get(one.id), known, counted, seen) for one in asked)
    return Stocktakes(seen, tuple(rows))


def _newest(done: Iterable[Act]) -> dict[int, Taken]:
    """The newest stocktake of each place, of acts newest first."""
    newest: dict[int, Taken] = {}
    for act in done:
        if not act.is_reversed:
            found = taken(act)
            newest.setdefault(found.place_id, found)
    return newest


def _begin(seen: View, found: Taken) -> datetime:
    """The day of a stocktake counts whole: what is counted is counted before or after it."""
    return seen.shop.begin_of(seen.shop.day_of(found.act.at))


def _of(
    place: Place, newest: Taken | None, known: Sequence[Standing], counted: list[Act], seen: View
) -> PlaceTaken:
    there = {one.code: one for one in known if one.state.place_id == place.id}
    on_hand = [one for one in there.values() if one.state.ended is None]
    missed = {one.piece for one in newest.of(Found.MISSING)} if newest else set[str]()
    since = _begin(seen, newest) if newest else None
    moves = [move for act in counted if since and act.at >= since for move in act.moves]
    return PlaceTaken(
        place=place,
        pieces=len(on_hand),
        seen_at=newest.act.at if newest else None,
        seen_by=newest.act.operator if newest else None,
        missing=tuple(
            one for one in on_hand if one.code in missed and one.piece.last_kind in _LEAVES_UNSEEN
        ),
        waiting=tuple(one for one in on_hand if one.state.recount is not None),
        variance_mm2=sum(_area_mm2(move, there) for move in moves),
        variance_minor=-sum(move.cost_minor for move in moves if _is_variance(move, there)),
    )


def _is_ours(move: Move, there: Mapping[str, Standing]) -> bool:
    found = there.get(move.piece)
    return found is not None and found.state.owner == OURS


def _is_variance(move: Move, there: Mapping[str, Standing]) -> bool:
    return move.kind in _COUNTING and _is_ours(move, there)


def _area_mm2(move: Move, there: Mapping[str, Standing]) -> int:
    """What a count found more or less; a late charge explains what a count had found missing."""
    if not _is_ours(move, there):
        return 0
    if move.kind == "charge":
        return move.used_mm2
    if move.kind not in _COUNTING:
        return 0
    state = there[move.piece].state
    return area_between_mm2(state, move.balance, move.balance - move.delta)
