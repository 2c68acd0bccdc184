"""What is mixed or decanted: a bottle of its own, with contents, hazard line and last day."""

from datetime import date, timedelta

import pytest

from stockroom.errors import Code
from stockroom.film.dates import parse_span
from stockroom.film.kinds import Kind
from stockroom.film.verdict import Judgement, Verdict
from stockroom.work.label import labels
from stockroom.work.look import piece
from tests.builders import BLADES, ON_ONE_ENGINE, is_sound, refused, written
from tests.floor import SOLUTION, Floor


def test_each_bottle_has_a_code_and_all_its_label_says(floor: Floor) -> None:
    """One act; each of them can be put, used up and thrown away by itself."""
    done = floor.mix(bottles=2, place=floor.place())

    assert written(done.act) == [(code, "mix", 1, 1, 0, 0, 0, 0) for code in done.codes]
    state = floor.state(done.codes[0])
    assert (state.form, state.mixed, state.keeps_days) == ("box", "2026-11-25", 7)
    assert (state.contents, state.hazard) == ("water, 1 % baby soap", "keep from eyes")
    assert len(set(done.codes)) == 2
    assert is_sound(floor.book)


def test_a_bottle_is_used_first_at_its_end_and_stops_after_it(floor: Floor) -> None:
    """No trial helps; a reason does, as for any age."""
    code = floor.mix(keeps="7d").codes[0]

    def verdict() -> Verdict:
        return piece(floor.book, code, now=floor.now).judged.judgement.verdict

    fresh = verdict()
    floor.wait(days=7)
    last = verdict()
    floor.wait(days=1)

    assert (fresh, last, verdict()) == (Verdict.USE, Verdict.USE_FIRST, Verdict.STOP)
    with refused(floor.book, Code.STOPPED, "mixed 8 days ago"):
        floor.take(code, 1)
    assert floor.take(code, 1, despite="only to rinse").left == 0


@pytest.mark.parametrize("keeps", ["7d", "2mo", "1y"])
def test_the_label_and_the_verdict_name_the_same_last_day(floor: Floor, keeps: str) -> None:
    """On the day the label says, it may be used; on the next it may not."""
    code = floor.mix(keeps=keeps).codes[0]
    (label,) = labels([code], book=floor.book, now=floor.now)
    use_by = date.fromisoformat(dict(label.facts)["use by"])

    def on(day: date) -> Judgement:
        return piece(floor.book, code, now=floor.now, today=day).judged.judgement

    assert on(use_by).due == use_by == parse_span(keeps).after(floor.now.date())
    assert on(use_by).verdict is Verdict.USE_FIRST
    assert on(use_by + timedelta(days=1)).verdict is Verdict.STOP


def test_what_it_was_mixed_from_is_on_record(floor: Floor) -> None:
    """The bottle has its lot; nothing is counted off it, for nobody measured."""
    floor.material(SOLUTION, Kind.LIQUID)
    concentrate = floor.box(4, material=SOLUTION, lot="S-3")

    done = floor.mix(source=concentrate)

    state = floor.state(done.codes[0])
    assert (state.lot, state.parent) == ("S-3", concentrate)
    assert floor.state(concentrate).balance == 4
    floor.undo(done.codes[0])
    assert floor.state(done.codes[0]).ended == "undone"
    assert is_sound(floor.book)


def test_a_bottle_that_may_not_be_used_is_not_mixed_from(floor: Floor) -> None:
    """Held, spoiled by age, or no liquid at all."""
    first = floor.mix(keeps="1d").codes[0]
    floor.wait(days=2)
    held = floor.mix().codes[0]
    floor.hold(held)
    blades = floor.box(10)

    with refused(floor.book, Code.STOPPED):
        floor.mix(source=first)
    with refused(floor.book, Code.HELD):
        floor.mix(source=held)
    with refused(floor.book, Code.WRONG_KIND):
        floor.mix(source=blades)
    with refused(floor.book, Code.WRONG_KIND, "only a liquid"):
        floor.mix(material=BLADES)


@ON_ONE_ENGINE
@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({"contents": ""}, Code.BAD_USAGE),
        ({"hazard": ""}, Code.BAD_USAGE),
        ({"keeps": "soon"}, Code.BAD_SPAN),
        ({"bottles": 0}, Code.BAD_NUMBER),
        ({"bottles": 101}, Code.BAD_NUMBER),
        ({"material": "nothing"}, Code.NO_MATERIAL),
        ({"place": "nowhere"}, Code.NO_PLACE),
    ],
)
def test_no_bottle_without_a_label(floor: Floor, given: dict[str, object], code: Code) -> None:
    """What is in it, what to mind, and how long it keeps."""
    floor.mix()

    with refused(floor.book, code):
        floor.mix(**given)


def test_months_keep_as_long_as_the_calendar_says(floor: Floor) -> None:
    """Two months from the 25th of November are 61 days."""
    state = floor.state(floor.mix(keeps="2mo").codes[0])

    assert state.keeps_days == 61
    assert floor.now.date() + timedelta(days=61) == floor.now.date().replace(year=2027, month=1)
