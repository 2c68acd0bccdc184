"""A planned cut: what is drawn of one piece for a job, and what comes of it; kept with a reservation."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from stockroom.books.values import Act
from stockroom.units import MM
from stockroom.work.plan_job import JobPlan, MaterialPlan

PLAN = "plan"
"""The fact of a move that says what was planned of its piece."""

Laid = tuple[str, int, int, int, int]
"""A panel by its name, where it begins across and along the usable film, its size; in nm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedCut:
    """So much is drawn of a piece that held so much; sizes are across and along, in nm.

    `width_nm` is the film's without its factory edges: what is laid, and the offcuts that are
    `kept`, is measured from there and from the outer end.
    """

    piece: str
    balance_nm: int
    width_nm: int
    length_nm: int
    kept: tuple[tuple[int, int, int, int], ...]
    laid: tuple[Laid, ...]

    @property
    def offcuts(self) -> tuple[tuple[int, int], ...]:
        """The sizes of the offcuts that are kept."""
        return tuple((across, along) for _, _, across, along in self.kept)

    @property
    def panels(self) -> Mapping[str, int]:
        """How many panels of each name it makes."""
        return dict(Counter(name for name, *_ in self.laid))

    @property
    def panels_mm2(self) -> int:
        """The area of its panels, trims and all."""
        return sum(across * along for *_, across, along in self.laid) // (MM * MM)


def planned_cuts(plan: JobPlan) -> tuple[PlannedCut, ...]:
    """What a plan draws, one for each piece."""
    return tuple(cut for one in plan.materials for cut in _of_material(one))


def cuts_in(act: Act) -> tuple[PlannedCut, ...]:
    """The planned cuts an act reserved or made."""
    return tuple(from_facts(move.facts[PLAN]) for move in act.moves if PLAN in move.facts)  # type: ignore[arg-type]


def from_facts(content: Mapping[str, Any]) -> PlannedCut:
    """A planned cut as an act kept it."""
    return PlannedCut(
        piece=content["piece"],
        balance_nm=content["balance_nm"],
        width_nm=content["width_nm"],
        length_nm=content["length_nm"],
        kept=tuple((one[0], one[1], one[2], one[3]) for one in content["kept"]),
        laid=tuple((one[0], one[1], one[2], one[3], one[4]) for one in content["laid"]),
    )


def _of_material(one: MaterialPlan) -> Iterator[PlannedCut]:
    choice = one.choice
    places = sorted(
        range(len(choice.parts)),
        key=lambda place: (choice.parts[place].film.code, choice.parts[place].begins),
    )
    for code, group in groupby(places, key=lambda place: choice.parts[place].film.code):
        of_piece = list(group)
        parts = [choice.parts[place] for place in of_piece]
        kept = [
            (found[0], choice.parts[place].begins + found[1], *found[2:])
            for place in of_piece
            if (found := choice.offcuts[place]) is not None
        ]
        yield PlannedCut(
            piece=code,
            balance_nm=one.pieces[code].standing.state.balance,
            width_nm=parts[0].film.width,
            length_nm=max(part.ends for part in parts),
            kept=tuple(kept),
            laid=tuple(
                (choice.items[item].name, x, part.begins + y, across, along)
                for part in parts
                for item, x, y, across, along in sorted(part.spots, key=lambda spot: spot[2])
            ),
        )
