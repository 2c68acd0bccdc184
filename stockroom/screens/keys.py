"""What a person can do with a key: bindings, footer, palette and the keys page, from one table."""

from dataclasses import dataclass, replace

from textual.binding import Binding

from stockroom.screens.key_table import TABLE, Where

__all__ = [
    "ACTIONS",
    "IN_THE_PALETTE",
    "MOST_JOBS",
    "Action",
    "Where",
    "actions",
    "bindings",
    "keys_page",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """One thing a key does."""

    id: str
    key: str
    action: str
    words: str
    tooltip: str
    where: Where
    is_said: bool = True
    """Whether lists of the keys name it; of keys that do alike only the first one says so."""

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
            show=self.where not in _SAID_ELSEWHERE and self.id not in _NOT_IN_THE_FOOTER,
            tooltip=self.tooltip,
            priority=self.key.startswith("ctrl+") or self.id == "help",
            system=not self.is_said,
            id=self.id,
        )


MOST_JOBS = 9
"""As many jobs as there are digits to choose one with."""

_KEYCAPS = {
    "1": f"1 to {MOST_JOBS}",
    "ctrl+b": "^B",
    "ctrl+o": "^O",
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
_SAID_ELSEWHERE = frozenset({Where.LIST, Where.JOB, Where.QUESTION})
_NOT_IN_THE_FOOTER = frozenset(
    {
        *("everything", "quit", "type", "who"),
        *("other-trial", "flaw", "rewind", "lie-flat", "send-back", "leave-card"),
        *("let-go", "install", "spoil-panel", "drop-panel", "acts-of-job"),
        *("close-this-job", "reopen-this-job", "leave-job"),
    }
)

_SAID = tuple(
    Action(id=name, key=key, action=action, words=words, tooltip=tooltip, where=where)
    for where, rows in TABLE.items()
    for name, key, action, words, tooltip in rows
)
_JOB = next(action for action in _SAID if action.id == "job-1")
_OTHER_JOBS = tuple(
    replace(_JOB, id=f"job-{digit}", key=str(digit), action=f"job({digit})", is_said=False)
    for digit in range(2, MOST_JOBS + 1)
)
ACTIONS = _SAID + _OTHER_JOBS

_IN_THE_PALETTE = frozenset(Where) - {
    Where.TYPING,
    Where.LIST,
    Where.JOB,
    Where.QUESTION,
    Where.FORM,
    Where.HELP,
}
IN_THE_PALETTE = frozenset(action.id for action in ACTIONS if action.where in _IN_THE_PALETTE) - {
    "everything"
}


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
        if action.is_said
    ]
    return (
        "\n".join(("| key | | what it does | where |", "| --- | --- | --- | --- |", *rows)) + "\n"
    )
