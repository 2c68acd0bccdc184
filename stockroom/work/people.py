"""People: who works here, and the digit each answers to at the Bench."""

from dataclasses import dataclass

from stockroom.books.opening import Book
from stockroom.books.people import Person, add_person, change_person, person_named
from stockroom.books.people import people as everybody
from stockroom.books.values import Asked
from stockroom.errors import Code, Refusal

KEYS = range(1, 10)


@dataclass(frozen=True, slots=True, kw_only=True)
class AddPerson(Asked):
    """Somebody new."""

    name: str
    key: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangePerson(Asked):
    """Another name or digit for somebody; None leaves the name, and takes the digit away."""

    name: str
    new_name: str | None = None
    key: int | None = None


def people(book: Book) -> tuple[Person, ...]:
    """Everybody who works here, by digit, then by name."""
    with book.reading() as connection:
        return everybody(connection)


def person(book: Book, name: str) -> Person:
    """The person of that name; an unknown one is not found."""
    with book.reading() as connection:
        return person_named(connection, name)


def add_a_person(request: AddPerson, *, book: Book) -> Person:
    """Enter somebody, with a digit for the Bench or without one."""
    made = _checked(request.name, request.key)
    with book.transaction() as connection:
        add_person(connection, made)
    return made


def change_a_person(request: ChangePerson, *, book: Book) -> Person:
    """Change a name or a digit; acts keep the name they were done under."""
    with book.transaction() as connection:
        known = person_named(connection, request.name)
        changed = _checked(
            known.name if request.new_name is None else request.new_name, request.key
        )
        change_person(connection, known, changed)
    return changed


def _checked(name: str, key: int | None) -> Person:
    if not name:
        raise Refusal(Code.BAD_NAME, "A person needs a name people know them by.")
    if key is not None and key not in KEYS:
        raise Refusal(Code.BAD_NUMBER, "People answer to one digit, from 1 to 9.")
    return Person(name, key)
