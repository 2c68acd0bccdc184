"""Bottles are opened and keep so long; tools are put in use and fail, and what that costs is known."""

import pytest
from scipy.stats import CensoredData, expon

from stockroom.errors import Code
from stockroom.film.kinds import Kind
from stockroom.film.verdict import Verdict
from stockroom.work.begin import Begun, Fail, OpenBottle, PutInUse, fail, open_bottle, put_in_use
from stockroom.work.buying import buying
from stockroom.work.label import labels
from stockroom.work.look import piece, rack
from stockroom.work.tools import DAYS_A_MONTH, ServiceLife, tools
from stockroom.work.use import use
from stockroom.work.value import value
from tests.builders import ON_ONE_ENGINE, is_sound, refused
from tests.floor import SOLUTION, Floor

GUN = "hot-air tool"


def _bottles(floor: Floor, number: int, **given: object) -> str:
    floor.material(SOLUTION, Kind.LIQUID, limits={"shelf": "24mo", "opened": "30d"})
    facts = {"material": SOLUTION, "made": "2026-10-01", "lot": "S-1", "cost_minor": 1_000}
    return floor.box(number, **facts | given)


def _tools(floor: Floor, number: int = 1, cost_minor: int | None = 9_000) -> str:
    if GUN not in {one.standing.material.name for one in rack(floor.book, now=floor.now).pieces}:
        floor.material(GUN, Kind.TOOL)
    return floor.box(number, material=GUN, cost_minor=cost_minor)


def _open(floor: Floor, code: str, **given: object) -> Begun:
    request = OpenBottle(**floor.asked(piece=code, **given))
    return open_bottle(request, book=floor.book, now=floor.now)


def _use(floor: Floor, code: str, **given: object) -> Begun:
    request = PutInUse(**floor.asked(piece=code, **given))
    return put_in_use(request, book=floor.book, now=floor.now)


def _fail(floor: Floor, code: str, why: str = "no heat") -> None:
    fail(Fail(**floor.asked(piece=code, why=why)), book=floor.book, now=floor.now)


def _verdict(floor: Floor, code: str) -> tuple[Verdict, str]:
    judged = piece(floor.book, code, now=floor.now).judged
    reason = next(one for one in judged.judgement.reasons if one.rule == "opened")
    return judged.judgement.verdict, reason.text


def test_an_opened_bottle_leaves_its_box_and_keeps_as_long_as_its_material_says(
    floor: Floor,
) -> None:
    """With its lot, its dates and its share of the price; past its days it is stopped."""
    box = _bottles(floor, 6)

    done = _open(floor, box)

    state, left = floor.piece(done.piece).state, floor.piece(box).state
    assert (state.balance, left.balance, state.parent, state.lot) == (1, 5, box, "S-1")
    assert (state.begun, state.keeps_days, state.made) == ("2026-11-25", 30, "2026-10-01")
    assert state.cost_minor == 167
    found = _verdict(floor, done.piece)
    assert found == (Verdict.USE, "opened 0 days ago, keeps 30 (its label)")
    assert value(floor.book, now=floor.now).total.value_minor == 1_000
    floor.wait(days=28)
    assert _verdict(floor, done.piece)[0] is Verdict.USE_FIRST
    floor.wait(days=3)
    past = (Verdict.STOP, "opened 31 days ago, keeps 30 (its label): open another")
    assert _verdict(floor, done.piece) == past
    with refused(floor.book, Code.STOPPED, "--despite"):
        floor.take(done.piece, 1)
    assert floor.take(done.piece, 1, despite="only for the floor").left == 0
    assert is_sound(floor.book)


def test_the_last_bottle_of_a_box_is_opened_under_its_own_code(floor: Floor) -> None:
    """What is said goes over the material; the label says when, and how long it keeps."""
    box = _bottles(floor, 1)

    done = _open(floor, box, keeps="7d")

    assert done.piece == box
    (label,) = labels([box], book=floor.book, now=floor.now)
    assert label.facts == (("opened", "2026-11-25"), ("use by", "2026-12-02"))
    with refused(floor.book, Code.ALREADY_THERE, "in use since 2026-11-25"):
        _open(floor, box)
    floor.undo(box)
    assert floor.piece(box).state.begun is None


