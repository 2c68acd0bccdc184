"""The climate pieces are kept in: sensors and what they read, zones, and the sums made of them."""

import sqlalchemy as sa
from alembic import op
from sqlmodel.sql.sqltypes import AutoString, UTCDateTime

from stockroom.books.guards import guard_statements

revision = "0003"
down_revision = "0002"

GUARDED = ("sensor_entry", "zone_entry", "reading")
_MOVES_A_PIECE = sa.text("""sets LIKE '%"place_id"%' OR sets LIKE '%"out_to"%'""")
_CURL_TRIAL = sa.text("""facts LIKE '%"trial":"curl"%'""")


def upgrade() -> None:
    """Make the tables of the climate, guard what is history, and find moves of places and curl trials fast."""
    op.add_column("piece", sa.Column("curl_at_nm", sa.BigInteger(), nullable=True))
    op.add_column("piece", sa.Column("windings", sa.Text(), nullable=True))
    for name, which in (("place", _MOVES_A_PIECE), ("curl", _CURL_TRIAL)):
        op.create_index(
            f"ix_move_of_{name}",
            "move",
            ["piece_id", "seq"],
            sqlite_where=which,
            postgresql_where=which,
        )
    _sensors()
    _entries()
    _courses()
    dialect = op.get_bind().dialect.name
    for table in GUARDED:
        for statement in guard_statements(dialect, table):
            op.execute(statement)


def _sensors() -> None:
    """Sensors and their readings."""
    op.create_table(
        "sensor",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", AutoString(), nullable=False),
        sa.Column("name_key", AutoString(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("name_key"),
    )
    op.create_table(
        "reading",
        sa.Column("sensor_id", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.Column("at_s", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.Column("temperature_c", sa.Float(53), nullable=False),
        sa.Column("rh_pct", sa.Float(53), nullable=True),
        sa.ForeignKeyConstraint(["sensor_id"], ["sensor.id"]),
        sa.PrimaryKeyConstraint("sensor_id", "at_s"),
        sqlite_with_rowid=False,
    )


def _entries() -> None:
    """What is in force of sensors and zones, from when."""
    op.create_table(
        "sensor_entry",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("sensor_id", sa.Integer(), nullable=False),
        sa.Column("zone", AutoString(), nullable=False),
        sa.Column("offset_c", sa.Float(), nullable=False),
        sa.Column("offset_rh_pct", sa.Float(), nullable=False),
        sa.Column("silent_hours", sa.Integer(), nullable=False),
        sa.Column("from_at", UTCDateTime(), nullable=False),
        sa.Column("recorded_at", UTCDateTime(), nullable=False),
        sa.Column("operator", AutoString(), nullable=False),
        sa.Column("why", AutoString(), nullable=False),
        sa.ForeignKeyConstraint(["sensor_id"], ["sensor.id"]),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index("ix_sensor_entry_sensor_id", "sensor_entry", ["sensor_id"])
    op.create_table(
        "zone_entry",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("zone", AutoString(), nullable=False),
        sa.Column("name", AutoString(), nullable=False),
        sa.Column("value", AutoString(), nullable=False),
        sa.Column("from_at", UTCDateTime(), nullable=False),
        sa.Column("recorded_at", UTCDateTime(), nullable=False),
        sa.Column("operator", AutoString(), nullable=False),
        sa.Column("why", AutoString(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
    )


def _courses() -> None:
    """Sums over the readings of a zone, which can be dropped and made again."""
    op.create_table(
        "course_part",
        sa.Column("zone", AutoString(), nullable=False),
        sa.Column("gap_s", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.Column("measure", AutoString(), nullable=False),
        sa.Column("part", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.Column("first_s", sa.BigInteger(), nullable=False),
        sa.Column("last_s", sa.BigInteger(), nullable=False),
        sa.Column("amount", sa.Float(53), nullable=False),
        sa.Column("content", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("zone", "gap_s", "measure", "part"),
    )
