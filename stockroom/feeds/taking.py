"""What the lines of a logger's file say, taken one by one, with findings where they say nothing.

take_lines(text, understood, now_s)   Taken: readings with their lines, findings
"""

from array import array
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from io import StringIO
from itertools import islice

from stockroom.feeds.layout import Layout
from stockroom.feeds.lines import cells_of
from stockroom.feeds.numbers import Humidities, Temperatures
from stockroom.feeds.reading import Finding, Unread, Wrong, checked_instant
from stockroom.feeds.understanding import Understood, instants_of


@dataclass(slots=True)
class Taken:
    """What was taken so far: a reading is an item of each of the first four, by its line."""

    lines: "array[int]" = field(default_factory=lambda: array("q"))
    at_s: "array[int]" = field(default_factory=lambda: array("q"))
    temperature_c: list[float] = field(default_factory=list[float])
    rh_pct: list[float | None] = field(default_factory=list[float | None])
    findings: list[Finding] = field(default_factory=list[Finding])
    lost: int = 0
    _newest: dict[Wrong, int] = field(default_factory=dict[Wrong, int])

    def find(self, line: int, wrong: Wrong, text: str) -> None:
        """Add a finding; of lines in a row with the same one, the first says what it is."""
        place = self._newest.get(wrong)
        if place is not None and self.findings[place].last_line == line - 1:
            before = self.findings[place]
            self.findings[place] = Finding(before.first_line, line, wrong, before.text)
            return
        self._newest[wrong] = len(self.findings)
        self.findings.append(Finding(line, line, wrong, text))


def take_lines(text: str, understood: Understood, now_s: int) -> Taken:
    """What the lines say; an empty line and the heading said again say nothing."""
    layout = understood.layout
    wide, mark = layout.frame.cells, layout.frame.mark
    place, moment = layout.temperature.place, layout.frame.moment
    instants = instants_of(understood)
    temperatures = Temperatures(understood.scale)
    taken = Taken()
    humidity = _humidity_of(layout, taken)
    before_s: int | None = None
    for number, line in enumerate(_from(text, layout.first_line), layout.first_line):
        try:
            cells = cells_of(line, mark)
            if len(cells) != wide:
                cells = _as_wide(cells, layout)
            day, clock = moment(cells)
            before_s = checked_instant(instants.at_s(day, clock, before_s, number), now_s)
            temperature_c = temperatures[cells[place]]
        except Unread as unread:
            if not line.isspace() and line != layout.heading:
                taken.lost += 1
                taken.find(number, unread.wrong, unread.text)
            continue
        taken.lines.append(number)
        taken.at_s.append(before_s)
        taken.temperature_c.append(temperature_c)
        taken.rh_pct.append(humidity(number, cells))
    for day_of_change, number in instants.unsure.items():
        taken.find(
            number,
            Wrong.REPEATED_HOUR,
            f"the clock was set back on {day_of_change}, so that this hour came twice: taken for "
            "the first",
        )
    return taken


def _from(text: str, first_line: int) -> Iterator[str]:
    return islice(StringIO(text), first_line - 1, None)


def _as_wide(cells: list[str], layout: Layout) -> list[str]:
    """The cells as many as there should be; empty ones at the end are no matter."""
    wide = layout.frame.cells
    if len(cells) <= layout.last_needed or any(cell.strip() for cell in cells[wide:]):
        said = "1 cell" if len(cells) == 1 else f"{len(cells)} cells"
        raise Unread(Wrong.NOT_A_LINE, f"it has {said}, and not {wide}")
    return [*cells[:wide], *[""] * (wide - len(cells))]


def _humidity_of(layout: Layout, taken: Taken) -> Callable[[int, list[str]], float | None]:
    """What gives the humidity of a line, and finds what is none."""
    if layout.humidity is None:
        return lambda _, __: None
    place = layout.humidity.place
    humidities = Humidities()

    def humidity(number: int, cells: list[str]) -> float | None:
        cell = cells[place]
        rh_pct = humidities[cell]
        if rh_pct is None and cell in humidities.odd:
            taken.find(number, Wrong.NO_HUMIDITY, humidities.odd[cell])
        return rh_pct

    return humidity
