"""Append-only, held by the database itself, on both engines.

SQLite's OR REPLACE slips past UPDATE and DELETE triggers, so an INSERT over an existing row is
refused as well; PostgreSQL can also TRUNCATE, which is refused there.
"""

from collections.abc import Iterator

APPEND_ONLY: dict[str, str] = {
    "act": "id = NEW.id OR request = NEW.request OR reverses = NEW.reverses",
    "move": "id = NEW.id OR (piece_id = NEW.piece_id AND seq = NEW.seq)",
    "setting": "id = NEW.id",
    "limit": "id = NEW.id",
    "place_zone": "id = NEW.id",
    "sensor_entry": "id = NEW.id",
    "zone_entry": "id = NEW.id",
    "job_entry": "id = NEW.id",
    "order_entry": "id = NEW.id",
    "reading": "sensor_id = NEW.sensor_id AND at_s = NEW.at_s",
}
"""Each journal table, and what makes a new row the same row as an old one."""


def guard_statements(dialect: str, table: str) -> Iterator[str]:
    """The DDL that makes one table append-only."""
    if dialect == "sqlite":
        for verb in ("UPDATE", "DELETE"):
            yield (
                f'CREATE TRIGGER {table}_no_{verb.lower()} BEFORE {verb} ON "{table}" '
                f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
            )
        yield (
            f'CREATE TRIGGER {table}_no_replace BEFORE INSERT ON "{table}" '  # noqa: S608 - our names
            f'WHEN EXISTS (SELECT 1 FROM "{table}" WHERE {APPEND_ONLY[table]}) '
            f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
        )
    else:
        yield (
            f'CREATE TRIGGER {table}_no_change BEFORE UPDATE OR DELETE ON "{table}" '
            "FOR EACH ROW EXECUTE FUNCTION append_only()"
        )
        yield (
            f'CREATE TRIGGER {table}_no_truncate BEFORE TRUNCATE ON "{table}" '
            "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
        )


def before_guards(dialect: str) -> Iterator[str]:
    """The DDL the guards of an engine rest on."""
    if dialect == "postgresql":
        yield (
            "CREATE FUNCTION append_only() RETURNS trigger LANGUAGE plpgsql AS $$ "
            "BEGIN RAISE EXCEPTION '% is append-only', TG_TABLE_NAME; END $$"
        )
