"""A job: its panels are typed, planned, kept and seen to scale."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from threading import Event
from typing import Any

import pytest
from textual.events import Paste
from textual.pilot import Pilot

from stockroom.screens.job import JobScreen
from stockroom.units import MM
from stockroom.work.panels import covering
from stockroom.work.plan_job import JobPlan, plan_job
from stockroom.work.planned import planned_cuts
from stockroom.work.reserve import Reserve, reserve, reserved_cuts
from tests.screens.seeing import same_screen, scan, screen_text, settle, type_in
from tests.screens.shop import FROSTED, Shop


@asynccontextmanager
async def at_the_clinic(shop: Shop, size: tuple[int, int] = (80, 24)) -> AsyncIterator[Pilot[None]]:
    """The screen of the clinic's job."""
    async with shop.app().run_test(size=size) as pilot:
        await pilot.press("f9")
        await settle(pilot)
        scan(pilot.app, f"{shop.codes.clinic}\r")
        await press(pilot)
        assert isinstance(pilot.app.screen, JobScreen)
        yield pilot


async def press(pilot: Pilot[None], *keys: str) -> str:
    """Press keys, letters as a person does; the screen afterwards."""
    for key in keys:
        if len(key) == 1:
            type_in(pilot.app, key)
        else:
            await pilot.press(key)
        await settle(pilot)
    await settle(pilot)
    return screen_text(pilot.app)


def write_panels(shop: Shop) -> None:
    """Six panels of two sizes, as somebody else wrote them."""
    hand = shop.hand()
    hand.panels(shop.codes.clinic, (900, 1_500), (560, 700), material=FROSTED, number=3)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_a_plan_is_drawn_to_scale(shop: Shop, size: tuple[int, int]) -> None:
    """The panel under the cursor is lit in the list and on the film; nothing is written yet."""
    write_panels(shop)
    async with at_the_clinic(shop, size) as pilot:
        await press(pilot, "p", "down")

        assert same_screen(pilot.app)
        assert reserved_cuts(shop.book, shop.codes.clinic) == ()


async def test_a_plan_is_made_beside_a_live_screen_and_kept_and_let_go(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """While it is planned a line says so and the cursor moves; a kept plan is let go after a question."""
    write_panels(shop)
    go_on = Event()

    def slowly(*given: Any, **named: Any) -> JobPlan:
        go_on.wait()
        return plan_job(*given, **named)

    monkeypatch.setattr("stockroom.screens.job_work.plan_job", slowly)
    async with at_the_clinic(shop) as pilot:
        type_in(pilot.app, "p")
        while "… planning 6 panels" not in screen_text(pilot.app):
            await pilot.pause(0.01)
        await pilot.press("down")
        assert "▸ P2" in screen_text(pilot.app)
        go_on.set()
        await settle(pilot)

        assert "reserved until" in await press(pilot, "k")
        assert "✓ DONE  kept for" in screen_text(pilot.app)
        assert reserved_cuts(shop.book, shop.codes.clinic)
        assert "let the film go" in await press(pilot, "l")
        assert "no film is kept" in await press(pilot, "y")
        assert reserved_cuts(shop.book, shop.codes.clinic) == ()

        assert "6 panels of it not cut" in await press(pilot, "i")
        await press(pilot, "y")
        assert covering(shop.book, shop.codes.clinic).stage == "installed"


async def test_panels_are_typed_one_after_the_other(shop: Shop) -> None:
    """The film stays for the next; what is no panel keeps what was typed; one can be dropped again."""
    async with at_the_clinic(shop) as pilot:
        assert "has no panels to plan" in await press(pilot, "p")
        await press(pilot, "w")
        type_in(pilot.app, "W1 900x1500 x3\tfrost")
        seen = await press(pilot)
        assert f"3 panes W1, 900 × 1500 mm, of {FROSTED}" in seen  # noqa: RUF001 - the sign itself
        await press(pilot, "enter")
        type_in(pilot.app, "W2 560\r")
        assert "! “W2 560” is no panel" in await press(pilot)
        await pilot.press("end")
        type_in(pilot.app, "x700\r")
        await press(pilot)
        await press(pilot, "escape", "down")
        panels = covering(shop.book, shop.codes.clinic).panels
        assert [(one.name, one.number) for one in panels] == [("W1", 3), ("W2", 1)]

        assert "0 of “W2” are cut" in await press(pilot, "s", "y")
        await press(pilot, "d", "y")
        assert [one.name for one in covering(shop.book, shop.codes.clinic).panels] == ["W1"]


async def test_a_list_is_pasted_and_what_it_does_not_say_is_typed_once(shop: Shop) -> None:
    """Out of a spreadsheet: a line each, its cells parted by tabs."""
    async with at_the_clinic(shop) as pilot:
        await press(pilot, "w")
        pilot.app.post_message(Paste("W1\t900\t1500\t3\nW2\t560\t700\n"))
        type_in(pilot.app, "\tfrost\tleft bay\t15\tyes")
        seen = await press(pilot)
        assert f"4 panes in 2 lines, W1, W2, of {FROSTED}" in seen
        assert same_screen(pilot.app)

        await press(pilot, "enter", "escape")
        panels = covering(shop.book, shop.codes.clinic).panels
        assert [(one.name, one.number, one.group, one.seams) for one in panels] == [
            ("W1", 3, "left bay", True),
            ("W2", 1, "left bay", True),
        ]
        assert {one.trims_nm for one in panels} == {(15 * MM,) * 4}


async def test_a_planned_cut_is_written_by_three_inputs(shop: Shop) -> None:
    """The piece, the job, Enter; a typed length is cut as ever, and the offcut's code is said."""
    write_panels(shop)
    codes, plan = shop.codes, plan_job(shop.book, shop.codes.clinic, now=shop.now)
    cuts = planned_cuts(plan)
    request = Reserve(**shop.hand().asked(job=codes.clinic, cuts=cuts))
    reserve(request, book=shop.book, now=shop.now)
    cut = next(one for one in cuts if one.piece == codes.old_roll)
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await pilot.press("f4")
        await settle(pilot)
        scan(pilot.app, f"{codes.old_roll}\r{codes.clinic}\r")
        assert "planned: 4.92 m, 3 P1, keeps 574 × 4620 mm" in await press(pilot)  # noqa: RUF001
        type_in(pilot.app, "2.8")
        assert "cut 2.8 m for" in await press(pilot)
        seen = await press(pilot, *["backspace"] * 3)
        assert "planned: 4.92 m" in seen
        assert same_screen(pilot.app)
        await pilot.press("enter")
        seen = await press(pilot)

        assert "✓ DONE" in seen
        assert "label C0" in seen
        assert "planned:" not in seen
        assert shop.left_nm(codes.old_roll) == cut.balance_nm - cut.length_nm
        assert covering(shop.book, codes.clinic).done == {"P1": 3}
