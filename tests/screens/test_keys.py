"""The table of keys."""

from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from textual.binding import Binding
from textual.screen import Screen

from stockroom.screens.act import ActScreen
from stockroom.screens.bench import BenchScreen
from stockroom.screens.buying import BuyingScreen
from stockroom.screens.card import CardScreen
from stockroom.screens.climate import ClimateScreen
from stockroom.screens.form import Form
from stockroom.screens.goods_in import GoodsInScreen
from stockroom.screens.job import JobScreen
from stockroom.screens.jobs import JobsScreen
from stockroom.screens.keys import ACTIONS, Action, Where, bindings, keys_page
from stockroom.screens.log import LogScreen
from stockroom.screens.orders import OrdersScreen
from stockroom.screens.rack import RackScreen
from stockroom.screens.scans import SCANS, SCREENS, scans_page
from stockroom.screens.today import TodayScreen
from stockroom.screens.value import ValueScreen

# In terminals without the newer key protocol these are Tab, Newline, Enter, Backspace and Escape.
TAKEN_BY_THE_TERMINAL = {"ctrl+i", "ctrl+j", "ctrl+m", "ctrl+h", "ctrl+left_square_bracket"}


@pytest.mark.parametrize("action", ACTIONS, ids=lambda action: action.id)
def test_every_action_says_what_it_does_and_has_a_key_that_every_terminal_sends(
    action: Action,
) -> None:
    """Footer words, a tooltip that is a sentence's worth, and no key that is another one."""
    assert action.words
    assert len(action.tooltip) > len(action.words)
    assert action.key not in TAKEN_BY_THE_TERMINAL
    assert action.binding.id == action.id


def test_no_two_actions_have_the_same_id() -> None:
    """An id means one thing."""
    assert [name for name, times in Counter(a.id for a in ACTIONS).items() if times > 1] == []


@pytest.mark.parametrize("where", Where)
def test_a_key_means_one_thing_in_each_place(where: Where) -> None:
    """Neither within a part, nor against the keys that work everywhere."""
    keys = [binding.key for binding in bindings(where)]
    everywhere = {binding.key for binding in bindings(Where.EVERYWHERE)}

    assert len(keys) == len(set(keys))
    assert where is Where.EVERYWHERE or not everywhere & set(keys)


def test_the_keys_page_has_a_row_for_every_action() -> None:
    """The README shows the same table; of keys that do alike there is one row."""
    page = keys_page()

    assert all(f" | {action.words} | {action.tooltip} |" in page for action in ACTIONS)
    assert "| `F1` | Help |" in page
    assert page.count("| Job |") == 1
    assert "| `1 to 9` | Job |" in page


def test_the_readme_shows_the_keys_page() -> None:
    """Word for word: a key that changes there changes here."""
    readme = Path(__file__).parents[2] / "README.md"

    assert keys_page() in readme.read_text("utf-8")


def test_the_readme_shows_what_a_scan_does_on_each_screen() -> None:
    """Word for word, and with a word for every screen."""
    readme = Path(__file__).parents[2] / "README.md"

    assert scans_page() in readme.read_text("utf-8")
    assert {len(does) for does in SCANS.values()} == {len(SCREENS)}


@pytest.mark.parametrize(
    "screen",
    [
        TodayScreen,
        RackScreen,
        BenchScreen,
        BuyingScreen,
        CardScreen,
        ClimateScreen,
        GoodsInScreen,
        JobsScreen,
        JobScreen,
        LogScreen,
        ActScreen,
        OrdersScreen,
        ValueScreen,
        Form,
    ],
)
def test_every_screen_says_what_it_is_for(screen: type[Screen[Any]]) -> None:
    """F1 has something to show."""
    assert len(screen.HELP or "") > len(screen.__name__)
    assert all(isinstance(one, Binding) and one.id and one.tooltip for one in screen.BINDINGS)
