"""The Bench: how a line is filled, by whom it is written, and what is never lost."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

import pytest
from textual.message import Message
from textual.pilot import Pilot
from textual.widgets import Input

from stockroom.codes.own import grouped
from stockroom.screens.bench import BenchScreen
from stockroom.units import MM, M
from stockroom.units.shown import show_size
from tests.floor import Floor
from tests.screens.seeing import (
    same_screen,
    scan,
    screen_text,
    settle,
    two_seconds_later,
    type_in,
)
from tests.screens.shop import Shop

A_WHILE_S = 4.0
"""A person looks before going on from a number to a length."""


@asynccontextmanager
async def at_bench(shop: Shop, size: tuple[int, int] = (80, 24)) -> AsyncIterator[Pilot[None]]:
    """The Bench of the shop, with an empty line."""
    async with shop.app().run_test(size=size) as pilot:
        await pilot.press("f4")
        await settle(pilot)
        yield pilot


async def scans(pilot: Pilot[None], *codes: str) -> str:
    """Scan codes without a gap; the screen afterwards."""
    scan(pilot.app, "".join(f"{code}\r" for code in codes))
    await settle(pilot)
    await settle(pilot)
    return screen_text(pilot.app)


async def types(pilot: Pilot[None], text: str) -> str:
    """Type, Enter and Tab and Esc as they come; the screen afterwards."""
    type_in(pilot.app, text)
    await settle(pilot)
    await settle(pilot)
    return screen_text(pilot.app)


async def press(pilot: Pilot[None], *keys: str) -> str:
    """Press keys and look; the screen afterwards."""
    await pilot.press(*keys)
    await settle(pilot)
    await settle(pilot)
    return screen_text(pilot.app)


async def choose(pilot: Pilot[None], number: str) -> str:
    """Press the number of a job, long before what is typed next; the screen afterwards."""
    type_in(pilot.app, number, gap_s=A_WHILE_S)
    await settle(pilot)
    return screen_text(pilot.app)


def field(pilot: Pilot[None], name: str) -> Input:
    return pilot.app.screen.query_one(f"#{name}", Input)


# Three inputs


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_bench(shop: Shop, size: tuple[int, int]) -> None:
    """A piece near its limit, a job, a length: what Enter will write, what to mind, what was last."""
    async with at_bench(shop, size) as pilot:
        await scans(pilot, shop.codes.old_roll, shop.codes.clinic)
        await types(pilot, "2.8")

        assert same_screen(pilot.app)


async def test_an_empty_bench_says_what_to_do_first(shop: Shop) -> None:
    """The first step is the one that is marked."""
    async with at_bench(shop) as pilot:
        assert same_screen(pilot.app)


async def test_three_inputs_and_enter_write_a_cut(shop: Shop) -> None:
    """Scan, scan, type, Enter; the next cut of the same piece and job asks for the length only."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.old_roll)
        await scans(pilot, codes.clinic)
        seen = await types(pilot, "2.8\r")
        assert "✓ DONE" in seen
        assert f"cut 2.8 m for {grouped(codes.clinic)} · 3.6 m stays" in seen
        assert shop.left_nm(codes.old_roll) == 3_600 * MM
        assert same_screen(pilot.app)

        await types(pilot, "1.2m\r")
        assert shop.left_nm(codes.old_roll) == 2_400 * MM
        assert [act.job for act in shop.acts()[:2]] == [codes.clinic] * 2
        assert {act.operator for act in shop.acts()[:2]} == {"Ida M."}


async def test_a_job_is_chosen_by_its_number_the_one_used_last_first(shop: Shop) -> None:
    """After a cut for the clinic, 1 is the clinic."""
    codes = shop.codes
    shop.hand().cut(codes.new_roll, 1 * M, job=codes.clinic)
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.old_roll)
        seen = await choose(pilot, "1")
        assert "clinic partition, Well Street   Mon 2026-11-30" in seen
        await types(pilot, "1m\r")
        assert shop.acts()[0].job == codes.clinic

        await scans(pilot, codes.tested)
        assert "No job has the number 9" in await press(pilot, "9")


async def test_the_job_may_come_first(shop: Shop) -> None:
    """The order of the two scans does not matter."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.clinic, codes.old_roll)
        await types(pilot, "1m\r")

        assert shop.left_nm(codes.old_roll) == 5_400 * MM


async def test_a_print_brings_its_own_job(shop: Shop) -> None:
    """Two inputs are enough; another job is refused, and the job is what to mend."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        seen = await scans(pilot, codes.printed)
        assert "tram shelter 4, Mill Lane   Fri 2026-11-27" in seen
        await scans(pilot, codes.clinic)
        seen = await types(pilot, "1m\r")
        assert "is printed for another job" in seen
        assert pilot.app.focused is pilot.app.screen.query_one("#job")
        assert field(pilot, "length").value == "1m"

        await scans(pilot, codes.shelter)
        await press(pilot, "enter")
        assert shop.left_nm(codes.printed) == 900 * MM


