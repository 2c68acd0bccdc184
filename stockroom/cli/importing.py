"""`stockroom import`: a list of stock, materials or places out of a spreadsheet."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stockroom.cli.desk import Desk, name, writes
from stockroom.cli.files import content_of
from stockroom.cli.label import refuse_labels_to, with_labels
from stockroom.cli.saying import Answer
from stockroom.errors import Code, Refusal, clean_text

if TYPE_CHECKING:
    from stockroom.feeds.days import Order

_MOST_TYPED = 200
"""More codes than that nobody copies into a command."""

_LISTS = ("stock", "materials", "places")


@writes
def import_(
    desk: Desk,
    file: Annotated[Path, typer.Argument(metavar="FILE", help="An .xlsx workbook, or CSV.")],
    of: Annotated[
        str | None,
        typer.Option(
            "--as", metavar="stock|materials|places", help="Which list it is, if not plain."
        ),
    ] = None,
    sheet: Annotated[
        str | None, typer.Option(metavar="NAME", help="Which sheet of a workbook; else the first.")
    ] = None,
    column: Annotated[
        list[str] | None,
        typer.Option(
            metavar="HEADING=OURS",
            help='What a column holds, like "Roll lgth=length_ft"; "Remark=" passes it over.',
        ),
    ] = None,
    date_order: Annotated[
        str | None, typer.Option(metavar="dmy|mdy|ymd", help="In which order it writes a day.")
    ] = None,
    dry: Annotated[bool, typer.Option("--dry", help="Only show what is understood.")] = False,
    good_lines_only: Annotated[
        bool, typer.Option("--good-lines-only", help="Take the good lines, and leave the bad.")
    ] = False,
    labels: Annotated[
        Path | None, typer.Option(metavar="FILE", help="A .pdf for the labels of all that came in.")
    ] = None,
) -> Answer:
    """Read an opening stock, or a list of materials or places: show what is understood, then write it.

    One bad line keeps all of them out, unless --good-lines-only is said. What came in before is not
    written again.
    """
    from stockroom.lines import listed
    from stockroom.lines.text_done import label_command
    from stockroom.work.import_list import ImportList, keep, look_into, refuse_unready

    request = ImportList(
        raw=content_of(file),
        of=_one_of("--as", of, _LISTS),
        sheet=None if sheet is None else name(sheet),
        columns=dict(_said(column or [])),
        order=_order(date_order),
        good_lines_only=good_lines_only,
        **desk.asked(),
    )
    book = desk.book if desk.door.is_there() else None
    looked = look_into(request, book=book, shop=desk.shop, now=desk.now)
    lines, values = listed.understood(looked), listed.looked_values(looked)
    notes = listed.findings(looked.findings)
    if dry:
        return Answer(values=values, lines=[*lines, "Nothing was written."], notes=notes)
    if not desk.told.as_json:
        typer.echo("\n".join(lines), err=True)
    try:
        refuse_unready(request, looked)
    except Refusal as refusal:
        return Answer(values=values, lines=[], notes=notes, ends=refusal)
    if labels is not None:
        refuse_labels_to(desk, labels)
    done = keep(request, looked, book=desk.book, now=desk.now)
    values |= listed.imported_values(done)
    codes = listed.codes_of(done)
    hint = [label_command(codes)] if codes and (labels or len(codes) <= _MOST_TYPED) else []
    answer = Answer(values=values, lines=[*listed.imported(done), *hint], notes=notes)
    return with_labels(desk, answer, codes, labels) if labels is not None and codes else answer


def _said(columns: Sequence[str]) -> Iterator[tuple[str, str]]:
    """What a person says of columns, by their headings as these are compared."""
    from stockroom.feeds.headings import plain

    for text in columns:
        heading, equals, ours = text.rpartition("=")
        if not equals or not heading.strip():
            raise Refusal(
                Code.BAD_USAGE,
                f'--column {clean_text(text, 40)}: write "their heading=ours", like "Breite=width_mm".',
            )
        yield plain(clean_text(heading)), clean_text(ours).casefold()


def _one_of(option: str, text: str | None, choices: Sequence[str]) -> str | None:
    if text is None or text.casefold() in choices:
        return text and text.casefold()
    raise Refusal(Code.BAD_USAGE, f"{option} is one of {', '.join(choices)}.")


def _order(text: str | None) -> "Order | None":
    from stockroom.feeds.days import Order

    said = _one_of("--date-order", text, tuple(Order))
    return None if said is None else Order(said)
