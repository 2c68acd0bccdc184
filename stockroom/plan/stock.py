"""Film to choose from, as the plan sees it: how wide, how long, how old; in whole units of length.

Film          one roll or offcut: what of it may be used, and what it is to be used before
Age           old, middle, new: by how much of its life is left
age_of(…)     the class of film with so much of its life left

The limits of the classes, 15 and 50 % of the life left, lost the least film in our own simulation
of rolls that expire: old film first, and within a class the piece that fits best.
"""

from dataclasses import dataclass, replace
from enum import IntEnum


class Age(IntEnum):
    """How much of its life film has left, in three classes; the lowest goes first."""

    OLD = 0
    MIDDLE = 1
    NEW = 2


class Form(IntEnum):
    """What is taken first of film of one age: what is cut already."""

    OFFCUT = 0
    OPENED = 1
    FULL = 2


_OLD, _MIDDLE = 0.15, 0.5


def age_of(left: float | None) -> Age:
    """The class of film with so much of its life left, from 0 to 1; None where nobody knows."""
    if left is None or _OLD < left <= _MIDDLE:
        return Age.MIDDLE
    return Age.OLD if left <= _OLD else Age.NEW


@dataclass(frozen=True, slots=True, kw_only=True)
class Film:
    """One piece of film. `stretches` are what may be used, from the outer end on: begins, ends.

    What lies before a stretch is drawn off with it. Film without a lot matches no other film.
    """

    code: str
    width: int
    stretches: tuple[tuple[int, int], ...]
    lot: str | None = None
    age: Age = Age.NEW
    form: Form = Form.FULL

    @property
    def length(self) -> int:
        """How much of it may be used."""
        return sum(ends - begins for begins, ends in self.stretches)

    @property
    def matches(self) -> str:
        """What is the same of two films that match."""
        return f"lot {self.lot}" if self.lot is not None else f"piece {self.code}"

    def without(self, drawn: int) -> "Film":
        """The same film after so much of it was drawn off its outer end."""
        left = ((max(begins, drawn), ends) for begins, ends in self.stretches)
        form = Form.OPENED if self.form is Form.FULL and drawn else self.form
        return replace(self, stretches=tuple(one for one in left if one[0] < one[1]), form=form)
