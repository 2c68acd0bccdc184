"""What storage did to pieces up to a second, stored for all of them at once."""

import sqlalchemy as sa
from alembic import op
from sqlmodel.sql.sqltypes import AutoString

revision = "0008"
down_revision = "0007"


def upgrade() -> None:
    """Make room for it; whoever writes readings next, or moves a sensor or a place, fills it."""
    op.create_table(
        "settled",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("made_s", sa.BigInteger(), nullable=False),
        sa.Column("until_s", sa.BigInteger(), nullable=False),
        sa.Column("last_s", sa.BigInteger(), nullable=False),
        sa.Column("basis", AutoString(), nullable=False),
        sa.Column("pieces", sa.BigInteger(), nullable=False),
        sa.Column("moves", sa.BigInteger(), nullable=False),
        sa.Column("last_move", sa.BigInteger(), nullable=False),
        sa.Column("content", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
        sqlite_autoincrement=True,
    )
