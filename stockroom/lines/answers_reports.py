"""The reports of a shop as the dictionaries a script reads."""

from typing import Any

from stockroom.books.drafts import Draft
from stockroom.books.values import Shop
from stockroom.film.verdict import Verdict
from stockroom.lines import answers
from stockroom.work.closed import Calendar, Closed
from stockroom.work.closing import Closing
from stockroom.work.forecast import Forecast, reason_of
from stockroom.work.judging import Judged
from stockroom.work.look import mass_left_kg
from stockroom.work.stock import Stock, StockOf

Values = dict[str, Any]


def closing(found: Closing) -> Values:
    """What is to be seen to before the lights go out."""
    shop = found.view.shop
    lists = ("out", "nowhere", "wound", "waiting", "recounts")
    return {
        "day": found.view.today.isoformat(),
        **{name: [_piece(one, shop) for one in getattr(found, name)] for name in lists},
        "drafts": [_draft(one, shop) for one in found.drafts],
        "closed": None if found.closed is None else closed(found.closed),
    }


def _piece(one: Judged, shop: Shop) -> Values:
    return answers.piece(one, shop, mass_left_kg(one.standing))


def _draft(one: Draft, shop: Shop) -> Values:
    return {
        "kind": one.kind,
        "name": one.name,
        "operator": one.operator,
        "updated_at": shop.local(one.updated_at).isoformat(),
    }


def calendar(found: Calendar) -> Values:
    """Each stretch of closed days that is not over."""
    return {
        "day": found.view.today.isoformat(),
        "closed": [closed(one) for one in found.closed],
    }


def closed(one: Closed) -> Values:
    """A stretch of closed days, and the verdicts that change meanwhile."""
    return {
        "first": one.days.first.isoformat(),
        "last": one.days.last.isoformat(),
        "why": one.days.why or None,
        "opens_on": one.opens_on.isoformat(),
        "changes": [
            {
                "code": change.after.code,
                "material": change.after.standing.material.name,
                "before": change.before.judgement.verdict.value,
                "after": change.after.judgement.verdict.value,
            }
            for change in one.changes
        ],
    }


def forecast(found: Forecast) -> Values:
    """The day on which each verdict becomes another one, the soonest first."""
    return {
        "day": found.view.today.isoformat(),
        "days": found.days,
        "changes": [
            {
                "on": one.on.isoformat(),
                "code": one.then.code,
                "material": one.then.standing.material.name,
                "before": one.before.value,
                "then": one.then.judgement.verdict.value,
                "text": reason_of(one.then).text,
            }
            for one in found.changes
        ],
    }


def stock(found: Stock) -> Values:
    """How much of each material is ours, and what it is worth."""
    return {
        "day": found.view.today.isoformat(),
        "currency": found.view.shop.currency,
        "value_minor": found.value_minor,
        "materials": [_stock_of(row) for row in found.rows],
    }


def _stock_of(row: StockOf) -> Values:
    is_film = row.material.kind.comes_in_rolls
    return {
        "material": row.material.name,
        "kind": row.material.kind.value,
        "pieces": row.pieces,
        "count": None if is_film else row.number,
        "area_mm2": row.area_mm2 if is_film else None,
        "printed_area_mm2": row.printed_mm2 if is_film else None,
        "value_minor": row.value_minor,
        "unpriced_pieces": row.unpriced,
        "verdicts": {
            verdict.value: row.verdicts.get(verdict, 0)
            for verdict in Verdict
            if verdict is not Verdict.WAIT
        },
    }
