"""The forms of a piece's card beside those that measure it or send it away."""

from stockroom.screens.forms.on_card import some_of
from stockroom.units import MM
from tests.screens.seeing import same_screen, screen_text
from tests.screens.shop import Shop
from tests.screens.test_card import at_card, press, write
from tests.weather import HOUR_S, Weather


async def test_a_trial_is_passed_or_failed_and_nothing_else(shop: Shop) -> None:
    """What passes may be used for longer; what fails is held."""
    codes = shop.codes
    async with at_card(shop, codes.tested) as pilot:
        seen = await press(pilot, "t")
        assert "scrap glass" in seen
        assert "! Say how it went: pass or fail." in await write(pilot, "well\r")
        for _ in range(4):
            await pilot.press("backspace")
        seen = await write(pilot, "pass\r")
        assert "adhesion trial passed" in seen
        assert "◐ USE FIRST" in seen

        await press(pilot, "t")
        seen = await write(pilot, "f\tlifted at an edge\r")
        assert "✕ STOP" in seen
        assert shop.acts()[0].note == "lifted at an edge"


async def test_a_curl_trial_is_offered_where_the_verdict_asks_for_one(shop: Shop) -> None:
    """The circle and how long a pass holds; the other trial is one key away, and so is the next line."""
    codes = shop.codes
    async with at_card(shop, codes.printed) as pilot:
        seen = await press(pilot, "k")
        assert "Adhesion trial of" in seen
        await press(pilot, "escape")
        seen = await press(pilot, "t")
        assert "Curl trial of" in seen
        assert "! Give the chord" in await write(pilot, "8mm\r")
        await pilot.press("home")
        await pilot.press("down")
        assert "Give the chord" not in await write(pilot, "198mm")
        seen = " ".join((await write(pilot, "\r")).split())
        assert "curl trial passed" in seen
        assert "good until" in seen

        assert shop.acts()[0].moves[0].facts["trial"] == "curl"


async def test_a_curl_trial_is_guided_and_says_what_it_comes_to_before_it_is_written(
    shop: Shop,
) -> None:
    """Step by step; a strip that cannot be is said to be none, and a failure what follows from it."""
    codes = shop.codes
    before = len(shop.acts())
    async with at_card(shop, codes.printed) as pilot:
        await press(pilot, "t")
        assert same_screen(pilot.app)
        assert "next: the chord, from end to end" in await write(pilot, "90mm")

        seen = await write(pilot, "\t0")
        assert "curls to a 90 mm circle, limit 150 mm (default): it fails" in seen
        seen = await write(pilot, "\t100mm")
        assert "? A strip of 100 mm with a chord of 0 mm cannot stand 90 mm high" in seen
        seen = " ".join((await write(pilot, "\x1b")).split())
        assert "Curl trial of" not in seen

    assert len(shop.acts()) == before


async def test_heat_asks_for_the_trial_of_the_limit_it_passed(shop: Shop) -> None:
    """A print that aged beyond its days wound is tried for its curl."""
    weather = Weather(shop.book, shop.now)
    weather.sensor("door", "South")
    weather.read(*((-hour * HOUR_S, 29.0) for hour in range(200)))
    async with at_card(shop, shop.codes.printed) as pilot:
        assert "▲ heat" in screen_text(pilot.app)
        assert "Curl trial of" in await press(pilot, "t")


async def test_a_flaw_is_marked_where_it_lies(shop: Shop) -> None:
    """Its distance and what it is, each refused on its own line."""
    codes = shop.codes
    async with at_card(shop, codes.old_roll) as pilot:
        await press(pilot, "f")
        assert "! Say what it is" in await write(pilot, "2.4\r")
        assert pilot.app.focused is pilot.app.screen.query_one("#field-what")
        seen = await write(pilot, "splice\r")

        assert "flaws splice at 2.4 m" in seen


async def test_a_roll_is_wound_anew_and_a_print_laid_flat(shop: Shop) -> None:
    """On another core; the question names what stops."""
    codes = shop.codes
    async with at_card(shop, codes.printed) as pilot:
        await press(pilot, "w")
        seen = await write(pilot, "152.4mm\t5mm\tout\r")
        assert "rewind, on a core of 152.4 mm inside, face out" in " ".join(seen.split())
        seen = await press(pilot, "a")
        assert "Its days wound stop." in seen
        await press(pilot, "y")
        seen = await write(pilot, "")
        assert "lay flat, 97 d wound before" in seen

        assert shop.card(codes.printed).judged.standing.state.is_wound is False


async def test_what_goes_back_to_its_supplier_needs_a_reason_and_a_number(shop: Shop) -> None:
    """It ends with it."""
    codes = shop.codes
    async with at_card(shop, codes.stopped) as pilot:
        await press(pilot, "s")
        assert "! A reason is needed" in await write(pilot, "\r")
        assert "! Say under which number" in await write(pilot, "crushed core\r")
        seen = await write(pilot, "RMA-7\r")

        assert "no more: sent back" in seen
        assert shop.left_nm(codes.stopped) == 0


async def test_a_box_is_neither_wound_nor_tried(shop: Shop) -> None:
    """The keys of film are not offered, and do nothing."""
    async with at_card(shop, shop.codes.box) as pilot:
        seen = await press(pilot, "t")
        assert "t Trial" not in seen
        await press(pilot, "a")

        assert "lie flat" not in screen_text(pilot.app)


async def test_two_jobs_of_one_name_are_told_by_their_code(shop: Shop) -> None:
    """The one that drew last stands there by its code, and gets its film back."""
    codes, hand = shop.codes, shop.hand()
    other = hand.job("clinic partition", site="Hill Road")
    hand.cut(codes.old_roll, 1_000 * MM, job=other)
    async with at_card(shop, codes.old_roll) as pilot:
        await press(pilot, "b")
        await write(pilot, "0.4\r")

        assert shop.acts()[0].job == other


def test_a_line_names_as_many_places_as_it_has_room_for() -> None:
    """None is cut in two, and it says that there are more."""
    assert some_of(["A1", "wet bench"]) == "A1, wet bench"
    assert some_of([f"bay A{number}" for number in range(1, 10)]).endswith(", bay A6, …")
    assert (some_of([]), some_of(["a name longer than the line" * 2])) == ("", "")
