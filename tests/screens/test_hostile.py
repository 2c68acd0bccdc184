"""Text from people on the screens: shown as it is, never obeyed."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from textual.pilot import Pilot

from stockroom.codes.own import grouped
from stockroom.units import M
from tests.screens.seeing import scan, screen_text, settle, type_in
from tests.screens.shop import Shop
from tests.weather import HOUR_S, Weather

HOSTILE = "[@click=app.quit]x[/] [/red]"


@asynccontextmanager
async def among_them(shop: Shop) -> AsyncIterator[tuple[Pilot[None], str, str]]:
    """The screens of a shop where nothing has a decent name; a piece and a job of it."""
    hand = shop.hand()
    film, place = hand.material(f"a {HOSTILE}"), hand.place(f"b {HOSTILE}")
    job = hand.job(f"j {HOSTILE}", on_day="2026-11-26")
    code = hand.roll(material=film, lot=f"l {HOSTILE}", place=place, made="2024-12-10")
    hand.cut(code, 1 * M, job=job, operator=f"o {HOSTILE}")
    hand.put(code, place)
    async with shop.app().run_test(size=(120, 40)) as pilot:
        await settle(pilot)
        yield pilot, code, job


async def then(pilot: Pilot[None]) -> str:
    """The screen once all is quiet."""
    await settle(pilot)
    await settle(pilot)
    return screen_text(pilot.app)


async def test_names_that_look_like_markup_are_characters_in_lists(shop: Shop) -> None:
    """A job, a film and a place."""
    async with among_them(shop) as (pilot, _, _):
        assert f"j {HOSTILE}" in screen_text(pilot.app)
        await pilot.press("f3", "home")
        seen = await then(pilot)
        assert f"at b {HOSTILE}" in seen
        assert "a [@click=app.qu" in seen


async def test_they_are_on_a_card_in_its_forms_and_questions(shop: Shop) -> None:
    """A lot, an act, a hint, a refusal."""
    async with among_them(shop) as (pilot, code, _):
        scan(pilot.app, f"{code}\r")
        seen = await then(pilot)
        assert f"l {HOSTILE}" in seen
        assert f"put in b {HOSTILE}" in seen

        await pilot.press("p")
        assert HOSTILE in await then(pilot)
        type_in(pilot.app, f"{HOSTILE}\r")
        assert f"No place is called “{HOSTILE}”" in await then(pilot)
        await pilot.press("escape", "u")
        assert f"put in b {HOSTILE}?   y yes" in await then(pilot)


async def test_they_are_on_the_bench_and_in_the_band(shop: Shop) -> None:
    """A job on the line, a film beside it, a scan of nothing."""
    async with among_them(shop) as (pilot, code, job):
        await pilot.press("f4")
        scan(pilot.app, f"{code}\r{job}\r")
        seen = await then(pilot)
        assert f"{grouped(job)}   j {HOSTILE}" in seen
        assert f"a {HOSTILE}" in seen

        scan(pilot.app, f"{HOSTILE}\r")
        assert f"“{HOSTILE}” is no code of this book" in await then(pilot)


async def test_they_are_in_a_delivery_among_the_jobs_and_in_the_log(shop: Shop) -> None:
    """A film to choose, a job in front, a person that is kept to."""
    async with among_them(shop) as (pilot, code, job):
        await pilot.press("f5")
        await then(pilot)
        type_in(pilot.app, "app.quit")
        assert f"a {HOSTILE}" in await then(pilot)
        type_in(pilot.app, "\r")
        assert f"a {HOSTILE}" in await then(pilot)

        await pilot.press("f9")
        await then(pilot)
        scan(pilot.app, f"{job}\r")
        seen = await then(pilot)
        assert f"{grouped(job)}  j {HOSTILE}" in seen
        assert f"a {HOSTILE}" in seen

        await pilot.press("f10", "down")
        await then(pilot)
        type_in(pilot.app, "b")
        assert f"by o {HOSTILE}" in await then(pilot)
        assert grouped(code) in screen_text(pilot.app)


async def test_they_are_zones_and_sensors(shop: Shop) -> None:
    """In the head of Today, and wherever Climate names them."""
    weather = Weather(shop.book, shop.now)
    weather.sensor(f"s {HOSTILE}", f"z {HOSTILE}")
    weather.read((-HOUR_S, 22.4, 48.0), (0, 22.4, 48.0), sensor=f"s {HOSTILE}")
    async with shop.app().run_test(size=(120, 40)) as pilot:
        assert f"z {HOSTILE} 22.4 °C 48 %" in await then(pilot)
        await pilot.press("f12")
        seen = await then(pilot)
        assert f"z {HOSTILE}  ·  the last 7 days" in seen
        assert f"z {HOSTILE} stayed within 10 °C to 30 °C" in seen
        assert f"sensor  s {HOSTILE}" in seen
