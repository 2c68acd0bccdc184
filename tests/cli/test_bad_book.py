"""A book that cannot be used is said in one plain line, and is left as it is."""

import os
import shutil
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from stockroom.books import engine
from tests.cli.conftest import Shop

READ, WRITE = ("rack",), ("cut", "{roll}", "1m", "--for", "sample")


@pytest.mark.parametrize("arguments", [READ, WRITE])
@pytest.mark.parametrize("content", [b"no book at all" * 100, b"SQLite format 3\0" + b"\1" * 5000])
def test_a_file_that_is_no_book_is_refused(
    shop: Shop, arguments: tuple[str, ...], content: bytes
) -> None:
    """A photo named by mistake stays the photo it was."""
    shop.book.write_bytes(content)

    ran = shop.run(*arguments)

    assert (ran.code, ran.out, ran.err.count("\n")) == (5, "", 1)
    assert shop.book.read_bytes() == content


@pytest.mark.parametrize("arguments", [READ, WRITE])
def test_a_database_of_something_else_is_refused(shop: Shop, arguments: tuple[str, ...]) -> None:
    """Another program's SQLite file gets no tables of ours."""
    shop.book.unlink()
    with sqlite3.connect(shop.book) as connection:
        connection.execute("CREATE TABLE bookmarks (url TEXT)")
    connection.close()
    before = shop.dump()

    ran = shop.run(*arguments)

    assert (ran.code, ran.out, ran.err.count("\n")) == (5, "", 1)
    assert shop.dump() == before


@pytest.mark.parametrize("arguments", [READ, WRITE])
def test_a_newer_book_is_refused(shop: Shop, arguments: tuple[str, ...]) -> None:
    """An old program does not write into what it does not understand."""
    with sqlite3.connect(shop.book) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
    connection.close()
    before = shop.dump()

    ran = shop.run(*arguments)

    assert (ran.code, ran.err.count("\n")) == (5, 1)
    assert "newer" in ran.err
    assert shop.dump() == before


def test_a_locked_book_is_refused_in_a_moment(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another station that never ends its writing does not hang this one."""
    monkeypatch.setattr(engine, "BUSY_SECONDS", 0.05)
    other = sqlite3.connect(shop.book, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")

    ran = shop.run(*WRITE)
    seen = shop.run(*READ)

    other.close()
    assert (ran.code, ran.out, ran.err.count("\n")) == (5, "", 1)
    assert "another station" in ran.err
    assert seen.code == 0


def test_a_read_only_book_is_read_and_not_written(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Permissions are honoured, and said."""
    shop.book.chmod(0o444)
    if os.access(shop.book, os.W_OK):  # whoever is root may write everywhere
        monkeypatch.setattr(os, "access", lambda _path, mode: mode != os.W_OK)

    ran = shop.run(*WRITE)

    assert shop.run(*READ).code == 0
    assert (ran.code, ran.out, ran.err.count("\n")) == (5, "", 1)


def test_a_full_disk_is_said_and_loses_nothing(shop: Shop) -> None:
    """A file that cannot grow stands for a disk that is full."""
    program = (
        "import resource, sys; from stockroom.cli.app import main; "
        "resource.setrlimit(resource.RLIMIT_FSIZE, (40_000, 40_000)); "
        "sys.exit(main(sys.argv[1:]))"
    )
    before = shop.dump()

    ran = subprocess.run(
        [
            *(sys.executable, "-c", program, "--book", str(shop.book)),
            *(word.format(**shop.codes) for word in WRITE),
        ],
        capture_output=True,
        text=True,
        check=False,
    )

    assert (ran.returncode, ran.stdout, ran.stderr.count("\n")) == (5, "", 1)
    assert "disk" in ran.stderr
    assert shop.dump() == before


@pytest.mark.parametrize(
    "book", ["foo://bar", "postgresql://h:abc/x", "mysql://x/y", "no/folder/b"]
)
@pytest.mark.parametrize("command", ["rack", "place add A2"])
def test_a_name_that_leads_to_no_book_is_refused(empty_shop: Shop, command: str, book: str) -> None:
    """Whatever is named with --book, the answer is one line."""
    ran = empty_shop.run(*command.split(), "--book", book)

    assert (ran.code, ran.out, ran.err.count("\n")) == (5, "", 1)


def test_verify_names_the_piece_that_was_changed_behind_its_back(
    shop: Shop, tmp_path: Path
) -> None:
    """One byte of a copy is another one: verify finds it, and ends with 5."""
    shop.lines("backup", str(tmp_path / "copy.db"))
    shutil.copy(tmp_path / "copy.db", shop.book)
    raw = shop.book.read_bytes()
    assert raw.count(b'"lot":"L-22"') >= 1
    shop.book.write_bytes(raw.replace(b'"lot":"L-22"', b'"lot":"L-23"', 1))

    ran = shop.run("verify")
    values = shop.run("verify", "--json")

    assert (ran.code, values.code) == (5, 5)
    assert any(shop.codes[one] in ran.out for one in ("roll", "held", "gone"))
    assert ran.err.count("\n") == 1
