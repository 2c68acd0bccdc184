"""Rows of values as comma-separated lines for a spreadsheet, as RFC 4180 has them.

Keys are the headings and carry their units; what is unknown is empty, and text that a spreadsheet
would take for a formula is put behind an apostrophe.
"""

import csv
from collections.abc import Mapping, Sequence
from io import StringIO

from stockroom.work.spreadsheet import defused


def sheet(heads: Sequence[str], rows: Sequence[Mapping[str, object]], currency: str) -> list[str]:
    """The headings and one line a row; headings of money name the currency."""
    shown = [f"{head}_{currency}" if head.endswith("_minor") else head for head in heads]
    return [_line(shown), *(_line([_cell(row[head]) for head in heads]) for row in rows)]


def _line(cells: Sequence[object]) -> str:
    text = StringIO()
    csv.writer(text, lineterminator="").writerow(cells)
    return text.getvalue()


def _cell(value: object) -> object:
    if value is None:
        return ""
    return defused(value) if isinstance(value, str) else value
