"""Help: what the screen in front is for, and every key it has, over the whole screen."""

from collections.abc import Iterable, Iterator
from itertools import groupby
from operator import attrgetter
from typing import Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Container, VerticalScroll
from textual.dom import DOMNode
from textual.screen import Screen
from textual.widgets import Markdown, Static

from stockroom.screens.keys import ACTIONS, Action, Where, bindings
from stockroom.screens.scanning import Scanned
from stockroom.screens.widgets.hanging import Hanging

_IN_COMMON = (Where.LIST, Where.QUESTION, Where.TYPING, Where.SCREEN, Where.EVERYWHERE)
_HOW = "↑ ↓ PgUp PgDn move the page   F1 or Esc closes it"


class HelpScreen(Screen[Scanned | None]):
    """One page to read; a scan puts it away, and is done where it would have been without it."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.HELP)]
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide")]

    def __init__(self, of: Screen[Any]) -> None:
        super().__init__(id="help")
        self._text = of.HELP or ""
        self._actions = _own_first(_had_on(of))

    def compose(self) -> ComposeResult:
        with VerticalScroll(), Container(id="help-page"):
            yield Markdown(self._text, id="help-text", open_links=False)
            with Container(id="help-keys"):
                for where, actions in groupby(self._actions, key=attrgetter("where")):
                    yield Static(f"Keys: {where}", markup=False, classes="strong")
                    yield _keys(actions)
        yield Static(_HOW, markup=False, id="help-how")

    @on(Scanned)
    def _was_scanned(self, message: Scanned) -> None:
        self.dismiss(message)

    def action_leave(self) -> None:
        """Back to the screen."""
        self.dismiss()


def _keys(actions: Iterable[Action]) -> Hanging:
    keys = Hanging()
    keys.show([(f"{one.keycap:>7}  {one.words:<11}", one.tooltip) for one in actions])
    return keys


def _had_on(screen: Screen[Any]) -> list[Action]:
    """The actions of a screen, of what is on it, and of the program."""
    nodes: tuple[DOMNode, ...] = (screen.app, screen, *screen.query("*"))
    ids = {name for node in nodes for name in _ids_of(type(node))}
    return [one for one in ACTIONS if one.id in ids and one.is_said]


def _ids_of(kind: type[DOMNode]) -> Iterator[str | None]:
    for one in kind.__mro__:
        yield from (getattr(key, "id", None) for key in vars(one).get("BINDINGS", ()))


def _own_first(actions: Iterable[Action]) -> list[Action]:
    """What only this screen has, then what it has in common with others."""

    def rank(one: Action) -> int:
        return _IN_COMMON.index(one.where) + 1 if one.where in _IN_COMMON else 0

    return sorted(actions, key=rank)
