"""What a roll remembers: how it was kept, and what each of its wraps curls to now.

    Wound, Flat, Free         how film was kept for a time; a history is a sequence of them
    memory(history, prony)    Memory of a piece, worked out once for all its wraps
      .at_per_m(from_core_m)  what the film so far from the core end curls to
      .innermost_per_m        at the core end, where most of a roll is tightest
      .outermost_per_m        of what is used next
      .tight(circle_mm)       the stretches that curl tighter than a circle
      .tight_at_core_m        how much of the inner end does

Every place of the film has a history of its own, for the wraps of a roll lie on different
diameters, and rewinding turns a roll inside out. But curl is linear in what imposed it: of each
winding the whole piece keeps one share, negative where it was wound the other way, and the curl of
a place is the sum of those shares of the curvatures it had.

A curl above 0 is towards the face of the film. Places are told by their distance from the core
end of the present winding, the last one of the history. Drawing a roll down changes nothing for the
wraps that stay.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from stockroom.errors import Code, Refusal
from stockroom.film import roll
from stockroom.film.bending import curl_of_circle_per_m, imposed_per_m
from stockroom.film.prony import Prony, curl_per_m, free, held, straight
from stockroom.film.roots import crossing

_LOOKS = 32  # stretches in which a limit is looked for where film was rewound


@dataclass(frozen=True, slots=True, kw_only=True)
class Wound:
    """Film on a core, for so many aged-like days.

    `left_m` is what was on the core at the end, when the film was taken off, or is there now. Of
    what went on from there the inner end lay at `from_m`: an offcut leaves the rest on the core.
    `is_turned` tells that what had been the outer end lies at the core here; otherwise a whole roll
    was wound again with the same end inside. It says nothing about the first winding.
    """

    days: float
    core_outside_mm: float
    thickness_um: float  # as wound
    left_m: float
    from_m: float = 0.0
    face_out: bool = False
    is_turned: bool = True

    def __post_init__(self) -> None:
        roll.outside_mm(self.left_m, self.core_outside_mm, self.thickness_um)
        if self.from_m:
            roll.outside_mm(self.from_m, self.core_outside_mm, self.thickness_um)
        if self.from_m > self.left_m:
            raise Refusal(
                Code.BAD_ROLL,
                f"Film cannot lie from {self.from_m:g} m to {self.left_m:g} m of a roll: "
                "its inner end comes first.",
            )

    def imposed_per_m(self, from_core_m: float) -> float:
        """The curvature of the film so far from the core end; beyond it, as at the nearer end."""
        place_m = min(max(0.0, from_core_m), self.left_m)
        on_mm = roll.outside_mm(place_m, self.core_outside_mm, self.thickness_um)
        curvature = imposed_per_m(on_mm, self.thickness_um)
        return -curvature if self.face_out else curvature


@dataclass(frozen=True, slots=True)
class Flat:
    """Film held flat, as under a weight, for so many aged-like days."""

    days: float


@dataclass(frozen=True, slots=True)
class Free:
    """Film that lies as it likes for so many aged-like days."""

    days: float


Stage = Wound | Flat | Free


class Stretch(NamedTuple):
    """A part of a piece, by the distance of its ends from the core end."""

    from_m: float
    to_m: float


class _Turn(NamedTuple):
    """A winding, the share of it that film keeps, and where a place of today lay in it."""

    wound: Wound
    share: float
    start_m: float
    step: int  # 1, or -1 where the ends have changed places since

    def at_per_m(self, from_core_m: float) -> float:
        """What is left of the curvature that this winding gave a place."""
        return self.share * self.wound.imposed_per_m(self.start_m + self.step * from_core_m)


class Memory(NamedTuple):
    """What the film of a piece curls to, from its core end on."""

    turns: tuple[_Turn, ...]
    extent: Stretch

    def at_per_m(self, from_core_m: float) -> float:
        """What the film so far from the core end curls to."""
        return sum(turn.at_per_m(from_core_m) for turn in self.turns)

    @property
    def innermost_per_m(self) -> float:
        """The curl of the wrap at the core end."""
        return self.at_per_m(self.extent.from_m)

    @property
    def outermost_per_m(self) -> float:
        """The curl of the outer end, which is used next."""
        return self.at_per_m(self.extent.to_m)

    def tight(self, circle_mm: float) -> tuple[Stretch, ...]:
        """The stretches that curl tighter than a circle, to either side.

        Exact where film was wound once, for then it is tightest at the core. Where it was wound
        again the limit is looked for at 33 places, and each change between two found exactly.
        """
        limit = curl_of_circle_per_m(circle_mm)
        if len(self.turns) == 1:
            return _from_the_core(self.turns[0], limit, self.extent)
        places = [
            self.extent.from_m + (self.extent.to_m - self.extent.from_m) * look / _LOOKS
            for look in range(_LOOKS + 1)
        ]
        return tuple(_where_over(lambda place: abs(self.at_per_m(place)) - limit, places))

    def tight_at_core_m(self, circle_mm: float) -> float:
        """How much film, from the core end on, curls tighter than a circle."""
        stretches = self.tight(circle_mm)
        if stretches and stretches[0].from_m == self.extent.from_m:
            return stretches[0].to_m - stretches[0].from_m
        return 0.0


def memory(history: Sequence[Stage], prony: Prony, *, slower: float = 1.0) -> Memory:
    """What a piece remembers of how it was kept, from the oldest stage to the last.

    Film so many times slower takes so many times as many days for everything.
    """
    pace = 1 / slower
    turns = [
        (stage, _share(history[number:], prony, pace))
        for number, stage in enumerate(history)
        if isinstance(stage, Wound)
    ]
    if not turns:
        return Memory((), Stretch(0.0, 0.0))
    last = turns[-1][0]
    return Memory(tuple(_placed(turns)), Stretch(last.from_m, last.left_m))


def _share(history: Sequence[Stage], prony: Prony, pace: float) -> float:
    """How much of the curvature of its first stage film keeps to the end of a history."""
    if len(history) == 1:
        return _share_of_one(prony, history[0].days * pace)
    state = held(prony, straight(prony), 1.0, history[0].days * pace)
    for stage in history[1:]:
        if isinstance(stage, Free):
            state = free(prony, state, stage.days * pace)
        else:  # what a later winding imposes is a share of its own
            state = held(prony, state, 0.0, stage.days * pace)
    return curl_per_m(prony, state)


@lru_cache(maxsize=10_000)
def _share_of_one(prony: Prony, days: float) -> float:
    """The same of film that is wound still, as most is; many pieces came in on one day."""
    return curl_per_m(prony, held(prony, straight(prony), 1.0, days))


def _placed(turns: Sequence[tuple[Wound, float]]) -> Iterator[_Turn]:
    """Each winding, from the last to the first, with where the places of today lay in it."""
    start_m, step = 0.0, 1
    after: Wound | None = None
    for wound, share in reversed(turns):
        if after is not None and after.is_turned:
            start_m, step = wound.left_m - start_m, -step
        elif after is not None:
            start_m += wound.from_m
        yield _Turn(wound, share, start_m, step)
        after = wound


def _from_the_core(turn: _Turn, limit_per_m: float, extent: Stretch) -> tuple[Stretch, ...]:
    """The tight stretch of film that was wound once: up to the diameter that would be at the limit."""
    wound = turn.wound
    on_mm = 2_000 * abs(turn.share) / limit_per_m - wound.thickness_um * 1e-3
    if on_mm <= wound.core_outside_mm:
        return ()
    to_m = _length_under_m(on_mm, wound)
    return (Stretch(extent.from_m, min(to_m, extent.to_m)),) if to_m > extent.from_m else ()


def _length_under_m(on_mm: float, wound: Wound) -> float:
    """How much film lies below a diameter; all of it, where the roll is thinner."""
    outside_mm = roll.outside_mm(wound.left_m, wound.core_outside_mm, wound.thickness_um)
    if on_mm >= outside_mm:
        return wound.left_m
    return roll.length_m(on_mm, wound.core_outside_mm, wound.thickness_um)


def _where_over(over: Callable[[float], float], places: Sequence[float]) -> Iterator[Stretch]:
    """The stretches in which a function is above zero, from looks at places in order."""
    began = places[0] if over(places[0]) > 0 else None
    for here, there in pairwise(places):
        if began is None and over(there) > 0:
            began = crossing(over, here, there)
        elif began is not None and not over(there) > 0:
            yield Stretch(began, crossing(over, there, here))
            began = None
    if began is not None:
        yield Stretch(began, places[-1])
