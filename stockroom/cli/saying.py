"""How an answer leaves: data on stdout, everything else on stderr."""

import json
import re
import sys
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import typer

from stockroom.errors import Refusal


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What a command has to say: to a script, to a person, and beside it."""

    values: dict[str, Any]
    lines: Sequence[str]
    notes: Sequence[str] = ()
    ends: Refusal | None = None


_COLOURS = {"●": "green", "◐": "cyan", "▲": "yellow", "✕": "bold red", "◷": "magenta"}
_MARKED = re.compile(rf"([{''.join(_COLOURS)}])( [A-Z]+\b(?: FIRST\b)?)?")


def say(answer: Answer, *, as_json: bool) -> None:
    """Print an answer: data on stdout, notes beside it."""
    if as_json:
        typer.echo(json.dumps(answer.values))
    else:
        _show(answer.lines)
        for note in answer.notes:
            typer.echo(note, err=True)
    if answer.ends is not None:
        raise answer.ends


def _show(lines: Iterable[str]) -> None:
    """Lines for a person; on a terminal each verdict has its colour beside its sign and word."""
    if not sys.stdout.isatty():
        for line in lines:
            typer.echo(line)
        return
    from rich.console import Console
    from rich.text import Text

    console = Console(highlight=False, soft_wrap=True)
    for line in lines:
        text = Text(line)
        for found in _MARKED.finditer(line):
            text.stylize(_COLOURS[found[1]], *found.span())
        console.print(text)
