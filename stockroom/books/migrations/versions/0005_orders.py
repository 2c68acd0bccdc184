"""Orders: what was ordered of a supplier, and what acts say of it."""

import sqlalchemy as sa
from alembic import op
from sqlmodel.sql.sqltypes import AutoString, UTCDateTime

from stockroom.books.guards import guard_statements

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    """Make the tables of orders, guard what is history, and begin to count their codes."""
    op.create_table(
        "order",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", AutoString(), nullable=False),
        sa.Column("supplier", AutoString(), nullable=False),
        sa.Column("drafted_at", UTCDateTime(), nullable=False),
        sa.Column("closed", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("code"),
    )
    op.create_index("ix_order_closed", "order", ["closed"])
    op.create_table(
        "order_entry",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("act_id", sa.Integer(), nullable=False),
        sa.Column("order_id", sa.Integer(), nullable=False),
        sa.Column("name", AutoString(), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["act_id"], ["act.id"]),
        sa.ForeignKeyConstraint(["order_id"], ["order.id"]),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index("ix_order_entry_act_id", "order_entry", ["act_id"])
    op.create_index("ix_order_entry_order_id", "order_entry", ["order_id"])
    op.bulk_insert(
        sa.table("counter", sa.column("letter", sa.String), sa.column("last", sa.BigInteger)),
        [{"letter": "D", "last": 0}],
    )
    for statement in guard_statements(op.get_bind().dialect.name, "order_entry"):
        op.execute(statement)
