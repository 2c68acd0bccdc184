"""A roll goes to the van and comes in again, by scans alone or by keys."""

from textual.pilot import Pilot
from textual.widgets import Input

from stockroom.books.values import Act
from stockroom.codes.card import Order
from stockroom.codes.own import grouped
from stockroom.screens.form import Form
from stockroom.units import MM, M
from stockroom.work.away import ComeIn, GoOut, come_in, go_out
from stockroom.work.plan_job import plan_job
from stockroom.work.planned import planned_cuts
from stockroom.work.reserve import Reserve, reserve
from tests.screens.seeing import same_screen, screen_text, settle, two_seconds_later
from tests.screens.shop import FROSTED, Shop
from tests.screens.test_wall_card import digits, look, scans, types


def goes_out(shop: Shop, code: str, to: str = "van 2") -> Act:
    """Somebody takes a piece along."""
    request = GoOut(**shop.hand().asked(piece=code, to=to))
    return go_out(request, book=shop.book, now=shop.now)


def comes_in(shop: Shop, code: str) -> None:
    """It is here again at another station."""
    come_in(ComeIn(**shop.hand().asked(piece=code)), book=shop.book, now=shop.now)


async def bench(pilot: Pilot[None]) -> None:
    await pilot.press("f4")
    await settle(pilot)


async def press(pilot: Pilot[None], *keys: str) -> str:
    await pilot.press(*keys)
    return await look(pilot)


def out_to(shop: Shop, code: str) -> str | None:
    return shop.card(code).judged.standing.state.out_to


async def test_a_roll_goes_out_by_three_scans_and_ok(shop: Shop) -> None:
    """The roll, out, the van's place; the scanner's Enter writes nothing, and the line is free."""
    codes = shop.codes
    van = shop.hand().place("van 2")
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await bench(pilot)
        await scans(pilot, codes.old_roll, Order.OUT)
        assert isinstance(pilot.app.screen, Form)
        await scans(pilot, van)
        assert same_screen(pilot.app)
        assert out_to(shop, codes.old_roll) is None

        seen = await scans(pilot, Order.OK)
        assert "✓ DONE" in seen
        assert "out to van 2, Ida M." in seen
        assert "scan it, or type its code after /" in seen
        assert (out_to(shop, codes.old_roll), shop.acts()[0].kind) == ("van 2", "out")


async def test_the_next_roll_goes_where_the_last_one_went(shop: Shop) -> None:
    """A van is loaded with a scan of each roll, out, OK; after something else it is asked again."""
    codes = shop.codes
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await bench(pilot)
        await scans(pilot, codes.old_roll, Order.OUT)
        await types(pilot, "van 2")
        await scans(pilot, Order.OK)
        await scans(pilot, codes.new_roll, Order.OUT, Order.OK)
        assert out_to(shop, codes.new_roll) == "van 2"

        await scans(pilot, codes.tested, codes.clinic, *digits("1.5"), Order.OK, Order.OUT)
        seen = await scans(pilot, Order.OK)
        assert "! Say where it goes: scan a place, or type a site." in seen
        assert out_to(shop, codes.tested) is None


async def test_a_roll_that_went_out_does_not_wait_on_the_bench_and_cannot_be_cut(
    shop: Shop,
) -> None:
    """It says where it is; a length is refused and kept."""
    codes = shop.codes
    goes_out(shop, codes.old_roll)
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await bench(pilot)
        seen = await scans(pilot, codes.clinic, codes.old_roll)
        assert "OUT to van 2 since 2026-11-25 09:00" in seen
        assert "i takes it in again" in seen
        assert pilot.app.focused is pilot.app.screen.query_one("#job")
        seen = await scans(pilot, *digits("2.5"), Order.OK)
        assert "REFUSED" in seen
        assert "is out with van 2" in seen
        assert pilot.app.screen.query_one("#length", Input).value == "2.5"

        await press(pilot, "escape")
        assert "until 09:10" not in await scans(pilot, codes.old_roll, codes.new_roll)


