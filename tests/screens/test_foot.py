"""The keys at the foot: one widget, which a mouse can press as well."""

from stockroom.screens.widgets.foot import Foot
from tests.screens.seeing import screen_text, settle
from tests.screens.shop import Shop


async def test_a_click_presses_the_key_under_the_mouse(shop: Shop) -> None:
    """Its last cell is its own; beside the last key nothing is pressed. What it does is told above it."""
    app = shop.app()
    async with app.run_test(size=(200, 24)) as pilot:
        await settle(pilot)
        foot = app.screen.query_one(Foot)
        line = screen_text(app).splitlines()[-1]
        rack = line.index("F3 Rack")

        await pilot.hover(foot, offset=(rack, 0))
        assert foot.tooltip == "Every piece, and where it stands"
        await pilot.click(foot, offset=(len(line.rstrip()) + 3, 0))
        await settle(pilot)
        assert app.current_mode == "today"

        await pilot.click(foot, offset=(rack + len("F3 Rack"), 0))
        await settle(pilot)
        assert app.current_mode == "rack"
        assert "v Verdict" in screen_text(app).splitlines()[-1]
