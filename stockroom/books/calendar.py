"""The days a shop is closed, as written down; append-only, among the settings."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from sqlalchemy import Connection

from stockroom.books.catalog import Entry, add_setting, setting_entries

_CLOSED, _OPEN = "closed", "open-again"
_TO = ".."


@dataclass(frozen=True, slots=True)
class ClosedDays:
    """A stretch of days on which nobody works, both ends among them, and why."""

    first: date
    last: date
    why: str

    def __contains__(self, day: date) -> bool:
        return self.first <= day <= self.last


def closed_days(connection: Connection, at: datetime) -> tuple[ClosedDays, ...]:
    """Every stretch in force at an instant, by its first day."""
    found: dict[str, ClosedDays] = {}
    for entry in setting_entries(connection):
        if entry.from_at > at or entry.name not in (_CLOSED, _OPEN):
            continue
        if entry.name == _OPEN:
            found.pop(entry.value, None)
            continue
        first, _, last = entry.value.partition(_TO)
        found[entry.value] = ClosedDays(
            date.fromisoformat(first), date.fromisoformat(last), entry.why
        )
    return tuple(sorted(found.values(), key=lambda days: (days.first, days.last)))


def next_open_day(closed: tuple[ClosedDays, ...], after: date) -> date:
    """The first day after one on which somebody works."""
    day = after + timedelta(days=1)
    while any(day in days for days in closed):
        day += timedelta(days=1)
    return day


def add_closed_days(
    connection: Connection, days: ClosedDays, *, operator: str, opens: bool, now: datetime
) -> None:
    """Write down that a shop is closed, or that it is open after all."""
    entry = Entry(
        name=_OPEN if opens else _CLOSED,
        value=f"{days.first}{_TO}{days.last}",
        from_at=now,
        operator=operator,
        why=days.why,
    )
    add_setting(connection, entry, now=now)
