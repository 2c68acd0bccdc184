"""What an act did that touched no piece: to a job, or to an order; and which act an undo took back."""

from collections.abc import Mapping

from stockroom.books.values import Act
from stockroom.lines import words
from stockroom.work.order_draft import DRAFT
from stockroom.work.orders import CANCEL, SEND
from stockroom.work.undo import UNDONE

_OF_JOBS = {"panels": "panels of", "spoiled": "spoiled panels of", "install": "installed"}
_OF_ORDERS = {DRAFT: "drafted order", SEND: "sent order", CANCEL: "cancelled order"}


def of_no_piece(act: Act) -> str:
    """What was done, and to which job; the remark of an act of an order names it."""
    if act.kind in _OF_ORDERS:
        return f"{_OF_ORDERS[act.kind]} {act.note}"
    said = _OF_JOBS.get(act.kind, f"{act.kind} job")
    return f"{said} {words.code(act.job)}" if act.job else act.kind


def undone(act_id: int | None, facts: Mapping[str, object]) -> str:
    """Which act an undo took back, and of what kind, where it says so."""
    kind = facts.get(UNDONE)
    return f"undo of act {act_id}" + (f" ({kind})" if kind else "")
