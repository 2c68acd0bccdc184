"""The first tables of a book, and the guards that keep the journal append-only."""

import sqlalchemy as sa
from alembic import op
from sqlmodel.sql.sqltypes import AutoString, UTCDateTime

from stockroom.books.guards import before_guards, guard_statements

revision = "0001"
down_revision = None

GUARDED = ("act", "move", "setting", "limit", "place_zone")


def upgrade() -> None:
    """Make every table, then guard the journal."""
    _shop()
    _things()
    _pieces()
    _journal()
    op.bulk_insert(
        sa.table("counter", sa.column("letter", sa.String), sa.column("last", sa.BigInteger)),
        [{"letter": letter, "last": 0} for letter in "BCJPR"],
    )
    dialect = op.get_bind().dialect.name
    for statement in before_guards(dialect):
        op.execute(statement)
    for table in GUARDED:
        for statement in guard_statements(dialect, table):
            op.execute(statement)


def _shop() -> None:
    """Settings and counters."""
    op.create_table(
        "counter",
        sa.Column("letter", AutoString(), nullable=False),
        sa.Column("last", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("letter"),
    )
    op.create_table(
        "setting",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", AutoString(), nullable=False),
        sa.Column("value", AutoString(), nullable=False),
        sa.Column("from_at", UTCDateTime(), nullable=False),
        sa.Column("recorded_at", UTCDateTime(), nullable=False),
        sa.Column("operator", AutoString(), nullable=False),
        sa.Column("why", AutoString(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index(op.f("ix_setting_name"), "setting", ["name"], unique=False)


def _things() -> None:
    """Materials, limits, places and jobs."""
    op.create_table(
        "material",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", AutoString(), nullable=False),
        sa.Column("name_key", AutoString(), nullable=False),
        sa.Column("kind", AutoString(), nullable=False),
        sa.Column("width_nm", sa.BigInteger(), nullable=True),
        sa.Column("thickness_nm", sa.BigInteger(), nullable=True),
        sa.Column("applied_nm", sa.BigInteger(), nullable=True),
        sa.Column("core_inside_nm", sa.BigInteger(), nullable=True),
        sa.Column("core_wall_nm", sa.BigInteger(), nullable=True),
        sa.Column("layers", sa.Text(), nullable=False),
        sa.Column("counted_from", AutoString(), nullable=False),
        sa.Column("cost_minor", sa.BigInteger(), nullable=True),
        sa.Column("note", AutoString(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("name_key"),
    )
    op.create_table(
        "limit",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("material_id", sa.Integer(), nullable=False),
        sa.Column("rule", AutoString(), nullable=False),
        sa.Column("value", AutoString(), nullable=False),
        sa.Column("basis", AutoString(), nullable=False),
        sa.Column("from_at", UTCDateTime(), nullable=False),
        sa.Column("recorded_at", UTCDateTime(), nullable=False),
        sa.Column("operator", AutoString(), nullable=False),
        sa.Column("why", AutoString(), nullable=False),
        sa.ForeignKeyConstraint(
            ["material_id"],
            ["material.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index(op.f("ix_limit_material_id"), "limit", ["material_id"], unique=False)
    op.create_table(
        "place",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", AutoString(), nullable=False),
        sa.Column("name", AutoString(), nullable=False),
        sa.Column("name_key", AutoString(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("code"),
        sa.UniqueConstraint("name_key"),
    )
    op.create_table(
        "place_zone",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("place_id", sa.Integer(), nullable=False),
        sa.Column("zone", AutoString(), nullable=False),
        sa.Column("from_at", UTCDateTime(), nullable=False),
        sa.Column("recorded_at", UTCDateTime(), nullable=False),
        sa.Column("operator", AutoString(), nullable=False),
        sa.ForeignKeyConstraint(
            ["place_id"],
            ["place.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index(op.f("ix_place_zone_place_id"), "place_zone", ["place_id"], unique=False)
    op.create_table(
        "job",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", AutoString(), nullable=False),
        sa.Column("name", AutoString(), nullable=False),
        sa.Column("site", AutoString(), nullable=False),
        sa.Column("on_day", AutoString(), nullable=True),
        sa.Column("kind", AutoString(), nullable=False),
        sa.Column("note", AutoString(), nullable=False),
        sa.Column("closed", sa.Boolean(), nullable=False),
        sa.Column("opened_at", UTCDateTime(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("code"),
    )


def _pieces() -> None:
    """Pieces."""
    op.create_table(
        "piece",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", AutoString(), nullable=False),
        sa.Column("seq", sa.Integer(), nullable=False),
        sa.Column("head", AutoString(), nullable=False),
        sa.Column("last_at", UTCDateTime(), nullable=False),
        sa.Column("last_kind", AutoString(), nullable=False),
        sa.Column("form", AutoString(), nullable=False),
        sa.Column("material_id", sa.Integer(), nullable=False),
        sa.Column("lot", AutoString(), nullable=True),
        sa.Column("owner", AutoString(), nullable=False),
        sa.Column("width_nm", sa.BigInteger(), nullable=True),
        sa.Column("balance", sa.BigInteger(), nullable=False),
        sa.Column("full", sa.BigInteger(), nullable=False),
        sa.Column("thickness_nm", sa.BigInteger(), nullable=True),
        sa.Column("core_inside_nm", sa.BigInteger(), nullable=True),
        sa.Column("core_wall_nm", sa.BigInteger(), nullable=True),
        sa.Column("cost_minor", sa.BigInteger(), nullable=True),
        sa.Column("made", AutoString(), nullable=True),
        sa.Column("shipped", AutoString(), nullable=True),
        sa.Column("received", AutoString(), nullable=False),
        sa.Column("printed", AutoString(), nullable=True),
        sa.Column("printed_by", AutoString(), nullable=True),
        sa.Column("ink", AutoString(), nullable=True),
        sa.Column("is_laminated", sa.Boolean(), nullable=False),
        sa.Column("is_wound", sa.Boolean(), nullable=False),
        sa.Column("in_tube", sa.Boolean(), nullable=False),
        sa.Column("wound_since", AutoString(), nullable=True),
        sa.Column("wound_days_before", sa.Integer(), nullable=False),
        sa.Column("shelf_passed", AutoString(), nullable=True),
        sa.Column("wound_passed", AutoString(), nullable=True),
        sa.Column("place_id", sa.Integer(), nullable=True),
        sa.Column("held", AutoString(), nullable=True),
        sa.Column("ended", AutoString(), nullable=True),
        sa.Column("parent", AutoString(), nullable=True),
        sa.Column("job_id", sa.Integer(), nullable=True),
        sa.CheckConstraint("balance >= 0", name="piece_balance"),
        sa.ForeignKeyConstraint(
            ["job_id"],
            ["job.id"],
        ),
        sa.ForeignKeyConstraint(
            ["material_id"],
            ["material.id"],
        ),
        sa.ForeignKeyConstraint(
            ["place_id"],
            ["place.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("code"),
    )
    op.create_index(op.f("ix_piece_ended"), "piece", ["ended"], unique=False)
    op.create_index(op.f("ix_piece_last_at"), "piece", ["last_at"], unique=False)
    op.create_index(op.f("ix_piece_material_id"), "piece", ["material_id"], unique=False)
    op.create_index(op.f("ix_piece_place_id"), "piece", ["place_id"], unique=False)


def _journal() -> None:
    """Acts and moves."""
    op.create_table(
        "act",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("request", AutoString(), nullable=False),
        sa.Column("request_hash", AutoString(), nullable=False),
        sa.Column("kind", AutoString(), nullable=False),
        sa.Column("at", UTCDateTime(), nullable=False),
        sa.Column("recorded_at", UTCDateTime(), nullable=False),
        sa.Column("operator", AutoString(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=True),
        sa.Column("note", AutoString(), nullable=False),
        sa.Column("reverses", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(
            ["job_id"],
            ["job.id"],
        ),
        sa.ForeignKeyConstraint(
            ["reverses"],
            ["act.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("request"),
        sa.UniqueConstraint("reverses"),
    )
    op.create_index(op.f("ix_act_at"), "act", ["at"], unique=False)
    op.create_index(op.f("ix_act_job_id"), "act", ["job_id"], unique=False)
    op.create_table(
        "move",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("act_id", sa.Integer(), nullable=False),
        sa.Column("piece_id", sa.Integer(), nullable=False),
        sa.Column("seq", sa.Integer(), nullable=False),
        sa.Column("kind", AutoString(), nullable=False),
        sa.Column("delta", sa.BigInteger(), nullable=False),
        sa.Column("balance", sa.BigInteger(), nullable=False),
        sa.Column("used_mm2", sa.BigInteger(), nullable=False),
        sa.Column("wasted_mm2", sa.BigInteger(), nullable=False),
        sa.Column("kept_mm2", sa.BigInteger(), nullable=False),
        sa.Column("cost_minor", sa.BigInteger(), nullable=False),
        sa.Column("sets", sa.Text(), nullable=False),
        sa.Column("facts", sa.Text(), nullable=False),
        sa.Column("hash", AutoString(), nullable=False),
        sa.CheckConstraint("balance >= 0", name="move_balance"),
        sa.ForeignKeyConstraint(
            ["act_id"],
            ["act.id"],
        ),
        sa.ForeignKeyConstraint(
            ["piece_id"],
            ["piece.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("piece_id", "seq", name="move_piece_seq"),
    )
    op.create_index(op.f("ix_move_act_id"), "move", ["act_id"], unique=False)
