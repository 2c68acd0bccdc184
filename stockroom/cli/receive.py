"""`stockroom receive`: rolls and boxes come in, or are found standing there."""

from collections.abc import Callable
from functools import partial
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


Lot = Annotated[str, typer.Option(metavar="LOT", help="The maker's batch.")]
RollLength = Annotated[
    str | None, typer.Option(metavar="LENGTH", help="Length of one roll, like 30.48m.")
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


@writes
def receive(
    desk: Desk,
    material: Annotated[str, typer.Argument(metavar="MATERIAL", help="By its name.")],
    lot: Lot = "",
    length: RollLength = None,
    rolls: Annotated[str, typer.Option(metavar="N", help="How many rolls of that length.")] = "1",
    count: Count = None,
    width: Width = None,
    made: Day = None,
    shipped: Day = None,
    received: Day = None,
    printed: Day = None,
    ink: Ink = None,
    job: PrintJob = None,
    place: AtPlace = None,
    core: Core = None,
    wall: Wall = None,
    cost: Cost = None,
    owner: Owner = None,
    damaged: Damaged = None,
) -> Answer:
    """Bring rolls or a box in; each piece gets a code."""
    from stockroom.lines import answers, text_done
    from stockroom.work import receive as room
    from stockroom.work.look import material as material_of
    from stockroom.work.look import materials, places

    if (length is None) == (count is None) or (count is not None and rolls != "1"):
        raise Refusal(
            Code.BAD_USAGE, "Say what came: --length of one roll and --rolls, or --count in a box."
        )
    line = read_line(
        desk,
        material=material,
        lot=lot,
        length_nm=length,
        pieces=rolls,
        number=count,
        width_nm=width,
        made=made,
        shipped=shipped,
        received=received,
        printed=printed,
        ink=ink,
        job=job,
        place=place,
        core_inside_nm=core,
        core_wall_nm=wall,
        cost_minor=cost,
        owner=owner,
        damaged=damaged,
    )
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
