"""What a report says with what is settled, and without: they must be the same."""

from datetime import date, datetime
from math import isclose
from typing import Any

from stockroom.books.opening import Book
from stockroom.books.settled import Settled
from stockroom.film.verdict import Storage
from stockroom.work.look import on_hand
from stockroom.work.storage import Stored


def settled_codes(book: Book, now: datetime) -> set[str]:
    """The pieces of which something is settled, as far as it holds."""
    with on_hand(book, now=now, today=None) as (_, climates, _):
        return {code for code, _ in climates.settled}


def agrees(book: Book, now: datetime, today: date | None = None) -> bool:
    """Whether all that storage did to every piece is the same without what is settled."""
    found = [_storages(book, now, today, anew=anew) for anew in (False, True)]
    for code, one in found[0].items():
        kept, anew = _numbers(one), _numbers(found[1][code])
        assert len(kept) == len(anew), code
        for number, other in zip(kept, anew, strict=True):
            assert number == other or isclose(number, other, rel_tol=1e-9, abs_tol=1e-9), code
    return True


def _storages(book: Book, now: datetime, today: date | None, *, anew: bool) -> dict[str, Storage]:
    with on_hand(book, now=now, today=today) as (seen, climates, found):
        if anew:
            climates.settled = Settled()
        stored = Stored(climates, seen)
        return {one.code: stored.storage_of(one) for one in found}


def _numbers(storage: Storage) -> list[Any]:
    """Heat of the shelf and of the winding, the air, the dew, and what the wraps curl to."""
    curl = storage.curl
    each: list[Any] = [storage.shelf_heat, storage.wound_heat, storage.air]
    each.append(None if curl is None else (curl.outer_mm, curl.inner_mm, curl.tight_m))
    numbers = [number for one in each for number in ([None] if one is None else one)]
    return [*numbers, storage.warm_up]
