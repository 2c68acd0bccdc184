"""`stockroom receive`: rolls and boxes come in, or are found standing there."""

from collections.abc import Callable
from functools import partial
from itertools import groupby
from typing import TYPE_CHECKING, Annotated, Any

import typer

from stockroom.cli.desk import LOTS, Desk, name, note, writes
from stockroom.cli.offering import offers
from stockroom.cli.options import Core, Wall, Width
from stockroom.cli.saying import Answer
from stockroom.codes.own import read_job
from stockroom.codes.recognise import Own, recognise
from stockroom.errors import Code, Refusal, clean_text
from stockroom.units.money import parse_money
from stockroom.units.typed import parse_count, parse_length

if TYPE_CHECKING:
    from stockroom.books.values import Material
    from stockroom.work.receive import Received

Day = Annotated[
    str | None, typer.Option(metavar="DAY", help="Like 2025-03-14, or 2025-03 if known in part.")
]
Lot = Annotated[str | None, typer.Option(metavar="LOT", help="The maker's batch.")]
RollLength = Annotated[
    str | None, typer.Option(metavar="LENGTH", help="Length of one roll, like 30.48m.")
]
Rolls = Annotated[
    str | None, typer.Option(metavar="N", help="How many rolls of that length, or boxes; else 1.")
]
Count = Annotated[
    str | None, typer.Option(metavar="N", help="How many are in the box, for counted goods.")
]
Ink = Annotated[
    str | None, typer.Option(metavar="INK", help="Of the print: solvent, eco-solvent, latex or uv.")
]
PrintJob = Annotated[
    str | None, typer.Option(metavar="JOB", help="The job a bought-in print is for.")
]
AtPlace = Annotated[
    str | None, typer.Option(metavar="PLACE", help="Where it stands: name or code.")
]
Owner = Annotated[
    str | None,
    typer.Option(metavar="OWNER", help="Whose it is: ours, client, supplier or sample."),
]
Damaged = Annotated[
    str | None, typer.Option(metavar="WHY", help="It came in damaged; it is held at once.")
]
Cost = Annotated[str | None, typer.Option(metavar="AMOUNT", help="Price of one roll or box.")]

GOODS = {
    "lot": Lot,
    "length": RollLength,
    "rolls": Rolls,
    "count": Count,
    "width": Width,
    "made": Day,
    "shipped": Day,
    "received": Day,
    "printed": Day,
    "ink": Ink,
    "job": PrintJob,
    "place": AtPlace,
    "core": Core,
    "wall": Wall,
    "cost": Cost,
    "owner": Owner,
    "damaged": Damaged,
}
"""The options that say what came in."""

Goods = dict[str, str | None]
"""What was typed of them."""


@writes
@offers(GOODS)
def receive(
    desk: Desk,
    material: Annotated[str, typer.Argument(metavar="MATERIAL", help="By its name.")],
    typed: Goods,
) -> Answer:
    """Bring rolls or a box in; each piece gets a code."""
    from stockroom.lines import answers, text_done
    from stockroom.work import receive as room
    from stockroom.work.look import material as material_of
    from stockroom.work.look import materials, places

    _refuse_unclear(typed)
    line = read_line(desk, material, typed)
    request = room.Receive(**line, **desk.asked())
    done = room.receive(request, book=desk.book, now=desk.now)
    one = material_of(desk.book, request.material, now=desk.now)
    return Answer(
        values=answers.received(
            done.act, materials(desk.book, now=desk.now), places(desk.book, now=desk.now)
        ),
        lines=text_done.received(done, one, desk.shop),
        notes=[*cautions_of(desk, done), *_awaited(desk, one)],
    )


def _awaited(desk: Desk, material: "Material") -> list[str]:
    """The orders that what came in may have come of."""
    from stockroom.lines import goods
    from stockroom.work.arriving import offered
    from stockroom.work.goods_line import Line

    found = offered(desk.book, [Line(material=material.name)], now=desk.now)
    return goods.missed(
        one for one in found if any(line.material_id == material.id for _, line in one.open_lines())
    )


def _refuse_unclear(typed: Goods) -> None:
    """Refuse rolls and a box at once, and neither; boxes come one at a time."""
    is_roll, is_box = typed["length"] is not None, typed["count"] is not None
    if is_roll == is_box or (is_box and typed["rolls"] not in (None, "1")):
        raise Refusal(
            Code.BAD_USAGE, "Say what came: --length of one roll and --rolls, or --count in a box."
        )


def read_line(desk: Desk, material: str | None, typed: Goods) -> dict[str, Any]:
    """What was typed of goods that come in, as a request holds it; the rest is left out."""
    length = partial(parse_length, system=desk.shop.system)
    read: dict[str, tuple[str, Callable[[str], object]]] = {
        "material": ("material", name),
        "lot": ("lot", lambda text: clean_text(text, LOTS) or None),
        "length": ("length_nm", length),
        "rolls": ("pieces", parse_count),
        "count": ("number", parse_count),
        "width": ("width_nm", length),
        "ink": ("ink", str.lower),
        "owner": ("owner", str.lower),
        "damaged": ("damaged", _damage),
        "job": ("job", read_job),
        "place": ("place", read_place_text),
        "core": ("core_inside_nm", length),
        "wall": ("core_wall_nm", length),
        "cost": ("cost_minor", partial(parse_money, currency=desk.shop.currency)),
        **{day: (day, str) for day in ("made", "shipped", "received", "printed")},
    }
    line: dict[str, Any] = {}
    for option, text in {"material": material, **typed}.items():
        field, understood = read[option]
        if text is not None:
            line[field] = understood(text)
    return line


def _damage(text: str) -> str:
    if not (why := note(text)):
        raise Refusal(Code.BAD_USAGE, "Say what is damaged, with --damaged.")
    return why


def read_place_text(text: str) -> str:
    """A place as it was typed or scanned: its code, or its name."""
    found = recognise(text)
    return found.code if isinstance(found, Own) else name(text)


def cautions_of(desk: Desk, done: "Received") -> list[str]:
    """The cautions for what came in, each once."""
    from stockroom.lines.cautions import lifting
    from stockroom.work.look import lifted_kg

    alike = groupby(done.act.moves, key=lambda move: (move.sets, move.delta))
    standing = (desk.standing(next(moves).piece) for _, moves in alike)
    found = (lifting(lifted_kg(one), one.state.width_nm) for one in standing)
    return list(dict.fromkeys(one for one in found if one is not None))
