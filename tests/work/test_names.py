"""Whatever people and files call things, it goes through the books unharmed."""

import unicodedata

import pytest

from stockroom.errors import Code, clean_text
from stockroom.units import M
from stockroom.work.look import Wanted, log, piece, rack
from tests.builders import Station, is_sound, refused

HOSTILE = {
    "markup": "PET [/] 90% [@click=app.quit]x[/] [red]",
    "escapes": "film\x1b[31m\x1b]0;title\x07\x9b2J",
    "bidi": "rolls \u202e\u2066gnol\u2069 \u200f\u200e",
    "newlines": "one\r\ntwo\u2028three\u0085four\tfive",
    "quotes": 'Robert\'); DROP TABLE act;-- "x" \\ % _ `',
    "nothing to see": "\u200b\u200c\u200d\ufeff\u00ad",
    "zero byte": "a\x00b",
    "marks": "Z\u0351\u036b\u0343\u036a\u0302\u0346algo",
    "surrogate": "half \ud800 a pair",
    "not composed": "Kle\u0301ber",
    "wide": "\uff32\uff10\uff10 \U0001f9fb \U0001d5e5",
    "json": '{"sets": null, "x": [1, 2',
    "long": "x" * 10_000,
    "long and combined": "e" + "\u0301" * 10_000,
}


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_a_hostile_name_is_harmless_everywhere(station: Station, text: str) -> None:
    """Cleaned once, it comes back letter by letter and harms neither lists, nor hashes, nor SQL."""
    name, lot, note = (clean_text(text, limit) or "-" for limit in (120, 60, 200))
    station.material(name)
    station.place(name, zone=name)
    job = station.job(name, site=name, note=note)
    roll = station.roll(material=name, lot=lot, place=name, operator=lot, note=note)
    station.cut(roll, M, job=job, note=note, operator=lot)
    station.hold(roll, note)

    card = piece(station.book, roll, now=station.now)

    found = card.judged.standing
    assert (found.material.name, found.state.lot, found.state.held) == (name, lot, note)
    assert found.place is not None
    assert (found.place.name, found.place.zone) == (name, name)
    assert [(act.operator, act.note) for act in card.acts[1:]] == [(lot, note), (lot, note)]
    assert log(station.book, now=station.now, job=job)[0].job == job
    found_by = Wanted(find=lot)
    assert [one.code for one in rack(station.book, now=station.now, wanted=found_by).pieces] == [
        roll
    ]
    assert is_sound(station.book)
    with refused(station.book, Code.ALREADY_THERE):
        station.material(name)


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_a_cleaned_text_holds_nothing_a_terminal_obeys(text: str) -> None:
    """One line, composed, without controls, formats, surrogates and towers of marks."""
    clean = clean_text(text)

    assert len(clean) <= 120
    assert len(clean.splitlines()) <= 1
    assert unicodedata.is_normalized("NFC", clean)
    assert clean_text(clean) == clean
    categories = {unicodedata.category(one) for one in clean}
    assert not categories & {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}


def test_a_pattern_finds_itself_and_nothing_else(station: Station) -> None:
    """Signs that mean something in SQL mean themselves."""
    percent, other = station.roll(lot="90%"), station.roll(lot="90")

    found = rack(station.book, now=station.now, wanted=Wanted(find="90%")).pieces

    assert [one.code for one in found] == [percent]
    assert other != percent
