"""What starting really loads, which a graph of imports cannot tell."""

import subprocess
import sys

import pytest

from tests.architecture.tree import ROOT

HEAVY = {"alembic", "PIL", "psycopg", "qrcode", "reportlab", "sqlalchemy", "sqlmodel", "textual"}


@pytest.mark.parametrize("module", ["stockroom.cli.app", "stockroom.__main__"])
def test_a_command_starts_without_screens_books_and_labels(module: str) -> None:
    """What a command does not use, it does not wait for."""
    loaded = subprocess.run(
        [sys.executable, "-c", f"import sys, {module}; print(*sys.modules)"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    ).stdout.split()

    assert HEAVY.isdisjoint(loaded), sorted(HEAVY & set(loaded))
