"""What a working week needs beyond one roll: being away, prints, kits, bottles, people, drafts."""

import sqlalchemy as sa
from alembic import op
from sqlmodel.sql.sqltypes import AutoString, UTCDateTime

revision = "0002"
down_revision = "0001"

_SHORT = (
    *("out_to", "out_since", "out_by", "artwork", "tile", "laminate_lot", "winding"),
    *("mixed", "contents", "hazard", "claim"),
)
_LISTS = ("layers", "flaws", "recount", "parts", "missing")


def upgrade() -> None:
    """Give pieces their new facts, and make the tables of people and drafts."""
    for name in _SHORT:
        op.add_column("piece", sa.Column(name, AutoString(), nullable=True))
    for name in _LISTS:
        op.add_column("piece", sa.Column(name, sa.Text(), nullable=True))
    op.add_column("piece", sa.Column("keeps_days", sa.Integer(), nullable=True))
    op.create_index("ix_piece_out_to", "piece", ["out_to"])
    op.create_table(
        "person",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", AutoString(), nullable=False),
        sa.Column("name_key", AutoString(), nullable=False),
        sa.Column("key", sa.Integer(), nullable=True),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("name_key"),
        sa.UniqueConstraint("key"),
    )
    op.create_table(
        "draft",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("kind", AutoString(), nullable=False),
        sa.Column("name", AutoString(), nullable=False),
        sa.Column("content", sa.Text(), nullable=False),
        sa.Column("operator", AutoString(), nullable=False),
        sa.Column("updated_at", UTCDateTime(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index("ix_draft_kind", "draft", ["kind"])
