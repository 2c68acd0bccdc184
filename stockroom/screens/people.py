"""Who is at work: chosen by a code of the wall card, by a digit, or by name."""

from collections.abc import Mapping
from dataclasses import dataclass

from textual.message import Message

from stockroom.books.people import Person
from stockroom.errors import Code, Refusal
from stockroom.screens.form import Blank, Field
from stockroom.screens.station import Station
from stockroom.work.people import people, person


@dataclass
class PersonFound(Message):
    """Somebody steps up to the station."""

    name: str


def person_at(station: Station, key: int) -> PersonFound:
    """The person who answers to a digit."""
    return PersonFound(_of_key(people(station.book), key).name)


@dataclass
class WhoAsked(Message):
    """The form that asks who is at work is ready."""

    blank: Blank


def who(station: Station) -> WhoAsked:
    """Who is at work?"""
    known = people(station.book)
    hint = "   ".join(f"{one.key} {one.name}" for one in known if one.key) or "a name"

    def write(said: Mapping[str, str]) -> str:
        named = said["who"]
        if named.isascii() and named.isdigit():
            return _of_key(people(station.book), int(named)).name
        return person(station.book, named).name

    fields = (Field(name="who", hint=hint),)
    title = f"Who is at work? Now it is {station.operator}."
    return WhoAsked(Blank(title=title, fields=fields, write=write))


def _of_key(known: tuple[Person, ...], key: int) -> Person:
    found = next((one for one in known if one.key == key), None)
    if found is None:
        raise Refusal(
            Code.NO_PERSON,
            f"Nobody answers to {key}: enter them with `stockroom person add NAME --key {key}`.",
        )
    return found
