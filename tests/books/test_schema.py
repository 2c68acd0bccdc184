"""What the database itself holds is written down, and is the same after every migration."""

import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import Connection, text

from stockroom.books import migrating, opening
from stockroom.books.climate_tables import ReadingRow
from stockroom.books.opening import Book, create_book, open_book
from stockroom.errors import Code, Refusal
from stockroom.units import M
from tests.builders import ON_ONE_ENGINE, Station, dump, is_sound, refused

NOW_AT = migrating.HEAD
NEXT = f"{int(NOW_AT) + 1:04d}"

STORED = Path(__file__).parent / "stored"
"""One line for each trigger, constraint and partial index; a changed line is a decision, not an accident."""

IN_SQLITE = """
SELECT type || ' ' || tbl_name || ': ' || sql FROM sqlite_master
WHERE type IN ('trigger', 'table') AND name != 'alembic_version'
OR type = 'index' AND sql LIKE '% WHERE %'
ORDER BY type DESC, tbl_name, name
"""
IN_POSTGRESQL = """
SELECT 'trigger ' || relname || ': ' || pg_get_triggerdef(trigger.oid, true) AS line
FROM pg_trigger AS trigger JOIN pg_class ON pg_class.oid = tgrelid
WHERE relnamespace = current_schema()::regnamespace AND NOT tgisinternal
UNION ALL
SELECT 'constraint ' || relname || ' ' || conname || ': ' || pg_get_constraintdef(pg_constraint.oid)
FROM pg_constraint JOIN pg_class ON pg_class.oid = conrelid
WHERE connamespace = current_schema()::regnamespace AND relname != 'alembic_version'
UNION ALL
SELECT 'index ' || relname || ': ' || pg_get_indexdef(indexrelid)
FROM pg_index JOIN pg_class ON pg_class.oid = indexrelid
WHERE relnamespace = current_schema()::regnamespace AND indpred IS NOT NULL
ORDER BY line
"""


def _held(connection: Connection) -> list[str]:
    """What the database holds of triggers and constraints, one line each."""
    asked = IN_SQLITE if connection.dialect.name == "sqlite" else IN_POSTGRESQL
    lines = [" ".join(line.split()) for line in connection.execute(text(asked)).scalars()]
    schema = connection.scalar(text("SELECT current_schema()")) if asked == IN_POSTGRESQL else ""
    return [line.replace(f"{schema}.", "") if schema else line for line in lines]


def _stored(engine: str) -> list[str]:
    return (STORED / f"{engine}.txt").read_text("utf-8").splitlines()


def test_triggers_and_constraints_are_those_that_were_written_down(book: Book) -> None:
    """A migration that drops a guard is seen here, where no comparison of tables would see it."""
    with book.reading() as connection:
        held = _held(connection)
        engine = connection.dialect.name

    assert held == _stored(engine)


def test_the_tables_are_those_the_program_knows(book: Book) -> None:
    """All migrations together make exactly the tables of this version."""
    with book.reading() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, ReadingRow.metadata) == []


def test_a_book_writes_ahead_and_checks_what_points_where(book: Book) -> None:
    """SQLite keeps a journal beside the file, and refuses what points nowhere."""
    with book.reading() as connection:
        if connection.dialect.name == "sqlite":
            asked = ("journal_mode", "foreign_keys")  # how it syncs: tests/books/test_opening.py
            kept = [connection.scalar(text(f"PRAGMA {name}")) for name in asked]
            assert kept == ["wal", 1]
        else:
            assert connection.get_isolation_level() == "REPEATABLE READ"


@contextmanager
def _knowing(revision: str) -> Iterator[None]:
    """A version of the program that knows the revisions up to this one."""
    with pytest.MonkeyPatch.context() as patch:
        for module in (migrating, opening):
            patch.setattr(module, "HEAD", revision)
        yield


