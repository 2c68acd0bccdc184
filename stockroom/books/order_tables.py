"""The tables of orders: what was ordered of whom, and what acts say of it; rows never leave this room."""

from datetime import datetime

from sqlalchemy import Text
from sqlmodel import Field, SQLModel


class OrderRow(SQLModel, table=True):
    """What is bought of one supplier at once; `closed` caches what its entries say."""

    __tablename__ = "order"

    id: int | None = Field(default=None, primary_key=True)
    code: str = Field(unique=True)
    supplier: str
    drafted_at: datetime
    closed: bool = Field(default=False, index=True)


class OrderEntryRow(SQLModel, table=True):
    """What an act says of an order: its lines, that it was sent, what came of it; append-only."""

    __tablename__ = "order_entry"

    id: int | None = Field(default=None, primary_key=True)
    act_id: int = Field(foreign_key="act.id", index=True)
    order_id: int = Field(foreign_key="order.id", index=True)
    name: str
    value: str = Field(sa_type=Text)
