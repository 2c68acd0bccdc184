"""The panels of a job: job panels, job spoiled, job install."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stockroom.cli.desk import Desk, maybe, name, reads, writes
from stockroom.cli.files import content_of
from stockroom.cli.options import JobCode
from stockroom.cli.saying import Answer
from stockroom.cli.sheets import On, To
from stockroom.codes.own import read_job
from stockroom.errors import Code, Refusal, clean_text
from stockroom.units.typed import parse_number, parse_size

if TYPE_CHECKING:
    from stockroom.books.job_entries import JobPanel
    from stockroom.feeds.panels import PanelLine
    from stockroom.work.panels import Covering


@writes
def panels(
    desk: Desk,
    code: JobCode,
    file: Annotated[
        Path | None,
        typer.Argument(
            metavar="FILE.csv",
            help="name,width,height,count[,turn,group,material,trim,seam,overlap,layers]; - reads "
            "what is typed or pasted. Instead of the panels there were.",
        ),
    ] = None,
    panel: Annotated[
        list[str] | None,
        typer.Option(metavar="NAME:SIZE[*N]", help="One more, like W1:900x2100*3."),
    ] = None,
    material: Annotated[
        str | None, typer.Option(metavar="NAME", help="Of the panels that name none.")
    ] = None,
) -> Answer:
    """Write down what a job covers: each panel's width lies across the film, its height along it."""
    from stockroom.feeds.panels import read_panels
    from stockroom.work.panels import SetPanels, covering, set_panels

    job = read_job(code)
    if file is None and not panel:
        raise Refusal(Code.BAD_USAGE, "No panel was named: give a file, or --panel NAME:SIZE.")
    lines: Iterable[PanelLine] = ()
    if file is not None:
        raw = content_of(Path("/dev/stdin") if str(file) == "-" else file)
        lines = read_panels(raw, desk.shop.system)
    before = () if file is not None else covering(desk.book, job).panels
    more = _typed(desk, panel or (), material)
    request = SetPanels(
        job=job, panels=(*before, *_of_lines(desk, lines, material), *more), **desk.asked()
    )
    return _said(desk, set_panels(request, book=desk.book, now=desk.now))


@writes
def spoiled(
    desk: Desk,
    code: JobCode,
    called: Annotated[str, typer.Argument(metavar="PANEL", help="The name of the panel.")],
    number: Annotated[int, typer.Argument(metavar="N", help="How many of it.")] = 1,
) -> Answer:
    """Say that panels which were cut are lost: they are planned again from what is left."""
    from stockroom.work.panels import SpoilPanels, spoil

    request = SpoilPanels(job=read_job(code), name=name(called), number=number, **desk.asked())
    return _said(desk, spoil(request, book=desk.book, now=desk.now))


@writes
def install(
    desk: Desk,
    code: JobCode,
    hours: Annotated[
        str | None, typer.Option(metavar="H", help="How long the work took, like 3.5.")
    ] = None,
) -> Answer:
    """Say that the film of a job is up."""
    from stockroom.work.panels import InstallJob, install

    took_h = maybe(hours, lambda text: parse_number(text, "a number of hours", (0.01, 10_000), "h"))
    minutes = None if took_h is None else round(took_h * 60)
    request = InstallJob(job=read_job(code), minutes=minutes, **desk.asked())
    return _said(desk, install(request, book=desk.book, now=desk.now))


@reads
def sheet(desk: Desk, code: JobCode, to: To, paper: On = "a4") -> Answer:
    """Write the sheet that goes with a job: code, panels, what is cut from which roll, cautions."""
    from stockroom.labels.files import refuse_unless_pdf, write
    from stockroom.labels.job_sheet import job_sheet
    from stockroom.labels.paper import read_paper
    from stockroom.lines.job_sheet import sheet_of
    from stockroom.work.look import materials
    from stockroom.work.panels import covering
    from stockroom.work.reserve import reserved_cuts

    size, job = read_paper(paper), read_job(code)
    refuse_unless_pdf(to)
    found, cuts = covering(desk.book, job), reserved_cuts(desk.book, job)
    named = {one.id: one.name for one in materials(desk.book, now=desk.now)}
    pieces = {cut.piece: desk.standing(cut.piece) for cut in cuts}
    write(to, job_sheet(sheet_of(found, cuts, pieces, named, desk.shop), size))
    films = f", {len(cuts)} reserved" if cuts else "; no film is reserved, so no cuts are on it"
    return Answer(
        values={"file": str(to), "paper": size.name, "job": job, "films": list(pieces)},
        lines=[f"{to}: {found.job.name}, {len(found.panels)} lines{films}"],
    )


def _of_lines(
    desk: Desk, lines: Iterable["PanelLine"], material: str | None
) -> Iterator["JobPanel"]:
    from stockroom.books.job_entries import JobPanel

    for line in lines:
        try:
            of = _material(desk, line.material or material)
        except Refusal as refusal:
            raise Refusal(refusal.code, f"Line {line.line}: {refusal.sentence}") from refusal
        yield JobPanel(
            name=line.name,
            width_nm=line.width_nm,
            height_nm=line.height_nm,
            material_id=of,
            number=line.number,
            trims_nm=line.trims_nm,
            turns=line.turns,
            group=line.group,
            seams=line.seams,
            overlap_nm=line.overlap_nm,
            layers=line.layers,
        )


def _typed(desk: Desk, texts: Iterable[str], material: str | None) -> Iterator["JobPanel"]:
    from stockroom.books.job_entries import JobPanel
    from stockroom.feeds.panels import parse_count

    for text in texts:
        called, _, rest = text.rpartition(":")
        size, _, number = rest.partition("*")
        if not called:
            raise Refusal(
                Code.BAD_USAGE,
                f"'{clean_text(text, 40)}' is no panel: write NAME:SIZE, like W1:900x2100*3.",
            )
        width_nm, height_nm = parse_size(size, desk.shop.system)
        one = JobPanel(
            name=name(called),
            width_nm=width_nm,
            height_nm=height_nm,
            material_id=_material(desk, material),
        )
        yield replace(one, number=parse_count(number))


def _material(desk: Desk, called: str | None) -> int:
    from stockroom.work.look import material

    if not called:
        raise Refusal(Code.BAD_USAGE, "Which film? Name it with --material, or in the list.")
    return material(desk.book, name(called), now=desk.now).id


def _said(desk: Desk, found: "Covering") -> Answer:
    from stockroom.lines import panels as words
    from stockroom.work.look import materials

    known = materials(desk.book, now=desk.now)
    return Answer(
        values=words.values(found, known),
        lines=words.lines(found, known, desk.shop, desk.width),
    )
