"""What jobs are to cover, what is reserved for them, and what tells films of one kind apart."""

import sqlalchemy as sa
from alembic import op
from sqlmodel.sql.sqltypes import AutoString

from stockroom.books.guards import guard_statements

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Give jobs their entries, pieces their reservations, materials a finish, glass its type."""
    op.add_column("piece", sa.Column("reserved", sa.Text(), nullable=True))
    which = sa.text("reserved IS NOT NULL")
    op.create_index(
        "ix_piece_reserved", "piece", ["code"], sqlite_where=which, postgresql_where=which
    )
    op.add_column("material", sa.Column("finish", AutoString(), nullable=True))
    op.add_column("job", sa.Column("glass", AutoString(), nullable=True))
    op.create_table(
        "job_entry",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("act_id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("name", AutoString(), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["act_id"], ["act.id"]),
        sa.ForeignKeyConstraint(["job_id"], ["job.id"]),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index("ix_job_entry_act_id", "job_entry", ["act_id"])
    op.create_index("ix_job_entry_job_id", "job_entry", ["job_id"])
    for statement in guard_statements(op.get_bind().dialect.name, "job_entry"):
        op.execute(statement)
