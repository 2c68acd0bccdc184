"""What the invented shop orders: an order that is sent, and the part of one that comes."""

from collections.abc import Iterator

from stockroom.demo.desk import Desk
from stockroom.demo.distances import date_before, day_of
from stockroom.demo.line import Line
from stockroom.work.arriving import ReceiveOrder, receive_order
from stockroom.work.order_draft import DraftOrder, Wanted, draft_order
from stockroom.work.orders import SendOrder, send_order


def is_ordered(desk: Desk, line: Line) -> None:
    """An order is drafted and sent on one morning: `white cast 1370=2; clear cast 1370=1`."""
    draft = DraftOrder(**desk.asked(line), supplier=line["for"], lines=tuple(_wanted(line)))
    order = draft_order(draft, book=desk.book, now=line.at)
    expected = day_of(line["amount"], desk.today)
    sent = SendOrder(**desk.asking(line["by"]), order=order.code, expected=expected)
    send_order(sent, book=desk.book, now=line.at)
    desk.name([line["piece"]], [order.code])


def order_comes_in(desk: Desk, line: Line) -> None:
    """So many rolls of the first line of an order come in."""
    more = line.more
    given: dict[str, object] = {
        "pieces": int(line["amount"]),
        "lot": more["lot"],
        "made": date_before(more["made"], desk.today),
        "place": more["place"],
    }
    request = ReceiveOrder(**desk.asked(line), order=desk.codes[line["for"]], line=1, given=given)
    done = receive_order(request, book=desk.book, now=line.at)
    desk.name(line["piece"].split(), done.codes)


def _wanted(line: Line) -> Iterator[Wanted]:
    for material, number in line.more.items():
        yield Wanted(material=material, pieces=int(number))
