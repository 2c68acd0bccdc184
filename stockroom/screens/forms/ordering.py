"""An order has gone to its supplier, or nothing more of it is to come."""

from collections.abc import Mapping

from stockroom.books.orders import Order
from stockroom.errors import Code, Refusal
from stockroom.lines import orders_open as lines
from stockroom.lines import words
from stockroom.lines.when import read_day
from stockroom.screens.form import Blank, Field, mending
from stockroom.screens.station import Station
from stockroom.work.orders import CancelOrder, SendOrder, cancel_order, send_order
from stockroom.work.setup import settings


def send_blank(station: Station, one: Order) -> Blank:
    """When is it expected?"""
    asking = station.asking()

    def write(said: Mapping[str, str]) -> str:
        with mending("expected"):
            day = read_day(said["expected"]) if said["expected"] else None
            request = SendOrder(**asking, order=one.code, expected=day)
            now = station.now()
            sent = send_order(request, book=station.book, now=now)
        return lines.sent(sent, settings(station.book, now=now)[0].day_of(now))

    is_sent = one.sent_at is not None
    hint = "the day the supplier names now" if is_sent else "a day; else after its lead time"
    verb = "comes another day" if is_sent else "was sent"
    return Blank(
        title=f"{words.code(one.code)} to {one.supplier} {verb}",
        fields=(Field(name="expected", hint=hint),),
        write=write,
    )


def cancel_blank(station: Station, one: Order) -> Blank:
    """Why does nothing more of it come?"""
    asking = station.asking()

    def write(said: Mapping[str, str]) -> str:
        if not said["why"]:
            raise Refusal(Code.BAD_USAGE, "A reason is needed: say why.")
        request = CancelOrder(**asking, order=one.code, why=said["why"])
        cancelled = cancel_order(request, book=station.book, now=station.now())
        return f"{words.code(cancelled.code)} to {cancelled.supplier} is cancelled"

    return Blank(
        title=f"Nothing more of {words.code(one.code)} is to come",
        fields=(Field(name="why", hint="what the supplier said, or who changed their mind"),),
        write=write,
        beside="What came of it stays.",
    )
