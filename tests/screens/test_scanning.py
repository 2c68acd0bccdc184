"""Scans are told from typing, taken in order, and leak nowhere."""

import asyncio
from typing import ClassVar

import pytest
from textual import events, on
from textual.app import ComposeResult
from textual.command import CommandPalette
from textual.screen import Screen
from textual.widgets import Input

from stockroom.codes.own import Letter, build, numbers
from stockroom.screens.app import StockroomApp
from stockroom.screens.scanning import KeysFellSilent, Scanned
from tests.screens.seeing import GROUP_SEPARATOR, scan, settle, type_in

CODES = [build(Letter.ROLL, number) for number in numbers(Letter.ROLL, 0, 8)]


class Hearing(Screen[None]):
    """Fields and letter keys; remembers what it heard."""

    BINDINGS: ClassVar = [("c", "by_key('c')", "Cut"), ("r", "by_key('r')", "Put")]

    def __init__(self, *, fields: bool) -> None:
        super().__init__()
        self.fields = fields
        self.heard: list[str] = []
        self.keys: list[str] = []
        self.submitted: list[str] = []

    def compose(self) -> ComposeResult:
        if self.fields:
            yield Input(id="length")
            yield Input(id="waste")

    def action_by_key(self, key: str) -> None:
        self.keys.append(key)

    @on(Scanned)
    def _heard(self, message: Scanned) -> None:
        self.heard.append(message.text)

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        self.submitted.append(event.value)


def listening(*, fields: bool) -> tuple[StockroomApp, Hearing]:
    """An app whose only screen remembers what it heard."""
    screen = Hearing(fields=fields)
    return StockroomApp({"today": lambda: screen}), screen


@pytest.mark.parametrize("fields", [False, True], ids=["no field", "in a field"])
async def test_eight_codes_in_one_write_are_all_taken_in_order(*, fields: bool) -> None:
    """Whatever the scanner ends a code with, and wherever the focus is; nothing leaks."""
    app, screen = listening(fields=fields)
    async with app.run_test() as pilot:
        focus = app.focused
        for ending in ("\r", "\t", "\r\n", "\n", ""):
            scan(app, "".join(code + ending for code in CODES))
            await settle(pilot)

            assert screen.heard == CODES
            screen.heard.clear()

        assert (screen.keys, screen.submitted) == ([], [])
        assert [field.value for field in app.screen.query(Input)] == [""] * (2 * fields)
        assert app.focused is focus


async def test_a_scan_into_a_half_filled_field_leaves_the_field_alone() -> None:
    """The length typed so far stays; the scanner's Enter writes nothing, the person's does."""
    app, screen = listening(fields=True)
    async with app.run_test() as pilot:
        await pilot.press("2", ".", "8")
        for gap_s in (0.0, 0.008, 0.016, 0.025):
            await settle(pilot)
            scan(app, "ABC-77120-X\r", gap_s)
        await settle(pilot)

        assert screen.heard == ["ABC-77120-X"] * 4
        assert app.screen.query_one("#length", Input).value == "2.8"
        assert screen.submitted == []

        await pilot.press("enter")
        await settle(pilot)

        assert screen.submitted == ["2.8"]


async def test_a_key_typed_into_a_field_is_seen_at_once() -> None:
    """It does not wait until it is clear that it begins no scan."""
    app, screen = listening(fields=True)
    async with app.run_test() as pilot:
        app.post_message(events.Key("2", "2"))
        await pilot.pause()

        assert app.screen.query_one("#length", Input).value == "2"
        assert app.holds_keys
        await settle(pilot)
        assert app.screen.query_one("#length", Input).value == "2"
        assert screen.heard == []


async def test_a_scan_takes_back_what_a_field_showed_of_it_and_the_cursor_too() -> None:
    """Typing goes on where it was, in the middle of what stands there, or over what is marked."""
    app, screen = listening(fields=True)
    async with app.run_test() as pilot:
        field = app.screen.query_one("#length", Input)
        await pilot.press("2", "8", "left")
        scan(app, f"{CODES[0]}\r", gap_s=0.016)
        await settle(pilot)
        assert (field.value, field.cursor_position) == ("28", 1)

        await pilot.press("home", "shift+end")
        scan(app, f"{CODES[1]}\r", gap_s=0.016)
        await settle(pilot)
        assert (field.value, field.selected_text) == ("28", "28")
        assert screen.heard == CODES[:2]


