"""The desk of the invented shop: whose book it is, what chance decides, which code each name got."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date
from random import Random
from typing import TypedDict
from uuid import UUID
from zoneinfo import ZoneInfo

from stockroom.books.fold import State
from stockroom.books.opening import Book
from stockroom.books.values import Standing
from stockroom.demo.cells import difference
from stockroom.demo.line import Line
from stockroom.units.typed import parse_length
from stockroom.work.look import piece
from stockroom.work.reasons import REASONS


class Asking(TypedDict):
    """What every request to write carries."""

    request: str
    operator: str
    note: str


class Purpose(TypedDict):
    """What film or goods were taken for: a job, or a reason without one."""

    job: str | None
    reason: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """Where the requests of one invented shop are written."""

    book: Book
    today: date
    chance: Random
    zone: ZoneInfo
    currency: str
    codes: dict[str, str] = field(default_factory=dict[str, str])
    """What the files call a piece or a job, and the code it was given."""

    def asking(self, by: str, note: str = "") -> Asking:
        """What the next request carries; its id is drawn from the seed."""
        request = UUID(int=self.chance.getrandbits(128), version=4).hex
        return {"request": request, "operator": by, "note": note}

    def asked(self, line: Line) -> Asking:
        """What the request of a line carries."""
        return self.asking(line["by"], line["note"])

    def code(self, line: Line) -> str:
        """The code of the piece a line is about."""
        return self.codes[line["piece"]]

    def name(self, names: Iterable[str], codes: Iterable[str]) -> None:
        """Remember the codes by the names the files have for them."""
        self.codes.update(zip(names, codes, strict=True))

    def named(self, names: str) -> Iterator[str]:
        """The codes of several names."""
        return (self.codes[name] for name in names.split())

    def purpose(self, line: Line) -> Purpose:
        """The job a line is for, or the reason."""
        wanted = line["for"]
        is_reason = wanted in REASONS
        return {
            "job": self.codes[wanted] if wanted and not is_reason else None,
            "reason": wanted if is_reason else None,
        }

    def length_nm(self, line: Line) -> int:
        """A length that is taken: `all` is what the books say, `all+0.4m` more than that."""
        text = line["amount"]
        if not text.startswith("all"):
            return parse_length(text)
        return self.state(line).balance + difference(text.removeprefix("all").lstrip("+"))

    def standing(self, line: Line) -> Standing:
        """The piece of a line as it stands now."""
        return piece(self.book, self.code(line), now=line.at).judged.standing

    def state(self, line: Line) -> State:
        """What the books say of the piece of a line."""
        return self.standing(line).state
