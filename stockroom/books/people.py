"""Who works here: names, and the digit each answers to at the Bench."""

from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import Connection, insert, select, update

from stockroom.books.catalog import name_key
from stockroom.books.tables import PersonRow, table_of
from stockroom.errors import Code, Refusal

_PERSON = table_of(PersonRow)


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody who works here; `key` is the digit they answer to, if any."""

    name: str
    key: int | None = None


def people(connection: Connection) -> tuple[Person, ...]:
    """Everybody, by digit, then by name."""
    rows = connection.execute(select(_PERSON).order_by(_PERSON.c.name_key))
    return tuple(sorted((Person(row.name, row.key) for row in rows), key=_rank))


def _rank(person: Person) -> int:
    return 10 if person.key is None else person.key


def person_named(connection: Connection, name: str) -> Person:
    """The person of that name; an unknown one is not found."""
    found = _find(connection, name)
    if found is None:
        raise Refusal(Code.NO_PERSON, f"Nobody is called “{name}”: see `person list`.")
    return found


def add_person(connection: Connection, person: Person) -> None:
    """Enter a person; a name or a digit that is taken is refused."""
    _refuse_taken(connection, person, but="")
    row = {"name": person.name, "name_key": name_key(person.name), "key": person.key}
    connection.execute(insert(_PERSON).values(row))


def change_person(connection: Connection, known: Person, changed: Person) -> None:
    """Give a person another name or digit; what they did before keeps the name it was done under."""
    _refuse_taken(connection, changed, but=name_key(known.name))
    row: Mapping[str, object] = {
        "name": changed.name,
        "name_key": name_key(changed.name),
        "key": changed.key,
    }
    here = _PERSON.c.name_key == name_key(known.name)
    connection.execute(update(_PERSON).where(here).values(row))


def _find(connection: Connection, name: str) -> Person | None:
    wanted = select(_PERSON).where(_PERSON.c.name_key == name_key(name))
    row = connection.execute(wanted).first()
    return None if row is None else Person(row.name, row.key)


def _refuse_taken(connection: Connection, person: Person, *, but: str) -> None:
    key = name_key(person.name)
    if key != but and _find(connection, person.name) is not None:
        raise Refusal(Code.ALREADY_THERE, f"Somebody is already called “{person.name}”.")
    for other in people(connection):
        if person.key is not None and other.key == person.key and name_key(other.name) != but:
            raise Refusal(
                Code.ALREADY_THERE,
                f"{person.key} is {other.name}'s: choose another digit, or change theirs first.",
            )
