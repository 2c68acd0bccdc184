"""Verifying a book, copying it, and putting a copy back in its place."""

from datetime import datetime
from pathlib import Path

from stockroom.books.backup import Copy, copy_book
from stockroom.books.opening import Book
from stockroom.books.restoring import Restored
from stockroom.books.restoring import restore as put_back
from stockroom.books.values import Finding
from stockroom.books.verify import verify as verify_all
from stockroom.books.verify_climate import wrong_sums
from stockroom.work.settling import wrong_settled


def verify(book: Book, *, sums: bool = False) -> list[Finding]:
    """Fold every journal again and say everything that does not agree.

    The stored sums of the climate can be made again at any time; only on demand they are summed
    anew, and compared.
    """
    with book.reading() as connection:
        found = verify_all(connection)
        if not sums:
            return found
        found += wrong_sums(connection)
    return found + wrong_settled(book)


def backup(book: Book, target: Path) -> Copy:
    """Copy a book to a new file as of one moment, verify the copy, and put it in place whole."""
    return copy_book(book, target)


def restore(where: str, file: Path, *, now: datetime) -> Restored:
    """Put a verified backup in the place of the book named by a path or URL, which is kept first."""
    return put_back(where, file, now=now)
