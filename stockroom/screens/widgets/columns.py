"""Which columns of a list fit, and how wide each is."""

from collections.abc import Sequence
from dataclasses import dataclass

GAP = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of fixed width; `rank` 0 always stays, the highest rank is the first to go."""

    title: str
    width: int
    right: bool = False
    rank: int = 0
    grows: bool = False


def fit(columns: Sequence[Column], room: int) -> tuple[tuple[int, int], ...]:
    """The columns that fit in so many cells, as (index, width) from left to right.

    What has no room goes by rank, the rightmost first among equals; what is left over is shared
    by the columns that grow. Columns of rank 0 stay even where they do not fit.
    """
    kept = list(range(len(columns)))
    while kept and _needed(columns, kept) > room:
        last = max(kept, key=lambda index: (columns[index].rank, index))
        if columns[last].rank == 0:
            break
        kept.remove(last)
    spare = max(0, room - _needed(columns, kept))
    growing = [index for index in kept if columns[index].grows]
    more = {
        index: spare // len(growing) + (place < spare % len(growing))
        for place, index in enumerate(growing)
    }
    return tuple((index, columns[index].width + more.get(index, 0)) for index in kept)


def _needed(columns: Sequence[Column], kept: Sequence[int]) -> int:
    return sum(columns[index].width for index in kept) + GAP * max(0, len(kept) - 1)
