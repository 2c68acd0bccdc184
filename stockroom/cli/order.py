"""`stockroom order`: what is ordered of a supplier, from the draft until it has come."""

from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stockroom.cli.desk import Desk, maybe, name, note, reads, writes
from stockroom.cli.offering import offers
from stockroom.cli.options import Why, Width
from stockroom.cli.receive import GOODS, Goods, cautions_of, read_line
from stockroom.cli.saying import Answer
from stockroom.cli.sheets import On
from stockroom.codes.own import read_job, read_order
from stockroom.errors import Code, Refusal, clean_text
from stockroom.lines.when import read_day
from stockroom.units.money import parse_money
from stockroom.units.typed import parse_count, parse_length

if TYPE_CHECKING:
    from stockroom.books.orders import Order
    from stockroom.work.order_draft import Wanted

app = typer.Typer(help="What is ordered of a supplier, from the draft until it has come.")

OrderCode = Annotated[str, typer.Argument(metavar="ORDER", help="The order's code.")]
LineNumber = Annotated[
    str | None, typer.Option("--line", metavar="N", help="Only this line, from 1.")
]


@app.command()
@writes
def draft(
    desk: Desk,
    words: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="[SUPPLIER] [MATERIAL N]…",
            help="Whose, and how many rolls or boxes of what; without any, what `buying` says.",
        ),
    ] = None,
    order: Annotated[
        str | None,
        typer.Option(metavar="ORDER", help="Add or change lines of a draft; 0 takes one out."),
    ] = None,
    length: Annotated[
        str | None, typer.Option(metavar="LENGTH", help="Of one roll; else as the last came.")
    ] = None,
    width: Width = None,
    count: Annotated[
        str | None, typer.Option(metavar="N", help="How many in a box; else as the last came.")
    ] = None,
    cost: Annotated[
        str | None, typer.Option(metavar="AMOUNT", help="Agreed price of one roll or box.")
    ] = None,
    job: Annotated[
        str | None, typer.Option(metavar="JOB", help="Bought for this job, and kept for it.")
    ] = None,
) -> Answer:
    """Write down what is to be ordered; it is not on its way until it is sent."""
    from stockroom.work.order_draft import DraftOrder, Wanted, draft_order

    system = desk.shop.system
    each = partial(
        Wanted,
        length_nm=maybe(length, partial(parse_length, system=system)),
        width_nm=maybe(width, partial(parse_length, system=system)),
        number=maybe(count, parse_count),
        cost_minor=maybe(cost, partial(parse_money, currency=desk.shop.currency)),
        job=maybe(job, read_job),
    )
    supplier, pairs = _understood(words or [])
    lines = tuple(each(material=name(what), pieces=_number(many)) for what, many in pairs)
    if not lines:
        supplier, lines = _planned(desk, supplier)
    request = DraftOrder(
        supplier=supplier, lines=lines, order=maybe(order, read_order), **desk.asked()
    )
    return _shown(desk, draft_order(request, book=desk.book, now=desk.now))


@app.command()
@writes
def send(
    desk: Desk,
    code: OrderCode,
    expect: Annotated[
        str | None,
        typer.Option(metavar="DAY", help="When it comes; else after the supplier's lead time."),
    ] = None,
) -> Answer:
    """Say that an order has gone to its supplier; again with --expect, that it comes another day."""
    from stockroom.work.orders import SendOrder, send_order

    request = SendOrder(order=read_order(code), expected=maybe(expect, read_day), **desk.asked())
    return _shown(desk, send_order(request, book=desk.book, now=desk.now))


@app.command()
@writes
@offers(GOODS)
def receive(desk: Desk, code: OrderCode, typed: Goods, line: LineNumber = None) -> Answer:
    """Receive what is open of an order, as it was ordered where nothing else is said."""
    from stockroom.lines import answers, goods
    from stockroom.work.arriving import ReceiveOrder, receive_order
    from stockroom.work.look import materials, places

    request = ReceiveOrder(
        order=read_order(code),
        line=maybe(line, parse_count),
        given=read_line(desk, None, typed),
        **desk.asked(),
    )
    done = receive_order(request, book=desk.book, now=desk.now)
    known = materials(desk.book, now=desk.now)
    came = answers.received(done.act, known, places(desk.book, now=desk.now))
    left = _shown(desk, _one(desk, request.order))
    return Answer(
        values={**came, "order": left.values},
        lines=[*goods.received(done.act, known, desk.shop), *left.lines[:1]],
        notes=cautions_of(desk, done),
    )


