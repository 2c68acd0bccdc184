"""One thing that is done in the invented shop, as its files write it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, time

Row = Mapping[str, str]
"""The columns of a file; one that is missing is empty."""

Written = tuple[str, time, str, Row]
"""The day as a distance, the hour, what is done, and the columns that say how."""


@dataclass(frozen=True, slots=True)
class Line:
    """One thing that is done, at one moment; `line["for"]` is a column of its file."""

    at: datetime
    act: str
    row: Row

    def __getitem__(self, column: str) -> str:
        return self.row.get(column, "")

    @property
    def more(self) -> Mapping[str, str]:
        """What the column `more` adds: `ink=latex; tile=2/4`."""
        pairs = (pair.partition("=") for pair in self["more"].split(";") if pair)
        return {name.strip(): value.strip() for name, _, value in pairs}
