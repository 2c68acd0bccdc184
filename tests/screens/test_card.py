"""A piece's card, and what is written from it."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from textual.pilot import Pilot

from stockroom.codes.own import grouped
from stockroom.screens.bench import BenchScreen
from stockroom.screens.card import CardScreen
from stockroom.screens.form import Form
from stockroom.screens.today import TodayScreen
from stockroom.units import MM, M
from stockroom.work.setup import ChangeMaterial, change_a_material
from tests.screens.seeing import same_screen, scan, screen_text, settle, type_in
from tests.screens.shop import CAST, Shop
from tests.weather import HOUR_S, Weather


@asynccontextmanager
async def at_card(
    shop: Shop, code: str, size: tuple[int, int] = (80, 24)
) -> AsyncIterator[Pilot[None]]:
    """The card of a piece, opened by a scan."""
    async with shop.app().run_test(size=size) as pilot:
        await settle(pilot)
        scan(pilot.app, f"{code}\r")
        before = ""
        while (
            seen := await _settled(pilot)
        ) != before:  # it is fitted to the screen once it is drawn
            before = seen
        yield pilot


async def _settled(pilot: Pilot[None]) -> str:
    await settle(pilot)
    return screen_text(pilot.app)


async def write(pilot: Pilot[None], typed: str) -> str:
    """Type into the form that lies open, Enter and Tab as they come; the screen afterwards."""
    type_in(pilot.app, typed)
    await settle(pilot)
    await settle(pilot)
    return screen_text(pilot.app)


async def press(pilot: Pilot[None], key: str) -> str:
    """Press a key of the card; the screen afterwards."""
    await pilot.press(key)
    await settle(pilot)
    return screen_text(pilot.app)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_card(shop: Shop, size: tuple[int, int]) -> None:
    """What is left, each rule with its bar, the dates, every act."""
    async with at_card(shop, shop.codes.tested, size) as pilot:
        assert same_screen(pilot.app)


async def test_a_count_is_one_measurement_and_corrects_the_books(shop: Shop) -> None:
    """Two are refused with what was typed still there; one is written."""
    code = shop.codes.old_roll
    async with at_card(shop, code) as pilot:
        await press(pilot, "n")
        seen = await write(pilot, "6.1\t150mm\r")
        assert "! Fill in one line: one measurement is one count." in seen
        assert same_screen(pilot.app)
        assert shop.left_nm(code) == 6_400 * MM

        await pilot.press("tab", "backspace")
        seen = await write(pilot, "\r")
        assert "6.1 m left, the books said 6.4 m" in seen
        assert shop.left_nm(code) == 6_100 * MM


async def test_what_cannot_be_read_is_said_and_its_line_is_the_one_to_mend(shop: Shop) -> None:
    """The cursor goes to the line that is wrong, on the text that was typed."""
    async with at_card(shop, shop.codes.old_roll) as pilot:
        await press(pilot, "n")
        await pilot.press("tab", "tab", "tab")
        seen = await write(pilot, "heavy\r")

        assert "! “heavy” is not a mass" in seen
        assert pilot.app.focused is pilot.app.screen.query_one("#field-mass")
        assert shop.acts()[0].kind != "count"


async def test_film_comes_back_from_the_job_that_drew_it_last(shop: Shop) -> None:
    """The job stands there already; more than it drew is refused; a severed part is a new piece."""
    codes = shop.codes
    shop.hand().cut(codes.new_roll, 3 * M, job=codes.clinic)
    async with at_card(shop, codes.new_roll) as pilot:
        seen = await press(pilot, "b")
        assert "job          clinic partition" in seen
        seen = await write(pilot, "4m\r")
        assert "The job drew 3 m" in seen

        seen = await write(pilot, "0.4\r")
        assert "back 400 mm from" in seen
        assert shop.left_nm(codes.new_roll) == 20_400 * MM

        await press(pilot, "b")
        seen = await write(pilot, "700x900\r")
        assert "it needs a label" in seen


async def test_goods_come_back_into_their_box(shop: Shop) -> None:
    """A number, from the job that took them."""
    codes = shop.codes
    shop.hand().take(codes.box, 10, job=codes.clinic)
    async with at_card(shop, codes.box) as pilot:
        await press(pilot, "b")
        seen = await write(pilot, "4\r")

        assert "94 pcs left" in seen
        assert shop.left_nm(codes.box) == 94


async def test_a_place_is_typed_or_scanned(shop: Shop) -> None:
    """A scanned place is only written by the person's Enter."""
    codes = shop.codes
    async with at_card(shop, codes.old_roll) as pilot:
        await press(pilot, "p")
        assert "Say where it stands" in await write(pilot, "\r")
        seen = await write(pilot, "nowhere\r")
        assert "No place is called “nowhere”" in seen
        await pilot.press("escape")

        scan(pilot.app, f"{codes.place}\r")
        await settle(pilot)
        await settle(pilot)
        assert isinstance(pilot.app.screen, Form)
        assert shop.acts()[0].kind != "put"
        seen = await write(pilot, "\r")
        assert "put in B2" in seen
        assert "at B2, zone South" in seen


