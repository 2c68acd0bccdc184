"""Somebody who buys: orders drafted, sent, received and cancelled, at a book."""

from typing import Any

from stockroom.books.orders import Order
from stockroom.work.arriving import ReceiveOrder, receive_order
from stockroom.work.delivery import AddOrder, Delivery, ReceiveAll, add_order, receive_all
from stockroom.work.order_draft import DraftOrder, Wanted, draft_order
from stockroom.work.orders import (
    CancelOrder,
    SendOrder,
    cancel_order,
    order,
    send_order,
)
from stockroom.work.receive import Received
from tests.builders import FILM, LENGTH
from tests.floor import Floor

SUPPLIER = "Northlight Films"


class Buyer(Floor):
    """Somebody at work who orders, too."""

    def draft(self, *lines: Wanted, **given: Any) -> Order:
        """An order of two rolls of film, or what is said instead."""
        wanted = lines or (Wanted(material=FILM, pieces=2, length_nm=LENGTH, cost_minor=45_000),)
        facts: dict[str, Any] = {} if "order" in given else {"supplier": SUPPLIER}
        request = DraftOrder(**self.asked(lines=wanted, **facts | given))
        return draft_order(request, book=self.book, now=self.now)

    def send(self, code: str, **given: Any) -> Order:
        """An order goes out."""
        request = SendOrder(**self.asked(order=code, **given))
        return send_order(request, book=self.book, now=self.now)

    def ordered(self, *lines: Wanted, **given: Any) -> str:
        """An order that was sent, by its code."""
        return self.send(self.draft(*lines, **given).code).code

    def arrive(self, code: str, line: int | None = None, **given: Any) -> Received:
        """What is open of an order comes in."""
        asked = {name: given.pop(name) for name in ("request", "at") if name in given}
        request = ReceiveOrder(**self.asked(order=code, line=line, given=given, **asked))
        return receive_order(request, book=self.book, now=self.now)

    def cancel(self, code: str, why: str = "sold out", **given: Any) -> Order:
        """An order is cancelled."""
        request = CancelOrder(**self.asked(order=code, why=why, **given))
        return cancel_order(request, book=self.book, now=self.now)

    def order(self, code: str) -> Order:
        """An order as the book has it."""
        return order(self.book, code)

    def open(self, code: str) -> list[int]:
        """How many pieces of each line are still to come."""
        found = self.order(code)
        return [found.open_pieces(number) for number in found.numbers]

    def add_order(self, code: str, **given: Any) -> Delivery:
        """What an order waits for is added to goods in."""
        request = AddOrder(**self.asked(order=code, **given))
        return add_order(request, book=self.book, now=self.now)

    def receive_all(self, **given: Any) -> Received:
        """Goods in is received."""
        return receive_all(ReceiveAll(**self.asked(**given)), book=self.book, now=self.now)
