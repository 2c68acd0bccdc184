"""How the film of a piece was kept: on which core, how long, and where on it the piece lay.

    core_outside_nm(state)     the diameter on which the film of a piece starts
    kept(state)                every stage of a piece, oldest first; the present one has no end
    ended(state, at, …)        what a move sets as `windings` when it ends the present stage
    stages_of(state, days)     the stages as roll memory reads them; None where that is not known
    began(state)               the day a piece is taken to have been wound from the first
    wraps_of(state)            where its film lies, or lay when it was wound last
    outside_nm(state)          the diameter on which its outer end lies, or lay last

Lengths are counted from the core end. Every stage says from where to where the film lay that went
on to the next one, and whether its ends changed places then.
"""

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import takewhile
from math import floor
from typing import Any, NamedTuple

from stockroom.books.chain import canonical
from stockroom.books.fold import State
from stockroom.film import roll
from stockroom.film.dates import parse_partial_date
from stockroom.film.memory import Flat, Stage
from stockroom.film.memory import Wound as WoundStage
from stockroom.units import MM, UM, M

WOUND, FLAT = "wound", "flat"

Days = Callable[[str | None, str | None], float]
"""Aged-like days from one ISO day or instant to another; from None is since made, to None is now."""


class Kept(NamedTuple):
    """A stage of how film was kept; the film that went on from it lay from `inner_nm` to `left_nm`."""

    how: str
    since: str | None  # an ISO day or instant; None: since made
    until: str | None  # an ISO instant; None: it still is
    left_nm: int
    inner_nm: int = 0
    core_outside_nm: int | None = None
    thickness_nm: int | None = None
    face: str | None = None
    turned: bool = False  # at its end: the outer end came to lie inside


@dataclass(frozen=True, slots=True)
class Wraps:
    """Where film lies on a core, and with which end first it goes on."""

    core_outside_nm: int
    thickness_nm: int
    inner_nm: int
    left_nm: int

    @property
    def inside_nm(self) -> int:
        """The diameter on which its inner end lies."""
        return self._on_nm(self.inner_nm)

    @property
    def outside_nm(self) -> int:
        """The diameter on which its outer end lies."""
        return self._on_nm(self.left_nm)

    def place_nm(self, diameter_nm: int) -> int:
        """How far from the core end the film lies that is on a diameter."""
        core_mm, thickness_um = self.core_outside_nm / MM, self.thickness_nm / UM
        return floor(roll.length_m(diameter_nm / MM, core_mm, thickness_um) * M)

    def _on_nm(self, place_nm: int) -> int:
        core_mm, thickness_um = self.core_outside_nm / MM, self.thickness_nm / UM
        return floor(roll.outside_mm(place_nm / M, core_mm, thickness_um) * MM)


def core_outside_nm(state: State) -> int | None:
    """The diameter on which the film starts: inside and both walls; None where either is unknown."""
    if state.core_inside_nm is None or state.core_wall_nm is None:
        return None
    return state.core_inside_nm + 2 * state.core_wall_nm


def kept(state: State) -> tuple[Kept, ...]:
    """Every stage of a piece, the present one last.

    What was cut off a roll and not wound anew keeps the curve it was cut at: its present stage is
    the one it had on the roll.
    """
    before = read(json.loads(state.windings)) if state.windings else ()
    if before and _lies_as_cut(state, before[-1]):
        *earlier, last = before
        return (*earlier, last._replace(until=None, left_nm=last.inner_nm + state.balance))
    since = before[-1].until if before else state.wound_since
    if not state.is_wound:
        return (*before, Kept(how=FLAT, since=since, until=None, left_nm=state.balance))
    present = Kept(
        how=WOUND,
        since=since,
        until=None,
        core_outside_nm=core_outside_nm(state),
        thickness_nm=state.thickness_nm,
        left_nm=state.balance,
        face=state.winding,
    )
    return (*before, present)