async def test_a_scan_into_a_form_goes_where_it_is_asked_for_or_nowhere(shop: Shop) -> None:
    """A job fills the job; a piece is refused, and nothing is lost; what is no code is typed."""
    codes = shop.codes
    async with at_card(shop, codes.old_roll) as pilot:
        await press(pilot, "b")
        type_in(pilot.app, "0.4")
        await settle(pilot)
        scan(pilot.app, f"{codes.shelter}\r")
        await settle(pilot)
        form = pilot.app.screen
        assert isinstance(form, Form)
        values = [field.value for field in form.query("Input").results()]  # type: ignore[attr-defined]
        assert values == ["0.4", "tram shelter 4"]

        scan(pilot.app, f"{codes.box}\r")
        await settle(pilot)
        assert "is nothing this form asks for" in screen_text(pilot.app)
        scan(pilot.app, "4006381333931\r")
        await settle(pilot)
        assert form.query("Input").first().value == "0.44006381333931"  # type: ignore[attr-defined]
        assert "is nothing this form asks for" not in screen_text(pilot.app)


async def test_a_hold_needs_a_reason_and_the_same_key_releases(shop: Shop) -> None:
    """Held reads STOP at once."""
    code = shop.codes.new_roll
    async with at_card(shop, code) as pilot:
        await press(pilot, "h")
        assert "A reason is needed" in await write(pilot, "\r")
        seen = await write(pilot, "creased [/] at the core\r")
        assert "✕ STOP" in seen
        assert "held: creased [/] at the core" in seen

        seen = await press(pilot, "h")
        assert f"Release {grouped(code)}" in seen
        seen = await write(pilot, "only the outer wrap\r")
        assert "● USE" in seen


async def test_the_last_act_is_undone_when_the_question_is_answered_with_yes(shop: Shop) -> None:
    """No leaves it, yes reverses it; a piece without acts to undo says so."""
    codes = shop.codes
    shop.hand().cut(codes.old_roll, 1 * M, job=codes.clinic)
    async with at_card(shop, codes.old_roll) as pilot:
        seen = await press(pilot, "u")
        assert f"cut 1 m for {grouped(codes.clinic)}?   y yes   n no" in seen
        await press(pilot, "n")
        assert shop.left_nm(codes.old_roll) == 5_400 * MM

        await press(pilot, "u")
        seen = await press(pilot, "y")
        assert "undone: cut" in seen
        assert shop.left_nm(codes.old_roll) == 6_400 * MM


async def test_the_label_is_written_to_a_file_and_the_band_says_where(shop: Shop) -> None:
    """One PDF for each piece, in the station's own folder."""
    async with at_card(shop, shop.codes.box) as pilot:
        seen = await press(pilot, "l")
        file = shop.labels / f"{shop.codes.box}.pdf"

        assert file.read_bytes().startswith(b"%PDF")
        assert file.name in "".join(seen.split())


