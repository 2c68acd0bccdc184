"""What starting really loads, which a graph of imports cannot tell."""

import subprocess
import sys

import pytest

from tests.architecture.tree import ROOT

HEAVY = {
    "alembic",
    "paho",
    "PIL",
    "psycopg",
    "qrcode",
    "reportlab",
    "sqlalchemy",
    "sqlmodel",
    "textual",
}
LATER = HEAVY - {"sqlalchemy", "sqlmodel", "textual"} | {"markdown_it"}


@pytest.mark.parametrize("module", ["stockroom.cli.app", "stockroom.__main__"])
def test_a_command_starts_without_screens_books_and_labels(module: str) -> None:
    """What a command does not use, it does not wait for."""
    loaded = _loaded_with(module)

    assert HEAVY.isdisjoint(loaded), sorted(HEAVY & loaded)


def test_the_screens_start_without_what_no_first_screen_shows() -> None:
    """Labels, migrations and the reader of help are loaded when somebody asks for them."""
    loaded = _loaded_with("stockroom.screens.app, stockroom.screens.today")

    assert LATER.isdisjoint(loaded), sorted(LATER & loaded)


def _loaded_with(modules: str) -> set[str]:
    """Every module that is there after these were imported."""
    loaded = subprocess.run(
        [sys.executable, "-c", f"import sys, {modules}; print(*sys.modules)"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    return set(loaded.split())
