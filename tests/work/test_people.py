"""Who works here."""

import pytest

from stockroom.books.people import Person
from stockroom.errors import Code
from stockroom.work.people import (
    AddPerson,
    ChangePerson,
    add_a_person,
    change_a_person,
    people,
    person,
)
from tests.builders import Station, refused


def _add(station: Station, name: str, key: int | None = None) -> Person:
    return add_a_person(AddPerson(**station.asked(name=name, key=key)), book=station.book)


def _change(station: Station, name: str, **given: object) -> Person:
    return change_a_person(ChangePerson(**station.asked(name=name, **given)), book=station.book)


def test_people_stand_by_digit_then_by_name(station: Station) -> None:
    """Those who answer to no digit come last."""
    for name, key in (("Tomas R.", None), ("Ida M.", 2), ("Ana", None), ("Bo", 1)):
        _add(station, name, key)

    assert people(station.book) == (
        Person("Bo", 1),
        Person("Ida M.", 2),
        Person("Ana", None),
        Person("Tomas R.", None),
    )


def test_two_people_share_neither_name_nor_digit(station: Station) -> None:
    """Case and spacing of a name do not count."""
    _add(station, "Ida M.", 2)

    with refused(station.book, Code.ALREADY_THERE, "“ida  m.”"):
        _add(station, "ida  m.")
    with refused(station.book, Code.ALREADY_THERE, "2 is Ida M.'s"):
        _add(station, "Bo", 2)
    _add(station, "Bo", 1)
    with refused(station.book, Code.ALREADY_THERE):
        _change(station, "Bo", key=2)
    with refused(station.book, Code.ALREADY_THERE):
        _change(station, "Bo", new_name="IDA M.", key=1)


def test_a_name_and_a_digit_can_change(station: Station) -> None:
    """Each without the other, and in case alone."""
    _add(station, "Ida M.", 2)

    assert _change(station, "ida m.", new_name="IDA M.", key=2) == Person("IDA M.", 2)
    assert _change(station, "Ida M.", key=3) == Person("IDA M.", 3)
    assert _change(station, "Ida M.") == Person("IDA M.", None)
    assert person(station.book, "Ida M.") == Person("IDA M.", None)


@pytest.mark.parametrize("key", [0, 10, -1])
def test_a_digit_is_one_to_nine(station: Station, key: int) -> None:
    """There are no other keys for it."""
    with refused(station.book, Code.BAD_NUMBER):
        _add(station, "Ida M.", key)


def test_a_person_has_a_name_and_is_known_by_it(station: Station) -> None:
    """An unknown name is not found."""
    with refused(station.book, Code.BAD_NAME):
        _add(station, "")
    with refused(station.book, Code.NO_PERSON):
        _change(station, "Ida M.", key=1)
