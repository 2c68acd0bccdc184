"""Bottles that were opened and tools in use, as plain lines and as values.

begun(done)           the piece, its last day, and how it gets its label
lives(found, width)   the service life of each kind of tool
…_values(…)           the same for a script
"""

from collections.abc import Mapping
from datetime import date, timedelta
from typing import Any

from stockroom.lines import words
from stockroom.lines.text_done import label_command
from stockroom.lines.text_supplies import in_use, opened
from stockroom.lines.text_table import Columns, table
from stockroom.units.money import show_money
from stockroom.work.begin import Begun
from stockroom.work.tools import DAYS_A_MONTH, ServiceLife, Tools

_HEADS = ("tool", "in use", "failed", "ended", "months", "one lasts", "a month")
_LIVES = Columns(heads=_HEADS, right=frozenset(range(1, len(_HEADS))))
MEANING = (
    "months: in use, all together; one lasts: those months by the number that failed; a month: what "
    "one in use costs."
)


def begun(done: Begun) -> list[str]:
    """What began to be used, until when it keeps, and how it gets its label."""
    sets = done.act.moves_of(done.piece)[-1].sets
    said = opened(sets) if done.act.kind == "opened" else in_use(sets)
    until = _last_day(sets)
    keeps = "" if until is None else f", use it by {until}"
    return [
        f"{words.code(done.piece)}: {said}{keeps}: it needs a label",
        label_command([done.piece]),
    ]


def begun_values(done: Begun) -> dict[str, Any]:
    """The same for a script."""
    sets = done.act.moves_of(done.piece)[-1].sets
    until = _last_day(sets)
    return {
        "act": done.act.id,
        "kind": done.act.kind,
        "code": done.piece,
        "codes": [move.piece for move in done.act.moves],
        "begun_on": sets["begun"],
        "use_by": None if until is None else until.isoformat(),
    }


def _last_day(sets: Mapping[str, object]) -> date | None:
    keeps = sets.get("keeps_days")
    if not isinstance(keeps, int):
        return None
    return date.fromisoformat(str(sets["begun"])) + timedelta(days=keeps)


def lives(found: Tools, width: int) -> list[str]:
    """How long each kind of tool lasts, and what it costs a month."""
    if not found.kinds:
        return ["No tool was put in use yet: `stockroom tool use BOX`."]
    rows = [_row(one, found) for one in found.kinds]
    return table(_LIVES, rows, width)


def _row(one: ServiceLife, found: Tools) -> tuple[str, ...]:
    life, month = one.life_days, one.month_minor
    currency = found.shop.currency
    return (
        one.material.name,
        str(one.in_use),
        str(one.failed),
        str(one.ended) if one.ended else "-",
        f"{one.days / DAYS_A_MONTH:.1f}",
        words.UNKNOWN if life is None else f"{life / DAYS_A_MONTH:.1f} mo",
        words.UNKNOWN if month is None else show_money(round(month), currency),
    )


def lives_values(found: Tools) -> dict[str, Any]:
    """The same for a script."""
    return {
        "day": found.today.isoformat(),
        "currency": found.shop.currency,
        "tools": [
            {
                "material": one.material.name,
                "in_use": one.in_use,
                "failed": one.failed,
                "ended": one.ended,
                "in_use_days": one.days,
                "life_days": None if one.life_days is None else round(one.life_days, 3),
                "cost_minor": one.cost_minor,
                "cost_per_month_minor": None
                if one.month_minor is None
                else round(one.month_minor, 3),
            }
            for one in found.kinds
        ],
    }
