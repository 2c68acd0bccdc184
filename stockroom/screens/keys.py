"""The one table of what a person can do with a key: bindings, footer, palette and the keys page.

Function keys lead to screens. Letter keys wait until it is clear that no scan begins with them.
Ctrl with i, j, m, h or [ is never used: in many terminals these are Tab, Enter, Backspace, Esc.
"""

from dataclasses import dataclass
from enum import StrEnum

from textual.binding import Binding


class Where(StrEnum):
    """The part of the screens in which an action is to be had."""

    EVERYWHERE = "everywhere"
    SCREEN = "every screen"
    TYPING = "typing by hand"
    LIST = "a list"


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """One thing a key does."""

    id: str
    key: str
    action: str
    words: str
    tooltip: str
    where: Where

    @property
    def keycap(self) -> str:
        """What is written on the key."""
        return _KEYCAPS.get(self.key, self.key.upper() if len(self.key) > 1 else self.key)

    @property
    def binding(self) -> Binding:
        """The action as the screens want it; what every list and screen has is not in the footer."""
        return Binding(
            self.key,
            self.action,
            self.words,
            key_display=self.keycap,
            show=self.where is not Where.LIST and self.id not in _NOT_IN_THE_FOOTER,
            tooltip=self.tooltip,
            priority=self.key.startswith("ctrl+"),
            id=self.id,
        )


_KEYCAPS = {
    "ctrl+p": "^P",
    "ctrl+q": "^Q",
    "down": "↓",
    "end": "End",
    "enter": "Enter",
    "escape": "Esc",
    "home": "Home",
    "pagedown": "PgDn",
    "pageup": "PgUp",
    "slash": "/",
    "up": "↑",
}
_NOT_IN_THE_FOOTER = frozenset({"quit", "type"})

# id, key, action, words, tooltip
_TABLE = {
    Where.EVERYWHERE: (
        ("help", "f1", "app.help", "Help", "What this screen is for, and its keys; again to close"),
        ("today", "f2", "app.switch_mode('today')", "Today", "What needs a hand"),
        ("rack", "f3", "app.switch_mode('rack')", "Rack", "Every piece, and where it stands"),
        ("bench", "f4", "app.switch_mode('bench')", "Bench", "Cut a piece for a job"),
        ("everything", "ctrl+p", "app.command_palette", "Everything", "Find an action by name"),
        ("quit", "ctrl+q", "app.quit", "Quit", "Leave the program; what was done is kept"),
    ),
    Where.SCREEN: (("type", "slash", "screen.type", "Type", "Type a code instead of scanning it"),),
    Where.TYPING: (("leave", "escape", "leave", "Leave", "Stop typing; nothing is kept"),),
    Where.LIST: (
        ("row-up", "up", "move(-1)", "Up", "One row up"),
        ("row-down", "down", "move(1)", "Down", "One row down"),
        ("page-up", "pageup", "page(-1)", "Page up", "One screenful up"),
        ("page-down", "pagedown", "page(1)", "Page down", "One screenful down"),
        ("first-row", "home", "first", "First", "The first row"),
        ("last-row", "end", "last", "Last", "The last row"),
        ("open", "enter", "choose", "Open", "Open the row under the cursor"),
    ),
}

ACTIONS = tuple(
    Action(id=name, key=key, action=action, words=words, tooltip=tooltip, where=where)
    for where, rows in _TABLE.items()
    for name, key, action, words, tooltip in rows
)

IN_THE_PALETTE = frozenset(
    action.id
    for action in ACTIONS
    if action.where not in (Where.LIST, Where.TYPING) and action.id != "everything"
)


def actions(*where: Where) -> tuple[Action, ...]:
    """The actions to be had in these parts, in the order of the table."""
    return tuple(action for action in ACTIONS if action.where in where)


def bindings(*where: Where) -> list[Binding]:
    """The bindings of these parts."""
    return [action.binding for action in actions(*where)]


def keys_page() -> str:
    """Every key as a Markdown table, as the README shows it."""
    rows = [
        f"| `{action.keycap}` | {action.words} | {action.tooltip} | {action.where} |"
        for action in ACTIONS
    ]
    return (
        "\n".join(("| key | | what it does | where |", "| --- | --- | --- | --- |", *rows)) + "\n"
    )