async def test_film_that_goes_to_no_job_has_a_reason(shop: Shop) -> None:
    """One letter says which."""
    async with at_bench(shop) as pilot:
        await scans(pilot, shop.codes.old_roll)
        assert "none: spoiled" in await press(pilot, "s")
        await types(pilot, "300mm\r")

        act = shop.acts()[0]
        assert (act.job, act.moves[0].facts["reason"]) == (None, "spoiled")


async def test_goods_ask_for_a_number(shop: Shop) -> None:
    """No waste, no offcuts; what is no number of pieces is refused and kept."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.box, codes.clinic)
        seen = await types(pilot, "3m")
        assert same_screen(pilot.app)
        assert "is not a number of pieces" in await press(pilot, "enter")
        seen = await press(pilot, "backspace", "enter")

        assert "97 pcs stay" in seen
        assert shop.left_nm(codes.box) == 97


# What is typed


async def test_what_is_left_may_be_typed_instead_and_lengths_times_a_number(shop: Shop) -> None:
    """=3.6 leaves 3.6 m; 2x1.25 takes 2.5 m."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.old_roll, codes.clinic)
        assert "cut 2.8 m" in await types(pilot, "=3.6")
        await press(pilot, "enter")
        assert shop.left_nm(codes.old_roll) == 3_600 * MM

        await types(pilot, "2x1.25\r")
        assert shop.left_nm(codes.old_roll) == 1_100 * MM


async def test_waste_and_offcuts_are_parts_of_the_cut(shop: Shop) -> None:
    """The offcuts get codes, and the band says which are to be labelled."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.old_roll, codes.clinic)
        seen = await types(pilot, "2.8\t0.3\t600x1200 + 400x1000")
        sizes = [
            show_size(across * MM, along * MM) for across, along in ((600, 1_200), (400, 1_000))
        ]
        said = f"300 mm of it waste · keep {sizes[0]} · keep {sizes[1]}"
        assert said in " ".join(seen.split())
        seen = await press(pilot, "enter")

        kept = [move.piece for move in shop.acts()[0].moves if move.kind == "keep"]
        assert len(kept) == 2
        assert all(f"label {grouped(code)}" in " ".join(seen.split()) for code in kept)


@pytest.mark.parametrize(
    ("typed", "says", "goes_to"),
    [
        ("\r", "A length is missing", "length"),
        ("3\r", "can be read in two ways; write 3m or 3mm", "length"),
        (".8\r", "begins with its point: write 0.8m", "length"),
        ("=7m\r", "cannot be what is left", "length"),
        ("0\r", "A length is more than zero", "length"),
        ("2.8\twide\r", "is not a length", "waste"),
        ("2.8\t\t300\r", "is not a size", "offcut"),
        ("2.8\t3m\r", "Waste and offcuts are more than what is cut", "length"),
    ],
)
async def test_a_refused_entry_keeps_what_was_typed_and_sits_on_the_field_to_mend(
    shop: Shop, typed: str, says: str, goes_to: str
) -> None:
    """One sentence, nothing written, nothing lost."""
    async with at_bench(shop) as pilot:
        await scans(pilot, shop.codes.old_roll, shop.codes.clinic)
        before = len(shop.acts())
        seen = await types(pilot, typed)

        assert "! REFUSED" in seen
        assert says in " ".join(seen.split())
        assert pilot.app.focused is field(pilot, goes_to)
        assert field(pilot, "length").value == typed.partition("\t")[0].rstrip("\r")
        assert len(shop.acts()) == before


async def test_enter_with_a_step_missing_names_the_step(shop: Shop) -> None:
    """The cursor goes there."""
    async with at_bench(shop) as pilot:
        await pilot.click("#length")
        assert "There is no piece yet" in await types(pilot, "2.8\r")
        await scans(pilot, shop.codes.old_roll)
        await pilot.click("#length")
        assert "There is no job yet" in await press(pilot, "enter")
        assert pilot.app.focused is pilot.app.screen.query_one("#job")


@pytest.mark.parametrize("typed", ["2.5m", "2.5in"])
async def test_a_length_typed_where_the_job_is_asked_chooses_no_job(shop: Shop, typed: str) -> None:
    """In one go, with the job forgotten, it is neither job 2 nor a sample, and takes nothing in."""
    async with at_bench(shop) as pilot:
        await scans(pilot, shop.codes.old_roll)
        seen = await types(pilot, typed)

        assert "Is that the job or the length?" in seen
        assert "scan it, or press a number below" in seen
        assert field(pilot, "length").value == ""


# What the film needs


async def test_an_older_sound_roll_is_offered_and_taken_with_one_key(shop: Shop) -> None:
    """Yes puts it on the line with all that was typed; it has to be fetched, so Enter is asked again."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.new_roll, codes.clinic)
        seen = await types(pilot, "2.8\r")
        assert f"older sound roll {grouped(codes.old_roll)} at A1, 6.4 m: take that?" in seen
        assert same_screen(pilot.app)
        assert shop.left_nm(codes.new_roll) == 23 * M

        seen = await press(pilot, "y")
        assert "cut 2.8 m for" in seen
        await press(pilot, "enter")
        assert shop.left_nm(codes.new_roll) == 23 * M
        assert shop.left_nm(codes.old_roll) == 3_600 * MM


