"""What a database says when it cannot go on, turned into one sentence for a person."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DatabaseError, DBAPIError, OperationalError

from stockroom.errors import Code, Refusal

_SAID = (
    ("is locked", Code.BOOK_LOCKED, "another station is writing; try again in a moment"),
    ("deadlock", Code.BOOK_LOCKED, "another station is writing; try again in a moment"),
    ("lock timeout", Code.BOOK_LOCKED, "another station is writing; try again in a moment"),
    ("readonly", Code.BOOK_READ_ONLY, "it may only be read here; change its permissions"),
    ("read-only", Code.BOOK_READ_ONLY, "it may only be read here; change its permissions"),
    ("no space left", Code.BOOK_FULL, "the disk is full; make room and do it again"),
    ("is full", Code.BOOK_FULL, "the disk is full; make room and do it again"),
    ("disk i/o error", Code.BOOK_FULL, "the disk refused to write; check its space and health"),
    ("not a database", Code.BOOK_DAMAGED, "the file is no stock book; name another with --book"),
    ("malformed", Code.BOOK_DAMAGED, "the file is damaged; restore the newest backup"),
    ("unable to open", Code.BOOK_UNREACHABLE, "it cannot be opened; check its folder"),
    ("no such table", Code.BOOK_DAMAGED, "the file is no stock book; name another with --book"),
    ("does not exist", Code.BOOK_UNREACHABLE, "the server has no such database or table"),
)


def fault_of(error: DBAPIError, name: str) -> Refusal:
    """The refusal that says what this database error means for the book of that name."""
    said = str(error.orig).lower()
    for words, code, sentence in _SAID:
        if words in said:
            return Refusal(code, f"The book {name} was not used: {sentence}.")
    return Refusal(
        Code.BOOK_UNREACHABLE,
        f"The book {name} cannot be reached: {str(error.orig).splitlines()[0]}.",
    )


@contextmanager
def faults(name: str) -> Iterator[None]:
    """Turn what the database cannot do into refusals; let bugs through."""
    try:
        yield
    except DatabaseError as error:
        if "unique constraint" in str(error.orig).lower():
            raise Refusal(
                Code.ALREADY_THERE,
                "Somebody else wrote the same at the same moment: look at what is there now.",
            ) from error
        if _is_fault(error):
            raise fault_of(error, name) from error
        raise
    except UnicodeDecodeError as error:
        # Python's own trouble with what SQLite says of tables whose names are damaged.
        raise Refusal(
            Code.BOOK_DAMAGED,
            f"The book {name} was not used: the file is damaged; restore the newest backup.",
        ) from error


def _is_fault(error: DatabaseError) -> bool:
    """Whether the database is to blame, and not the statement it was given."""
    said = str(error.orig).lower()
    if getattr(error.orig, "sqlite_errorcode", None) == sqlite3.SQLITE_ERROR:
        return "no such table" in said
    is_read_only = "readonly" in said or "read-only" in said
    return isinstance(error, OperationalError) or type(error) is DatabaseError or is_read_only
