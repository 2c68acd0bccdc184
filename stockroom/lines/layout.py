"""A layout in words, as keys for programs, and drawn to scale: film as the long axis, its waste hatched.

layout_values(layout)           keys of --json; lengths in millimetres
layout_lines(layout, …)         what was found, each panel and each cut
drawn(layout, columns)          the film from its outer end, left to right
"""

from collections.abc import Iterator
from typing import Any

from stockroom.lines.laid import Film, fitting, picture
from stockroom.lines.text_table import Columns, table
from stockroom.plan.cuts import Cut
from stockroom.plan.layout import Layout, Placement, Stopped
from stockroom.units import MM, System
from stockroom.units.shown import show_length, show_size, show_width

_MOST_ROWS = 24

_STOPPED = {
    Stopped.BOUND: "nothing shorter is possible",
    Stopped.EFFORT: "more effort may find a shorter one",
    Stopped.SECONDS: "stopped by time: it may not repeat",
}


def layout_values(layout: Layout) -> dict[str, Any]:
    """A layout as keys: where each panel lies, and the cuts; `cuts` is null where a knife cannot."""
    return {
        "length_mm": _mm(layout.length),
        "bound_mm": _mm(layout.bound),
        "width_mm": _mm(layout.width),
        "waste_pct": round(layout.waste * 100, 3),
        "evaluations": layout.evaluations,
        "stopped_by": layout.stopped_by.value,
        "placements": [_placement(one) for one in layout.placements],
        "cuts": None if layout.cuts is None else [_cut(one) for one in layout.cuts],
    }


def _placement(one: Placement) -> dict[str, Any]:
    return {
        "name": one.name,
        "across_mm": _mm(one.x),
        "along_mm": _mm(one.y),
        "width_mm": _mm(one.across),
        "length_mm": _mm(one.along),
        "turned": one.turned,
    }


def _cut(one: Cut) -> dict[str, Any]:
    return {
        "number": one.number,
        "way": one.way.value,
        "at_mm": _mm(one.at),
        "from_mm": _mm(one.begins),
        "to_mm": _mm(one.ends),
    }


def layout_lines(layout: Layout, system: System, width: int) -> Iterator[str]:
    """What was found, each panel and each cut, in lines of a width."""
    over = layout.length / layout.bound - 1
    yield (
        f"{show_length(layout.length, system)} of film {show_width(layout.width, system)} wide, "
        f"{layout.waste:.1%} waste, at most {over:.1%} over what it must take: "
        f"{_STOPPED[layout.stopped_by]}."
    )
    panels = [_panel_cells(one, system) for one in layout.placements]
    yield from table(_PANELS, panels, width)
    if layout.cuts is None:
        yield "A straight knife cannot part this: it needs a cutting machine."
    elif layout.cuts:
        yield from table(_CUTS, [_cut_cells(one, system) for one in layout.cuts], width)


_PANELS = Columns(heads=("panel", "size", "across", "along", ""), right=frozenset({1, 2, 3}))
_CUTS = Columns(heads=("cut", "way", "at", "from", "to"), right=frozenset({0, 2, 3, 4}), flex=1)


def _panel_cells(one: Placement, system: System) -> tuple[str, ...]:
    size = show_size(one.across, one.along, system)
    where = show_width(one.x, system), show_width(one.y, system)
    return one.name, size, *where, "turned" if one.turned else ""


def _cut_cells(one: Cut, system: System) -> tuple[str, ...]:
    ends = (show_width(edge, system) for edge in (one.at, one.begins, one.ends))
    return str(one.number), one.way.value, *ends


def drawn(layout: Layout, columns: int) -> list[str]:
    """The layout in no more columns than these; rows are across the film. A panel too small for its name has none."""
    laid = [(one.name, one.x, one.y, one.across, one.along) for one in layout.placements]
    film = Film(layout.width, layout.length, tuple(laid))
    rows = picture(film, fitting(film, columns, _MOST_ROWS))
    return ["".join(run.text for run in row) for row in rows]


def _mm(length_nm: int) -> int | float:
    return length_nm // MM if length_nm % MM == 0 else length_nm / MM
