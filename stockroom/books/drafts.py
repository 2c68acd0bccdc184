"""Drafts: what is half typed, kept until it is written or thrown away; no part of the journal."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, delete, insert, select, update

from stockroom.books.catalog import name_key
from stockroom.books.chain import canonical
from stockroom.books.tables import DraftRow, table_of

_DRAFT = table_of(DraftRow)


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """Something half typed: of what kind, under which name, by whom last and when."""

    id: int | None = None
    kind: str
    name: str
    content: Mapping[str, Any]
    operator: str
    updated_at: datetime


def drafts(connection: Connection, kind: str | None = None) -> tuple[Draft, ...]:
    """Every draft, oldest first; of one kind where it is named."""
    wanted = select(_DRAFT).order_by(_DRAFT.c.id)
    if kind is not None:
        wanted = wanted.where(_DRAFT.c.kind == kind)
    return tuple(
        Draft(**{**row, "content": json.loads(row["content"])})
        for row in connection.execute(wanted).mappings()
    )


def draft_named(connection: Connection, kind: str, name: str) -> Draft | None:
    """The draft of that kind and name, if one is kept."""
    key = name_key(name)
    return next((one for one in drafts(connection, kind) if name_key(one.name) == key), None)


def keep_draft(connection: Connection, draft: Draft) -> None:
    """Keep a draft in place of what was kept of it before."""
    row = {
        "kind": draft.kind,
        "name": draft.name,
        "content": canonical(draft.content),
        "operator": draft.operator,
        "updated_at": draft.updated_at,
    }
    if draft.id is None:
        connection.execute(insert(_DRAFT).values(row))
    else:
        connection.execute(update(_DRAFT).where(_DRAFT.c.id == draft.id).values(row))


def drop_draft(connection: Connection, draft: Draft) -> None:
    """Throw a draft away: it was written, or nobody wants it."""
    connection.execute(delete(_DRAFT).where(_DRAFT.c.id == draft.id))
