"""A whole piece goes to a van or a site, and comes in again: out, in."""

from typing import Annotated

import typer

from stockroom.cli.desk import LOTS, Desk, maybe, note, plain, writes
from stockroom.cli.keeping import kept
from stockroom.cli.measuring import measurement
from stockroom.cli.options import (
    Code,
    Despite,
    ForJob,
    ForReason,
    MeasuredLength,
    MeasuredMass,
    MeasuredNumber,
    MeasuredOutside,
    MeasuredRound,
)
from stockroom.cli.receive import read_place_text
from stockroom.cli.saying import Answer
from stockroom.codes.own import read_job, read_piece


@writes
def out(
    desk: Desk,
    code: Code,
    to: Annotated[str, typer.Option(metavar="VAN", help="The van or the site it goes to.")] = "",
    taker: Annotated[
        str, typer.Option("--with", metavar="NAME", help="Who takes it along; else who writes it.")
    ] = "",
    job: ForJob = None,
    despite: Despite = None,
) -> Answer:
    """Say that a whole piece went to a van or a site.

    Until it is in again it can be held, counted, charged late and discarded, and nothing else.
    """
    from stockroom.lines import cautions
    from stockroom.work import away as room
    from stockroom.work.look import lifted_kg

    of = read_piece(code)
    request = room.GoOut(
        piece=of,
        to=read_place_text(to),
        taker=plain(taker, LOTS),
        despite=note(despite) or None,
        job=maybe(job, read_job),
        **desk.asked(of),
    )
    act = room.go_out(request, book=desk.book, now=desk.now)
    one = desk.standing(of)
    return kept(desk, of, act, cautions.lifting(lifted_kg(one), one.state.width_nm))


@writes
def come_in(
    desk: Desk,
    code: Code,
    length: MeasuredLength = None,
    outside: MeasuredOutside = None,
    round_: MeasuredRound = None,
    mass: MeasuredMass = None,
    number: MeasuredNumber = None,
    job: ForJob = None,
    reason: ForReason = None,
    replace: Annotated[
        bool,
        typer.Option("--replace", help="Believe it even where it allows that nothing was used."),
    ] = False,
) -> Answer:
    """Take in a piece that was out; what is less was used for the job.

    Without a measurement it came in as it went. A measurement that allows what went out says that
    nothing was used.
    """
    from stockroom.lines import answers_goods, text_goods
    from stockroom.work import away as room

    of = read_piece(code)
    request = room.ComeIn(
        piece=of,
        **measurement(
            desk,
            length=length,
            outside=outside,
            round_=round_,
            mass=mass,
            number=number,
            zero=True,
        ),
        job=maybe(job, read_job),
        reason=reason,
        replace=replace,
        **desk.asked(of),
    )
    done = room.come_in(request, book=desk.book, now=desk.now)
    return Answer(
        values=answers_goods.came_in(done, desk.standing(of)),
        lines=text_goods.came_in(done, desk.shop),
    )
