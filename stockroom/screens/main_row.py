"""The screens of the main row and what lies over them, each loaded when a person first goes there.

Loading them all takes longer than anybody should wait for the first; the rest are loaded while that
one is read.
"""

from importlib import import_module
from types import MappingProxyType
from typing import Any

from textual.screen import Screen

_SCREENS = MappingProxyType(
    {
        "today": "TodayScreen",
        "rack": "RackScreen",
        "bench": "BenchScreen",
        "goods_in": "GoodsInScreen",
        "jobs": "JobsScreen",
        "log": "LogScreen",
        "climate": "ClimateScreen",
        "buying": "BuyingScreen",
        "card": "CardScreen",
        "help": "HelpScreen",
    }
)
"""By the module each is in."""


def screen(module: str, *given: object) -> Screen[Any]:
    """The screen of a module, made with what is given."""
    made: Screen[Any] = getattr(import_module(f"stockroom.screens.{module}"), _SCREENS[module])(
        *given
    )
    return made


def load_all() -> None:
    """Load every screen there is."""
    for module in _SCREENS:
        import_module(f"stockroom.screens.{module}")
