"""Today on the screen."""

import pytest

from stockroom.books.opening import create_book
from stockroom.screens.bench import BenchScreen
from stockroom.screens.card import CardScreen
from stockroom.screens.rack import RackScreen
from stockroom.screens.today import TodayScreen
from tests.screens.seeing import same_screen, scan, screen_text, settle, type_in
from tests.screens.shop import FROSTED, Codes, Shop
from tests.weather import HOUR_S, Weather


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_today(shop: Shop, size: tuple[int, int]) -> None:
    """What needs a hand, the worst first, why, and the jobs of the coming days."""
    app = shop.app()
    async with app.run_test(size=size) as pilot:
        await settle(pilot)

        assert same_screen(app)


async def test_the_line_below_the_list_says_why_of_the_row_under_the_cursor(shop: Shop) -> None:
    """Moving on tells of the next piece; Enter opens its card."""
    app = shop.app()
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        assert "passed adhesion trial held good until" in screen_text(app)

        await pilot.press("down")
        await settle(pilot)
        assert "✕ held: dropped on its edge" in screen_text(app)

        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, CardScreen)
        assert app.screen.code == shop.codes.held


async def test_an_empty_book_says_what_to_do_next(shop: Shop) -> None:
    """A shop that begins today is told how."""
    shop.book = create_book(str(shop.labels.with_name("new.db")))
    app = shop.app()
    async with app.run_test(size=(80, 24)) as pilot:
        for key in ("f2", "f3", "f4"):
            await pilot.press(key)
            await settle(pilot)
            if key != "f4":
                assert "stockroom receive" in screen_text(app)
        await pilot.press("f8", "f7", "f6", "escape")
        await settle(pilot)
        shop.book.close()

        assert "scan it, or type its code after /" in screen_text(app)


async def test_a_scan_leads_to_what_it_is_the_code_of(shop: Shop) -> None:
    """A piece to its card, a place to what stands there, a job to the Bench."""
    app = shop.app()
    async with app.run_test(size=(80, 24)) as pilot:
        for code, screen, says in (
            (shop.codes.tested, CardScreen, "white cast 1370 · lot ?"),
            (shop.codes.place, RackScreen, "4 of 8 pieces  ·  at B2"),
            (shop.codes.clinic, BenchScreen, "clinic partition, Well Street   Mon 2026-11-30"),
        ):
            await pilot.press("f2")
            scan(app, f"{code}\r")
            await settle(pilot)
            await settle(pilot)

            assert isinstance(app.screen, screen)
            assert says in screen_text(app)


async def test_words_typed_are_looked_for_on_the_rack(shop: Shop) -> None:
    """A lot, a name, a place: whatever a person remembers."""
    app = shop.app()
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        type_in(app, "/l-2291\r")
        await settle(pilot)
        await settle(pilot)

        assert isinstance(app.screen, RackScreen)
        assert "1 of 8 pieces" in screen_text(app)


async def test_what_is_no_code_of_the_book_is_said_to_be_none(shop: Shop) -> None:
    """A scan of something else and a misread leave everything as it was."""
    app = shop.app()
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        scan(app, "4006381333931\r")
        await settle(pilot)
        assert "! REFUSED  “4006381333931” is no code of this book." in screen_text(app)

        scan(app, _misread(shop.codes) + "\r")
        await settle(pilot)
        assert "is a misread" in screen_text(app)
        assert isinstance(app.screen, TodayScreen)


def _misread(codes: Codes) -> str:
    """A roll's code with two digits changed for one another."""
    code = codes.tested
    return f"{code[:5]}{code[6]}{code[5]}{code[7]}"


async def test_the_same_code_twice_within_two_seconds_is_one_scan(shop: Shop) -> None:
    """A trembling hand opens one card."""
    app = shop.app()
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        scan(app, f"{shop.codes.tested}\r{shop.codes.tested}\r")
        await settle(pilot)
        await pilot.press("escape")
        await settle(pilot)

        assert isinstance(app.screen, TodayScreen)


async def test_the_head_says_the_air_and_the_foot_what_comes(shop: Shop) -> None:
    """Where a sensor stands, and something changes within 14 days."""
    weather = Weather(shop.book, shop.now)
    weather.sensor("door", "North")
    weather.sensor("window", "South")
    weather.read((-HOUR_S, 22.4, 48.0))
    weather.read((-5 * HOUR_S, 20.0), sensor="window")
    weather.roll(made="2024-12-02", material=FROSTED)
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        await settle(pilot)
        assert same_screen(pilot.app)

        shop.wait(hours=6)
        await pilot.press("f3")
        await settle(pilot)
        await pilot.press("f2")
        await settle(pilot)
        await settle(pilot)
        assert "North ? 7 h   South ? 11 h" in screen_text(pilot.app)
