"""Film kept for a job, and cut as planned: reserve, unreserve, cut-plan."""

from typing import TYPE_CHECKING, Annotated

import typer

from stockroom.cli.desk import Desk, maybe, note, writes
from stockroom.cli.options import Despite, JobCode
from stockroom.cli.planning import Effort, KnifeOption, MixedLots, WithTest
from stockroom.cli.saying import Answer
from stockroom.codes.own import read_job, read_piece
from stockroom.errors import Code, Refusal
from stockroom.lines.when import read_day
from stockroom.plan.layout import Knife

if TYPE_CHECKING:
    from stockroom.work.planned import PlannedCut


@writes
def reserve(
    desk: Desk,
    code: JobCode,
    until: Annotated[
        str | None, typer.Option(metavar="DAY", help="The last day; else the day of the job.")
    ] = None,
    knife: KnifeOption = Knife.STRAIGHT,
    effort: Effort = None,
    with_test: WithTest = False,
    mixed_lots: MixedLots = False,
) -> Answer:
    """Plan a job and keep the film for it: nobody else cuts it without saying why."""
    from stockroom.lines.plan import kept_lines, planned_values
    from stockroom.work.plan_job import HowToPlan, plan_job
    from stockroom.work.planned import planned_cuts
    from stockroom.work.reserve import Reserve
    from stockroom.work.reserve import reserve as keep

    job = read_job(code)
    how = HowToPlan(knife=knife, effort=effort, with_test=with_test, mixed_lots=mixed_lots)
    cuts, short = _written(desk), False
    if not cuts:
        found = plan_job(desk.book, job, now=desk.now, how=how)
        cuts, short = planned_cuts(found), found.is_short
    request = Reserve(job=job, cuts=cuts, until=maybe(until, read_day), **desk.asked())
    done = keep(request, book=desk.book, now=desk.now)
    return Answer(
        values={"job": job, "until": done.until, "films": planned_values(done.cuts)},
        lines=kept_lines(job, done.until, done.cuts, desk.shop),
        notes=["Some panels are covered by no film: see `plan`."] if short else [],
    )


@writes
def unreserve(desk: Desk, code: JobCode) -> Answer:
    """Let the film go that is kept for a job."""
    from stockroom.lines import answers, words
    from stockroom.work import reserve as room

    job = read_job(code)
    act = room.unreserve(room.Unreserve(job=job, **desk.asked()), book=desk.book, now=desk.now)
    pieces = " ".join(words.code(move.piece) for move in act.moves)
    return Answer(
        values=answers.act(act, desk.shop),
        lines=[f"no film is kept for {words.code(job)}: {pieces}"],
    )


@writes
def cut_plan(
    desk: Desk,
    code: JobCode,
    piece: Annotated[
        list[str] | None, typer.Option(metavar="CODE", help="Only this piece; may be repeated.")
    ] = None,
    confirm: Annotated[
        bool, typer.Option("--confirm", help="Write it; without it the cuts are only shown.")
    ] = False,
    despite: Despite = None,
) -> Answer:
    """Show the cuts of what is reserved for a job, or else of its plan; with --confirm write them."""
    from stockroom.lines import cautions
    from stockroom.lines.plan import cut_done_lines, kept_lines, planned_values
    from stockroom.work import cut_plan as room

    job = read_job(code)
    cuts = _chosen(_cuts(desk, job), [read_piece(one) for one in piece or ()])
    if not confirm:
        return Answer(
            values={"job": job, "films": planned_values(cuts), "is_written": False},
            lines=kept_lines(job, None, cuts, desk.shop),
            notes=["Nothing is written yet: say --confirm when it is cut.", cautions.BLADE],
        )
    request = room.CutPlan(
        job=job,
        cuts=cuts,
        despite=note(despite) or None,
        **desk.asked(*(one.piece for one in cuts)),
    )
    done = room.cut_plan(request, book=desk.book, now=desk.now)
    return Answer(
        values={
            "job": job,
            "act": done.act.id,
            "films": planned_values(cuts),
            "offcuts": [move.piece for move in done.offcuts],
            "used_area_mm2": sum(move.used_mm2 for move in done.cuts),
            "wasted_area_mm2": sum(move.wasted_mm2 for move in done.cuts),
            "cost_minor": sum(move.cost_minor for move in done.cuts),
            "is_written": True,
        },
        lines=cut_done_lines(done, desk.shop),
        notes=[cautions.BLADE],
    )


def _cuts(desk: Desk, job: str) -> tuple["PlannedCut", ...]:
    """What is reserved, or what a plan of now would draw; asked again, what was written."""
    from stockroom.work.plan_job import plan_job
    from stockroom.work.planned import planned_cuts
    from stockroom.work.reserve import reserved_cuts

    return (
        _written(desk)
        or reserved_cuts(desk.book, job)
        or planned_cuts(plan_job(desk.book, job, now=desk.now))
    )


def _written(desk: Desk) -> tuple["PlannedCut", ...]:
    """What the same request wrote before; nothing where it is new."""
    from stockroom.work.look import act_of
    from stockroom.work.planned import cuts_in

    if desk.told.request is None or (act := act_of(desk.book, desk.told.request)) is None:
        return ()
    return cuts_in(act)


def _chosen(cuts: tuple["PlannedCut", ...], codes: list[str]) -> tuple["PlannedCut", ...]:
    for code in codes:
        if code not in {one.piece for one in cuts}:
            raise Refusal(Code.BAD_USAGE, f"{code} is not in the plan: see `plan`.")
    return tuple(one for one in cuts if not codes or one.piece in codes)
