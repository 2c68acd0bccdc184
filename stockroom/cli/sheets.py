"""`stockroom wall-card`, `van-sheet`, `power-cut-sheet`: pages for a wall or a clipboard."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stockroom.cli.desk import Desk, maybe, name, reads
from stockroom.cli.saying import Answer

if TYPE_CHECKING:
    from stockroom.labels.hand_sheet import HandSheet

To = Annotated[Path, typer.Option("-o", metavar="FILE", help="The .pdf to write.")]
On = Annotated[str, typer.Option("--paper", metavar="SHEET", help="a4 or letter.")]


@reads
def wall_card(desk: Desk, to: To, paper: On = "a4") -> Answer:
    """Write a page of codes to scan instead of typing: OK, undo, digits, who is at work."""
    from stockroom.labels.files import refuse_unless_pdf, write
    from stockroom.labels.paper import read_paper
    from stockroom.work import sheets

    sheet = read_paper(paper)
    refuse_unless_pdf(to)
    write(to, sheets.wall_card(desk.book, now=desk.now, paper=sheet))
    return Answer(
        values={"file": str(to), "paper": sheet.name},
        lines=[f"{to}: the wall card; print it at its own size and hang it by the bench"],
    )


@reads
def van_sheet(
    desk: Desk,
    to: To,
    place: Annotated[
        str | None,
        typer.Option(metavar="PLACE", help="What is there; else everything that is out."),
    ] = None,
    paper: On = "a4",
) -> Answer:
    """Write a sheet to fill by hand: the pieces in a van, what was taken, for which job."""
    from stockroom.work import sheets

    sheet = sheets.van_sheet(desk.book, now=desk.now, where=maybe(place, name))
    return _written(sheet, to, paper)


@reads
def power_cut_sheet(desk: Desk, to: To, paper: On = "a4") -> Answer:
    """Write a sheet of empty lines for cuts while there is no power; print it before."""
    from stockroom.work import sheets

    return _written(sheets.power_cut_sheet(desk.book, now=desk.now), to, paper)


def _written(sheet: "HandSheet", to: Path, paper: str) -> Answer:
    from stockroom.labels.files import refuse_unless_pdf, write
    from stockroom.labels.hand_sheet import hand_sheet
    from stockroom.labels.paper import read_paper

    size = read_paper(paper)
    refuse_unless_pdf(to)
    write(to, hand_sheet(sheet, size))
    codes = [row.code for row in sheet.rows]
    said = f"{len(codes)} {'piece' if len(codes) == 1 else 'pieces'}" if codes else "empty lines"
    return Answer(
        values={"file": str(to), "paper": size.name, "codes": codes},
        lines=[f"{to}: {sheet.title}, {said}"],
    )
