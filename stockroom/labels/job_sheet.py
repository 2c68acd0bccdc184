"""The sheet that goes with a job: its code, what it covers, what is cut from which roll, cautions."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from stockroom.codes.own import grouped
from stockroom.labels.drawing import Drawing, fitting, width_mm
from stockroom.labels.paper import Paper

_MARGIN_MM: Final = 12.0
_SYMBOL_MM: Final = 26.0
_LINE_MM: Final = 5.2
_HEAD_MM: Final = 46.0
_TITLE_PT, _BOLD_PT, _TEXT_PT, _SMALL_PT = 18, 11, 9.5, 8
_MOST_ALONG_SHARE: Final = 0.62
_HOW_IT_LIES: Final = "outer end at the top; between a thick line and a thin one is trim"


@dataclass(frozen=True, slots=True)
class Rectangle:
    """What is laid on film, named, from the outer end and one edge; any one unit of length.

    `inside` is what is left of it without its trims: where that begins in it, across and along, and
    its size.
    """

    name: str
    size: str
    across: float
    along: float
    wide: float
    long: float
    inside: tuple[float, float, float, float] | None = None


@dataclass(frozen=True, slots=True)
class Knife:
    """One straight cut by its number: across the film at a place, or along it; between two edges."""

    number: int
    is_across: bool
    at: float
    begins: float
    ends: float
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmDrawing:
    """One piece of film: how much is drawn, what is laid on it, and the cuts in their order."""

    code: str
    title: str
    width: float
    length: float
    laid: tuple[Rectangle, ...]
    cuts: tuple[Knife, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class JobSheet:
    """What stands on the sheet of a job."""

    code: str
    title: str
    facts: tuple[str, ...]
    heads: tuple[str, ...]
    shares: tuple[int, ...]
    rows: tuple[tuple[str, ...], ...]
    cautions: tuple[str, ...]
    films: tuple[FilmDrawing, ...] = ()


def job_sheet(sheet: JobSheet, paper: Paper) -> bytes:
    """The sheet as PDF: the panels on the first pages, then a page for each piece of film."""
    drawing = Drawing(sheet.title, paper)
    room = drawing.width_mm - 2 * _MARGIN_MM
    cautions = [line for one in sheet.cautions for line in wrapped(one, _SMALL_PT, room)]
    foot = drawing.height_mm - _MARGIN_MM - 4 * len(cautions)
    a_page = int((foot - _HEAD_MM) / _LINE_MM) - 1
    pages = max(1, -(-len(sheet.rows) // a_page))
    for page in range(pages):
        _head(drawing, sheet.code, sheet.title, sheet.facts)
        _row(drawing, sheet.heads, sheet.shares, _HEAD_MM, bold=True)
        for number, row in enumerate(sheet.rows[page * a_page : (page + 1) * a_page], 1):
            _row(drawing, row, sheet.shares, _HEAD_MM + number * _LINE_MM, bold=False)
        for number, line in enumerate(cautions, 1):
            drawing.text(_MARGIN_MM, foot + 4 * number, line, _SMALL_PT)
        drawing.end_page()
    for film in sheet.films:
        _film(drawing, film, (grouped(sheet.code), sheet.title))
    return drawing.content()


def wrapped(words: str, points: float, most_mm: float) -> Iterator[str]:
    """Words in lines no wider than that."""
    line = ""
    for word in words.split():
        longer = f"{line} {word}".strip()
        if line and width_mm(longer, points) > most_mm:
            yield line
            line = word
        else:
            line = longer
    if line:
        yield line


def _head(drawing: Drawing, code: str, title: str, facts: Iterable[str]) -> None:
    room = drawing.width_mm - 2 * _MARGIN_MM - _SYMBOL_MM
    drawing.symbol(code, drawing.width_mm - _MARGIN_MM - _SYMBOL_MM, _MARGIN_MM - 4, _SYMBOL_MM)
    shown = fitting(title, _TITLE_PT, room, bold=True)
    drawing.text(_MARGIN_MM, _MARGIN_MM + 5, shown, _TITLE_PT, bold=True)
    drawing.text(_MARGIN_MM, _MARGIN_MM + 11, grouped(code), _BOLD_PT, bold=True)
    for number, fact in enumerate(facts):
        y = _MARGIN_MM + 16.5 + number * 4.5
        drawing.text(_MARGIN_MM, y, fitting(fact, _TEXT_PT, room), _TEXT_PT)


def _row(
    drawing: Drawing, cells: tuple[str, ...], shares: tuple[int, ...], y: float, *, bold: bool
) -> None:
    room = drawing.width_mm - 2 * _MARGIN_MM
    x = _MARGIN_MM
    for cell, share in zip(cells, shares, strict=True):
        width = room * share / sum(shares)
        drawing.text(x, y, fitting(cell, _TEXT_PT, width - 2, bold=bold), _TEXT_PT, bold=bold)
        x += width
    drawing.rule(_MARGIN_MM, y + 1.4, room, points=0.8 if bold else 0.2)


def _film(drawing: Drawing, film: FilmDrawing, job: tuple[str, str]) -> None:
    """Film goes down the page from its outer end, as it lies on the table."""
    _head(drawing, film.code, film.title, (f"for {job[0]}  {job[1]}", _HOW_IT_LIES))
    room = drawing.width_mm - 2 * _MARGIN_MM
    most_long = drawing.height_mm - _HEAD_MM - _MARGIN_MM
    scale = min(room * _MOST_ALONG_SHARE / film.width, most_long / film.length)
    left, top = _MARGIN_MM, _HEAD_MM
    _box(drawing, (left, top, film.width * scale, film.length * scale), points=1.0)
    for one in film.laid:
        x, y = left + one.across * scale, top + one.along * scale
        wide, long = one.wide * scale, one.long * scale
        _box(drawing, (x, y, wide, long), points=0.5)
        if one.inside is not None:
            across, along, *sides = (length * scale for length in one.inside)
            _box(drawing, (x + across, y + along, sides[0], sides[1]), points=0.15)
        for number, (words, points) in enumerate(((one.name, _BOLD_PT), (one.size, _SMALL_PT))):
            baseline = y + long / 2 + 4.5 * number
            if long > 5 + 5 * number and wide > width_mm(words, points) + 2:
                drawing.text(x + 1.5, baseline, words, points, bold=not number)
    x = left + film.width * scale + 6
    for number, cut in enumerate(film.cuts):
        y = top + number * 4.4 + 3
        if y < top + most_long:
            words = fitting(
                f"{cut.number}  {cut.words}", _TEXT_PT, drawing.width_mm - x - _MARGIN_MM
            )
            drawing.text(x, y, words, _TEXT_PT)
        at, begins = cut.at * scale, cut.begins * scale
        place = (left + begins, top + at) if cut.is_across else (left + at, top + begins)
        drawing.text(place[0] + 0.5, place[1] - 0.4, str(cut.number), 6)
    drawing.end_page()


def _box(drawing: Drawing, box: tuple[float, float, float, float], *, points: float) -> None:
    x, y, wide, long = box
    for level in (y, y + long):
        drawing.rule(x, level, wide, points=points)
    for upright in (x, x + wide):
        drawing.rule(upright, y, 0, points=points, drop_mm=long)
