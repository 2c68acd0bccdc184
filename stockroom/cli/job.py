"""`stockroom job`: work for a site that film is charged to."""

from typing import Annotated

import typer

from stockroom.cli import job_panels
from stockroom.cli.desk import Desk, name, note, reads, writes
from stockroom.cli.options import JobCode
from stockroom.cli.saying import Answer
from stockroom.codes.own import read_job

app = typer.Typer(help="Work for a site that film is charged to.")


@app.command()
@writes
def add(
    desk: Desk,
    called: Annotated[str, typer.Argument(metavar="NAME", help="As people in the shop call it.")],
    site: Annotated[str, typer.Option(metavar="TEXT", help="Where it is.")] = "",
    on: Annotated[str | None, typer.Option(metavar="DAY", help="When it is wanted.")] = None,
    kind: Annotated[str, typer.Option(metavar="KIND", help="glass, vehicle or graphic.")] = "glass",
    glass: Annotated[
        str | None,
        typer.Option(
            metavar="TYPE", help="Of a glass job: single, toughened, laminated, wired or sealed."
        ),
    ] = None,
    remark: Annotated[str, typer.Option("--note", metavar="TEXT", help="A remark.")] = "",
) -> Answer:
    """Open a job and give it a code."""
    from stockroom.lines import answers, words
    from stockroom.work.jobs import OpenJob, open_job

    request = OpenJob(
        name=name(called),
        site=name(site),
        on_day=on,
        kind=kind,
        glass=glass,
        note=note(remark),
        **desk.asked(),
    )
    job = open_job(request, book=desk.book, now=desk.now)
    return Answer(values=answers.job(job), lines=[f"{words.code(job.code)}  {job.name}"])


@app.command("list")
@reads
def list_(desk: Desk) -> Answer:
    """List every job."""
    from stockroom.lines import answers, text_setup
    from stockroom.work.look import jobs

    known = jobs(desk.book)
    return Answer(
        values={"jobs": [answers.job(one) for one in known]},
        lines=text_setup.jobs(known, desk.width),
    )


@app.command()
@reads
def show(desk: Desk, code: JobCode) -> Answer:
    """Show one job: what it used of each piece, what that cost, and what was done for it."""
    from stockroom.lines import job as words
    from stockroom.lines import panels
    from stockroom.work.job_use import job_use
    from stockroom.work.look import materials, places
    from stockroom.work.panels import covering

    found = job_use(desk.book, read_job(code), now=desk.now)
    covers = covering(desk.book, found.job.code)
    known, films = places(desk.book, now=desk.now), materials(desk.book, now=desk.now)
    lines = words.lines(found, desk.shop, known, desk.width)
    if covers.panels:
        lines += ["", "Panels", *panels.lines(covers, films, desk.shop, desk.width)]
    return Answer(values=words.values(found, desk.shop) | panels.values(covers, films), lines=lines)


@app.command()
@writes
def close(desk: Desk, code: JobCode) -> Answer:
    """Close a job: nothing more is charged to it."""
    return _turned(desk, code, reopen=False)


@app.command()
@writes
def reopen(desk: Desk, code: JobCode) -> Answer:
    """Open a closed job again."""
    return _turned(desk, code, reopen=True)


def _turned(desk: Desk, code: str, *, reopen: bool) -> Answer:
    from stockroom.lines import answers, words
    from stockroom.work.jobs import CloseJob, close_or_reopen

    request = CloseJob(job=read_job(code), reopen=reopen, **desk.asked())
    job = close_or_reopen(request, book=desk.book, now=desk.now)
    state = "closed" if job.is_closed else "open"
    return Answer(values=answers.job(job), lines=[f"{words.code(job.code)}  {job.name}: {state}"])


app.command()(job_panels.panels)
app.command()(job_panels.spoiled)
app.command()(job_panels.install)
app.command()(job_panels.sheet)
