"""The wall card: everything the Bench needs, without a keyboard; and who is at work."""

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from stockroom.codes.card import Operator, Order, Sign, Typed, code_of
from stockroom.codes.own import grouped
from stockroom.screens.form import Form
from stockroom.units import MM
from stockroom.work.people import AddPerson, add_a_person
from tests.screens.seeing import scan, screen_text, settle, two_seconds_later, type_in
from tests.screens.shop import Shop


async def scans(pilot: Pilot[None], *what: Sign | str) -> str:
    """Scan codes and signs of the wall card one after the other; the screen afterwards."""
    for one in what:
        two_seconds_later(pilot.app)
        scan(pilot.app, f"{one if type(one) is str else code_of(one)}\r")  # type: ignore[arg-type]
        await settle(pilot)
        await settle(pilot)
    return await look(pilot)


async def types(pilot: Pilot[None], *texts: str) -> str:
    """Type texts with Tab between them; the screen afterwards."""
    for place, text in enumerate(texts):
        if place:
            await pilot.press("tab")
        type_in(pilot.app, text)
        await look(pilot)
    return screen_text(pilot.app)


async def look(pilot: Pilot[None]) -> str:
    """The screen once a form that was asked for has come, or has gone."""
    await settle(pilot)
    await pilot.pause(0.1)
    await settle(pilot)
    return screen_text(pilot.app)


def digits(text: str) -> list[Sign]:
    return [Typed(character) for character in text]


@pytest.fixture
def crew(shop: Shop) -> Shop:
    """The shop with somebody who answers to 2."""
    request = AddPerson(request="tom", operator="Ida M.", name="Tom R.", key=2)
    add_a_person(request, book=shop.book)
    return shop


async def test_a_cut_is_written_by_scans_alone_and_ok_is_the_persons_enter(shop: Shop) -> None:
    """Piece, job, digits, OK; the second OK has nothing to write and says so."""
    codes = shop.codes
    async with shop.app().run_test() as pilot:
        await pilot.press("f4")
        await settle(pilot)
        seen = await scans(pilot, codes.old_roll, codes.clinic, *digits("2.8"))
        assert "cut 2.8 m for" in seen
        assert shop.left_nm(codes.old_roll) == 6_400 * MM

        assert "✓ DONE" in await scans(pilot, Order.OK)
        assert shop.left_nm(codes.old_roll) == 3_600 * MM
        assert "REFUSED" in await scans(pilot, Order.OK)

        seen = await scans(pilot, Order.UNDO)
        assert "undo your last" in seen
        await scans(pilot, Order.OK)
        assert shop.left_nm(codes.old_roll) == 6_400 * MM


async def test_a_digit_read_twice_at_once_is_one_digit(shop: Shop) -> None:
    """A scanner that stutters must not make ten metres of one."""
    async with shop.app().run_test() as pilot:
        await pilot.press("f4")
        await settle(pilot)
        await scans(pilot, shop.codes.old_roll)
        code = code_of(Typed("1"))
        scan(pilot.app, f"{code}\r{code}\r")
        await settle(pilot)

        assert pilot.app.screen.query_one("#length", Input).value == "1"


async def test_finished_spoiled_and_back_do_what_they_say_to_the_piece_on_the_line(
    shop: Shop,
) -> None:
    """Each asks before it writes; without a piece it says what is wanted first."""
    codes = shop.codes
    async with shop.app().run_test() as pilot:
        await pilot.press("f4")
        await settle(pilot)
        assert "Scan the roll or the box first" in await scans(pilot, Order.FINISHED)
        assert "Scan the piece first" in await scans(pilot, Order.BACK)
        assert "then it can go out" in await scans(pilot, Order.OUT)
        assert "then it can come in" in await scans(pilot, Order.IN)

        await scans(pilot, codes.old_roll, Order.SPOILED, *digits("1.2"), Order.OK)
        assert shop.acts()[0].moves[0].facts["reason"] == "spoiled"

        await scans(pilot, codes.clinic, *digits("2.1"), Order.OK)
        await scans(pilot, Order.BACK)
        assert isinstance(pilot.app.screen, Form)
        await scans(pilot, *digits("0.4"), Order.OK)
        assert shop.acts()[0].kind == "back"
        assert shop.left_nm(codes.old_roll) == 3_500 * MM

        await scans(pilot, Order.FINISHED, Order.OK)
        assert shop.left_nm(codes.old_roll) == 0


async def test_whoever_scans_their_code_is_written_down_from_then_on(crew: Shop) -> None:
    """On every screen; a digit nobody answers to is refused and changes nothing."""
    codes = crew.codes
    async with crew.app().run_test() as pilot:
        assert "Nobody answers to 3" in await scans(pilot, Operator(3))
        assert "on: Ida M." in screen_text(pilot.app)
        seen = await scans(pilot, Operator(2))
        assert "Tom R. is written down from now on" in seen
        assert "on: Tom R." in seen

        assert "means nothing here" in await scans(pilot, Order.OK)
        await pilot.press("f4")
        await settle(pilot)
        seen = await scans(pilot, codes.old_roll, codes.clinic, *digits("1.5"), Order.OK)
        assert "on: Tom R." in seen
        assert crew.acts()[0].operator == "Tom R."


async def test_a_digit_or_a_name_says_who_is_at_work(crew: Shop) -> None:
    """The form says who answers to what."""
    async with crew.app().run_test() as pilot:
        await pilot.press("f4", "ctrl+o")
        assert "2 Tom R." in await look(pilot)
        assert "on: Tom R." in await types(pilot, "2\r")

        await pilot.press("ctrl+o")
        await look(pilot)
        assert "Nobody is called “nobody”" in await types(pilot, "nobody\r")


async def test_a_late_entry_is_written_at_its_time(shop: Shop) -> None:
    """What Enter writes says when; a time before the last act is refused, at its field."""
    codes = shop.codes
    async with shop.app().run_test() as pilot:
        await pilot.press("f4")
        await settle(pilot)
        await scans(pilot, codes.old_roll, codes.clinic)
        assert "done Tue 2026-11-24 16:00" in await types(pilot, "1.5", "", "", "yesterday 16:00")
        await types(pilot, "\r")
        act = shop.acts()[0]
        assert (f"{act.at:%d %H:%M}", f"{act.recorded_at:%d %H:%M}") == ("24 16:00", "25 09:00")

        assert "REFUSED" in await types(pilot, "1.5", "", "", "mon 9:15\r")
        assert pilot.app.focused is pilot.app.screen.query_one("#when")
        assert shop.acts()[0].id == act.id


async def test_a_flaw_is_told_before_the_cut_runs_through_it(shop: Shop) -> None:
    """It stands there from the scan on, and louder once the length reaches it."""
    code = shop.codes.old_roll
    shop.hand().flaw(code, 2_000 * MM, "splice")
    async with shop.app().run_test() as pilot:
        await pilot.press("f4")
        await settle(pilot)
        seen = await scans(pilot, code, shop.codes.clinic, *digits("1.5"))
        assert "▲ splice at 2 m" in seen
        assert "runs through it" not in seen
        await pilot.press("backspace", "backspace", "backspace")
        seen = await scans(pilot, *digits("2.5"))
        assert "▲ splice at 2 m: the cut runs through it" in seen
        assert grouped(code) in seen
