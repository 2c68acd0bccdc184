"""Reports as tables for a file: use, value and buying, a row for each material or piece.

of_use(found), of_value(found), of_buying(found)   Table
"""

from collections.abc import Mapping, Sequence
from typing import Any

from stockroom.lines import buying_plan, use, value
from stockroom.work.buying import Buying
from stockroom.work.spreadsheet import Table, a_day, heads_of
from stockroom.work.use import Use
from stockroom.work.value import Value


def of_use(found: Use) -> Table:
    """What was taken, a row for each material, or for each of its weeks or months."""
    return _table(use.values(found)["rows"], found.view.shop.currency)


def of_value(found: Value) -> Table:
    """What each piece of ours is worth."""
    return _table(value.values(found)["pieces"], found.view.shop.currency)


def of_buying(found: Buying) -> Table:
    """What to order of each material; film in metres of full width, goods by number."""
    return _table(buying_plan.values(found)["materials"], found.view.shop.currency)


def _table(rows: Sequence[Mapping[str, Any]], currency: str) -> Table:
    """The rows under all their names, in the order in which these come first; lists are left out."""
    names = [
        name for row in rows for name, held in row.items() if not isinstance(held, dict | list)
    ]
    heads = list(dict.fromkeys(names))
    cells = [[_cell(row.get(name)) for name in heads] for row in rows]
    return Table(heads_of(heads, currency), cells)


def _cell(held: object) -> object:
    return a_day(held) if isinstance(held, str) else held
