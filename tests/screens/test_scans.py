"""What the table of scans promises: each screen is scanned at with everything there is to scan."""

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from stockroom.codes.card import Operator, Order, Typed, code_of
from stockroom.screens.form import Form
from stockroom.screens.scans import SCANS, SCREENS
from stockroom.units import M
from stockroom.work.people import AddPerson, add_a_person
from tests.screens.seeing import scan, screen_text, settle, two_seconds_later, type_in
from tests.screens.shop import Shop

REFUSED = "is refused in the band, with two bells"
KEYS = {
    "Today, Rack, Climate, Buying, a card": "f2",
    "Goods in": "f5",
    "Bench": "f4",
    "Jobs, a job": "f9",
}
ENDINGS = {"Enter": "\r", "Tab": "\t", "CR LF": "\r\n", "LF": "\n", "nothing": ""}


def codes_of(shop: Shop) -> dict[str, list[str]]:
    """What is scanned for each row of the table."""
    codes = shop.codes
    return {
        "a piece": [codes.old_roll],
        "a job": [codes.shelter],
        "a place": [codes.place],
        "an order": ["D0000010"],
        "a person on the wall card": [code_of(Operator(2))],
        "a digit on the wall card": [code_of(Typed("3"))],
        "OK on the wall card": [code_of(Order.OK)],
        "out, in, back, undo": [
            code_of(one) for one in (Order.OUT, Order.IN, Order.BACK, Order.UNDO)
        ],
        "finished, spoiled": [code_of(one) for one in (Order.FINISHED, Order.SPOILED)],
        "a code that was misread": ["R000003J"],
        "any other code": ["4006381333931"],
    }


async def seen_after(pilot: Pilot[None], text: str) -> str:
    """Scan; the screen afterwards."""
    two_seconds_later(pilot.app)
    scan(pilot.app, text)
    await settle(pilot)
    await settle(pilot)
    return screen_text(pilot.app)


async def go_to(pilot: Pilot[None], key: str) -> None:
    await settle(pilot)
    await pilot.press(key)
    await settle(pilot)
    await settle(pilot)


@pytest.mark.parametrize("screen", SCREENS)
async def test_what_the_table_says_is_refused_is_refused(shop: Shop, screen: str) -> None:
    """Nothing is written, and the screen stays."""
    column, scanned = SCREENS.index(screen), codes_of(shop)
    assert set(scanned) == set(SCANS)
    before = len(shop.acts())
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await go_to(pilot, KEYS.get(screen, "f10"))
        for row, does in SCANS.items():
            if not does[column].endswith(REFUSED):
                continue
            for code in scanned[row]:
                await pilot.press("escape")
                assert "! REFUSED" in await seen_after(pilot, f"{code}\r"), (row, code)

    assert len(shop.acts()) == before


@pytest.mark.parametrize("key", ["f2", "f3", "f4", "f5", "f9", "f10", "f12", "ctrl+b"])
async def test_a_person_steps_up_on_every_screen(shop: Shop, key: str) -> None:
    """By their code on the wall card."""
    request = AddPerson(request="tom", operator="Ida M.", name="Tom R.", key=2)
    add_a_person(request, book=shop.book)
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await go_to(pilot, key)

        seen = await seen_after(pilot, f"{code_of(Operator(2))}\r")
        assert "✓ DONE  Tom R. is written down from now on" in seen


@pytest.mark.parametrize("ends", ENDINGS.values(), ids=ENDINGS)
async def test_whatever_a_scanner_ends_a_code_with_fills_the_line_and_writes_nothing(
    shop: Shop, ends: str
) -> None:
    """Piece, job and the cursor in the length: the scanner neither writes nor moves on."""
    codes = shop.codes
    before = len(shop.acts())
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await go_to(pilot, "f4")
        await seen_after(pilot, f"{codes.old_roll}{ends}")
        await seen_after(pilot, f"{codes.clinic}{ends}")
        type_in(pilot.app, "2.8")
        await settle(pilot)
        seen = await seen_after(pilot, f"{codes.old_roll}{ends}")

        assert "cut 2.8 m for" in seen
        assert pilot.app.focused is pilot.app.screen.query_one("#length", Input)
        assert len(shop.acts()) == before


async def test_ok_read_twice_writes_once(shop: Shop) -> None:
    """A scanner that stutters neither writes twice nor complains."""
    codes = shop.codes
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await go_to(pilot, "f4")
        await seen_after(pilot, f"{codes.old_roll}\r{codes.clinic}\r")
        type_in(pilot.app, "2.8")
        await settle(pilot)
        before = len(shop.acts())
        seen = await seen_after(pilot, f"{code_of(Order.OK)}\r{code_of(Order.OK)}\r")

        assert "✓ DONE" in seen
        assert len(shop.acts()) == before + 1


@pytest.mark.parametrize("ends", ["\r", "\r\n"], ids=["Enter", "CR LF"])
async def test_a_scanners_enter_receives_no_delivery_and_writes_no_form(
    shop: Shop, ends: str
) -> None:
    """Where the person's Enter would: on a new line of a delivery, and in a form."""
    codes = shop.codes
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await go_to(pilot, "f5")
        for text in ("frosted\r", "\r", "25m\r", "\r", "\r", "\r"):
            type_in(pilot.app, text)
            await settle(pilot)
            await settle(pilot)
        assert "Enter receives 1 piece" in screen_text(pilot.app)
        before = len(shop.acts())
        await seen_after(pilot, f"4006381333931{ends}")
        assert len(shop.acts()) == before

        await go_to(pilot, "f2")
        await seen_after(pilot, f"{codes.old_roll}{ends}")
        await pilot.press("p")
        await settle(pilot)
        await settle(pilot)
        await seen_after(pilot, f"{codes.place}{ends}")
        assert isinstance(pilot.app.screen, Form)
        assert pilot.app.screen.query_one("#field-place", Input).value == "B2"
        assert len(shop.acts()) == before
        assert shop.left_nm(codes.old_roll) == 6.4 * M
