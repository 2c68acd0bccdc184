"""Film that becomes other film: print, laminate."""

from functools import partial
from typing import Annotated

import typer

from stockroom.cli.desk import Desk, maybe, name, note, writes
from stockroom.cli.options import Code as PieceCode
from stockroom.cli.options import Core, Despite, ForJob, Length, Tube, Wall, Waste
from stockroom.cli.receive import read_place_text
from stockroom.cli.saying import Answer
from stockroom.cli.taking import older
from stockroom.cli.winding import read_core
from stockroom.codes.own import read_job, read_piece
from stockroom.film.kinds import parse_ink
from stockroom.units.typed import parse_length, parse_temperature

Place = Annotated[
    str | None, typer.Option(metavar="PLACE", help="Where it is put; else where the film was.")
]


@writes
def print_length(
    desk: Desk,
    code: PieceCode,
    length: Length,
    job: ForJob = None,
    artwork: Annotated[str, typer.Option(metavar="NAME", help="What is printed.")] = "",
    tile: Annotated[
        str | None, typer.Option(metavar="N/M", help="Which tile of how many, like 2/4.")
    ] = None,
    ink: Annotated[
        str, typer.Option(metavar="INK", help="solvent, eco-solvent, latex, uv or unknown.")
    ] = "unknown",
    leader: Annotated[
        str | None, typer.Option(metavar="LENGTH", help="What the printer takes on top of it.")
    ] = None,
    waste: Waste = None,
    warm: Annotated[
        str | None, typer.Option(metavar="TEMPERATURE", help="It was wound warm, like 30C.")
    ] = None,
    core: Core = None,
    wall: Wall = None,
    tube: Tube = False,
    place: Place = None,
    despite: Despite = None,
) -> Answer:
    """Print a length of blank film; the print is a piece of its own.

    The leader is waste; a print for a job serves that job only.
    """
    from stockroom.lines import answers_film, cautions, text_film
    from stockroom.work import printing as room

    typed = partial(parse_length, system=desk.shop.system)
    at = read_piece(code)
    request = room.Print(
        piece=at,
        length_nm=typed(length),
        job=maybe(job, read_job),
        artwork=name(artwork) or None,
        tile=tile,
        ink=parse_ink(ink),
        leader_nm=maybe(leader, typed) or 0,
        waste_nm=maybe(waste, typed) or 0,
        warm_c=maybe(warm, partial(parse_temperature, system=desk.shop.system)),
        core=read_core(desk, core, wall, tube=tube),
        place=maybe(place, read_place_text),
        despite=note(despite) or None,
        **desk.asked(at),
    )
    hints = older(desk, at, request.length_nm + request.leader_nm)
    done = room.print_length(request, book=desk.book, now=desk.now)
    caution = cautions.printing(request.ink)
    return Answer(
        values=answers_film.printed(done),
        lines=text_film.printed(done, desk.standing(done.code), desk.shop),
        notes=[*hints, *([] if caution is None else [caution])],
    )


@writes
def laminate(
    desk: Desk,
    code: PieceCode,
    over: Annotated[
        str, typer.Argument(metavar="LAMINATE", help="The piece that is laid over it.")
    ],
    length: Length,
    job: ForJob = None,
    waste: Waste = None,
    core: Core = None,
    wall: Wall = None,
    tube: Tube = False,
    place: Place = None,
    despite: Despite = None,
) -> Answer:
    """Lay clear film over a print or other film; what comes of it is a piece of its own.

    It is as old as the older of both; a print's own job pays for it.
    """
    from stockroom.lines import answers_film, cautions, text_film
    from stockroom.work import laminate as room

    typed = partial(parse_length, system=desk.shop.system)
    film, laid_over = read_piece(code), read_piece(over)
    request = room.Laminate(
        piece=film,
        over=laid_over,
        length_nm=typed(length),
        waste_nm=maybe(waste, typed) or 0,
        job=maybe(job, read_job),
        core=read_core(desk, core, wall, tube=tube),
        place=maybe(place, read_place_text),
        despite=note(despite) or None,
        **desk.asked(film, laid_over),
    )
    done = room.laminate(request, book=desk.book, now=desk.now)
    return Answer(
        values=answers_film.laminated(done),
        lines=text_film.laminated(done, desk.standing(done.code), desk.shop),
        notes=[cautions.LINER],
    )