async def test_no_takes_the_newer_roll_and_does_not_ask_again(shop: Shop) -> None:
    """The second cut of the same roll is written at once."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.new_roll, codes.clinic)
        await types(pilot, "2.8\r")
        await press(pilot, "n")
        assert shop.left_nm(codes.new_roll) == 20_200 * MM

        await types(pilot, "1m\r")
        assert shop.left_nm(codes.new_roll) == 19_200 * MM


async def test_esc_takes_the_question_back_and_nothing_is_written(shop: Shop) -> None:
    """The length is still there."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.new_roll, codes.clinic)
        await types(pilot, "2.8\r")
        seen = await press(pilot, "escape")

        assert "take that?" not in seen
        assert field(pilot, "length").value == "2.8"
        assert pilot.app.focused is field(pilot, "length")
        assert shop.left_nm(codes.new_roll) == 23 * M


async def test_film_to_be_tested_warns_and_is_cut(shop: Shop) -> None:
    """The warning stands there before anything is typed, and in the act."""
    async with at_bench(shop) as pilot:
        seen = await scans(pilot, shop.codes.tested, shop.codes.clinic)
        assert "▲ TEST" in seen
        assert "▲ 25 months, limit 24 (maker's sheet): adhesion trial" in seen
        await types(pilot, "1m\r")

        assert shop.acts()[0].moves[0].facts["verdict"] == "TEST"


async def test_film_stopped_by_its_age_is_cut_only_with_a_reason(shop: Shop) -> None:
    """Enter goes to the line that asks why; the reason is kept in the act."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.stopped, codes.clinic)
        seen = await types(pilot, "1m\r")
        assert "is stopped" in seen
        assert pilot.app.focused is field(pilot, "despite")
        assert same_screen(pilot.app)
        assert shop.left_nm(codes.stopped) == 9 * M

        await types(pilot, "inner side of a store\r")
        assert shop.acts()[0].moves[0].facts["despite"] == "inner side of a store"


async def test_a_bottle_past_its_days_is_taken_only_with_a_reason(shop: Shop) -> None:
    """Goods that are stopped ask why, as film does."""
    (bottle,) = Floor(shop.book, shop.now).mix(keeps="7d").codes
    shop.wait(days=9)
    async with at_bench(shop) as pilot:
        await scans(pilot, bottle, shop.codes.clinic)
        seen = await types(pilot, "1\r")
        assert "is stopped by its age" in " ".join(seen.split())
        assert pilot.app.focused is field(pilot, "despite")

        await types(pilot, "to clean the floor\r")
        assert shop.acts()[0].moves[0].facts["despite"] == "to clean the floor"


async def test_a_held_piece_and_one_that_is_no_more_do_not_come_on_the_line(shop: Shop) -> None:
    """What stood there stays."""
    codes = shop.codes
    shop.hand().finish(codes.stopped)
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.old_roll)
        for code, says in (
            (codes.held, "is held (dropped on its edge)"),
            (codes.stopped, "no more"),
        ):
            seen = await scans(pilot, code)
            assert says in " ".join(seen.split())
            assert "6.4 m left" in seen


async def test_a_closed_job_is_opened_again_with_one_key(shop: Shop) -> None:
    """No leaves it closed and the line as it was; yes puts it on the line."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.old_roll)
        seen = await scans(pilot, codes.closed)
        assert "library reading room is closed: open it again?" in seen
        seen = await press(pilot, "n")
        assert "scan it, or press a number below" in seen
        two_seconds_later(pilot.app)

        await scans(pilot, codes.closed)
        seen = await press(pilot, "y")
        assert f"{grouped(codes.closed)}   library reading room" in seen
        await types(pilot, "1m\r")
        assert [act.job for act in shop.acts()[:2]] == [codes.closed] * 2
        assert [act.kind for act in shop.acts()[:2]] == ["cut", "reopen"]


