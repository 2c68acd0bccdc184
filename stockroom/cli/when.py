"""What people type for a day and for an instant."""

from datetime import UTC, date, datetime
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from stockroom.errors import Code, Refusal, clean_text
from stockroom.film.dates import parse_partial_date

if TYPE_CHECKING:
    from stockroom.books.values import Shop


def read_day(text: str) -> date:
    """A calendar day, known to the day."""
    found = parse_partial_date(text)
    if not found.is_exact:
        raise Refusal(
            Code.BAD_DATE,
            f"'{clean_text(text, 40)}' names no single day: write it like 2025-03-14.",
        )
    return found.first


def is_day(text: str) -> bool:
    """Whether a text names a day, without a time."""
    try:
        parse_partial_date(text)
    except Refusal:
        return False
    return True


def read_instant(text: str, shop: "Shop") -> datetime:
    """An instant as ISO 8601 writes it; without an offset it is on the shop's clock.

    A day alone is the instant at which that shop day begins.
    """
    if is_day(text):
        return shop.begin_of(read_day(text)).astimezone(UTC)
    try:
        found = datetime.fromisoformat(text.strip())
        parse_partial_date(found.date().isoformat())
    except (ValueError, Refusal):
        raise Refusal(
            Code.BAD_DATE,
            f"'{clean_text(text, 40)}' is no time: write 2025-03-14T16:30, or 2025-03-14 for "
            "the beginning of that day.",
        ) from None
    if found.tzinfo is None:
        found = found.replace(tzinfo=ZoneInfo(shop.zone))
    return found.astimezone(UTC)
