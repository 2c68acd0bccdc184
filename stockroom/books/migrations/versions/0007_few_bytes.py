"""Stored readings and sums in few bytes; what was stored is written anew, not made anew."""

from collections.abc import Iterable
from typing import Any

import sqlalchemy as sa
from alembic import op

from stockroom.books.packed import numbers, packed, written

revision = "0007"
down_revision = "0006"

_WHOLE = 8
_EACH = 4
_QUANTITIES = ("temperature", "humidity")
_PART = sa.table(
    "course_part",
    *(sa.column(name) for name in ("zone", "gap_s", "measure", "part", "content")),
)
_KEY = (_PART.c.zone, _PART.c.gap_s, _PART.c.measure, _PART.c.part)


def upgrade() -> None:
    """Pack every part, one after the other."""
    connection = op.get_bind()
    for key in connection.execute(sa.select(*_KEY)).all():
        this = [column == value for column, value in zip(_KEY, key, strict=True)]
        content = connection.execute(sa.select(_PART.c.content).where(*this)).scalar_one()
        if content:
            fewer = _readings(content) if key.measure in _QUANTITIES else _amounts(content)
            connection.execute(sa.update(_PART).where(*this).values(content=fewer))


def _readings(content: bytes) -> bytes:
    """From how many there are, and eight bytes for each second, level and, after gaps, measured second."""
    size = _WHOLE * int.from_bytes(content[:_WHOLE], "little")
    cuts: Iterable[Any] = (content[at : at + size] for at in range(_WHOLE, 3 * size + _WHOLE, size))
    seconds, levels, gaps = cuts
    at_s = numbers("q", seconds)
    measured_s = numbers("q", gaps) if gaps else [second - at_s[0] for second in at_s]
    return packed(at_s, numbers("d", levels), measured_s)


def _amounts(content: bytes) -> bytes:
    """From eight bytes for the sum at each reading."""
    return written(numbers("d", content)[::_EACH])
