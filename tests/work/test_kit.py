"""A kit knows its parts, and what is missing of them."""

import pytest

from stockroom.errors import Code
from stockroom.work.kit import missing_of, parts_of
from tests.builders import ON_ONE_ENGINE, is_sound, refused, written
from tests.floor import Floor

PARTS = (("squeegee", 2), ("heat gun", 1))


def test_a_part_that_is_taken_makes_the_kit_incomplete_until_it_is_back(floor: Floor) -> None:
    """In any case of its name; the box itself is still one box."""
    kit = floor.kit(*PARTS)

    act = floor.take_part(kit, "Squeegee")
    floor.take_part(kit, "squeegee")
    both = dict(missing_of(floor.state(kit)))
    floor.part_back(kit, "squeegee", 2)

    assert dict(parts_of(floor.state(kit))) == dict(PARTS)
    assert written(act) == [(kit, "part-out", 0, 1, 0, 0, 0, 0)]
    assert both == {"squeegee": 2}
    assert missing_of(floor.state(kit)) == {}
    assert is_sound(floor.book)


def test_a_new_list_of_parts_begins_complete_and_undo_brings_the_old_one_back(floor: Floor) -> None:
    """Whoever lists the parts has them in hand."""
    kit = floor.kit(*PARTS)
    floor.take_part(kit, "heat gun")

    floor.list_parts(kit, ("blade", 10))
    listed = dict(missing_of(floor.state(kit)))
    floor.undo(kit)

    assert listed == {}
    assert dict(missing_of(floor.state(kit))) == {"heat gun": 1}
    assert is_sound(floor.book)


def test_refuses_what_the_kit_has_not(floor: Floor) -> None:
    """More than there are, more back than were taken, a part nobody listed."""
    kit, box = floor.kit(*PARTS), floor.box(1)

    with refused(floor.book, Code.TOO_MANY, "has 2 squeegee"):
        floor.take_part(kit, "squeegee", 3)
    with refused(floor.book, Code.NOT_MISSING):
        floor.part_back(kit, "squeegee")
    with refused(floor.book, Code.NO_PART, "heat gun, squeegee"):
        floor.take_part(kit, "ladder")
    with refused(floor.book, Code.NO_PART, "is no kit"):
        floor.take_part(box, "squeegee")
    with refused(floor.book, Code.BAD_NUMBER):
        floor.take_part(kit, "squeegee", 0)


def test_a_kit_that_is_out_is_touched_when_it_is_in(floor: Floor) -> None:
    """It goes out and comes in like any box."""
    kit = floor.kit(*PARTS)
    floor.go_out(kit)

    with refused(floor.book, Code.OUT):
        floor.take_part(kit, "squeegee")
    floor.come_in(kit)
    floor.take_part(kit, "squeegee")


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("parts", "code"),
    [
        ((), Code.BAD_USAGE),
        ((("", 1),), Code.BAD_USAGE),
        ((("blade", 1), ("Blade", 2)), Code.BAD_USAGE),
        ((("blade", 0),), Code.BAD_NUMBER),
    ],
)
def test_refuses_a_list_that_is_none(
    floor: Floor, parts: tuple[tuple[str, int], ...], code: Code
) -> None:
    """Each part once, and at least one of it."""
    box = floor.box(1)

    with refused(floor.book, code):
        floor.list_parts(box, *parts)


def test_a_kit_is_one_box(floor: Floor) -> None:
    """A box of a hundred blades is no kit, and film is none either."""
    box, roll = floor.box(100), floor.roll()

    with refused(floor.book, Code.WRONG_FORM, "--count 1"):
        floor.list_parts(box, *PARTS)
    with refused(floor.book, Code.WRONG_FORM):
        floor.list_parts(roll, *PARTS)