async def test_what_is_left_of_a_roll_that_comes_in_says_what_was_used(shop: Shop) -> None:
    """The roll, in, what is left, the job, OK; the difference is the job's."""
    codes = shop.codes
    goes_out(shop, codes.old_roll)
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await bench(pilot)
        await scans(pilot, codes.old_roll, Order.IN)
        await scans(pilot, *digits("3.6"), codes.clinic)
        assert same_screen(pilot.app)
        assert out_to(shop, codes.old_roll) == "van 2"

        seen = await scans(pilot, Order.OK)
        assert f"in from van 2, 2.8 m used for {grouped(codes.clinic)}; 3.6 m left" in " ".join(
            seen.split()
        )
        assert shop.left_nm(codes.old_roll) == 3_600 * MM
        assert out_to(shop, codes.old_roll) is None
        assert "3.6 m left" in seen

        await scans(pilot, Order.UNDO, Order.OK)
        assert (out_to(shop, codes.old_roll), shop.left_nm(codes.old_roll)) == (
            "van 2",
            6_400 * MM,
        )


async def test_a_roll_comes_in_as_it_went_with_ok_alone(shop: Shop) -> None:
    """Nothing was used, and no job is asked."""
    codes = shop.codes
    goes_out(shop, codes.old_roll)
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await bench(pilot)
        seen = await scans(pilot, codes.old_roll, Order.IN, Order.OK)

        assert "in from van 2, nothing used" in seen
        assert shop.left_nm(codes.old_roll) == 6_400 * MM


async def test_film_that_was_used_needs_a_job_and_the_cursor_goes_there(shop: Shop) -> None:
    """The number beside a job names it, and so does a reason without one."""
    codes = shop.codes
    for code in (codes.old_roll, codes.new_roll):
        goes_out(shop, code)
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await bench(pilot)
        await scans(pilot, codes.old_roll)
        await press(pilot, "i")
        seen = await types(pilot, "=3.6\r")
        assert "! 2.8 m were used: say for which job, or why." in seen
        assert pilot.app.focused is pilot.app.screen.query_one("#field-job")
        assert "1 tram shelter 4, Mill Lane · 2 clinic partition" in seen
        await types(pilot, "2\r")
        assert shop.acts()[0].job == codes.clinic

        await scans(pilot, codes.new_roll)
        await press(pilot, "i")
        await types(pilot, "22m", "", "", "", "spoiled\r")
        assert shop.acts()[0].moves[0].facts["reason"] == "spoiled"
        assert shop.left_nm(codes.new_roll) == 22 * M


async def test_more_than_went_out_is_refused_where_it_was_typed(shop: Shop) -> None:
    """Nothing is written; two measurements are refused as well."""
    codes = shop.codes
    goes_out(shop, codes.old_roll)
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await bench(pilot)
        await scans(pilot, codes.old_roll, Order.IN)
        seen = await types(pilot, "6.5\r")
        assert "6.5 m of R000" in " ".join(seen.split())
        assert "measure again" in " ".join(seen.split())
        assert pilot.app.focused is pilot.app.screen.query_one("#field-left")
        seen = await types(pilot, "", "150mm\r")
        assert "one measurement is one count" in seen

        assert out_to(shop, codes.old_roll) == "van 2"


async def test_tape_round_a_roll_that_allows_what_went_out_says_that_nothing_was_used(
    shop: Shop,
) -> None:
    """A millimetre of tape is metres of thin film."""
    codes = shop.codes
    shop.hand().roll(material="frosted 1524", length_nm=30 * M)
    goes_out(shop, codes.new_roll)
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await bench(pilot)
        await scans(pilot, codes.new_roll, Order.IN)
        await types(pilot, "", "", "1mm\r")
        assert "✓ DONE" not in screen_text(pilot.app)
        assert out_to(shop, codes.new_roll) == "van 2"


async def test_a_bare_core_that_comes_in_is_asked_about(shop: Shop) -> None:
    """Nothing is left: the roll can be finished at once."""
    codes = shop.codes
    goes_out(shop, codes.old_roll)
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await bench(pilot)
        seen = await scans(pilot, codes.clinic, codes.old_roll, Order.IN, *digits("0"), Order.OK)
        assert f"is the core of {grouped(codes.old_roll)} bare?" in seen
        await scans(pilot, Order.OK)

        assert shop.card(codes.old_roll).judged.standing.state.ended == "finished"


