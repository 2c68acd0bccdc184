"""`stockroom label`: labels as a picture, as pages to print, or on sheets of labels."""

import os
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stockroom.cli.desk import Desk, maybe, reads
from stockroom.cli.saying import Answer
from stockroom.codes.own import Letter, letter_of, read
from stockroom.errors import Code, Refusal, clean_text

if TYPE_CHECKING:
    from stockroom.labels.paper import Grid

_DPI_OF_SHEETS = 300
"""Office printers draw 300 or a multiple of it."""


@reads
def label(
    desk: Desk,
    codes: Annotated[
        list[str], typer.Argument(metavar="CODE", help="The pieces, places and jobs.")
    ],
    to: Annotated[
        Path,
        typer.Option("-o", metavar="FILE", help="A .png for one label, a .pdf for any number."),
    ],
    size: Annotated[
        str | None,
        typer.Option(metavar="WxH", help="The label in millimetres, like 62x29 or 100x150."),
    ] = None,
    dpi: Annotated[
        int | None, typer.Option(metavar="DPI", help="203 or 300, as the printer has.")
    ] = None,
    twice: Annotated[
        bool, typer.Option("--twice", help="Two labels a roll: one in the core, one on the box.")
    ] = False,
    sheet: Annotated[
        str | None, typer.Option(metavar="SHEET", help="On sheets of labels: a4 or letter.")
    ] = None,
    grid: Annotated[
        str | None, typer.Option(metavar="CxR", help="Labels across x down a sheet, else 3x8.")
    ] = None,
    start: Annotated[
        int | None, typer.Option(metavar="N", help="The first free label of a sheet used in part.")
    ] = None,
    margin: Annotated[
        str | None, typer.Option(metavar="LEFTxTOP", help="The margins of such a sheet.")
    ] = None,
    pitch: Annotated[
        str | None,
        typer.Option(metavar="ACROSSxDOWN", help="From the edge of a label to that of the next."),
    ] = None,
) -> Answer:
    """Write labels for pieces, places and jobs to a file to print."""
    from stockroom.labels.files import save, save_on_sheets
    from stockroom.labels.size import read_size
    from stockroom.work.label import labels

    wanted = _each(codes, twice=twice)
    of = read_size(size or desk.settings.label_size)
    said = _counted(wanted)
    values = {"file": str(to), "codes": wanted, "size": str(of)}
    laid = _grid(desk, sheet, grid, margin, pitch)
    if laid is None:
        _refuse_without_sheet({"grid": grid, "start": start, "margin": margin, "pitch": pitch})
        dots = desk.settings.dpi if dpi is None else dpi
        save(labels(wanted, book=desk.book, now=desk.now), to, size=of, dpi=dots)
        line = f"{to}: {said}, {of} mm at {dots} dpi; print it at its own size"
        return Answer(values=values | {"dpi": dots}, lines=[line])
    dots = _DPI_OF_SHEETS if dpi is None else dpi
    first = laid.checked_start(1 if start is None else start)
    found = labels(wanted, book=desk.book, now=desk.now)
    sheets = save_on_sheets(found, to, size=of, dpi=dots, grid=laid, start=first)
    pages = "1 sheet" if sheets == 1 else f"{sheets} sheets"
    where = f"{pages} of {laid.paper.name}, {laid.columns}x{laid.rows}, from label {first}"
    return Answer(
        values=values
        | {
            "dpi": dots,
            "sheet": laid.paper.name,
            "grid": f"{laid.columns}x{laid.rows}",
            "start": first,
            "sheets": sheets,
        },
        lines=[f"{to}: {said}, {where}; print it at its own size"],
    )


def refuse_labels_to(desk: Desk, to: Path) -> None:
    """Refuse a file that labels cannot go to, before anything is written that needs them."""
    from stockroom.labels.files import refuse_unless_pdf
    from stockroom.labels.size import read_size

    refuse_unless_pdf(to)
    read_size(desk.settings.label_size).dots(desk.settings.dpi)
    if not os.access(to.parent, os.W_OK):
        raise Refusal(
            Code.FILE_UNWRITABLE,
            f"'{clean_text(str(to))}' cannot be written there: choose another place.",
        )


def with_labels(desk: Desk, answer: Answer, codes: Sequence[str], to: Path) -> Answer:
    """The answer of an act that made pieces, with all their labels in one file; it stands without."""
    from stockroom.labels.files import save
    from stockroom.labels.size import read_size
    from stockroom.lines.text_done import label_command
    from stockroom.work.label import labels

    size, dpi = read_size(desk.settings.label_size), desk.settings.dpi
    try:
        save(labels(codes, book=desk.book, now=desk.now), to, size=size, dpi=dpi)
    except Refusal as refusal:
        said = f"It came in, but its labels are not written: {refusal.sentence}"
        return replace(answer, ends=Refusal(refusal.code, said))
    said = f"{to}: {_counted(codes)}, {size} mm at {dpi} dpi; print it at its own size"
    hint = label_command(codes)
    lines = [said if line == hint else line for line in answer.lines]
    return replace(answer, values={**answer.values, "labels_file": str(to)}, lines=lines)


def _counted(codes: Sequence[str]) -> str:
    return "1 label" if len(codes) == 1 else f"{len(codes)} labels"


def _each(codes: list[str], *, twice: bool) -> list[str]:
    """The codes that were typed; a roll's comes again where it gets two labels."""
    read_codes = [read(code) for code in codes]
    times = {Letter.ROLL: 2} if twice else {}
    return [code for code in read_codes for _ in range(times.get(letter_of(code), 1))]


def _grid(
    desk: Desk, sheet: str | None, grid: str | None, margin: str | None, pitch: str | None
) -> "Grid | None":
    """The sheet of labels that was asked for, if any."""
    from stockroom.labels.paper import read_grid, read_paper
    from stockroom.units.typed import parse_size

    if sheet is None:
        return None
    sides = (
        maybe(text, lambda text: parse_size(text, desk.shop.system)) for text in (margin, pitch)
    )
    margin_nm, pitch_nm = sides
    paper = read_paper(sheet)
    return read_grid(grid or "3x8", paper, margin_nm=margin_nm, pitch_nm=pitch_nm)


def _refuse_without_sheet(typed: dict[str, object]) -> None:
    """Refuse what only means something on sheets of labels."""
    for option, value in typed.items():
        if value is not None:
            raise Refusal(Code.BAD_USAGE, f"--{option} is for sheets of labels: add --sheet a4.")
