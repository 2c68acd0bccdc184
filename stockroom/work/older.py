"""Is there an older sound piece of the same film that would do?"""

from datetime import date, datetime

from stockroom.books.catalog import shop
from stockroom.books.climates import Climates
from stockroom.books.opening import Book
from stockroom.books.pieces import standings_like
from stockroom.books.values import Standing
from stockroom.film.dates import parse_partial_date
from stockroom.film.verdict import Verdict
from stockroom.work.judging import Judged, judged, view
from stockroom.work.storage import Stored

SOUND = (Verdict.USE, Verdict.USE_FIRST)


def older_sound(book: Book, code: str, length_nm: int, *, now: datetime) -> Judged | None:
    """The oldest sound piece of the same film, as wide and long enough; None where this is it."""
    with book.reading() as connection:
        seen = view(shop(connection, now), now=now, today=None)
        found = standings_like(connection, code, now)
        this = next((one for one in found if one.code == code), None)
        if this is None:
            return None
        older = [one for one in found if _would_do(one, this, length_nm)]
        storage = Stored(Climates(connection, seen.shop, now, few=True), seen).storage_of
        sound = (one for one in judged(older, seen, storage) if _is_sound(one))
        return min(sound, key=lambda one: (age_from(one.standing), one.code), default=None)


def age_from(standing: Standing) -> date:
    """The day from which the age of a piece is counted, as far back as it can be."""
    state = standing.state
    return parse_partial_date(state.made or state.shipped or state.received).first


def _would_do(other: Standing, this: Standing, length_nm: int) -> bool:
    return (
        other.code != this.code
        and other.state.out_to is None
        and other.state.form == this.state.form
        and other.state.owner == this.state.owner
        and other.state.job_id in (None, this.state.job_id)
        and (other.state.width_nm or 0) >= (this.state.width_nm or 0)
        and other.state.balance >= length_nm
        and age_from(other) < age_from(this)
    )


def _is_sound(one: Judged) -> bool:
    return one.judgement.verdict in SOUND and one.judgement.wait_until is None
