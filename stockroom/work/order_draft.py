"""Orders are drafted: what is wanted becomes lines, and what nobody said is as the last of it came."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from stockroom.books.catalog import jobs, material_named, materials, name_key
from stockroom.books.opening import Book
from stockroom.books.orders import (
    Order,
    OrderLine,
    Stage,
    add_order,
    order_of,
    ordering,
    orders_of_act,
    say_lines,
)
from stockroom.books.pen import Pen
from stockroom.books.use import Arrival, arrivals
from stockroom.books.values import Act, Asked, Job, Material
from stockroom.codes.own import Letter, grouped
from stockroom.errors import Code, Refusal
from stockroom.plan.terms import price_of, terms_of
from stockroom.work.gates import more_than_nothing
from stockroom.work.orders import append_for
from stockroom.work.receive import OURS

DRAFT = "order"
MOST_LINES, MOST_PIECES = 200, 1_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """So many rolls or boxes of a material; what is None is as its last ones came. None at all: no more."""

    material: str
    pieces: int
    length_nm: int | None = None
    number: int | None = None
    width_nm: int | None = None
    cost_minor: int | None = None
    job: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DraftOrder(Asked):
    """What is to be ordered of a supplier; with `order`, lines of a draft are added or changed.

    Without a supplier it is the one the materials name.
    """

    lines: tuple[Wanted, ...]
    supplier: str | None = None
    order: str | None = None


def draft_order(request: DraftOrder, *, book: Book, now: datetime) -> Order:
    """Write an order down, or other lines of one that is not sent."""
    if not request.lines:
        raise Refusal(Code.BAD_USAGE, "Nothing is to be ordered: name a material and how many.")
    if request.supplier is not None and not request.supplier:
        raise Refusal(Code.BAD_NAME, "An order needs the name of who sells it.")
    known = () if request.order is None else (request.order,)
    with ordering(book, request, now=now, orders=known, letters=[Letter.ORDER]) as pen:
        act = pen.repeated or _drafted(request, pen)
        return _order_by(pen, act)


def _drafted(request: DraftOrder, pen: Pen) -> Act:
    came = {one.material_id: one for one in arrivals(pen.connection, OURS)}
    lines = [(wanted.pieces, _line(wanted, pen, came)) for wanted in request.lines]
    if request.order is None:
        order = add_order(pen, request.supplier or _supplier(lines, pen), pen.when())
    else:
        order = _not_sent(order_of(pen.connection, request.order))
        if request.supplier and name_key(request.supplier) != name_key(order.supplier):
            raise Refusal(
                Code.BAD_USAGE,
                f"Order {grouped(order.code)} goes to {order.supplier}: draft another for "
                f"{request.supplier}.",
            )
    left = _together(order.lines, lines)
    act = append_for(pen, DRAFT, order, request)
    say_lines(pen, left, act_id=act.id, order=order)
    return act


def _line(wanted: Wanted, pen: Pen, came: Mapping[int, Arrival]) -> OrderLine:
    """A line as it is ordered: what nobody said is as the last of it came."""
    material = material_named(pen.connection, wanted.material, pen.now)
    is_film, last = material.kind.comes_in_rolls, came.get(material.id)
    _refuse_form(wanted, material)
    if wanted.job is not None:
        _open_job(pen, wanted.job)
    usual = None if last is None else last.full
    width = material.width_nm if last is None else last.width_nm
    cost = wanted.cost_minor
    if cost is None:
        cost = price_of(terms_of(material.terms), material.cost_minor, wanted.pieces)
    return OrderLine(
        material_id=material.id,
        pieces=wanted.pieces,
        length_nm=(wanted.length_nm or usual) if is_film else None,
        number=None if is_film else (wanted.number or usual),
        width_nm=(wanted.width_nm or width) if is_film else None,
        cost_minor=cost,
        job=wanted.job,
    )


def _refuse_form(wanted: Wanted, material: Material) -> None:
    if not 0 <= wanted.pieces <= MOST_PIECES:
        raise Refusal(Code.BAD_NUMBER, f"{wanted.pieces} pieces: order up to {MOST_PIECES:,}.")
    is_film = material.kind.comes_in_rolls
    if is_film and wanted.number is not None:
        raise Refusal(
            Code.WRONG_FORM, f"{material.name} comes in rolls: give the length of one, --length."
        )
    if not is_film and (wanted.length_nm is not None or wanted.width_nm is not None):
        raise Refusal(
            Code.WRONG_FORM, f"{material.name} is counted: give how many are in a box, --count."
        )
    sizes = (size for size in (wanted.length_nm, wanted.width_nm) if size is not None)
    more_than_nothing(*sizes)
    if wanted.number is not None:
        more_than_nothing(wanted.number, code=Code.BAD_NUMBER)


def _open_job(pen: Pen, code: str) -> Job:
    found = next((one for one in jobs(pen.connection).values() if one.code == code), None)
    if found is None:
        raise Refusal(Code.NO_JOB, f"No job has the code {code}: see `job list`.")
    if found.is_closed:
        raise Refusal(Code.JOB_CLOSED, f"Job {grouped(code)} is closed: nothing is bought for it.")
    return found


def _supplier(lines: Sequence[tuple[int, OrderLine]], pen: Pen) -> str:
    """Who sells all of it, as the materials say."""
    known = materials(pen.connection, pen.now)
    named = {
        name_key(found): found
        for _, line in lines
        if (found := known[line.material_id].terms.get("supplier"))
    }
    if len(named) != 1:
        who = " and ".join(sorted(named.values())) or "nobody"
        raise Refusal(
            Code.BAD_USAGE,
            f"These materials are sold by {who}: name one supplier for the order.",
        )
    return next(iter(named.values()))


def _together(
    before: Sequence[OrderLine], lines: Sequence[tuple[int, OrderLine]]
) -> list[OrderLine]:
    """The lines of an order with others in place of those of the same goods; none of them: no line."""
    left = {_goods(one): one for one in before}
    for pieces, line in lines:
        if pieces:
            left[_goods(line)] = line
        elif left.pop(_goods(line), None) is None:
            raise Refusal(
                Code.BAD_NUMBER, "An order has at least one roll or box of each material."
            )
    if not 0 < len(left) <= MOST_LINES:
        raise Refusal(
            Code.BAD_NUMBER,
            f"{len(left)} lines: an order has 1 to {MOST_LINES}; drop it with `order cancel`.",
        )
    return list(left.values())


def _goods(line: OrderLine) -> OrderLine:
    """What a line is of, whatever its number and price."""
    return replace(line, pieces=0, cost_minor=None)


def _not_sent(order: Order) -> Order:
    if order.stage is not Stage.DRAFT:
        raise Refusal(
            Code.ORDER_SENT,
            f"Order {grouped(order.code)} is {order.stage}: its lines stay; draft another.",
        )
    return order


def _order_by(pen: Pen, act: Act) -> Order:
    """The order an act speaks of."""
    return order_of(pen.connection, orders_of_act(pen.connection, act.id)[0])
