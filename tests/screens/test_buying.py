"""Buying: a material in a plot, and every material with what to order of it."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import timedelta

import pytest
from textual.pilot import Pilot

from stockroom.books.opening import create_book
from stockroom.screens.buying import BuyingScreen
from stockroom.screens.rack import RackScreen
from stockroom.work.setup import ChangeMaterial, change_a_material
from stockroom.work.suppliers import ChangeSupplier, change_supplier
from tests.screens.seeing import same_screen, screen_text, settle, type_in
from tests.screens.shop import FROSTED, Shop


@asynccontextmanager
async def at_buying(
    shop: Shop, size: tuple[int, int] = (80, 24), *, shows_money: bool = False
) -> AsyncIterator[Pilot[None]]:
    """The screen, as it is first seen."""
    async with shop.app(shows_money=shows_money).run_test(size=size) as pilot:
        await settle(pilot)
        await press(pilot, "ctrl+b")
        yield pilot


async def press(pilot: Pilot[None], key: str) -> str:
    """Press a key; the screen afterwards."""
    await pilot.press(key)
    await settle(pilot)
    await settle(pilot)
    return screen_text(pilot.app)


def _sold_by(shop: Shop, supplier: str) -> None:
    hand = shop.hand()
    terms = {"supplier": supplier, "lead": "10d", "expect": "12x3000mm"}
    request = ChangeMaterial(**hand.asked(name=FROSTED, terms=terms))
    change_a_material(request, book=shop.book, now=shop.now)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_buying(shop: Shop, size: tuple[int, int]) -> None:
    """What follows on top, the stock of a year gone by and of one to come, then every material."""
    _sold_by(shop, "Film house")
    async with at_buying(shop, size) as pilot:
        assert isinstance(pilot.app.screen, BuyingScreen)
        assert same_screen(pilot.app)


async def test_one_keeps_to_a_supplier_and_goes_to_the_pieces(shop: Shop) -> None:
    """What is to be ordered stands first, whatever its name; without a supplier one is told."""
    _sold_by(shop, "Film house")
    async with at_buying(shop) as pilot:
        seen = await press(pilot, "s")
        assert "1 of 4 materials  ·  1 to order  ·  Film house" in seen
        assert "4 materials  ·  1 to order" in await press(pilot, "s")

        seen = await press(pilot, "down")
        assert "drawn nothing (new, 3 days)" in seen
        assert "Nobody is entered who sells it" in await press(pilot, "s")

        await press(pilot, "up")
        seen = await press(pilot, "enter")
        assert isinstance(pilot.app.screen, RackScreen)
        assert f"“{FROSTED}”" in seen


async def test_what_is_written_meanwhile_is_seen_when_one_comes_back(shop: Shop) -> None:
    """A roll that came in is not ordered any more."""
    _sold_by(shop, "Film house")
    async with at_buying(shop) as pilot:
        assert "1 to order" in screen_text(pilot.app)
        await press(pilot, "f3")
        shop.now += timedelta(minutes=1)
        shop.hand().roll(material=FROSTED, length_nm=50 * 10**9, made="2026-11-01")
        assert "0 to order" in await press(pilot, "ctrl+b")


@pytest.mark.parametrize("shows_money", [True, False], ids=["money", "hidden"])
async def test_value(shop: Shop, shows_money: bool) -> None:  # noqa: FBT001
    """What the room is worth by the week and in tables; pieces alone where money is hidden."""
    async with at_buying(shop, shows_money=shows_money) as pilot:
        await press(pilot, "v")
        assert same_screen(pilot.app)
        assert ("EUR" in screen_text(pilot.app)) is shows_money

        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, BuyingScreen)


async def test_an_empty_book_says_what_to_do_next(shop: Shop) -> None:
    """There is nothing to plan by, and nothing of worth."""
    shop.book.close()
    shop.book = create_book(str(shop.labels.with_name("new.db")))
    async with at_buying(shop, shows_money=True) as pilot:
        assert "F5 receives film and goods" in " ".join(screen_text(pilot.app).split())
        assert "Nothing of ours is here." in await press(pilot, "v")


async def test_the_plan_becomes_an_order_that_is_sent_and_taken_in(shop: Shop) -> None:
    """A draft is not on its way; what was sent is, and the plan counts on it."""
    _sold_by(shop, "Film house")
    async with at_buying(shop) as pilot:
        seen = await press(pilot, "d")
        assert "✓ DONE  drafted D000 0010 to Film house: it is not on its way" in seen
        assert "1  1 roll of 25 m  frosted 1524" in seen

        await press(pilot, "t")
        type_in(pilot.app, "2026-12-01\r")
        await settle(pilot)
        await settle(pilot)
        assert same_screen(pilot.app)

        assert "D000 0010 to Film house is in" in " ".join((await press(pilot, "p")).split())
        assert (shop.labels / "D0000010.pdf").read_bytes().startswith(b"%PDF")
        assert "frosted 1524" in (shop.labels / "D0000010.txt").read_text("utf-8")

        await press(pilot, "escape")
        seen = await press(pilot, "o")
        assert "sent, due Tue 2026-12-01" in seen
        seen = await press(pilot, "escape")
        assert "4 materials  ·  0 to order" in seen
        assert "25 m of it on order" in " ".join(seen.split())
        assert "The plan orders nothing of Film house" in await press(pilot, "d")

        await press(pilot, "o")
        await press(pilot, "x")
        type_in(pilot.app, "sold out\r")
        await settle(pilot)
        await settle(pilot)
        assert "D000 0010 to Film house is cancelled" in screen_text(pilot.app)
        assert "Nothing is on order." in screen_text(pilot.app)


async def test_who_sells_what_and_what_to_order_there(shop: Shop) -> None:
    """A row for each; below, the basket and the days nobody delivers; Enter keeps Buying to it."""
    _sold_by(shop, "Film house")
    days = (shop.now.date(), shop.now.date() + timedelta(days=3))
    request = ChangeSupplier(
        **shop.hand().asked(name="Film house", closed=days, terms={"paid_minor": 90_000})
    )
    change_supplier(request, book=shop.book, now=shop.now)
    async with at_buying(shop) as pilot:
        seen = await press(pilot, "w")
        assert "Film house" in seen
        assert "10 days ± 3 d (entered)" in seen
        assert "Film house: 1 frosted 1524. It would be here on" in seen
        assert "closed Wed 2026-11-25 to Sat 2026-11-28" in seen
        assert "900" not in seen

        seen = await press(pilot, "enter")
        assert "1 of 4 materials  ·  1 to order  ·  Film house" in seen
