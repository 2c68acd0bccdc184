"""Alembic's entry: runs the migrations on the connection it is handed."""

from alembic import context

from stockroom.books.tables import ActRow

connection = context.config.attributes["connection"]
context.configure(
    connection=connection,
    target_metadata=ActRow.metadata,
    transactional_ddl=True,
    transaction_per_migration=False,
    render_as_batch=False,
)
context.run_migrations()
