"""The hash that ties each move to the one before it.

It finds accidents and casual edits, not somebody who recomputes everything after a change.
"""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import UTC, date, datetime

VERSION = 1
START = "0" * 64


def _plain(value: object) -> object:
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat(timespec="microseconds")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return dict(value)
    if is_dataclass(value):
        return {one.name: getattr(value, one.name) for one in fields(value)}
    raise TypeError(f"{type(value).__name__} has no place in the journal")


_ENCODER = json.JSONEncoder(
    sort_keys=True, separators=(",", ":"), ensure_ascii=False, default=_plain
)


def canonical(content: object) -> str:
    """One text for one content: sorted keys, no spaces, instants in UTC to the microsecond."""
    return _ENCODER.encode(content)


def digest(content: object) -> str:
    """The SHA-256 of a content's canonical text, in hexadecimal."""
    return hashlib.sha256(canonical(content).encode()).hexdigest()


def link(previous: str, act: Mapping[str, object], move: Mapping[str, object]) -> str:
    """The hash of a move: over its content, its act's content and the piece's hash before."""
    return digest({"v": VERSION, "previous": previous, "act": act, "move": move})
