"""The program as it is started."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType, SimpleNamespace
from typing import cast

import pytest

from stockroom import __main__ as program
from stockroom.errors import Code, Exit, Refusal
from stockroom.settings import Settings
from tests.cli.conftest import Shop


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> list[Settings]:
    """The settings the screens were opened with, instead of screens."""
    seen: list[Settings] = []
    _screens_that(seen.append, monkeypatch)
    return seen


def _screens_that(run: Callable[[Settings], None], monkeypatch: pytest.MonkeyPatch) -> None:
    """Stand-ins, for a terminal is not always there."""
    screens = SimpleNamespace(run=run)
    monkeypatch.setitem(sys.modules, "stockroom.screens.app", cast("ModuleType", screens))


@pytest.mark.parametrize(
    ("arguments", "book"),
    [([], "usual.db"), (["--book", "x.db"], "x.db"), (["--book=x.db"], "x.db")],
)
def test_without_a_command_the_screens_open(
    opened: list[Settings], monkeypatch: pytest.MonkeyPatch, arguments: list[str], book: str
) -> None:
    """On the book that is named, or the station's own."""
    monkeypatch.setenv("STOCKROOM_BOOK", "usual.db")

    assert program.run(arguments) == Exit.DONE
    assert [one.book for one in opened] == [book]


def test_screens_that_cannot_open_say_why_in_one_line(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """As commands do."""

    def refuse(_settings: Settings) -> None:
        raise Refusal(Code.BOOK_MISSING, "There is no book.")

    _screens_that(refuse, monkeypatch)

    assert program.run([]) == Exit.NO_BOOK
    assert capsys.readouterr().err == "There is no book.\n"


def test_ctrl_c_ends_quietly(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """With the exit code shells give it."""

    def interrupted(_arguments: object) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr(program, "run", interrupted)

    with pytest.raises(SystemExit) as ended:
        program.main()
    assert ended.value.code == 130
    assert capsys.readouterr() == ("", "")


def _started(*arguments: str, **environment: str) -> subprocess.Popen[bytes]:
    return subprocess.Popen(
        [sys.executable, "-m", "stockroom", *arguments],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=Path(program.__file__).parents[1],
        env=os.environ | environment,
    )


def test_a_reader_that_leaves_early_is_no_error(shop: Shop) -> None:
    """`stockroom log | head` leaves no trace."""
    running = _started("--book", str(shop.book), "log", "--json")
    assert running.stdout is not None
    assert running.stderr is not None
    running.stdout.close()

    said = running.stderr.read()
    running.stderr.close()

    assert (running.wait(), said) == (1, b"")


def test_a_terminal_without_the_signs_still_gets_the_words(shop: Shop) -> None:
    """The words carry the meaning; a sign that cannot be printed is replaced."""
    running = _started("--book", str(shop.book), "rack", PYTHONIOENCODING="latin-1")
    out, err = running.communicate()

    assert (running.returncode, err) == (0, b"")
    assert b"? STOP" in out
