"""`stockroom receive`: rolls and boxes come in, or are found standing there."""

from functools import partial
from typing import TYPE_CHECKING, Annotated

import typer

from stockroom.cli.desk import LOTS, Desk, maybe, name, writes
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


@writes
def receive(
    desk: Desk,
    material: Annotated[str, typer.Argument(metavar="MATERIAL", help="By its name.")],
    lot: Annotated[str, typer.Option(metavar="LOT", help="The maker's batch.")] = "",
    length: Annotated[
        str | None, typer.Option(metavar="LENGTH", help="Length of one roll, like 30.48m.")
    ] = None,
    rolls: Annotated[str, typer.Option(metavar="N", help="How many rolls of that length.")] = "1",
    count: Annotated[
        str | None, typer.Option(metavar="N", help="How many are in the box, for counted goods.")
    ] = None,
    width: Width = None,
    made: Day = None,
    shipped: Day = None,
    received: Day = None,
    printed: Day = None,
    ink: Annotated[
        str | None,
        typer.Option(metavar="INK", help="Of the print: solvent, eco-solvent, latex or uv."),
    ] = None,
    job: Annotated[
        str | None, typer.Option(metavar="JOB", help="The job a bought-in print is for.")
    ] = None,
    place: Annotated[
        str | None, typer.Option(metavar="PLACE", help="Where it stands: name or code.")
    ] = None,
    core: Core = None,
    wall: Wall = None,
    cost: Annotated[
        str | None, typer.Option(metavar="AMOUNT", help="Price of one roll or box.")
    ] = None,
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
    typed = partial(parse_length, system=desk.shop.system)
    request = room.Receive(
        material=name(material),
        length_nm=maybe(length, typed),
        number=maybe(count, parse_count),
        pieces=parse_count(rolls),
        lot=clean_text(lot, LOTS) or None,
        width_nm=maybe(width, typed),
        core_inside_nm=maybe(core, typed),
        core_wall_nm=maybe(wall, typed),
        cost_minor=maybe(cost, partial(parse_money, currency=desk.shop.currency)),
        made=made,
        shipped=shipped,
        received=received,
        printed=printed,
        ink=maybe(ink, str.lower),
        place=maybe(place, read_place_text),
        job=maybe(job, read_job),
        **desk.asked(),
    )
    done = room.receive(request, book=desk.book, now=desk.now)
    one = material_of(desk.book, request.material, now=desk.now)
    return Answer(
        values=answers.received(
            done.act, materials(desk.book, now=desk.now), places(desk.book, now=desk.now)
        ),
        lines=text_done.received(done, one, desk.shop),
        notes=_cautions(desk, done),
    )


def read_place_text(text: str) -> str:
    """A place as it was typed or scanned: its code, or its name."""
    found = recognise(text)
    return found.code if isinstance(found, Own) else name(text)


def _cautions(desk: Desk, done: "Received") -> list[str]:
    from stockroom.lines.cautions import lifting
    from stockroom.work.look import lifted_kg

    one = desk.standing(done.codes[0])
    caution = lifting(lifted_kg(one), one.state.width_nm)
    return [] if caution is None else [caution]
