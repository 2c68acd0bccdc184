"""How a test scans, waits for a screen, and reads it as text."""

import io
import math
import os
from contextlib import suppress
from pathlib import Path
from typing import Any

from rich.console import Console
from textual import events
from textual.app import App
from textual.keys import _character_to_key
from textual.pilot import Pilot
from textual.worker import WorkerCancelled

from stockroom.screens.hearing import Hearing
from stockroom.screens.scanning import Listening

GROUP_SEPARATOR = "\x1d"

_PICTURES = Path(__file__).parent / "pictures"
_KEYS = {
    "\r": "enter",
    "\n": "ctrl+j",
    "\t": "tab",
    GROUP_SEPARATOR: "ctrl+right_square_bracket",
    "\x11": "ctrl+q",
    "\x10": "ctrl+p",
    "\x1b": "escape",
}
_A_MOMENT_AGO_S = 0.2


def scan(app: App[Any], text: str, gap_s: float = 0.0, *, only_names: bool = False) -> None:
    """Send what a scanner writes, in one go; a pilot, which waits between keys, would hide a race.

    It was written a moment ago, so that the next key of the pilot comes as late as a person's.
    Terminals with the newer key protocol send `only_names` of control keys, no character.
    """
    keys = [
        events.Key(_KEYS[one], None if only_names else one)
        if one in _KEYS
        else events.Key(_character_to_key(one), one)
        for one in text
    ]
    for place, key in enumerate(keys):
        key.time -= _A_MOMENT_AGO_S + (len(keys) - place) * gap_s
        app.post_message(key)


def type_in(app: App[Any], text: str, gap_s: float = 0.13) -> None:
    """Send what a person types, each key 130 ms or so after the one before.

    All of it is dated back, so what was scanned before it must not seem to have just ended.
    """
    if isinstance(app, Listening):
        app._burst._ended_at_s = -math.inf
    scan(app, text, gap_s=gap_s)


def two_seconds_later(app: App[Any]) -> None:
    """Let the next scan be one of its own, though it is of the same code."""
    if isinstance(app.screen, Hearing):
        app.screen._last = None


async def settle(pilot: Pilot[Any]) -> None:
    """Wait until no worker runs, no key is held back and every message has been handled."""
    await pilot.pause()
    while getattr(pilot.app, "holds_keys", False) and pilot.app.is_running:
        await pilot.pause(0.02)
    while busy := [worker for worker in pilot.app.workers if not worker.is_finished]:
        for worker in busy:
            with suppress(WorkerCancelled):
                await worker.wait()
        await pilot.pause()
    await pilot.pause()


def screen_text(app: App[Any]) -> str:
    """The screen as plain text, one line for each terminal row."""
    width, height = app.size
    console = Console(
        width=width,
        height=height,
        file=io.StringIO(),
        record=True,
        color_system=None,
        force_terminal=True,
        legacy_windows=False,
        safe_box=False,
    )
    console.print(app.screen._compositor.render_update(full=True))
    return "\n".join(line.rstrip() for line in console.export_text().splitlines()).rstrip() + "\n"


def same_screen(app: App[Any]) -> bool:
    """Whether the screen is the picture kept under the test's name; UPDATE_SCREENS=1 keeps it anew."""
    test = os.environ["PYTEST_CURRENT_TEST"].split("::")[-1].split(" ")[0]
    name = test.removeprefix("test_").replace("[", "-").removesuffix("]")
    picture, seen = _PICTURES / f"{name}.txt", screen_text(app)
    if os.environ.get("UPDATE_SCREENS") == "1":
        picture.write_text(seen, encoding="utf-8", newline="\n")
    assert seen == picture.read_text(encoding="utf-8"), f"{name} is now:\n{seen}"
    return True
