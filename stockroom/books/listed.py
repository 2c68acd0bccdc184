"""Which lines of lists came in before: each first move of a piece that was listed names its line."""

import json

from sqlalchemy import Connection, select

from stockroom.books.tables import ActRow, MoveRow, table_of

FROM_LINE = "from_line"
LISTED = "list-"
"""What the request ids of acts that wrote a list begin with."""

_ACT = table_of(ActRow)
_MOVE = table_of(MoveRow)
_UNDOING = _ACT.alias("undoing")
_IS_UNDONE = select(_UNDOING.c.id).where(_UNDOING.c.reverses == _ACT.c.id).exists()
_LINES = (
    select(_MOVE.c.facts)
    .join(_ACT, _ACT.c.id == _MOVE.c.act_id)
    .where(_ACT.c.request.startswith(LISTED, autoescape=True), ~_IS_UNDONE)
)


def listed_lines(connection: Connection) -> frozenset[str]:
    """The lines that are in the book; those whose act was undone are not."""
    facts = (json.loads(row.facts) for row in connection.execute(_LINES))
    return frozenset(one[FROM_LINE] for one in facts if FROM_LINE in one)