def ended(
    state: State,
    at: datetime,
    *,
    turned: bool = False,
    left_nm: int | None = None,
    inner_nm: int = 0,
) -> str:
    """The windings of a piece whose present stage ends now, or of one that film goes on to.

    What goes on are the lengths from `inner_nm` to `left_nm`, all of it unless said.
    """
    *earlier, last = kept(state)
    outer_nm = state.balance if left_nm is None else left_nm
    done = last._replace(
        until=at.astimezone(UTC).isoformat(),
        inner_nm=last.inner_nm + inner_nm,
        left_nm=last.inner_nm + outer_nm,
        turned=turned,
    )
    return canonical(written((*earlier, done)))


def stages_of(state: State, days: Days) -> tuple[Stage, ...] | None:
    """How a piece was kept, up to now; None where a core or thickness is not known."""
    return stages(kept(state), days)


def stages(history: Sequence[Kept], days: Days) -> tuple[Stage, ...] | None:
    """The same of stages somebody kept; None, too, where film is not known to have been wound."""
    found: list[Stage] = []
    is_turned = is_known = False
    for number, one in enumerate(history):
        lasted = days(one.since, one.until)
        if one.how == FLAT:
            found.append(Flat(lasted))
            continue
        went_on = _went_on(history[number:])
        if went_on.core_outside_nm is None or went_on.thickness_nm is None:
            return None
        found.append(
            WoundStage(
                days=lasted,
                core_outside_mm=went_on.core_outside_nm / MM,
                thickness_um=went_on.thickness_nm / UM,
                left_m=went_on.left_nm / M,
                from_m=went_on.inner_nm / M,
                face_out=one.face == "out",
                is_turned=is_turned,
            )
        )
        is_turned, is_known = went_on.turned, True
    return tuple(found) if is_known else None


def wraps_of(state: State) -> Wraps | None:
    """Where the film of a piece lies, or lay when it was wound last; None where that is not known."""
    history = kept(state)
    last = max((place for place, one in enumerate(history) if one.how == WOUND), default=None)
    if last is None:
        return None
    lay = _went_on(history[last:])
    if lay.core_outside_nm is None or lay.thickness_nm is None:
        return None
    return Wraps(lay.core_outside_nm, lay.thickness_nm, lay.inner_nm, lay.left_nm)


def outside_nm(state: State) -> int | None:
    """The diameter on which the outer end of a piece lies, or lay when it was wound last."""
    wraps = wraps_of(state)
    return None if wraps is None else wraps.outside_nm


def began(state: State) -> str:
    """The first day that is known of a piece: made, shipped or received, as an ISO day."""
    known = state.made or state.shipped or state.received
    return parse_partial_date(known).first.isoformat()


def written(history: Iterable[Kept]) -> list[dict[str, Any]]:
    """Stages as the journal has them."""
    return [{"from": content.pop("since"), **content} for content in map(Kept._asdict, history)]


def read(history: Iterable[Mapping[str, Any]]) -> tuple[Kept, ...]:
    """Stages as the journal has them, read back."""
    return tuple(
        Kept(since=one["from"], **{name: one[name] for name in one if name != "from"})
        for one in history
    )


def _lies_as_cut(state: State, last: Kept) -> bool:
    """Whether nothing was done to the winding of a piece since it was cut off another."""
    return (
        state.is_wound
        and state.core_inside_nm is None
        and not state.in_tube
        and last.how == WOUND
        and not last.turned
        and last.face == state.winding
    )


def _went_on(history: Sequence[Kept]) -> Kept:
    """A winding, and where in it the film lay that came to the next one, having lain flat or not."""
    wound, *rest = history
    if not rest:
        return wound
    for flat in takewhile(lambda one: one.how == FLAT, rest):
        inner_nm, left_nm = wound.inner_nm + flat.inner_nm, wound.inner_nm + flat.left_nm
        if wound.turned:
            inner_nm, left_nm = wound.left_nm - flat.left_nm, wound.left_nm - flat.inner_nm
        turned = wound.turned != flat.turned
        wound = wound._replace(inner_nm=inner_nm, left_nm=left_nm, turned=turned)
    return wound
