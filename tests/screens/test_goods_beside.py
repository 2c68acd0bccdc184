"""Goods in while the book is slow, and while another station writes in the same delivery."""

from collections.abc import Callable
from threading import Event
from typing import Any
from uuid import uuid4

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from stockroom.screens import goods_in_work
from stockroom.screens.goods_in import GoodsInScreen
from stockroom.screens.scanning import Listening
from stockroom.screens.station import Station
from stockroom.units import MM, M
from stockroom.work.delivery import AddOrder, DropLine, SetLine, add_order, drop_line, set_line
from stockroom.work.goods_line import Line
from stockroom.work.order_draft import Wanted
from tests.ordering import Buyer
from tests.screens.seeing import scan, screen_text, settle, type_in
from tests.screens.shop import CAST, FROSTED, Shop
from tests.screens.test_goods_in import at_goods, draft, press, scans, types


class Slow:
    """One call to the book that does not answer before it may."""

    def __init__(self, patch: pytest.MonkeyPatch, name: str) -> None:
        self.begun, self.may_answer = Event(), Event()
        self._real = getattr(goods_in_work, name)
        patch.setattr(goods_in_work, name, self._call)

    def _call(self, *given: Any) -> Any:
        self.begun.set()
        assert self.may_answer.wait(20)
        return self._real(*given)

    async def answers(self, pilot: Pilot[None]) -> str:
        """Let it answer; the screen afterwards."""
        self.may_answer.set()
        await settle(pilot)
        await settle(pilot)
        return screen_text(pilot.app)


async def until(pilot: Pilot[None], is_so: Callable[[], bool]) -> None:
    """Wait, without waiting for the book."""
    while not is_so():
        await pilot.pause(0.01)


def field(pilot: Pilot[None], name: str) -> Input:
    """A field of the form."""
    return pilot.app.screen.query_one(f"#goods-{name}", Input)


async def begin_a_lot_and_leave(pilot: Pilot[None]) -> None:
    """Type a lot for the line before the last, and go to the Rack without an Enter."""
    await press(pilot, "f3", "f5", "up", "up")
    field(pilot, "lot").focus()
    await settle(pilot)
    type_in(pilot.app, "LOT7")
    await press(pilot, "f3")


def holds_keys(pilot: Pilot[None]) -> bool:
    """Whether keys wait until it is clear that they are no scan."""
    assert isinstance(pilot.app, Listening)
    return pilot.app.holds_keys


def is_answered(screen: object) -> bool:
    """Whether one call was made of Goods in, and answered."""
    return isinstance(screen, GoodsInScreen) and screen._turn == len(("made", "answered"))


def elsewhere(shop: Shop, line: Line, number: int | None = None) -> None:
    """Another station sets a line of the same delivery."""
    request = SetLine(operator="Ines K.", request=uuid4().hex, line=line, number=number)
    set_line(request, book=shop.book, now=shop.now)


def ordered(shop: Shop, material: str = FROSTED) -> str:
    """An order of three rolls that is on its way."""
    wanted = Wanted(material=material, pieces=3, length_nm=25 * M)
    return Buyer(shop.book, shop.now).ordered(wanted)


@pytest.mark.parametrize("is_refused", [False, True], ids=["written", "refused"])
async def test_a_reading_that_is_older_than_what_was_written_is_not_shown(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, *, is_refused: bool
) -> None:
    """A scan elsewhere leads here: its order is written while the first reading is on its way."""
    code = ordered(shop)
    if is_refused:
        asked = AddOrder(operator="Ines K.", request=uuid4().hex, order=code)
        add_order(asked, book=shop.book, now=shop.now)
    was_read, go_on = Event(), Event()

    def slowly(station: Station, turn: int) -> goods_in_work.GoodsRead:
        found = look(station, turn)
        was_read.set()
        assert go_on.wait(20)
        return found

    look = goods_in_work.look
    monkeypatch.setattr(goods_in_work, "look", slowly)
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        scan(pilot.app, f"{code}\r")
        await until(pilot, lambda: was_read.is_set() and is_answered(pilot.app.screen))
        go_on.set()
        await settle(pilot)
        await settle(pilot)
        assert "1 line · 3 pieces" in screen_text(pilot.app)
        assert ("is in this delivery already" in screen_text(pilot.app)) is is_refused


async def test_a_material_that_was_entered_elsewhere_since_is_no_stranger(shop: Shop) -> None:
    """Its order is scanned here, and a line of it is changed."""
    async with at_goods(shop) as pilot:
        shop.hand().material("satin new", width_nm=1_524 * MM)
        await scans(pilot, ordered(shop, "satin new"))
        await press(pilot, "up")
        await types(pilot, "5")
        assert [one.line.pieces for one in draft(shop).lines] == [5]


