"""Bringing a book's tables to the newest form, inside the caller's transaction."""

from pathlib import Path

from sqlalchemy import Connection, inspect, text

HEAD = "0008"
"""The newest revision; revisions are numbers of four digits and sort as text."""


def revision_of(connection: Connection) -> str | None:
    """The revision a book is at; None where it has never been a book."""
    if not inspect(connection).has_table("alembic_version"):
        return None
    found = connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
    return str(found) if found is not None else None


def is_empty(connection: Connection) -> bool:
    """Whether nothing at all is there yet, so that a book can be made of it."""
    return not inspect(connection).get_table_names()


def migrate(connection: Connection) -> None:
    """Run every migration the book has not seen; one station at a time, whole or not at all."""
    from alembic import command  # noqa: PLC0415 - paid for only when a book is made or moved on
    from alembic.config import Config  # noqa: PLC0415

    if connection.dialect.name == "postgresql":
        connection.execute(text("SELECT pg_advisory_xact_lock(7262)"))
    if revision_of(connection) == HEAD:
        return
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations"))
    config.attributes["connection"] = connection
    command.upgrade(config, HEAD)
