"""Supplies: the day a bottle was opened, or a tool put in use."""

import sqlalchemy as sa
from alembic import op
from sqlmodel.sql.sqltypes import AutoString

revision = "0006"
down_revision = "0005"


def upgrade() -> None:
    """Let a piece say when it began to be used."""
    op.add_column("piece", sa.Column("begun", AutoString(), nullable=True))