async def test_a_place_and_a_strange_code_are_refused(shop: Shop) -> None:
    """Each with its own sentence."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        for code, says in (
            (codes.place, "is a place: scan a piece or a job"),
            ("4006381333931", "is no code of this book"),
            ("R000012F", "No piece has the code"),
        ):
            assert says in " ".join((await scans(pilot, code)).split())


# More than the books have, and the end of a roll


async def test_more_than_the_books_have_is_asked_about_and_counts_the_roll(shop: Shop) -> None:
    """Far more is refused; yes writes count and cut in one act, and Tab is no answer to either question."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.old_roll, codes.clinic)
        assert "hard to believe" in await types(pilot, "680m\r")
        await press(pilot, "ctrl+u")
        seen = await types(pilot, "6.8\r")
        assert "the books are short by 400 mm: cut it, and count the roll by it?" in seen
        await press(pilot, "tab")
        seen = await press(pilot, "y")
        assert [move.kind for move in shop.acts()[0].moves] == ["count", "cut"]
        assert f"is the core of {grouped(codes.old_roll)} bare?" in seen

        seen = await press(pilot, "y")
        assert "is finished" in seen
        assert "scan it, or type its code" in seen
        assert shop.card(codes.old_roll).judged.standing.state.ended == "finished"


async def test_too_large_an_offcut_is_no_short_book(shop: Shop) -> None:
    """It is refused, and nothing is asked."""
    async with at_bench(shop) as pilot:
        await scans(pilot, shop.codes.old_roll, shop.codes.clinic)
        seen = await types(pilot, "2.8\t\t600x4000\r")

        assert "does not fit into a cut" in " ".join(seen.split())


async def test_a_bare_core_ends_the_roll(shop: Shop) -> None:
    """One key and a yes; what the books still had is variance."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.old_roll)
        seen = await press(pilot, "f7")
        assert "bare? The books still say 6.4 m" in seen
        await press(pilot, "y")

        assert shop.acts()[0].kind == "finished"


async def test_an_empty_box_ends(shop: Shop) -> None:
    """The last of it was taken: it is asked at once; before that, one key asks."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.box, codes.clinic)
        assert "empty? The books still say 100 pcs" in await press(pilot, "f7")
        await press(pilot, "n")
        seen = await types(pilot, "100\r")
        assert f"is {grouped(codes.box)} empty? The books say 0 pcs." in seen
        seen = await press(pilot, "y")

        assert "is finished: it is empty" in seen
        assert shop.card(codes.box).judged.standing.state.ended == "finished"


async def test_an_offcut_that_is_cut_leaves_the_line(shop: Shop) -> None:
    """It has ended; what is left of it has a code of its own."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.offcut, codes.clinic)
        seen = await types(pilot, "0.5\r")

        assert "label C000" in seen
        assert "scan it, or type its code after /" in seen


# Scans


async def test_eight_codes_without_a_gap_are_all_taken_in_order(shop: Shop) -> None:
    """The last is on the line, the seven before it wait, and nothing of them is in a field."""
    pieces = [*shop.hand().rolls(material="frosted 1524", pieces=8)]
    async with at_bench(shop) as pilot:
        await pilot.click("#length")
        seen = " ".join((await scans(pilot, *pieces)).split())

        places = [seen.index(grouped(code)) for code in pieces]
        assert places[-1] < places[0]
        assert places[:7] == sorted(places[:7])
        assert field(pilot, "length").value == ""
        assert "REFUSED" not in seen


async def test_a_scanners_enter_never_writes(shop: Shop) -> None:
    """Neither in a full line nor with the cursor in the length; the length stays as it was."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.old_roll, codes.clinic)
        await types(pilot, "2.8")
        before = len(shop.acts())
        await scans(pilot, codes.shelter)
        assert field(pilot, "length").value == "2.8"
        assert len(shop.acts()) == before

        await press(pilot, "enter")
        assert shop.acts()[0].job == codes.shelter


