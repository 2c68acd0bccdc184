"""The history of the tables, oldest first; run by stockroom.books.migrating."""
