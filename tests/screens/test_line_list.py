"""The one list of every long table."""

from collections.abc import Sequence
from itertools import count
from typing import overload

import pytest
from textual.app import ComposeResult
from textual.screen import Screen

from stockroom.screens.app import StockroomApp
from stockroom.screens.marks import marked
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.line_list import LineList, Row
from tests.screens.seeing import same_screen, screen_text, settle

COLUMNS = (
    Column(title="piece", width=9),
    Column(title="material", width=16, grows=True),
    Column(title="left", width=8, right=True),
    Column(title="verdict", width=12),
    Column(title="lot", width=24, rank=2),
    Column(title="place", width=6, rank=1),
)
SIGNS = ("● USE", "◐ USE FIRST", "▲ TEST", "✕ STOP", "?")


def a_row(number: int, material: str = "urethane clear 200") -> Row:
    """A made-up line of the rack."""
    left = f"{number % 50}.{number % 10} m"
    verdict = marked(SIGNS[number % 5])
    return Row(f"R{number:06}", (f"R{number:06}", material, left, verdict, f"L-{number}", "B2"))


class Endless(Sequence[Row]):
    """Very many rows, none of which exists before it is asked for."""

    def __init__(self, length: int) -> None:
        self.length = length
        self.asked = 0

    def __len__(self) -> int:
        return self.length

    @overload
    def __getitem__(self, at: int) -> Row: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[Row]: ...
    def __getitem__(self, at: int | slice) -> Row | Sequence[Row]:
        if isinstance(at, slice) or not 0 <= at < self.length:
            raise IndexError(at)
        self.asked += 1
        return a_row(at)


class ListScreen(Screen[None]):
    """Nothing but a list; remembers what the list said."""

    def __init__(self, rows: Sequence[Row]) -> None:
        super().__init__()
        self.rows = rows
        self.said: list[tuple[str, str, int]] = []

    def compose(self) -> ComposeResult:
        line_list = LineList(COLUMNS, empty="Nothing here yet: receive a roll first.")
        line_list.rows = self.rows
        yield line_list

    def on_line_list_row_highlighted(self, message: LineList.RowHighlighted) -> None:
        self.said.append(("highlighted", message.key, message.index))

    def on_line_list_row_chosen(self, message: LineList.RowChosen) -> None:
        self.said.append(("chosen", message.key, message.index))


def shown(rows: Sequence[Row]) -> tuple[StockroomApp, ListScreen]:
    """An app with these rows, and its screen."""
    screen = ListScreen(rows)
    return StockroomApp({"today": lambda: screen}), screen


def the_list(app: StockroomApp) -> LineList:
    return app.screen.query_one(LineList)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_list(size: tuple[int, int]) -> None:
    """Columns line up, numbers on the right; the lot goes first where there is no room."""
    app, _ = shown([a_row(number) for number in range(30)])
    async with app.run_test(size=size) as pilot:
        await pilot.press("down", "down")
        await settle(pilot)

        assert same_screen(app)


async def test_an_empty_list_says_what_to_do_next() -> None:
    """Not "no data", and nothing to choose."""
    app, screen = shown(())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("down", "enter")
        await settle(pilot)
        assert "\n\n  Nothing here yet: receive a roll first.\n" in screen_text(app)

        await pilot.resize_terminal(30, 10)
        await settle(pilot)
        assert "\n  Nothing here yet: receive\n  a roll first.\n" in screen_text(app)
        assert the_list(app).key is None
        assert screen.said == []


async def test_keys_move_the_cursor_by_rows_and_screenfuls_and_stop_at_the_ends() -> None:
    """Up, down, page, home, end; the cursor is always in sight."""
    app, screen = shown([a_row(number) for number in range(100)])
    async with app.run_test(size=(80, 24)) as pilot:
        places = []
        for key in ("up", "down", "pagedown", "end", "down", "pageup", "home"):
            await pilot.press(key)
            places.append(the_list(app).cursor)
            assert f"▸ R{places[-1]:06}" in screen_text(app)
        await pilot.press("enter")
        await settle(pilot)

        assert places == [0, 1, 24, 99, 99, 76, 0]
        assert screen.said[0] == ("highlighted", "R000000", 0)
        assert screen.said[-1] == ("chosen", "R000000", 0)


async def test_a_hundred_thousand_rows_cost_no_more_than_the_lines_in_sight() -> None:
    """Rows out of sight are never asked for, neither at the start nor when jumping to the end."""
    rows = Endless(100_000)
    app, _ = shown(rows)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        await pilot.press("end")
        await settle(pilot)

        assert "▸ R099999" in screen_text(app)
        assert rows.asked < 500


async def test_the_cursor_stays_on_its_piece_when_the_rows_are_read_again() -> None:
    """A row that came in above moves the piece, and the cursor with it."""
    app, screen = shown([a_row(number) for number in range(1, 30)])
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("down", "down")
        the_list(app).rows = [a_row(number) for number in range(30)]
        await settle(pilot)

        assert (the_list(app).key, the_list(app).cursor) == ("R000003", 3)
        assert screen.said.count(("highlighted", "R000003", 2)) == 1
        assert ("highlighted", "R000003", 3) not in screen.said


async def test_the_cursor_goes_to_the_last_row_when_there_are_fewer_rows() -> None:
    """A piece that is gone takes the cursor nowhere strange."""
    app, screen = shown([a_row(number) for number in range(30)])
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("end")
        the_list(app).rows = [a_row(number) for number in range(3)]
        await settle(pilot)

        assert (the_list(app).key, the_list(app).cursor) == ("R000002", 2)
        assert screen.said[-1] == ("highlighted", "R000002", 2)


async def test_names_that_look_like_markup_or_escapes_are_shown_or_dropped_never_obeyed() -> None:
    """Hostile cells are characters like any others, and break no line."""
    names = (
        "[red]x",
        "PET [/] 90%",
        "[@click=app.quit]go[/]",
        "wide 漢字漢字漢字漢字漢字漢字漢字漢字",
        "x" * 9000,
    )
    numbers = count()
    app, _ = shown([a_row(next(numbers), name) for name in names])
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        seen = screen_text(app)

        assert all(name in seen for name in names[:3])
        assert all(
            "USE" in line or "TEST" in line or "STOP" in line or "?" in line
            for line in seen.splitlines()[1:6]
        )


async def test_a_click_moves_the_cursor_and_a_click_on_the_cursor_chooses() -> None:
    """The mouse does what the keys do; the header is no row."""
    app, screen = shown([a_row(number) for number in range(5)])
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.click(LineList, offset=(5, 3))
        await pilot.click(LineList, offset=(5, 3))
        await pilot.click(LineList, offset=(5, 0))
        await pilot.click(LineList, offset=(5, 12))
        await settle(pilot)

        assert screen.said[-2:] == [("highlighted", "R000002", 2), ("chosen", "R000002", 2)]
