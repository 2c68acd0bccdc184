"""What every test of the screens needs: no animation, no blinking, all colours."""

import pytest
from textual import constants
from textual.widgets import Input


@pytest.fixture(autouse=True)
def _still_screens(monkeypatch: pytest.MonkeyPatch) -> None:
    """Animations would make a test slow, and a blinking cursor would make screens random."""
    monkeypatch.setattr(constants, "TEXTUAL_ANIMATIONS", "none")
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setattr(Input, "_toggle_cursor", lambda _self: None)
