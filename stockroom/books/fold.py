"""The state of a piece: one pure fold over the moves that are not reversed."""

from collections.abc import Mapping, Sequence
from functools import reduce
from typing import NamedTuple, Protocol

GONE = "undone"


class State(NamedTuple):
    """All that the journal says of one piece; lengths in nm, a box counts pieces.

    `balance` is the length left of a roll, the length along of an offcut, the number in a box.
    Dates are ISO texts, known in part or in full; `printed_by` is the instant a print was done at
    the latest. `ended` says why a piece is no more. Lists (`layers`, `flaws`, `parts`, `missing`,
    `recount`, `reserved`) are canonical JSON. Made with names; a tuple, for it is read from rows by the
    thousand, and a dataclass of so many fields takes ten times as long.
    """

    form: str
    material_id: int
    balance: int
    full: int
    received: str
    lot: str | None = None
    owner: str = "ours"
    width_nm: int | None = None
    thickness_nm: int | None = None
    core_inside_nm: int | None = None
    core_wall_nm: int | None = None
    cost_minor: int | None = None
    made: str | None = None
    shipped: str | None = None
    printed: str | None = None
    printed_by: str | None = None
    ink: str | None = None
    is_laminated: bool = False
    is_wound: bool = True
    in_tube: bool = False
    wound_since: str | None = None
    wound_days_before: int = 0
    shelf_passed: str | None = None
    wound_passed: str | None = None
    place_id: int | None = None
    held: str | None = None
    ended: str | None = None
    parent: str | None = None
    job_id: int | None = None
    out_to: str | None = None  # a whole roll is away: where
    out_since: str | None = None
    out_by: str | None = None
    artwork: str | None = None
    tile: str | None = None  # n of m, as 2/4
    laminate_lot: str | None = None
    layers: str | None = None  # its own; None: the material's
    winding: str | None = None  # the side that is wound out: face or liner
    flaws: str | None = None  # each with its distance from the core, which no cut moves
    recount: str | None = None  # a blind count that waits for a second counter
    parts: str | None = None  # of a kit: each part and its number
    missing: str | None = None  # of a kit: what was taken
    mixed: str | None = None  # the day a bottle was mixed or decanted
    keeps_days: int | None = None  # from when it was mixed or opened
    contents: str | None = None
    hazard: str | None = None
    claim: str | None = None  # the number under which a piece was sent back
    curl_at_nm: int | None = None  # the outside diameter at which a curl trial was passed
    windings: str | None = None  # how it was wound before the present winding, and lay between
    reserved: str | None = None  # how much of it is kept for which job, and until when
    begun: str | None = None  # the day a bottle was opened, or a tool put in use


class Folded(Protocol):
    """What the fold reads of a move."""

    @property
    def delta(self) -> int:
        """The change of the balance."""
        ...

    @property
    def sets(self) -> Mapping[str, object]:
        """The fields the move sets, by their names in State."""
        ...


def step(state: State | None, move: Folded) -> State:
    """The state after one more move; the first move of a piece names every fact it begins with."""
    if state is None:
        born = {"balance": move.delta, "full": move.delta, **move.sets}
        return State(**born)  # type: ignore[arg-type]
    changed = {"balance": state.balance + move.delta, **move.sets}
    return state._replace(**changed)  # type: ignore[arg-type]


def fold(born: Folded, standing: Sequence[Folded]) -> State:
    """The state after the moves of a piece that stand; where its first was taken back, nothing is left.

    A piece that is gone can still be met: its label is scanned at a stocktake.
    """
    first = step(None, born)
    if standing and standing[0] is born:
        return reduce(step, standing[1:], first)
    return reduce(step, standing, first._replace(balance=0, ended=GONE))