async def test_another_piece_loses_nothing_of_a_line_begun(shop: Shop) -> None:
    """It waits, visibly, and comes back with its piece or with one key."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.old_roll, codes.clinic)
        await types(pilot, "2.8")
        seen = await scans(pilot, codes.box)
        assert f"{grouped(codes.old_roll)} for {grouped(codes.clinic)} 2.8 until 09:10" in seen
        assert same_screen(pilot.app)

        await scans(pilot, codes.old_roll)
        assert field(pilot, "length").value == "2.8"
        seen = await press(pilot, "f6")
        assert "100 pcs left" in seen
        await press(pilot, "f6", "enter")
        assert shop.left_nm(codes.old_roll) == 3_600 * MM


async def test_half_a_scan_is_no_part_of_a_line_that_waits(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The book may answer while the next code is still coming in, in front of a length begun."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.old_roll, codes.clinic)
        await types(pilot, "1m")
        keys: list[Message] = []
        with monkeypatch.context() as patch:
            patch.setattr(pilot.app, "post_message", keys.append)
            scan(pilot.app, f"{codes.box}\r{codes.new_roll}\r")
        with monkeypatch.context() as patch:
            patch.setattr("stockroom.codes.burst.SILENCE_S", 30.0)
            for key in keys[:-6]:
                pilot.app.post_message(key)
            while "100 pcs left" not in screen_text(pilot.app):
                await pilot.pause(0.005)
            assert field(pilot, "length").value == ""

            for key in keys[-6:]:
                pilot.app.post_message(key)
            await settle(pilot)
        seen = await scans(pilot, codes.old_roll)
        assert field(pilot, "length").value == "1m", seen


async def test_a_line_waits_ten_minutes_and_no_longer(shop: Shop) -> None:
    """Then its piece begins a new one."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.old_roll, codes.clinic)
        await types(pilot, "2.8")
        await scans(pilot, codes.box)
        shop.wait(minutes=10)
        seen = await scans(pilot, codes.old_roll)

        assert "2.8 until" not in seen
        assert field(pilot, "length").value == ""


async def test_what_was_written_does_not_wait(shop: Shop) -> None:
    """After a cut the line is kept for the next length, but nothing would be lost with it."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.old_roll, codes.clinic)
        await types(pilot, "1m\r")
        seen = await scans(pilot, codes.box)

        assert "until" not in seen
        assert "scan it, or press a number below" in seen


# Mistakes


async def test_my_last_is_undone_with_one_key_and_a_yes(shop: Shop) -> None:
    """What somebody else did is left alone; the line begun meanwhile stays."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.old_roll, codes.clinic)
        await types(pilot, "2.8\r")
        shop.hand().cut(codes.tested, 1 * M, operator="Tomas R.")
        await scans(pilot, codes.box)
        seen = await press(pilot, "f8")
        assert f"undo your last: 09:00 {grouped(codes.old_roll)} cut 2.8 m" in " ".join(
            seen.split()
        )
        seen = await press(pilot, "y")

        assert "undone: 09:00" in seen
        assert "100 pcs left" in seen
        assert shop.left_nm(codes.old_roll) == 6_400 * MM


async def test_an_undo_is_refused_when_somebody_was_there_since(shop: Shop) -> None:
    """The question was about another last act than the one there is now."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.old_roll, codes.clinic)
        await types(pilot, "2.8\r")
        await press(pilot, "f8")
        shop.hand().cut(codes.old_roll, 1 * M, operator="Tomas R.")
        seen = await press(pilot, "y")

        assert "look again before you undo it" in " ".join(seen.split())
        assert shop.left_nm(codes.old_roll) == 2_600 * MM


async def test_esc_starts_the_line_over(shop: Shop) -> None:
    """Piece, job and length are gone; nothing was written."""
    async with at_bench(shop) as pilot:
        await scans(pilot, shop.codes.old_roll, shop.codes.clinic)
        await types(pilot, "2.8")
        before = len(shop.acts())
        seen = await press(pilot, "escape")

        assert "scan it, or type its code after /" in seen
        assert "scan it, or press a number below" in seen
        assert field(pilot, "length").value == ""
        assert len(shop.acts()) == before


async def test_a_roll_that_another_station_shortened_meanwhile_is_seen_at_once(shop: Shop) -> None:
    """=3.6 means what is left now; the line shows it and writes nothing twice."""
    codes = shop.codes
    async with at_bench(shop) as pilot:
        await scans(pilot, codes.old_roll, codes.clinic)
        await types(pilot, "5m")
        shop.hand().cut(codes.old_roll, 2 * M)
        seen = await press(pilot, "enter")
        assert "the books are short by 600 mm" in seen
        await press(pilot, "n")

        assert shop.left_nm(codes.old_roll) == 4_400 * MM
        assert isinstance(pilot.app.screen, BenchScreen)
        assert "4.4 m left" in screen_text(pilot.app)
