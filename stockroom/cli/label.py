"""`stockroom label`: labels as a picture or pages to print."""

from pathlib import Path
from typing import Annotated

import typer

from stockroom.cli.desk import Desk, reads
from stockroom.cli.saying import Answer
from stockroom.codes.own import read_piece


@reads
def label(
    desk: Desk,
    codes: Annotated[list[str], typer.Argument(metavar="CODE", help="The pieces.")],
    to: Annotated[
        Path,
        typer.Option("-o", metavar="FILE", help="A .png for one label, a .pdf for any number."),
    ],
    size: Annotated[
        str | None, typer.Option(metavar="WxH", help="The label in millimetres, like 62x29.")
    ] = None,
    dpi: Annotated[
        int | None, typer.Option(metavar="DPI", help="203 or 300, as the printer has.")
    ] = None,
) -> Answer:
    """Write labels for pieces to a file to print."""
    from stockroom.labels.files import save
    from stockroom.labels.size import read_size
    from stockroom.work.label import labels

    wanted = [read_piece(code) for code in codes]
    written = read_size(size or desk.settings.label_size)
    dots = desk.settings.dpi if dpi is None else dpi
    save(labels(wanted, book=desk.book, now=desk.now), to, size=written, dpi=dots)
    number = "1 label" if len(wanted) == 1 else f"{len(wanted)} labels"
    return Answer(
        values={"file": str(to), "codes": wanted, "size": str(written), "dpi": dots},
        lines=[f"{to}: {number}, {written} mm at {dots} dpi; print it at its own size"],
    )
