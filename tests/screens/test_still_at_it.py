"""Another station holds the book: a person is told so long before they are refused."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from textual.pilot import Pilot

from stockroom.screens.form import Form
from stockroom.screens.widgets.band import STILL_AT_IT
from stockroom.units import MM
from tests.screens.seeing import scan, screen_text, settle, type_in
from tests.screens.shop import Shop


@pytest.fixture(autouse=True)
def _impatient(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody waits a second for a test."""
    monkeypatch.setattr("stockroom.screens.hearing.SILENT_S", 0.02)


@contextmanager
def another_station_writes(shop: Shop) -> Iterator[None]:
    """Somebody else has begun to write and is not done."""
    other = sqlite3.connect(shop.labels.parent / "book.db", isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    yield
    other.execute("ROLLBACK")
    other.close()


async def sees(pilot: Pilot[None], words: str) -> None:
    """Wait until the screen says so."""
    while words not in screen_text(pilot.app):
        await pilot.pause(0.01)


async def test_the_bench_says_that_it_waits_and_writes_once_the_book_is_free(shop: Shop) -> None:
    """The words go when the answer comes, and nothing was written twice."""
    codes = shop.codes
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await pilot.press("f4")
        await settle(pilot)
        scan(pilot.app, f"{codes.old_roll}\r{codes.clinic}\r")
        await settle(pilot)
        await settle(pilot)
        type_in(pilot.app, "2.8")
        await settle(pilot)
        with another_station_writes(shop):
            await pilot.press("enter")
            await sees(pilot, STILL_AT_IT)
        await settle(pilot)
        await settle(pilot)

        assert "✓ DONE" in screen_text(pilot.app)
        assert STILL_AT_IT not in screen_text(pilot.app)
        assert shop.left_nm(codes.old_roll) == 3_600 * MM


async def test_what_needs_no_word_afterwards_leaves_none(shop: Shop) -> None:
    """A line of a delivery is kept without a sentence; the words that it waits go all the same."""
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await pilot.press("f5")
        await settle(pilot)
        type_in(pilot.app, "frosted")
        await settle(pilot)
        with another_station_writes(shop):
            await pilot.press("enter")
            await sees(pilot, STILL_AT_IT)
        await settle(pilot)

        assert STILL_AT_IT not in screen_text(pilot.app)
        assert "frosted 1524" in screen_text(pilot.app)


async def test_a_form_says_that_it_waits(shop: Shop) -> None:
    """In its own place, for it lies over the band."""
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        scan(pilot.app, f"{shop.codes.old_roll}\r")
        await settle(pilot)
        await settle(pilot)
        await pilot.press("p")
        await settle(pilot)
        assert isinstance(pilot.app.screen, Form)
        type_in(pilot.app, "B2")
        await settle(pilot)
        with another_station_writes(shop):
            await pilot.press("enter")
            await sees(pilot, STILL_AT_IT)
        await settle(pilot)
        await settle(pilot)

        assert "put in B2" in screen_text(pilot.app)
