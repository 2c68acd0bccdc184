"""What a person hears who does not look: once for done, twice for look here."""

import pytest
from textual.pilot import Pilot

from stockroom.screens.app import StockroomApp
from stockroom.units import M
from tests.screens.seeing import scan, screen_text, settle, type_in
from tests.screens.shop import Shop

A_SECOND_BELL_S = 0.3


@pytest.fixture
def bells(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What the screen said at each bell."""
    heard: list[str] = []
    monkeypatch.setattr(StockroomApp, "bell", lambda app: heard.append(screen_text(app)))
    return heard


async def rung(pilot: Pilot[None], bells: list[str]) -> int:
    """How often it rang since it was asked last."""
    await settle(pilot)
    await settle(pilot)
    await pilot.pause(A_SECOND_BELL_S)
    number = len(bells)
    bells.clear()
    return number


async def test_a_question_does_not_sound_like_done(shop: Shop, bells: list[str]) -> None:
    """Enter on a newer roll asks: two bells; the answer that writes rings once."""
    codes = shop.codes
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await pilot.press("f4")
        scan(pilot.app, f"{codes.new_roll}\r{codes.clinic}\r")
        assert await rung(pilot, bells) == 0
        type_in(pilot.app, "2.8\r")
        assert await rung(pilot, bells) == 2
        assert shop.left_nm(codes.new_roll) == 23 * M

        await pilot.press("n")
        assert await rung(pilot, bells) == 1
        assert shop.left_nm(codes.new_roll) < 23 * M


async def test_a_form_that_is_refused_rings_twice_and_one_that_is_written_once(
    shop: Shop, bells: list[str]
) -> None:
    """As everywhere else."""
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        scan(pilot.app, f"{shop.codes.old_roll}\r")
        await rung(pilot, bells)
        await pilot.press("p")
        type_in(pilot.app, "nowhere\r")
        assert await rung(pilot, bells) == 2

        await pilot.press("escape", "p")
        type_in(pilot.app, "B2\r")
        assert await rung(pilot, bells) == 1