async def test_what_was_typed_for_a_line_goes_with_it_when_another_is_dropped(shop: Shop) -> None:
    """Here while nobody looked; a lot never comes to stand on another roll."""
    lengths = (5 * M, 25 * M, 9 * M)
    async with at_goods(shop) as pilot:
        for length_nm in lengths:
            elsewhere(shop, Line(material=FROSTED, length_nm=length_nm))
        await begin_a_lot_and_leave(pilot)
        dropped = DropLine(operator="Ines K.", request=uuid4().hex, number=1)
        drop_line(dropped, book=shop.book, now=shop.now)
        await press(pilot, "f5")
        await types(pilot, "")
        kept = [(one.line.length_nm, one.line.lot) for one in draft(shop).lines]
        assert kept == [(25 * M, "LOT7"), (9 * M, None)]


async def test_what_was_typed_for_a_line_that_is_gone_is_not_carried_over(shop: Shop) -> None:
    """It is said that somebody changed it."""
    async with at_goods(shop) as pilot:
        for length_nm in (5 * M, 25 * M):
            elsewhere(shop, Line(material=FROSTED, length_nm=length_nm))
        await begin_a_lot_and_leave(pilot)
        elsewhere(shop, Line(material=CAST, length_nm=5 * M), number=1)
        seen = await press(pilot, "f5")
        assert "Line 1 was changed at another station: look at it again." in seen
        assert field(pilot, "lot").value == ""
        assert field(pilot, "material").value == CAST


async def test_lines_of_another_station_are_not_received_unseen(shop: Shop) -> None:
    """They are shown, and then asked about, for somebody else left them."""
    async with at_goods(shop) as pilot:
        await types(pilot, "frost", "2", "25m", "L1")
        elsewhere(shop, Line(material=CAST, length_nm=25 * M, pieces=4))
        before = len(shop.acts())
        seen = await press(pilot, "f8")
        assert "The delivery was changed at another station: look at it again." in seen
        assert "2 lines · 6 pieces" in seen
        assert "receive 2 lines · 6 pieces" in await press(pilot, "f8")
        assert len(shop.acts()) == before
        assert "DONE  received 6 pieces" in await press(pilot, "y")


async def test_what_is_typed_while_a_line_is_kept_stays(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whoever goes back to a field meanwhile is led nowhere, and loses nothing."""
    async with at_goods(shop) as pilot:
        await types(pilot, "frost", "2", "25m", "L1", "2026-03")
        slow = Slow(monkeypatch, "keep")
        type_in(pilot.app, "a1\r")
        await until(pilot, slow.begun.is_set)
        field(pilot, "lot").focus()
        await pilot.pause(0.05)
        type_in(pilot.app, "X")
        await until(pilot, lambda: field(pilot, "lot").value == "X")
        await until(pilot, lambda: not holds_keys(pilot))
        await slow.answers(pilot)
        assert field(pilot, "lot").value == "X"
        await types(pilot, "")
        assert draft(shop).lines[0].line.lot == "X"


async def test_what_is_typed_while_an_order_is_added_is_kept_too(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its Enter was pressed too early for the book, not for the person."""
    async with at_goods(shop) as pilot:
        slow = Slow(monkeypatch, "take_order")
        scan(pilot.app, f"{ordered(shop)}\r")
        await until(pilot, slow.begun.is_set)
        type_in(pilot.app, "cast\r")
        await until(pilot, lambda: field(pilot, "material").value == "cast")
        await until(pilot, lambda: not holds_keys(pilot))
        await pilot.pause()
        await slow.answers(pilot)
        assert sorted(one.line.material or "" for one in draft(shop).lines) == [FROSTED, CAST]


async def test_a_delivery_is_received_once_however_often_that_is_asked(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The second key is not left for the next delivery, and refuses nothing."""
    async with at_goods(shop) as pilot:
        await types(pilot, "frost", "2", "25m", "L1")
        slow = Slow(monkeypatch, "receive")
        await pilot.press("f8")
        await until(pilot, slow.begun.is_set)
        await pilot.press("f8")
        await pilot.pause(0.05)
        assert "DONE  received 2 pieces" in await slow.answers(pilot)


async def test_lines_that_are_just_coming_are_not_received_unseen(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An order is being added when F8 is pressed."""
    async with at_goods(shop) as pilot:
        await types(pilot, "frost", "2", "25m", "L1")
        code = ordered(shop, CAST)
        before = len(shop.acts())
        slow = Slow(monkeypatch, "take_order")
        scan(pilot.app, f"{code}\r")
        await until(pilot, slow.begun.is_set)
        await pilot.press("f8")
        await pilot.pause(0.05)
        assert "2 lines · 5 pieces" in await slow.answers(pilot)
        await press(pilot, "tab", "tab")
        assert len(shop.acts()) == before


async def test_what_is_typed_stays_though_it_is_what_was_kept_before(shop: Shop) -> None:
    """The screen is left and come back to."""
    async with at_goods(shop) as pilot:
        await types(pilot, "frost")
        await press(pilot, "escape")
        type_in(pilot.app, "frost")
        await press(pilot, "f3", "f5")
        assert field(pilot, "material").value == "frost"
