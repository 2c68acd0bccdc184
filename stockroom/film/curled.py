"""The curl of a piece, of which a list reads only the outer wrap: the rest is worked out when it is read."""

from functools import cached_property

from stockroom.film.bending import circle_mm
from stockroom.film.limits import Figure
from stockroom.film.memory import Memory
from stockroom.film.verdict import Curl, TimeFactor


class CurlOf(Curl):
    """What a memory comes to, against the limit of its film."""

    def __init__(self, found: Memory, limit: Figure, model: TimeFactor) -> None:
        keep = object.__setattr__
        keep(self, "outer_mm", circle_mm(found.outermost_per_m))
        keep(self, "limit", limit)
        keep(self, "model", model)
        keep(self, "_found", found)

    _found: Memory

    @cached_property
    def inner_mm(self) -> float | None:  # pyright: ignore[reportIncompatibleVariableOverride]
        """The circle the innermost wrap curls to; None for flat."""
        return circle_mm(self._found.innermost_per_m)

    @cached_property
    def tight_m(self) -> float:  # pyright: ignore[reportIncompatibleVariableOverride]
        """How much of the inner part curls tighter than the limit."""
        return self._found.tight_at_core_m(self.limit.value)
