"""What each column of a logger's file holds.

    layout_of(lines)   Layout, from the first lines of a file; refused where it cannot be told

Where a number could be taken for another one, as with a comma that divides cells and decimals,
the file is refused rather than read wrongly.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import median

from stockroom.errors import Code, Refusal, clean_text
from stockroom.feeds.headings import Meaning, Scale, meaning_of, scale_of
from stockroom.feeds.lines import Frame, cells_of, frame_of
from stockroom.feeds.numbers import Number, number_of

LOOKED_AT = 1_000
"""How many lines show the layout of a file."""

_HOT_FOR_CELSIUS = 45.0
_UNIT = re.compile(
    r"[\[(]?\s*(?:(?:°|º|deg\.?)?\s?[cf]|℃|℉|celsius|fahrenheit|%\s?(?:r\.?\s?[hf]\.?)?|v|h?pa|s|min|h"
    r"|utc.*|[dmy]{1,4}[-/. ].*|hh.*)\s*[\])]?"
)
_A_PAIR = 2
_MOST_NAMED = 8


@dataclass(frozen=True, slots=True)
class Column:
    """A column by its place in a line, from 0, and its heading, which may be empty."""

    place: int
    heading: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """How a file is laid out.

    Readings may stand from `first_line` on. `scale` is None where no unit is written; `is_hot` then says that the numbers are too high to be
    degrees Celsius of a store. `passed_over` are the headings of other temperatures in the file.
    """

    frame: Frame
    heading_line: int | None
    heading: str
    first_line: int
    day: Column
    clock: Column | None
    temperature: Column
    humidity: Column | None
    scale: Scale | None
    is_hot: bool
    has_decimal_comma: bool
    passed_over: tuple[str, ...]

    @property
    def last_needed(self) -> int:
        """The place of the last cell without which a line says nothing."""
        return max(self.temperature.place, self.frame.day, self.frame.clock or 0)


def layout_of(lines: Sequence[str]) -> Layout:
    """How a file is laid out, as its first lines show."""
    frame = frame_of(lines)
    if frame is None:
        raise Refusal(
            Code.BAD_FILE,
            "No line has a day, a time and a number: give a CSV file with a heading, like "
            "at,temperature_c,rh_pct.",
        )
    heading_line, first_line, headings = _headings(lines, frame)
    columns = [
        _Filled(place, headings[place], tuple(_numbers(frame, place)))
        for place in range(frame.cells)
        if place not in (frame.day, frame.clock)
    ]
    _refuse_commas_of_two_kinds(frame, [column for column in columns if column.numbers])
    temperature, humidity, passed_over = _chosen(columns, frame)
    scale = scale_of(temperature.heading) or _scale_in_cells(temperature)
    values = [number.value for number in temperature.numbers] or [0.0]
    return Layout(
        frame=frame,
        heading_line=heading_line,
        heading="" if heading_line is None else lines[heading_line - 1],
        first_line=first_line,
        day=Column(frame.day, headings[frame.day]),
        clock=None if frame.clock is None else Column(frame.clock, headings[frame.clock]),
        temperature=temperature.column,
        humidity=None if humidity is None else humidity.column,
        scale=scale,
        is_hot=scale is None and median(values) > _HOT_FOR_CELSIUS,
        has_decimal_comma=any("," in cells[temperature.place] for _, cells in frame.rows),
        passed_over=tuple(column.name for column in passed_over),
    )


@dataclass(frozen=True, slots=True)
class _Filled:
    """A column beside those that say when, with the numbers seen in it."""

    place: int
    heading: str
    numbers: tuple[Number, ...]

    @property
    def column(self) -> Column:
        return Column(self.place, self.heading)

    @property
    def name(self) -> str:
        return self.heading or f"column {self.place + 1}"

    @property
    def meaning(self) -> Meaning | None:
        """What it holds by its heading, or else by the units of its numbers."""
        if (meaning := meaning_of(self.heading)) is not None:
            return meaning
        if any(number.degrees for number in self.numbers):
            return Meaning.TEMPERATURE
        return Meaning.HUMIDITY if any(number.percent for number in self.numbers) else None


def _numbers(frame: Frame, place: int) -> Iterable[Number]:
    found = (number_of(cells[place]) for _, cells in frame.rows)
    return (number for number in found if number is not None)


def _headings(lines: Sequence[str], frame: Frame) -> tuple[int | None, int, list[str]]:
    """The line of the headings, the first line that is no heading, and one heading a cell.

    A line of units below the headings is joined into them.
    """
    first = frame.rows[0][0]
    above = [
        (number, cells)
        for number in range(first - 1, 0, -1)
        if (cells := _stripped(lines[number - 1], frame.mark))
    ]
    place = next((at for at, (_, cells) in enumerate(above) if _is_heading(cells)), None)
    if place is None:
        return None, first, [""] * frame.cells
    number, names = above[place]
    after = number + 1
    if _are_units(names) and place + 1 < len(above):
        number, upper = above[place + 1]
        width = max(len(names), len(upper))
        pairs = zip(_filled_up(upper, width), _filled_up(names, width), strict=True)
        names = [" ".join(filter(None, pair)) for pair in pairs]
    return number, after, _fitted(number, names, frame)


def _is_heading(cells: Sequence[str]) -> bool:
    """Whether a line heads columns: it has several cells, and no number, and one has a meaning."""
    return (
        len(cells) > 1
        and any(meaning_of(cell) for cell in cells)
        and not any(number_of(cell) for cell in cells)
    )


def _stripped(line: str, mark: str) -> list[str]:
    """The cells of a line in harmless text, without empty ones at its end."""
    cells = [clean_text(cell) for cell in cells_of(line, mark)]
    while cells and not cells[-1]:
        cells.pop()
    return cells


def _are_units(cells: Sequence[str]) -> bool:
    """Whether a line holds only units, °C or % among them."""
    said = [cell.casefold() for cell in cells if cell]
    return all(_UNIT.fullmatch(cell) for cell in said) and any(
        scale_of(cell) or "%" in cell for cell in said
    )


def _filled_up(cells: Sequence[str], width: int) -> list[str]:
    return [*cells, *[""] * (width - len(cells))]


def _fitted(line: int, names: Sequence[str], frame: Frame) -> list[str]:
    """One heading a cell; a heading of day and time in one counts for two cells."""
    used = max(len(_trimmed(cells)) for _, cells in frame.rows)
    is_one_short = len(names) == used - 1 and frame.clock == frame.day + 1
    if is_one_short:
        names = [*names[: frame.day + 1], "", *names[frame.day + 1 :]]
    if len(names) < used:
        hint = " Where a comma divides decimals, export with ; or a tab." * (frame.mark == ",")
        raise Refusal(
            Code.BAD_FILE,
            f"The heading on line {line} has {len(names)} cells and the lines below it have "
            f"{used}.{hint}",
        )
    return _filled_up(names, frame.cells)


def _trimmed(cells: Sequence[str]) -> Sequence[str]:
    last = max((place for place, cell in enumerate(cells) if cell.strip()), default=-1)
    return cells[: last + 1]


def _refuse_commas_of_two_kinds(frame: Frame, filled: Sequence[_Filled]) -> None:
    """Refuse 21,5,45,2 without a heading for each number: nobody can tell 21.5 from 21 and 5."""
    beside = [column for column in filled if column.place > frame.first]
    are_whole = all(number.is_whole for column in beside for number in column.numbers)
    has_unnamed = any(column.meaning is None for column in beside)
    if frame.mark == "," and are_whole and has_unnamed and len(beside) > 1:
        raise Refusal(
            Code.BAD_FILE,
            "A comma may divide columns or decimals here: export with ; or a tab, or give every "
            "column a heading.",
        )


def _chosen(
    columns: Sequence[_Filled], frame: Frame
) -> tuple[_Filled, _Filled | None, Sequence[_Filled]]:
    """The columns of temperature and humidity, and other temperatures that are passed over."""
    warm = [column for column in columns if column.meaning is Meaning.TEMPERATURE]
    damp = next((column for column in columns if column.meaning is Meaning.HUMIDITY), None)
    if warm:
        warm.sort(key=lambda column: not column.numbers)
        return warm[0], damp, warm[1:]
    others = [
        column
        for column in columns
        if column.numbers and column.meaning is None and column.place > frame.first
    ]
    if len(others) == 1:
        return others[0], damp, ()
    if len(others) == _A_PAIR and damp is None and not any(column.heading for column in columns):
        return others[0], others[1], ()
    named = ", ".join(column.name for column in columns[:_MOST_NAMED])
    raise Refusal(
        Code.BAD_FILE,
        f"No column is headed as a temperature: there are {named}. Head one temperature_c.",
    )


def _scale_in_cells(column: _Filled) -> Scale | None:
    """The scale that stands beside the numbers of a column."""
    named = {scale_of(number.degrees) for number in column.numbers if number.degrees}
    return named.pop() if len(named) == 1 else None
