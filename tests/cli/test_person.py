"""People, as they are entered."""

import pytest

from tests.cli.conftest import Shop


def test_people_are_entered_listed_and_changed(shop: Shop) -> None:
    """By digit; a name comes clean."""
    assert shop.lines("person", "list")[0].startswith("Nobody is entered yet")
    shop.lines("person", "add", "Tomas\x1b R.")
    assert shop.values("person", "add", "Ida M.", "--key", "2") == {"name": "Ida M.", "key": 2}
    assert shop.lines("person", "list") == ["2  Ida M.", "-  Tomas R."]

    shop.lines("person", "change", "tomas r.", "--key", "1")
    shop.lines("person", "change", "ida m.", "--name", "Ida N.")
    assert shop.lines("person", "list") == ["1  Tomas R.", "2  Ida N."]

    shop.lines("person", "change", "ida n.", "--no-key")
    assert shop.values("person", "list")["people"][1] == {"name": "Ida N.", "key": None}


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("person add Bo --key 0", 2),
        ("person add Bo --key 12", 2),
        ("person change Bo", 2),
        ("person change Bo --key 1 --no-key", 2),
        ("person change Bo --key 1", 4),
    ],
)
def test_what_nobody_can_be_is_refused(shop: Shop, words: str, code: int) -> None:
    """In one line, and nothing is written."""
    before = shop.dump()

    ran = shop.run(*words.split())

    assert (ran.code, ran.out, ran.err.count("\n")) == (code, "", 1)
    assert shop.dump() == before