def test_undoing_an_opening_puts_the_bottle_back_in_its_box(floor: Floor) -> None:
    """And the code of the open one ends."""
    box = _bottles(floor, 2)
    opened = _open(floor, box).piece

    floor.undo(box)

    assert (floor.piece(box).state.balance, floor.piece(opened).state.ended) == (2, "undone")
    assert is_sound(floor.book)


@ON_ONE_ENGINE
def test_what_cannot_be_opened_or_put_in_use_is_refused(floor: Floor) -> None:
    """The wrong kind, one that was mixed, a held one, an empty one; a tool that was never in use."""
    blades, tool = floor.box(5), _tools(floor)
    mixed = floor.mix().codes[0]
    held, empty = (floor.box(2, material=SOLUTION) for _ in range(2))
    floor.take(empty, 2)

    with refused(floor.book, Code.WRONG_KIND, "only a liquid is opened"):
        _open(floor, blades)
    with refused(floor.book, Code.WRONG_KIND, "only a tool is put in use"):
        _use(floor, held)
    floor.hold(held)
    with refused(floor.book, Code.HELD):
        _open(floor, held)
    with refused(floor.book, Code.ALREADY_THERE):
        _open(floor, mixed)
    with refused(floor.book, Code.TOO_MANY, "is empty"):
        _open(floor, empty)
    with refused(floor.book, Code.WRONG_FORM, "was never put in use"):
        _fail(floor, tool)
    _use(floor, tool)
    with refused(floor.book, Code.BAD_USAGE, "A reason is needed"):
        _fail(floor, tool, why="")


def test_a_tool_costs_its_price_over_the_months_it_lasts(floor: Floor) -> None:
    """Those in use count with the time they have; a mean life as scipy fits it to such data."""
    box = _tools(floor, 4, cost_minor=36_000)
    lasting: list[str] = []
    for _ in range(3):
        lasting.append(_use(floor, box).piece)
        floor.wait(days=100)
    _fail(floor, lasting[0])
    floor.wait(days=50)
    _fail(floor, lasting[1])
    floor.wait(days=10)

    (kind,) = tools(floor.book, now=floor.now).kinds

    assert (kind.in_use, kind.failed, kind.ended, kind.days) == (1, 2, 0, 300 + 250 + 160)
    assert kind.cost_minor == 9_000
    data = CensoredData(uncensored=[300, 250], right=[160])
    _, scale = expon.fit(data, floc=0)
    assert kind.life_days == pytest.approx(scale, rel=1e-4)
    assert kind.month_minor == pytest.approx(9_000 / (355 / DAYS_A_MONTH))


def test_a_tool_that_fails_is_used_up_and_asks_for_another(floor: Floor) -> None:
    """One in use is no stock to order by; its cost is taken without a job."""
    box = _tools(floor, 2, cost_minor=18_000)
    tool = _use(floor, box).piece
    before = next(iter(buying(floor.book, now=floor.now).rows)).on_hand.fit
    floor.wait(days=30)
    _fail(floor, tool)

    (row,) = use(floor.book, now=floor.now).rows
    assert (row.amounts.without_job, row.amounts.without_job_minor) == (1, 9_000)
    assert before == 1
    assert next(iter(buying(floor.book, now=floor.now).rows)).drawn.demand.per_day_m > 0
    assert floor.piece(tool).state.ended == "failed"


def test_without_a_failure_or_a_price_nothing_is_said_of_the_cost() -> None:
    """Unknown is not nothing."""
    life = {"material": None, "in_use": 1, "ended": 0, "days": 90}

    young = ServiceLife(**life, failed=0, cost_minor=9_000)  # type: ignore[arg-type]
    unpriced = ServiceLife(**life, failed=1, cost_minor=None)  # type: ignore[arg-type]

    assert (young.life_days, young.month_minor) == (None, None)
    assert (unpriced.life_days, unpriced.month_minor) == (90, None)