async def test_a_scan_elsewhere_leaves_what_was_typed_before_alone() -> None:
    """What was decided to be typing is not taken back by a later scan."""
    app, screen = listening(fields=True)
    async with app.run_test() as pilot:
        field = app.screen.query_one("#length", Input)
        type_in(app, "1m")
        await settle(pilot)
        app.screen.query_one("#waste").focus()
        scan(app, f"{CODES[0]}\r")
        await settle(pilot)

        assert field.value == "1m"
        assert screen.heard == CODES[:1]


async def test_a_field_that_is_slow_keeps_nothing_of_a_scan() -> None:
    """On a busy machine a key may reach its field long after the scanner fell silent."""
    gate = asyncio.Event()

    class Slow(Input):
        async def _on_key(self, event: events.Key) -> None:
            if event.key == CODES[0][-1]:
                await gate.wait()

    class OneField(Hearing):
        def compose(self) -> ComposeResult:
            yield Slow(id="length")

    screen = OneField(fields=True)
    app = StockroomApp({"today": lambda: screen})
    async with app.run_test() as pilot:
        scan(app, f"{CODES[0]}\r")
        for _ in range(3):
            app.post_message(KeysFellSilent())
            await asyncio.sleep(0)
        gate.set()
        await settle(pilot)

        assert screen.heard == CODES[:1]
        assert screen.query_one("#length", Input).value == ""


async def test_mending_at_speed_is_seen_at_once_as_well() -> None:
    """Backspace between two quick digits."""
    app, _ = listening(fields=True)
    async with app.run_test() as pilot:
        for key, character in (("2", "2"), ("7", "7"), ("backspace", "\x7f"), ("8", "8")):
            app.post_message(events.Key(key, character))
        await settle(pilot)

        assert app.screen.query_one("#length", Input).value == "28"


async def test_group_separators_inside_a_scan_are_kept() -> None:
    """Terminals with the newer key protocol name the key and send no character."""
    text = f"0109501101530003{GROUP_SEPARATOR}10ABC123"
    app, screen = listening(fields=True)
    async with app.run_test() as pilot:
        for only_names in (False, True):
            scan(app, f"{text}\r", only_names=only_names)
            await settle(pilot)

        assert screen.heard == [text, text]


@pytest.mark.parametrize("fields", [False, True], ids=["no field", "in a field"])
async def test_codes_that_come_as_a_paste_are_scans(*, fields: bool) -> None:
    """A terminal may hand over what was sent at once; other words are pasted where one types."""
    app, screen = listening(fields=fields)
    async with app.run_test() as pilot:
        app.post_message(events.Paste("\r\n".join(CODES)))
        await settle(pilot)
        assert screen.heard == CODES

        app.post_message(events.Paste("lot L-2291"))
        await settle(pilot)
        assert screen.heard[8:] == ([] if fields else ["lot L-2291"])
        assert [one.value for one in app.screen.query(Input)] == ["lot L-2291", ""][: 2 * fields]


async def test_control_keys_inside_a_scan_neither_quit_nor_open_anything() -> None:
    """A scanner that sends DC1 or DLE as separators does not end the program."""
    app, screen = listening(fields=True)
    async with app.run_test() as pilot:
        scan(app, "10ABC123\x11\x10LOT77\r")
        await settle(pilot)

        assert screen.heard == ["10ABC123LOT77"]
        assert app.is_running
        assert app.screen is screen


async def test_letter_keys_wait_until_no_scan_begins_with_them_and_then_act_in_order() -> None:
    """A scanned r000... never fires `r`; a pressed `r` does."""
    app, screen = listening(fields=False)
    async with app.run_test() as pilot:
        scan(app, CODES[0].lower())
        scan(app, "\r")
        await settle(pilot)
        scan(app, "cr", gap_s=0.2)
        await settle(pilot)

        assert len(screen.heard) == 1
        assert screen.keys == ["c", "r"]


async def test_fast_typing_arrives_whole_and_before_its_enter() -> None:
    """Keys of a typist at 110 words a minute are held for a moment, never lost or reordered."""
    app, screen = listening(fields=True)
    async with app.run_test() as pilot:
        scan(app, "12ft 6 1/2in\r", gap_s=0.109)
        await settle(pilot)

        assert screen.submitted == ["12ft 6 1/2in"]
        assert screen.heard == []


async def test_a_scan_reaches_the_screen_behind_the_palette() -> None:
    """The scan line is live everywhere."""
    app, screen = listening(fields=False)
    async with app.run_test() as pilot:
        await pilot.press("ctrl+p")
        scan(app, f"{CODES[0]}\r")
        await settle(pilot)

        assert isinstance(app.screen, CommandPalette)
        assert screen.heard == CODES[:1]
