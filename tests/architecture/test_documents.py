"""The two documents name all there is."""

import re
from collections.abc import Iterator
from typing import Any

import pytest
import typer

from stockroom.cli.app import app
from stockroom.errors import Code
from tests.architecture.tree import ROOT


def _commands(command: Any, words: tuple[str, ...] = ()) -> Iterator[tuple[str, Any]]:
    """Each command a person can type, with the words that lead to it."""
    inner = getattr(command, "commands", {})
    if not inner:
        yield " ".join(words), command
    for name, child in inner.items():
        yield from _commands(child, (*words, name))


COMMANDS = dict(_commands(typer.main.get_command(app)))


@pytest.mark.parametrize("words", COMMANDS)
def test_every_command_and_option_says_what_it_is_for(words: str) -> None:
    """`--help` leaves nothing unexplained."""
    command = COMMANDS[words]
    options = [param for param in command.params if param.param_type_name == "option"]

    assert command.help
    assert [option.name for option in options if not (option.help or option.hidden)] == []


@pytest.mark.parametrize("words", COMMANDS)
def test_every_command_is_in_the_readme(words: str) -> None:
    """A person who reads README knows every command."""
    readme = (ROOT / "README.md").read_text("utf-8")

    assert re.search(rf"(?m)(^ *|stockroom |`){re.escape(words)}\b", readme)


@pytest.mark.parametrize("code", Code)
def test_every_refusal_is_in_the_developers_page(code: Code) -> None:
    """Whoever scripts the commands can look every refusal up."""
    assert f"`{code}`" in (ROOT / "DEVELOPERS.md").read_text("utf-8")