async def test_a_folder_that_cannot_be_made_is_refused(shop: Shop, tmp_path: Path) -> None:
    """One sentence, and the card stays."""
    (tmp_path / "taken").write_text("no folder")
    shop.labels = tmp_path / "taken" / "labels"
    async with at_card(shop, shop.codes.box) as pilot:
        assert "! REFUSED" in await press(pilot, "l")


async def test_scans_on_a_card_lead_on(shop: Shop) -> None:
    """Another piece shows its own card; a job takes this piece to the Bench for it."""
    codes = shop.codes
    async with at_card(shop, codes.tested) as pilot:
        scan(pilot.app, f"{codes.old_roll}\r")
        await settle(pilot)
        assert "frosted 1524" in screen_text(pilot.app)
        await pilot.press("escape")
        await settle(pilot)
        assert isinstance(pilot.app.screen, TodayScreen)

        scan(pilot.app, f"{codes.old_roll}\r")
        await settle(pilot)
        scan(pilot.app, f"{codes.clinic}\r")
        await settle(pilot)
        await settle(pilot)
        seen = screen_text(pilot.app)
        assert isinstance(pilot.app.screen, BenchScreen)
        assert "6.4 m left" in seen
        assert "clinic partition, Well Street   Mon" in seen


async def test_a_code_nobody_was_given_opens_an_empty_card_that_says_so(shop: Shop) -> None:
    """Esc leads back; no key does anything."""
    async with at_card(shop, "R000012F") as pilot:
        assert "No piece has the code" in screen_text(pilot.app)
        await pilot.press("n", "u", "escape")
        await settle(pilot)
        assert isinstance(pilot.app.screen, TodayScreen)


async def test_the_cut_key_takes_the_piece_to_the_bench(shop: Shop) -> None:
    """The card is put away behind it."""
    async with at_card(shop, shop.codes.new_roll) as pilot:
        await press(pilot, "c")
        await settle(pilot)
        assert isinstance(pilot.app.screen, BenchScreen)
        assert "23 m left" in screen_text(pilot.app)
        assert not any(isinstance(one, CardScreen) for one in pilot.app.screen_stack)


def a_warm_year(shop: Shop) -> None:
    """A sensor in the south since October, where the tested roll stands, and a bond to hold its film."""
    weather = Weather(shop.book, shop.now)
    weather.sensor("door", "South")
    weather.read(*((-hour * HOUR_S, 24.0 + 9 * (hour > 500)) for hour in range(1_000)))
    request = ChangeMaterial(
        **weather.asked(name=CAST, changes={"applied_nm": 80_000}),
        figures={"bond": "0.5", "modulus": "0.5"},
        why="sheet",
    )
    change_a_material(request, book=shop.book, now=shop.now)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_card_of_a_stored_roll(shop: Shop, size: tuple[int, int]) -> None:
    """Verdict and why come first, and an act is in sight; the caution is kept, in short."""
    a_warm_year(shop)
    async with at_card(shop, shop.codes.tested, size) as pilot:
        assert same_screen(pilot.app)


async def test_how_a_roll_was_kept_is_one_key_away(shop: Shop) -> None:
    """In place of its rules and acts, which come back."""
    a_warm_year(shop)
    async with at_card(shop, shop.codes.tested) as pilot:
        await press(pilot, "r")
        assert same_screen(pilot.app)

        seen = await press(pilot, "r")
        assert "25 months, limit 24" in seen
        assert "outer wrap curls to a 160 mm circle, limit" in seen


async def test_where_all_of_it_is_in_sight_no_key_is_offered(shop: Shop) -> None:
    """Nor is it for a box."""
    async with at_card(shop, shop.codes.tested, (120, 40)) as pilot:
        seen = await press(pilot, "r")
        assert "t Trial l Label" in seen
        assert "25 months, limit 24" in seen
    async with at_card(shop, shop.codes.box) as pilot:
        assert "r Roll" not in await press(pilot, "r")