@pytest.fixture
def _one_revision_more(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A version of the program that knows one revision more: moves gain a column."""
    there = Path(migrating.__file__).parent / "migrations"
    here = tmp_path / "later" / "migrations"
    shutil.copytree(there, here, ignore=shutil.ignore_patterns("__pycache__"))
    (here / "versions" / f"{NEXT}_more.py").write_text(
        "import sqlalchemy as sa\n"
        "from alembic import op\n"
        f'revision, down_revision = "{NEXT}", "{NOW_AT}"\n'
        "def upgrade():\n"
        '    op.add_column("move", sa.Column("weather", sa.Text(), nullable=True))\n'
    )
    monkeypatch.setattr(migrating, "__file__", str(here.parent / "migrating.py"))
    with _knowing(NEXT):
        yield


@pytest.mark.usefixtures("_one_revision_more")
def test_an_older_book_is_brought_up_to_date_with_all_it_holds(
    book_url: str, tmp_path: Path
) -> None:
    """Nothing is lost, every guard still stands, and the book before is kept beside it."""
    with _knowing(NOW_AT), closing(create_book(book_url)) as old:
        roll = Station(old).roll()
        before = dump(old)

    with closing(open_book(book_url)) as book:
        with book.reading() as connection:
            assert migrating.revision_of(connection) == NEXT
            held = [line for line in _held(connection) if not line.startswith("table move:")]
            stored = _stored(connection.dialect.name)
        assert held == [line for line in stored if not line.startswith("table move:")]
        assert dump(book) == before
        assert is_sound(book)
        assert Station(book).cut(roll, M).left_nm == 29 * M

    kept = sorted(path.name for path in tmp_path.glob("*before*"))
    assert kept == ([f"book.db.before-{NEXT}"] if book_url.startswith("sqlite") else [])


@ON_ONE_ENGINE
@pytest.mark.usefixtures("_one_revision_more")
def test_the_copy_made_before_is_the_book_as_it_was(book_url: str, tmp_path: Path) -> None:
    """The older program opens it and finds what it wrote."""
    with _knowing(NOW_AT), closing(create_book(book_url)) as old:
        Station(old).roll()
        before = dump(old)
    open_book(book_url).close()

    with _knowing(NOW_AT):
        with closing(open_book(str(tmp_path / f"book.db.before-{NEXT}"))) as kept:
            assert dump(kept) == before
        with pytest.raises(Refusal) as caught:
            open_book(book_url)
        assert caught.value.code is Code.BOOK_NEWER


@ON_ONE_ENGINE
@pytest.mark.usefixtures("_one_revision_more")
def test_a_migration_that_fails_leaves_the_book_as_it_was(book_url: str, tmp_path: Path) -> None:
    """Whole or not at all; and the next try starts from the same place."""
    with _knowing(NOW_AT), closing(create_book(book_url)) as old:
        station = Station(old)
        station.roll()
        before = dump(old)
    version = tmp_path / "later" / "migrations" / "versions" / f"{NEXT}_more.py"
    whole = version.read_text()
    version.write_text(whole + "    raise ZeroDivisionError\n")
    with pytest.raises(ZeroDivisionError):
        open_book(book_url)

    version.write_text(whole)
    with closing(Book(opening.book_url(book_url))) as left:
        assert dump(left) == before
        with left.reading() as connection:
            assert migrating.revision_of(connection) == NOW_AT
            assert _held(connection) == _stored("sqlite")
    open_book(book_url).close()


@ON_ONE_ENGINE
@pytest.mark.usefixtures("_one_revision_more")
def test_an_older_book_that_may_only_be_read_is_not_brought_up_to_date(
    book_url: str, tmp_path: Path
) -> None:
    """It is said, and no copy is left beside it."""
    with _knowing(NOW_AT):
        create_book(book_url).close()
    book = Book(opening.book_url(book_url), read_only=True)

    with closing(book), refused(book, Code.BOOK_READ_ONLY):
        opening._bring_up_to_date(book, makes=False)

    assert list(tmp_path.glob("*before*")) == []


@pytest.mark.parametrize(
    ("revision", "left_nm"),
    [
        ("0001", 27_800_000_000),
        ("0002", 28_000_000_000),
        ("0003", 28_000_000_000),
        ("0004", 28_000_000_000),
        ("0005", 28_000_000_000),
    ],
)
def test_a_book_of_an_older_version_is_read_and_written_on(
    tmp_path: Path, revision: str, left_nm: int
) -> None:
    """The dump was written by the program as it was when its tables were those."""
    path = tmp_path / "book.db"
    with closing(sqlite3.connect(path)) as file:
        file.executescript((STORED / f"book-{revision}.sql").read_text("utf-8"))
        file.execute("PRAGMA journal_mode=WAL")

    with closing(open_book(str(path))) as book:
        station = Station(book)
        station.wait(days=30)
        assert is_sound(book)
        assert station.cut("R000002J", M).left_nm == left_nm - M
        with book.reading() as connection:
            assert _held(connection) == _stored("sqlite")