async def test_a_sheet_that_was_cut_on_the_site_comes_in_under_a_new_code(shop: Shop) -> None:
    """Its label says its size; the old one leaves the line."""
    codes = shop.codes
    goes_out(shop, codes.offcut)
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await bench(pilot)
        seen = await scans(pilot, codes.clinic, codes.offcut, Order.IN, *digits("1.2"), Order.OK)

        assert "it needs a label" in " ".join(seen.split())
        assert "scan it, or type its code after /" in seen


async def test_goods_come_in_by_number(shop: Shop) -> None:
    """A box that was emptied on the site: none is an answer."""
    codes = shop.codes
    goes_out(shop, codes.box)
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await bench(pilot)
        await scans(pilot, codes.clinic, codes.box, Order.IN, *digits("0"), Order.OK)

        assert shop.left_nm(codes.box) == 0


async def test_what_is_stopped_by_its_age_goes_out_with_a_reason(shop: Shop) -> None:
    """It is asked, and kept in the act."""
    codes = shop.codes
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await bench(pilot)
        await scans(pilot, codes.stopped, Order.OUT)
        seen = await types(pilot, "van 2", "Tomas R.\r")
        assert "is stopped by its age" in seen
        assert pilot.app.focused is pilot.app.screen.query_one("#field-why")
        await types(pilot, "for a wall inside\r")

        act = shop.acts()[0]
        assert act.moves[0].facts["despite"] == "for a wall inside"
        assert act.moves[0].sets["out_by"] == "Tomas R."


async def test_a_roll_that_is_kept_for_a_job_goes_out_for_it(shop: Shop) -> None:
    """For nobody it is refused; the job is scanned into the form that is there already."""
    codes, hand = shop.codes, shop.hand()
    hand.panels(codes.clinic, (900, 1_500), material=FROSTED)
    cuts = planned_cuts(plan_job(shop.book, codes.clinic, now=shop.now))
    request = Reserve(**hand.asked(job=codes.clinic, cuts=cuts))
    reserve(request, book=shop.book, now=shop.now)
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await bench(pilot)
        await scans(pilot, cuts[0].piece, Order.OUT)
        await types(pilot, "van 2")
        seen = await scans(pilot, Order.OK)
        assert f"is kept for job {grouped(codes.clinic)}" in " ".join(seen.split())
        assert out_to(shop, cuts[0].piece) is None

        await scans(pilot, codes.clinic)
        assert "✓ DONE" in await scans(pilot, Order.OK)
        assert out_to(shop, cuts[0].piece) == "van 2"


async def test_a_held_roll_comes_in_and_leaves_the_bench(shop: Shop) -> None:
    """A recall found it on the van: it cannot be cut, but it can come home."""
    codes = shop.codes
    goes_out(shop, codes.old_roll)
    shop.hand().hold(codes.old_roll, "maker's notice")
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await bench(pilot)
        seen = await scans(pilot, codes.old_roll, Order.IN, Order.OK)

        assert "in from van 2, nothing used" in seen
        assert "scan it, or type its code after /" in seen
        assert out_to(shop, codes.old_roll) is None


async def test_the_keys_of_a_card_send_it_out_and_take_it_in(shop: Shop) -> None:
    """Each is offered when it can be done; the wall card says the same."""
    codes = shop.codes
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        seen = await scans(pilot, codes.old_roll)
        assert "o Out" in seen
        assert "i In" not in seen
        await press(pilot, "o")
        seen = await types(pilot, "van 2\r")
        assert "OUT to van 2" in seen
        assert "i In" in seen
        assert "has to come in first" in " ".join((await scans(pilot, Order.OUT)).split())

        await scans(pilot, Order.IN)
        assert isinstance(pilot.app.screen, Form)
        await types(pilot, "3.6", "", "", "", "1\r")
        assert shop.left_nm(codes.old_roll) == 3_600 * MM
        assert "is not out" in " ".join((await scans(pilot, Order.IN)).split())


async def test_a_roll_that_came_in_elsewhere_meanwhile_is_refused(shop: Shop) -> None:
    """The form stays, and Esc leaves it."""
    codes = shop.codes
    goes_out(shop, codes.old_roll)
    async with shop.app().run_test(size=(80, 24)) as pilot:
        await bench(pilot)
        await scans(pilot, codes.old_roll, Order.IN)
        comes_in(shop, codes.old_roll)
        two_seconds_later(pilot.app)
        assert "is not out" in await scans(pilot, Order.OK)
        await press(pilot, "escape")

        assert not isinstance(pilot.app.screen, Form)
