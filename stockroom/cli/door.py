"""The way to a command's book: opened where it is there, made where a command may make it."""

from contextlib import suppress
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import typer

if TYPE_CHECKING:
    from stockroom.books.opening import Book


class Door:
    """The way to one book: opened at the first need, and made then where a command may make it."""

    def __init__(self, where: str, *, makes: bool, is_default: bool) -> None:
        self._where = where
        self._makes = makes
        self._is_default = is_default
        self._book: Book | None = None

    def is_there(self) -> bool:
        """Whether the book can be opened without making it; a reading command must try."""
        from stockroom.books.opening import book_exists

        return not self._makes or book_exists(self._where)

    def open(self) -> "Book":
        """The open book."""
        from stockroom.books.opening import open_book

        if self._book is None:
            make = partial(make_book, is_default=self._is_default)
            self._book = make(self._where) if self._makes else open_book(self._where)
        return self._book

    def close(self) -> None:
        """Let the book go, if it was opened."""
        if self._book is not None:
            self._book.close()


def make_book(where: str, *, is_default: bool) -> "Book":
    """The book that is there, or a new one, which is said."""
    from stockroom.books.opening import book_exists, create_book

    if is_default:
        with suppress(OSError):  # a folder that is not there then is refused with the book
            Path(where).parent.mkdir(parents=True, exist_ok=True)
    is_new = not book_exists(where)
    book = create_book(where)
    if is_new:
        typer.echo(f"A new book was made: {book.name}", err=True)
    return book
