"""What only some pieces have, as the dictionary a script reads: all of it null where it is not so."""

from datetime import datetime
from typing import Any

from stockroom.books.fold import State
from stockroom.books.values import Shop
from stockroom.work.blind import waiting_of
from stockroom.work.kit import missing_of, parts_of


def floor_values(state: State, shop: Shop) -> dict[str, Any]:
    """Whose it is, where it is away, what is asked of it, and what a kit or a bottle has."""
    since = state.out_since
    return {
        "owner": state.owner,
        "out_to": state.out_to,
        "out_since": since and shop.local(datetime.fromisoformat(since)).isoformat(),
        "out_by": state.out_by,
        "counts_waiting": len(waiting_of(state)),
        "claim": state.claim,
        "parts": dict(parts_of(state)) or None,
        "parts_missing": dict(missing_of(state)) or None,
        "mixed_on": state.mixed,
        "begun_on": state.begun,
        "keeps_days": state.keeps_days,
        "contents": state.contents,
        "hazard": state.hazard,
    }
