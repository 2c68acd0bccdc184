"""The desk of the invented shop: whose book it is, what chance decides, which code each name got."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from random import Random
from typing import TypedDict
from uuid import UUID

from stockroom.books.opening import Book


class Asking(TypedDict):
    """What every request to write carries."""

    request: str
    operator: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """Where the requests of one invented shop are written."""

    book: Book
    today: date
    chance: Random
    currency: str
    codes: dict[str, str] = field(default_factory=dict[str, str])
    """What the files call a piece or a job, and the code it was given."""

    def asking(self, by: str, note: str = "") -> Asking:
        """What the next request carries; its id is drawn from the seed."""
        request = UUID(int=self.chance.getrandbits(128), version=4).hex
        return {"request": request, "operator": by, "note": note}

    def name(self, names: str, codes: Iterable[str]) -> None:
        """Remember the codes by the names the files have for them."""
        self.codes.update(zip(names.split(), codes, strict=True))
