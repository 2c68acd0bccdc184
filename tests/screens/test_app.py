"""The program around the screens."""

from textual.widgets import Static

from stockroom.screens.app import StockroomApp
from stockroom.screens.frame import Frame
from tests.screens.seeing import screen_text, settle


def frame(name: str) -> type[Frame]:
    """A screen that shows its name."""

    class Named(Frame):
        HELP = f"What {name} is for."

        def body(self) -> list[Static]:
            return [Static(f"this is {name}")]

    return Named


def an_app() -> StockroomApp:
    return StockroomApp(
        {name: frame(name) for name in ("today", "rack", "bench", "goods", "jobs", "log")}
    )


async def test_function_keys_lead_to_the_screens_and_help_opens_and_closes() -> None:
    """Today comes first; F1 shows what the screen in front is for."""
    app = an_app()
    async with app.run_test(size=(80, 24)) as pilot:
        assert "this is today" in screen_text(app)
        for key, name in (("f4", "bench"), ("f3", "rack"), ("f2", "today")):
            await pilot.press(key)
            assert f"this is {name}" in screen_text(app)

        await pilot.press("f1")
        await settle(pilot)
        assert "What today is for." in screen_text(app)
        assert "this is today" not in screen_text(app)
        await pilot.press("f1")
        await pilot.pause(0.1)
        await settle(pilot)
        assert "this is today" in screen_text(app)


async def test_the_palette_offers_what_the_keys_do_and_the_three_looks() -> None:
    """Each entry has the words of the key; where one is already is not offered, nor anything else."""
    app = an_app()
    async with app.run_test(size=(80, 24)):
        offered = {command.title: command for command in app.get_system_commands(app.screen)}

        assert sorted(offered) == [
            "Bench", "Buying", "Climate", "Goods in", "Help", "Jobs", "Log", "Look: dark", "Look: high-contrast", "Look: light", "Quit",
            "Rack", "Type", "Who",
        ]  # fmt: skip
        offered["Look: light"].callback()
        assert app.theme == "light"


async def test_the_palette_does_what_was_chosen() -> None:
    """Going to a screen by its name is the same as by its key."""
    app = an_app()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("ctrl+p", *"rack", "enter")
        await settle(pilot)
        await settle(pilot)

        assert "this is rack" in screen_text(app)


async def test_every_look_can_be_worn() -> None:
    """Each colour that the screens name exists in every look, and no look is there but ours."""
    app = an_app()
    async with app.run_test(size=(80, 24)) as pilot:
        assert set(app.available_themes) == {"light", "dark", "high-contrast"}
        for theme in app.available_themes:
            app.theme = theme
            await settle(pilot)

            assert app.screen.styles.background.hex.lower() == app.current_theme.background