@app.command()
@writes
def cancel(desk: Desk, code: OrderCode, why: Why = "") -> Answer:
    """Say that nothing more of an order is to come; what came of it stays."""
    from stockroom.work.orders import CancelOrder, cancel_order

    request = CancelOrder(order=read_order(code), why=note(why), **desk.asked())
    return _shown(desk, cancel_order(request, book=desk.book, now=desk.now))


@app.command()
@reads
def show(
    desk: Desk,
    code: Annotated[
        str | None, typer.Argument(metavar="ORDER", help="One order; else all that are open.")
    ] = None,
    are_all: Annotated[
        bool, typer.Option("--all", help="With those that have come or were cancelled.")
    ] = False,
) -> Answer:
    """Show an order with its lines, or list those that are open."""
    from stockroom.lines import orders as said
    from stockroom.work.look import materials
    from stockroom.work.orders import all_orders

    if code is not None:
        return _shown(desk, _one(desk, read_order(code)))
    found = all_orders(desk.book, are_open=not are_all)
    known, today = materials(desk.book, now=desk.now), desk.shop.day_of(desk.now)
    return Answer(
        values={"orders": [said.values(one, known, desk.shop, today) for one in found]},
        lines=said.listed(found, today, desk.width, are_all=are_all),
    )


@app.command()
@reads
def sheet(
    desk: Desk,
    code: OrderCode,
    to: Annotated[
        Path, typer.Option("-o", metavar="FILE", help="A .pdf to print, a .csv, or a .txt to mail.")
    ],
    money: Annotated[bool, typer.Option("--money", help="With the agreed prices.")] = False,
    paper: On = "a4",
) -> Answer:
    """Write an order as it goes to its supplier; no money is on it unless asked."""
    from stockroom.labels.files import write

    found = _one(desk, read_order(code))
    write(to, _sheet(desk, found, to, paper, money=money))
    return Answer(
        values={"file": str(to), "order": found.code, "money": money},
        lines=[f"{to}: order to {found.supplier}, {len(found.lines)} lines"],
    )


def _sheet(desk: Desk, found: "Order", to: Path, paper: str, *, money: bool) -> bytes:
    from stockroom.labels.job_sheet import job_sheet
    from stockroom.labels.paper import read_paper
    from stockroom.lines import order_sheet
    from stockroom.work.look import materials

    known, today = materials(desk.book, now=desk.now), desk.shop.day_of(desk.now)
    match to.suffix.lower():
        case ".pdf":
            page = order_sheet.page(found, known, desk.shop, today, money=money)
            return job_sheet(page, read_paper(paper))
        case ".csv":
            return order_sheet.table(found, known, desk.shop, money=money).encode()
        case ".txt":
            return order_sheet.text(found, known, desk.shop, today, money=money).encode()
        case _:
            raise Refusal(
                Code.BAD_FILE,
                f"An order is written to a .pdf, .csv or .txt, not to '{clean_text(to.name, 40)}'.",
            )


def _understood(words: Sequence[str]) -> tuple[str | None, list[tuple[str, str]]]:
    """The supplier, if one was named, and pairs of a material and a number."""
    supplier, rest = (words[0], words[1:]) if len(words) % 2 else (None, words)
    pairs = list(zip(rest[::2], rest[1::2], strict=True))
    return maybe(supplier, name), pairs


def _number(text: str) -> int:
    return 0 if text.strip() == "0" else parse_count(text)


def _planned(desk: Desk, supplier: str | None) -> tuple[str, tuple["Wanted", ...]]:
    """What the plan orders of a supplier; asked again with the same id, what was written."""
    from stockroom.work.order_plan import drafted_by, planned_order

    if desk.told.request is not None and (
        before := drafted_by(desk.book, desk.told.request, now=desk.now)
    ):
        return before
    return planned_order(desk.book, supplier, now=desk.now)


def _one(desk: Desk, code: str) -> "Order":
    from stockroom.work.orders import order

    return order(desk.book, code)


def _shown(desk: Desk, found: "Order") -> Answer:
    from stockroom.lines import orders as said
    from stockroom.work.look import materials

    known, today = materials(desk.book, now=desk.now), desk.shop.day_of(desk.now)
    return Answer(
        values=said.values(found, known, desk.shop, today),
        lines=said.shown(found, known, desk.shop, today, desk.width),
    )
