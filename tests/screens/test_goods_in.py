"""Goods in: a delivery typed line by line, kept, and received in one act."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

import pytest
from textual.pilot import Pilot

from stockroom.codes.card import Order, Typed, code_of
from stockroom.codes.own import grouped
from stockroom.film.kinds import Kind
from stockroom.screens.card import CardScreen
from stockroom.units import FOOT, INCH, MM, M
from stockroom.work.delivery import Delivery, delivery
from stockroom.work.goods_line import Line
from stockroom.work.order_draft import Wanted
from tests.ordering import Buyer
from tests.screens.seeing import same_screen, scan, screen_text, settle, two_seconds_later, type_in
from tests.screens.shop import CAST, FROSTED, Shop


@asynccontextmanager
async def at_goods(shop: Shop, size: tuple[int, int] = (80, 24)) -> AsyncIterator[Pilot[None]]:
    """Goods in at the shop, with a new line."""
    async with shop.app().run_test(size=size) as pilot:
        await pilot.press("f5")
        await settle(pilot)
        await settle(pilot)
        yield pilot


async def types(pilot: Pilot[None], *texts: str) -> str:
    """Type texts with Enter after each; the screen afterwards."""
    for text in texts:
        type_in(pilot.app, f"{text}\r")
        await settle(pilot)
        await settle(pilot)
    return screen_text(pilot.app)


async def press(pilot: Pilot[None], *keys: str) -> str:
    """Press keys; the screen afterwards."""
    for key in keys:
        await pilot.press(key)
        await settle(pilot)
        await settle(pilot)
    return screen_text(pilot.app)


async def scans(pilot: Pilot[None], *codes: str) -> str:
    """Scan codes; the screen afterwards."""
    for code in codes:
        scan(pilot.app, f"{code}\r")
        await settle(pilot)
        await settle(pilot)
    return screen_text(pilot.app)


def draft(shop: Shop) -> Delivery:
    """The delivery as it is kept."""
    return delivery(shop.book, now=shop.now)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_goods_in(shop: Shop, size: tuple[int, int]) -> None:
    """On the left the delivery, on the right the line being filled; what it needs stands out."""
    async with at_goods(shop, size) as pilot:
        await types(pilot, "frost", "2", "25m", "L-2300", "2026-03", "a1")
        await types(pilot, "cast", "")

        assert same_screen(pilot.app)


async def test_enter_leads_through_what_is_missing_and_receives_all_on_the_last_line(
    shop: Shop,
) -> None:
    """One act, every piece with a code, and the labels in one file whose path is said."""
    before = len(shop.acts())
    async with at_goods(shop) as pilot:
        await types(pilot, "frost", "2", "25m", "L-2300", "2026-03", "b2")
        await types(pilot, "snap", "", "50", "", "", "")
        seen = await types(pilot, "")

        assert "✓ DONE  received 3 pieces" in seen
        assert "nothing yet" in seen
        act, *older = shop.acts()
        assert len(older) == before
        assert [move.delta for move in act.moves] == [25 * M, 25 * M, 50]
        state = shop.card(act.moves[0].piece).judged.standing.state
        assert (state.lot, state.made) == ("L-2300", "2026-03")
        assert (shop.labels / f"delivery-{act.id}.pdf").read_bytes().startswith(b"%PDF")


async def test_a_roll_nobody_knows_anything_of_takes_three_lines_of_typing(shop: Shop) -> None:
    """Material, length and Enter; the lot, the date and the place stay unknown."""
    async with at_goods(shop) as pilot:
        await types(pilot, "urethane", "", "12m", "", "", "", "")

        state = shop.card(shop.acts()[0].moves[0].piece).judged.standing.state
        assert (state.balance, state.lot, state.made, state.place_id) == (12 * M, None, None, None)


async def test_every_line_is_there_again_after_a_power_cut(shop: Shop) -> None:
    """What was entered is kept at once; the next program goes on with it."""
    async with at_goods(shop) as pilot:
        await types(pilot, "frost", "3", "25m")
        assert draft(shop).lines[0].line.pieces == 3
    async with at_goods(shop) as pilot:
        seen = await press(pilot, "up")
        assert "1 line · 3 pieces" in seen
        await types(pilot, "4")
        assert draft(shop).lines[0].line == Line(material=FROSTED, pieces=4, length_nm=25 * M)


async def test_a_delivery_that_somebody_left_is_asked_about_before_it_is_received(
    shop: Shop,
) -> None:
    """It may not be all of it; no leaves it as it was, and the next Enter asks again."""
    async with at_goods(shop) as pilot:
        await types(pilot, "frost", "3", "25m")
    before = len(shop.acts())
    async with at_goods(shop) as pilot:
        assert "receive 1 line · 3 pieces · Ida M." in await types(pilot, "")
        await press(pilot, "n")
        assert len(shop.acts()) == before
        await types(pilot, "")
        assert "✓ DONE  received 3 pieces" in await press(pilot, "y")


async def test_more_pieces_than_a_pallet_holds_are_asked_about(shop: Shop) -> None:
    """A length typed in the place of their number is seen before fifty labels are."""
    async with at_goods(shop) as pilot:
        await types(pilot, "frost", "50", "25m", "", "", "")
        before = len(shop.acts())
        assert "receive 1 line · 50 pieces" in await types(pilot, "")
        await press(pilot, "n")
        assert len(shop.acts()) == before


async def test_a_letter_fills_in_a_usual_size(shop: Shop) -> None:
    """Exactly, though a metric book shows it rounded."""
    shop.hand().material("clear 80", Kind.WINDOW_FILM, width_nm=None)
    async with at_goods(shop) as pilot:
        seen = await types(pilot, "clear 80", "")
        assert "a 100 ft" in seen
        seen = await types(pilot, "a")
        assert "a 36 in   b 48 in" in seen
        await types(pilot, "d")

        line = draft(shop).lines[0].line
        assert (line.length_nm, line.width_nm) == (100 * FOOT, 72 * INCH)


async def test_what_cannot_be_read_is_refused_and_stays_to_be_mended(shop: Shop) -> None:
    """Nothing is lost, and the cursor is where the mistake is."""
    async with at_goods(shop) as pilot:
        assert "Several are like “c”" in await types(pilot, "c")
        assert "No material is like “cx”" in await types(pilot, "x")
        await press(pilot, "backspace")
        assert "can be read in two ways" in await types(pilot, "ast", "", "25")
        await types(pilot, "m", "", "2031")
        assert "is in the future" in screen_text(pilot.app)
        await press(pilot, *["backspace"] * 4)
        await types(pilot, "2026", "")
        assert draft(shop).lines[0].line == Line(material=CAST, length_nm=25 * M, made="2026")


async def test_a_delivery_that_lacks_something_leads_to_it(shop: Shop) -> None:
    """Nothing is received by half."""
    async with at_goods(shop) as pilot:
        await types(pilot, "cast")
        seen = await press(pilot, "f8")
        assert "Line 1 lacks its length" in seen
        await types(pilot, "25m")
        assert "✓ DONE  received 1 piece" in await press(pilot, "f8")

        await types(pilot, "cast")
        await press(pilot, "f7")
        assert draft(shop).lines == ()
        assert "There is no line yet" in await press(pilot, "f8")


async def test_scans_say_where_it_goes_and_from_which_lot(shop: Shop) -> None:
    """A place fills the place, a code of the maker goes where the cursor is, a piece has a card."""
    codes = shop.codes
    async with at_goods(shop) as pilot:
        assert "means nothing for this line yet" in await scans(pilot, codes.place)
        await types(pilot, "frost", "", "10m")
        await scans(pilot, "LOT-88123", codes.place)
        assert draft(shop).lines[0].line == Line(
            material=FROSTED, length_nm=10 * M, lot="LOT-88123", place=codes.place
        )

        await scans(pilot, codes.held)
        assert isinstance(pilot.app.screen, CardScreen)
        assert "LOT-88123" in await press(pilot, "escape")


async def test_the_wall_card_types_digits_and_its_ok_is_the_persons_enter(shop: Shop) -> None:
    """A delivery can be received without a keyboard, once the film is named."""
    async with at_goods(shop) as pilot:
        await types(pilot, "frost", "")
        await scans(pilot, *(code_of(Typed(digit)) for digit in "9503"))
        for _ in range(5):
            await scans(pilot, code_of(Order.OK))
            two_seconds_later(pilot.app)

        assert shop.left_nm(shop.acts()[0].moves[0].piece) == 9_503 * MM


async def test_a_line_changed_at_another_station_is_not_written_over(shop: Shop) -> None:
    """It is shown as it is now."""
    async with at_goods(shop) as one:
        await types(one, "frost", "", "10m")
        async with at_goods(shop) as other:
            await press(other, "up")
            await types(other, "7")
        await types(one, "L-1")
        seen = screen_text(one.app)

        assert "was changed at another station" in seen
        assert draft(shop).lines[0].line.pieces == 7
        assert grouped(shop.codes.held) not in seen


async def test_goods_of_a_client_and_damaged_goods_are_received_as_what_they_are(
    shop: Shop,
) -> None:
    """The owner by the beginning of its word; what is damaged is held at once."""
    async with at_goods(shop) as pilot:
        await types(pilot, "frost", "", "25m")
        await pilot.click("#goods-owner")
        assert "is no owner" in await types(pilot, "me")
        assert pilot.app.focused is pilot.app.screen.query_one("#goods-owner")
        await press(pilot, "backspace", "backspace")
        await types(pilot, "cl")
        await press(pilot, "up")
        await pilot.click("#goods-damaged")
        await types(pilot, "crushed core")
        assert draft(shop).lines[0].line == Line(
            material=FROSTED, length_nm=25 * M, owner="client", damaged="crushed core"
        )
        seen = await press(pilot, "f8")
        assert "received 1 piece" in seen

        state = shop.card(shop.acts()[0].moves[0].piece).judged.standing.state
        assert (state.owner, state.held) == ("client", "came in damaged: crushed core")


async def test_an_order_that_is_on_its_way_is_offered_and_closed_by_what_came(shop: Shop) -> None:
    """F6 adds its lines as they were ordered; one roll less came, and that one stays open."""
    buyer = Buyer(shop.book, shop.now)
    wanted = Wanted(material=FROSTED, pieces=3, length_nm=25 * M)
    code = buyer.ordered(wanted)
    async with at_goods(shop) as pilot:
        assert "F6 adds 3 pieces of order D000 0010, Northlight Films" in screen_text(pilot.app)

        seen = await press(pilot, "f6")
        assert "F6 adds" not in seen
        assert "frosted 1524" in seen
        assert same_screen(pilot.app)
        await press(pilot, "up")
        await types(pilot, "2")
        await press(pilot, "f8")

        assert buyer.open(code) == [1]
        assert "F6 adds 1 piece of order D000 0010" in screen_text(pilot.app)
        await press(pilot, "f2")
        seen = await scans(pilot, code)
        assert "1 line · 1 piece" in seen
        two_seconds_later(pilot.app)
        seen = await scans(pilot, code)
        assert "! REFUSED  All of D000 0010 is in this delivery already." in seen
