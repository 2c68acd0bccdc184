"""The reports of a shop as plain lines: before we close, closed days, stock."""

from collections.abc import Iterable, Sequence
from datetime import date, datetime
from itertools import groupby

from stockroom.books.calendar import ClosedDays
from stockroom.books.drafts import Draft
from stockroom.books.values import Shop
from stockroom.film.sentences import counted
from stockroom.film.verdict import Verdict
from stockroom.lines import today as today_words
from stockroom.lines import words
from stockroom.lines.text_table import Columns, table
from stockroom.units import SQUARE_FOOT_MM2, System
from stockroom.units.money import show_money
from stockroom.units.shown import show_area
from stockroom.work.closed import Calendar, Closed
from stockroom.work.closing import Closing
from stockroom.work.forecast import Forecast, reason_of
from stockroom.work.judging import Judged, View
from stockroom.work.stock import Stock, StockOf

_PIECES = Columns(heads=("", "", "", "", ""), right=frozenset({3}), flex=2)
_STOCK = Columns(
    heads=("material", "pieces", "m\N{SUPERSCRIPT TWO}", "sq ft", "value", "verdicts"),
    right=frozenset({1, 2, 3, 4}),
)
_FROM_WORST = (Verdict.STOP, Verdict.TEST, Verdict.USE_FIRST, Verdict.USE)
_SQUARE_METRE_MM2 = 1_000_000
ALL_WELL = "Nothing lies out, waits or was left half typed."


def closing(found: Closing, width: int) -> list[str]:
    """What is to be seen to before the lights go out."""
    view = found.view
    parts = (
        ("Away", _pieces(found.out, view, width)),
        ("Not in a place", _pieces(found.nowhere, view, width)),
        ("Prints still wound", _pieces(found.wound, view, width)),
        ("Resting", _pieces(found.waiting, view, width)),
        ("Counts that wait for a second counter", _pieces(found.recounts, view, width)),
        ("Half typed", [_draft(one, view.shop) for one in found.drafts]),
        ("Closed from tomorrow", [] if found.closed is None else closed_days(found.closed)),
    )
    lines = [today_words.title(view)]
    for head, body in parts:
        lines += ["", head, *(f"  {line}" for line in body)] if body else []
    return lines if len(lines) > 1 else [*lines, ALL_WELL]


def _pieces(pieces: Sequence[Judged], view: View, width: int) -> list[str]:
    if not pieces:
        return []
    rows = [
        (
            words.code(one.code),
            today_words.to_do(one, view),
            words.film(one.standing, view.shop.system),
            words.left(one.standing, view.shop.system),
            _where(one, view.shop),
        )
        for one in pieces
    ]
    return table(_PIECES, rows, width - 2)[1:]


def _where(one: Judged, shop: Shop) -> str:
    state = one.standing.state
    if state.out_to is None:
        return words.place(one.standing.place)
    if state.out_since is None:
        return state.out_to
    return f"{state.out_to} since {words.moment(datetime.fromisoformat(state.out_since), shop)}"


def _draft(one: Draft, shop: Shop) -> str:
    return f"{one.kind} “{one.name}”, {one.operator}, {words.moment(one.updated_at, shop)}"


def calendar(found: Calendar) -> list[str]:
    """Each stretch of closed days, and what changes while nobody works."""
    if not found.closed:
        return [
            "No closed days are to come: `stockroom closed add 2026-12-24..2027-01-02 --why …`."
        ]
    lines: list[str] = []
    for one in found.closed:
        lines += ["", *closed_days(one)] if lines else closed_days(one)
    return lines


def closed_days(one: Closed) -> list[str]:
    """One stretch of closed days, and the verdicts that change in it."""
    lines = [f"{stretch(one.days)}, open again {_day(one.opens_on)}"]
    if not one.changes:
        return [*lines, "no verdict changes meanwhile"]
    return lines + [
        f"{words.code(change.after.code)}  {words.marked(change.before.judgement.verdict)} → "
        f"{words.marked(change.after.judgement.verdict)}  "
        f"{change.after.standing.material.name}, {words.place(change.after.standing.place)}"
        for change in one.changes
    ]


def forecast(found: Forecast) -> list[str]:
    """Each change of a verdict that is to come, under the day of it, and why."""
    if not found.changes:
        return [f"No verdict changes within {counted(found.days, 'day')}."]
    lines: list[str] = []
    for day, changes in groupby(found.changes, key=lambda one: one.on):
        lines += ["", _day(day)] if lines else [_day(day)]
        lines += [
            f"{words.marked(one.then.judgement.verdict)}  {words.code(one.then.code)}  "
            f"{one.then.standing.material.name}, {words.place(one.then.standing.place)}: "
            f"{reason_of(one.then).text}"
            for one in changes
        ]
    return lines


def stretch(days: ClosedDays) -> str:
    """From when to when, and why."""
    to = "" if days.first == days.last else f" to {_day(days.last)}"
    return f"{_day(days.first)}{to}" + (f", {days.why}" if days.why else "")


def _day(day: date) -> str:
    return f"{day:%a} {words.day(day)}"


def stock(found: Stock, width: int) -> list[str]:
    """How much of each material is ours."""
    if not found.rows:
        return ["Nothing of ours is like that; `stockroom receive` brings film in."]
    currency = found.view.shop.currency
    rows = [
        (
            row.material.name,
            str(row.pieces),
            *_areas(row),
            _value(row, currency),
            _verdicts(row),
        )
        for row in found.rows
    ]
    total = show_money(found.value_minor, currency)
    lines = [*table(_STOCK, rows, width), "", f"{total} in all on {words.day(found.view.today)}"]
    lines += _notes(found.rows, found.view.shop.system)
    return lines


def _areas(row: StockOf) -> tuple[str, str]:
    if not row.material.kind.comes_in_rolls:
        return words.count(row.number), ""
    feet = float(row.area_mm2 / SQUARE_FOOT_MM2)
    return f"{row.area_mm2 / _SQUARE_METRE_MM2:.2f}", f"{feet:.1f}"


def _value(row: StockOf, currency: str) -> str:
    if row.unpriced == row.pieces:
        return words.UNKNOWN
    return show_money(row.value_minor, currency) + (" + ?" if row.unpriced else "")


def _verdicts(row: StockOf) -> str:
    return " ".join(
        f"{words.MARKS[verdict]} {row.verdicts[verdict]}"
        for verdict in _FROM_WORST
        if row.verdicts.get(verdict)
    )


def _notes(rows: Iterable[StockOf], system: System) -> list[str]:
    """What the figures do not say by themselves."""
    notes = []
    printed, unpriced = (
        sum(getattr(row, name) for row in rows) for name in ("printed_mm2", "unpriced")
    )
    if printed:
        notes.append(
            f"{show_area(printed, system)} of it printed: it serves its job, and is not free"
        )
    if unpriced:
        notes.append(f"{words.counted(unpriced, 'piece')} without a price, not in the value")
    return notes
