"""`stockroom receive`: rolls and boxes come in, or are found standing there."""

from collections.abc import Callable
from functools import partial, wraps
from inspect import Parameter, Signature, signature
from itertools import groupby
from typing import TYPE_CHECKING, Annotated, Any

import typer

from stockroom.cli.desk import LOTS, Desk, name, note, writes
from stockroom.cli.options import Core, Wall, Width
from stockroom.cli.saying import Answer
from stockroom.codes.own import read_job
from stockroom.codes.recognise import Own, recognise
from stockroom.errors import Code, Refusal, clean_text
from stockroom.units.money import parse_money
from stockroom.units.typed import parse_count, parse_length

if TYPE_CHECKING:
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

_GOODS: dict[str, tuple[str, Any]] = {
    "lot": ("lot", Lot),
    "length": ("length_nm", RollLength),
    "rolls": ("pieces", Rolls),
    "count": ("number", Count),
    "width": ("width_nm", Width),
    "made": ("made", Day),
    "shipped": ("shipped", Day),
    "received": ("received", Day),
    "printed": ("printed", Day),
    "ink": ("ink", Ink),
    "job": ("job", PrintJob),
    "place": ("place", AtPlace),
    "core": ("core_inside_nm", Core),
    "wall": ("core_wall_nm", Wall),
    "cost": ("cost_minor", Cost),
    "owner": ("owner", Owner),
    "damaged": ("damaged", Damaged),
}
"""The options that say what came in: the field of a request each fills, and how it is typed."""

Goods = dict[str, str | None]
"""What was typed of goods that come in, by the fields of a request; None where nothing was."""


def brings_in(work: Callable[..., Answer]) -> Callable[..., Answer]:
    """A command that is told what came in: it has the options for it, and gets them as `goods`."""

    @wraps(work)
    def run(desk: Desk, **typed: Any) -> Answer:
        goods = {field: typed.pop(option) for option, (field, _) in _GOODS.items()}
        return work(desk, goods=goods, **typed)

    own = signature(work, eval_str=True).parameters.values()
    offered = [
        Parameter(option, Parameter.KEYWORD_ONLY, annotation=kind, default=None)
        for option, (_, kind) in _GOODS.items()
    ]
    run.__signature__ = Signature(  # type: ignore[attr-defined]
        [*(one for one in own if one.name != "goods"), *offered]
    )
    return run


@writes
@brings_in
def receive(
    desk: Desk,
    material: Annotated[str, typer.Argument(metavar="MATERIAL", help="By its name.")],
    goods: Goods,
) -> Answer:
    """Bring rolls or a box in; each piece gets a code."""
    from stockroom.lines import answers, text_done
    from stockroom.work import receive as room
    from stockroom.work.look import material as material_of
    from stockroom.work.look import materials, places

    _refuse_unclear(goods)
    line = read_line(desk, material=material, **goods)
    request = room.Receive(**line, **desk.asked())
    done = room.receive(request, book=desk.book, now=desk.now)
    one = material_of(desk.book, request.material, now=desk.now)
    return Answer(
        values=answers.received(
            done.act, materials(desk.book, now=desk.now), places(desk.book, now=desk.now)
        ),
        lines=text_done.received(done, one, desk.shop),
        notes=cautions_of(desk, done),
    )


def _refuse_unclear(goods: Goods) -> None:
    """Refuse rolls and a box at once, and neither; boxes come one at a time."""
    is_box = goods["number"] is not None
    if (goods["length_nm"] is not None) == is_box or (
        is_box and goods["pieces"] not in (None, "1")
    ):
        raise Refusal(
            Code.BAD_USAGE, "Say what came: --length of one roll and --rolls, or --count in a box."
        )


def read_line(desk: Desk, **given: str | None) -> dict[str, Any]:
    """What was typed of goods that come in, as a request holds it; the rest is left out."""
    typed = partial(parse_length, system=desk.shop.system)
    read: dict[str, Callable[[str], object]] = {
        "material": name,
        "lot": lambda text: clean_text(text, LOTS) or None,
        "length_nm": typed,
        "pieces": parse_count,
        "number": parse_count,
        "width_nm": typed,
        "ink": str.lower,
        "owner": str.lower,
        "damaged": _damage,
        "job": read_job,
        "place": read_place_text,
        "core_inside_nm": typed,
        "core_wall_nm": typed,
        "cost_minor": partial(parse_money, currency=desk.shop.currency),
    }
    return {field: read.get(field, str)(text) for field, text in given.items() if text is not None}


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
