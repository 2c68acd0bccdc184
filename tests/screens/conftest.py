"""What every test of the screens needs: no animation, no blinking, all colours, and a shop."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from textual import constants
from textual.widgets import Input

from tests.screens.shop import Codes, Shop, copied, make


@pytest.fixture(autouse=True)
def _still_screens(monkeypatch: pytest.MonkeyPatch) -> None:
    """Animations would make a test slow, and a blinking cursor would make screens random."""
    monkeypatch.setattr(constants, "TEXTUAL_ANIMATIONS", "none")
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setattr(Input, "_toggle_cursor", lambda _self: None)


@pytest.fixture(scope="session")
def made_shop(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Codes]:
    """The shop, made once."""
    path = tmp_path_factory.mktemp("shop") / "book.db"
    return path, make(path)


@pytest.fixture
def shop(made_shop: tuple[Path, Codes], tmp_path: Path) -> Iterator[Shop]:
    """A copy of the shop, in which it is 09:00 on a Wednesday in November."""
    path, codes = made_shop
    with copied(path, codes, tmp_path) as shop:
        yield shop
