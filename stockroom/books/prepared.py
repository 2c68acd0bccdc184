"""Statements that are made once and sent at every scan.

SQLAlchemy writes a statement for the engine, and turns values into what the driver takes and back;
the driver runs it. Sent the library's usual way, a look-up of one row takes four to eight times as
long as the driver needs for it, and a scan sends a dozen.

    _BY_CODE = Prepared(select(_PIECE).where(_PIECE.c.code == bindparam("code")))
    row = _BY_CODE.first(connection, {"code": code})
"""

from collections import namedtuple
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, NamedTuple, cast

from sqlalchemy import Connection, Dialect, Insert, Select, Update
from sqlalchemy.engine.interfaces import DBAPIConnection
from sqlalchemy.exc import DBAPIError
from sqlalchemy.sql.compiler import SQLCompiler

_Turn = Callable[[Any], Any]
_Turns = tuple[tuple[int, _Turn], ...]
Rows = Sequence[tuple[Any, ...]]
_NOTHING: Mapping[str, Any] = {}
_Values = tuple[Any, ...] | dict[str, Any]


class _Written(NamedTuple):
    """A statement as one engine takes it, for the names that are given with it."""

    sql: str
    turns: tuple[tuple[str, _Turn | None], ...]
    """The names of its values in their order, and how each is turned into what the driver takes."""
    constants: dict[str, Any]
    is_positional: bool

    def values(self, given: Mapping[str, Any]) -> _Values:
        """What the driver is given."""
        known = {**self.constants, **given} if self.constants else given
        if self.is_positional:
            return tuple(
                [known[name] if turn is None else turn(known[name]) for name, turn in self.turns]
            )
        return {
            name: known[name] if turn is None else turn(known[name]) for name, turn in self.turns
        }


class Prepared:
    """A statement without lists of values (`IN`), and without defaults that Python would have to make.

    Raises ValueError where it is sent for the first time and has one.
    """

    def __init__(self, statement: Select[*tuple[Any, ...]] | Insert | Update) -> None:
        self._statement = statement
        self._columns = list(statement.exported_columns)
        heads = [str(column.key) for column in self._columns]
        row: Any = namedtuple("Row", heads)  # type: ignore[misc]  # noqa: PYI024
        self._row: Callable[[Iterable[Any]], Any] = row._make
        self._is_read = isinstance(statement, Select)
        self._written: dict[tuple[str, bool | frozenset[str]], _Written] = {}
        """What is read is written once for an engine; what is changed, for the columns that are given."""
        self._turns: dict[str, _Turns] = {}

    def all(self, connection: Connection, given: Mapping[str, Any] = _NOTHING) -> list[Any]:
        """Send it with its values by name; its rows are tuples with the names of the columns."""
        dialect = connection.dialect
        key = dialect.name, self._is_read or frozenset(given)
        written = self._written.get(key)
        if written is None:
            written = self._written[key] = self._write(dialect, given)
        rows, kinds = send(connection, written.sql, written.values(given))
        if not rows:
            return []
        if dialect.name not in self._turns:
            self._turns[dialect.name] = self._turns_of(dialect, kinds)
        turns = self._turns[dialect.name]
        return [self._row(_turned(row, turns) if turns else row) for row in rows]

    def first(self, connection: Connection, given: Mapping[str, Any]) -> Any:
        """The first row, or None."""
        rows = self.all(connection, given)
        return rows[0] if rows else None

    def value(self, connection: Connection, given: Mapping[str, Any] = _NOTHING) -> Any:
        """The only value of the only row."""
        [[value]] = self.all(connection, given)
        return value

    def _write(self, dialect: Dialect, given: Iterable[str]) -> _Written:
        names = None if self._is_read else list(given)
        compiled = self._statement.compile(dialect=dialect, column_keys=names)
        if _is_beyond(compiled):
            raise ValueError(f"not to be prepared: {compiled}")
        binds = compiled.binds
        return _Written(
            sql=compiled.string,
            turns=tuple(
                (name, binds[name].type.dialect_impl(dialect).bind_processor(dialect))
                for name in compiled.positiontup or binds
            ),
            constants={name: bind.value for name, bind in binds.items() if not bind.required},
            is_positional=compiled.positional,
        )

    def _turns_of(self, dialect: Dialect, kinds: Sequence[Any]) -> _Turns:
        """The columns that are not taken as the driver gives them, and how each is read."""
        turns = (
            column.type.dialect_impl(dialect).result_processor(dialect, kind[1])
            for column, kind in zip(self._columns, kinds, strict=True)
        )
        return tuple((place, turn) for place, turn in enumerate(turns) if turn is not None)


def _is_beyond(compiled: SQLCompiler) -> bool:
    return bool(
        any(bind.expanding for bind in compiled.binds.values())
        or compiled.insert_prefetch
        or compiled.update_prefetch
    )


def _turned(row: Sequence[Any], turns: _Turns) -> list[Any]:
    turned = list(row)
    for place, turn in turns:
        turned[place] = turn(row[place])
    return turned


def send(connection: Connection, sql: str, values: _Values) -> tuple[Rows, Sequence[Any]]:
    """Let the driver run one statement: all it finds, and the driver's description of the columns."""
    cursor = cast("DBAPIConnection", connection.connection.dbapi_connection).cursor()
    try:
        cursor.execute(sql, values)
        columns = cursor.description
        return (cursor.fetchall(), columns) if columns else ((), ())
    except connection.dialect.loaded_dbapi.Error as error:
        raise DBAPIError.instance(
            sql, values, error, connection.dialect.loaded_dbapi.Error, dialect=connection.dialect
        ) from error
    finally:
        cursor.close()
