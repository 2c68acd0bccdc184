"""What one station works with: its book, who works here, its clock and its labels."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TypedDict
from uuid import uuid4

from stockroom.books.opening import Book
from stockroom.labels.size import LabelSize


class Asking(TypedDict):
    """What every request to write carries."""

    request: str
    operator: str


@dataclass(slots=True, kw_only=True)
class Station:
    """The surroundings of the screens, passed in so that a test can have its own."""

    book: Book
    operator: str
    """Who is at work here, and is written down; changes when somebody else steps up."""
    now: Callable[[], datetime]
    label_size: LabelSize
    dpi: int
    labels: Path
    """The folder to which labels are written."""
    shows_money: bool = False
    """Whether prices and costs may be seen here."""

    def asking(self, request: str | None = None) -> Asking:
        """What the next request carries: an id of its own, and who asks."""
        return {"request": request or uuid4().hex, "operator": self.operator}
