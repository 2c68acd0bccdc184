"""`stockroom plan`: which film to cut for a job, how, and what is short."""

from typing import Annotated

import typer

from stockroom.cli.desk import Desk, reads
from stockroom.cli.options import JobCode
from stockroom.cli.saying import Answer
from stockroom.codes.own import read_job
from stockroom.plan.layout import Knife

KnifeOption = Annotated[
    Knife, typer.Option(help="straight: from edge to edge, by hand; free: by a machine.")
]
Effort = Annotated[
    int | None, typer.Option(min=0, help="Layouts tried; the same number, the same plan.")
]
WithTest = Annotated[
    bool, typer.Option("--with-test", help="Take film too that is to be tested by that day.")
]
MixedLots = Annotated[
    bool, typer.Option("--mixed-lots", help="Adjoining panels may be of several lots.")
]


@reads
def plan(
    desk: Desk,
    code: JobCode,
    knife: KnifeOption = Knife.STRAIGHT,
    effort: Effort = None,
    with_test: WithTest = False,
    mixed_lots: MixedLots = False,
) -> Answer:
    """Choose film for a job and lay its panels out: the oldest sound film first, little waste."""
    from stockroom.lines.plan import plan_lines, plan_values
    from stockroom.work.plan_job import HowToPlan, plan_job

    how = HowToPlan(knife=knife, effort=effort, with_test=with_test, mixed_lots=mixed_lots)
    found = plan_job(desk.book, read_job(code), now=desk.now, how=how)
    return Answer(
        values=plan_values(found, knife=knife),
        lines=plan_lines(found, desk.shop, desk.width, knife=knife),
    )
