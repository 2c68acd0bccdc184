"""Whether a book speaks of money already."""

from sqlalchemy import Connection, exists, or_, select

from stockroom.books.tables import MaterialRow, PieceRow, table_of

_MATERIAL = table_of(MaterialRow)
_PIECE = table_of(PieceRow)


def has_prices(connection: Connection) -> bool:
    """Whether any material or piece has a price, which a new currency would turn into another."""
    priced = or_(
        exists().where(_MATERIAL.c.cost_minor.is_not(None)),
        exists().where(_PIECE.c.cost_minor.is_not(None)),
    )
    return bool(connection.execute(select(priced)).scalar_one())
