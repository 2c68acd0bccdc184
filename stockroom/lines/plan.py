"""A plan for a job: which film, why, each layout to scale with its cuts, and what is short.

plan_lines(found, shop, width)     for people
plan_values(found)                 as keys; lengths in millimetres
kept_lines, planned_values         what is reserved, or about to be cut
cut_done_lines                     what was cut as planned
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from typing import Any, cast

from stockroom.books.values import Shop
from stockroom.lines import words
from stockroom.lines.answers import mm
from stockroom.lines.layout import drawn, layout_values
from stockroom.lines.text_done import label_command
from stockroom.lines.text_table import Columns, table
from stockroom.plan.choosing import Choice, layout_of
from stockroom.plan.covering import Part
from stockroom.plan.cuts import Cut
from stockroom.plan.layout import Knife, Layout
from stockroom.plan.panels import Panel
from stockroom.plan.stock import Age
from stockroom.units import MM, System
from stockroom.units.shown import show_area, show_length, show_size, show_width
from stockroom.work.cut_plan import CutAsPlanned
from stockroom.work.plan_job import JobPlan, MaterialPlan
from stockroom.work.planned import PlannedCut
from stockroom.work.widths import Width

_AGES = {Age.OLD: "old", Age.MIDDLE: "middle-aged", Age.NEW: "new"}
_CUTS = Columns(heads=("cut", "way", "at", "from", "to"), right=frozenset({0, 2, 3, 4}), flex=1)
_MM2 = MM * MM


def plan_lines(found: JobPlan, shop: Shop, width: int, *, knife: Knife) -> list[str]:
    """The whole plan: for each material what it takes, piece by piece, and the next best choice."""
    head = (
        f"{words.code(found.job.code)}  {found.job.name}: planned for {words.day(found.on)}, "
        "film sound on that day"
    )
    lines = [head]
    if not found.materials:
        lines.append("Everything is cut.")
    for one in found.materials:
        lines += ["", *_material(one, shop, width, knife)]
    return lines


def _material(one: MaterialPlan, shop: Shop, width: int, knife: Knife) -> Iterator[str]:
    choice, system = one.choice, shop.system
    laid = len(choice.items) - len(choice.left)
    yield (
        f"{one.material.name}: {laid} of {words.counted(len(choice.items), 'panel')} covered, "
        f"{show_area(choice.drawn // _MM2, system)} drawn, "
        f"{show_area(max(0, choice.waste) // _MM2, system)} waste"
    )
    for name, number in one.missing.items():
        yield f"  short: {number} of {name}, {_size(choice, name, system)}: no film covers it"
    if (cheaper := cheapest(one.widths, system)) is not None:
        yield f"  {cheaper}"
    if one.missing and one.barred:
        barred = ", ".join(f"{number} {why}" for why, number in sorted(one.barred.items()))
        yield f"  not taken: {barred}"
    for place, part in enumerate(choice.parts):
        yield ""
        yield from _part(one, place, part, shop, width, knife)
    if one.instead is not None:
        yield ""
        yield f"  or else: {instead(choice, one.instead, system)}"


def cheapest(widths: Sequence[Width], system: System) -> str | None:
    """Which width of new film would cost least for what is missing; None where there is no choice."""
    if len(widths) < 2:  # noqa: PLR2004 - one alone has none beside it
        return None
    best, *_, worst = widths
    length = show_length(best.length_nm, system)
    if best.cost_minor == worst.cost_minor:
        return None
    less = round(100 * (1 - best.cost_minor / worst.cost_minor))
    return (
        f"new film: {length} of {best.material.name} costs {less} % less than "
        f"{show_length(worst.length_nm, system)} of {worst.material.name}"
    )


def _part(
    one: MaterialPlan, place: int, part: Part, shop: Shop, width: int, knife: Knife
) -> Iterator[str]:
    system = shop.system
    judged = one.pieces[part.film.code]
    before = f", from {show_length(part.begins, system)} on" if part.begins else ""
    yield (
        f"{words.code(part.film.code)} at {words.place(judged.standing.place)}, "
        f"{_AGES[part.film.age]}, {words.left(judged.standing, system)} left: "
        f"{show_length(part.length, system)}{before}"
    )
    layout = layout_of(one.choice, place, knife)
    yield from drawn(layout, width)
    if kept := one.choice.offcuts[place]:
        yield f"keeps an offcut of {show_size(kept[2], kept[3], system)}"
    if layout.cuts is None:
        yield "a straight knife cannot part this: it needs a cutting machine"
    elif layout.cuts:
        yield from table(_CUTS, [_cut_cells(cut, system) for cut in layout.cuts], width)


def _cut_cells(one: Cut, system: System) -> tuple[str, ...]:
    ends = (show_width(edge, system) for edge in (one.at, one.begins, one.ends))
    return str(one.number), one.way.value, *ends


def _size(choice: Choice, name: str, system: System) -> str:
    one = _item(choice, name)
    return show_size(one.across, one.along, system)


def _item(choice: Choice, name: str) -> Panel:
    return next(one for one in choice.items if one.name == name)


def instead(choice: Choice, other: Choice, system: System) -> str:
    """What the next best choice takes: `1.9 m of R000 003H instead, 0.4 m² more waste`."""
    taken = ", ".join(
        f"{show_length(sum(part.length for part in parts), system)} of {words.code(code)}"
        for code, parts in groupby(other.parts, key=lambda part: part.film.code)
    )
    more = (other.waste - choice.waste) // _MM2
    if not more:
        return f"{taken}, as little waste"
    word = "more" if more > 0 else "less"
    return f"{taken}, {show_area(abs(more), system)} {word} waste"


def plan_values(found: JobPlan, *, knife: Knife) -> dict[str, Any]:
    """The plan as keys; each film says its layout from where its stretch begins."""
    return {
        "job": found.job.code,
        "on": found.on.isoformat(),
        "is_short": found.is_short,
        "materials": [_values(one, knife) for one in found.materials],
    }


def _values(one: MaterialPlan, knife: Knife) -> dict[str, Any]:
    return {
        "material": one.material.name,
        "panels": [
            {
                "name": line.name,
                "across_mm": mm(line.across_nm),
                "along_mm": mm(line.along_nm),
                "count": line.number,
                "turns": line.turns,
                "group": line.group or None,
            }
            for line in one.lines
        ],
        "films": [
            film_values(part, layout_of(one.choice, place, knife), one.choice.offcuts[place])
            for place, part in enumerate(one.choice.parts)
        ],
        "missing": dict(one.missing),
        "new_film": [
            {
                "material": width.material.name,
                "length_mm": mm(width.length_nm),
                "cost_minor": width.cost_minor,
            }
            for width in one.widths
        ],
        "not_taken": dict(one.barred),
        "drawn_mm2": one.choice.drawn // _MM2,
        "waste_mm2": max(0, one.choice.waste) // _MM2,
        "instead": None
        if one.instead is None
        else {
            "films": [
                {"code": part.film.code, "length_mm": mm(part.length)} for part in one.instead.parts
            ],
            "drawn_mm2": one.instead.drawn // _MM2,
            "waste_mm2": max(0, one.instead.waste) // _MM2,
        },
    }


def film_values(
    part: Part, layout: Layout, kept: tuple[int, int, int, int] | None
) -> dict[str, Any]:
    """One film of a plan."""
    values = layout_values(layout)
    for untold in ("evaluations", "stopped_by"):
        del values[untold]
    return {
        "code": part.film.code,
        "lot": part.film.lot,
        "age": part.film.age.name.lower(),
        "begins_mm": mm(part.begins),
        "offcut": None
        if kept is None
        else {
            name: mm(edge)
            for name, edge in zip(
                ("across_mm", "along_mm", "width_mm", "length_mm"), kept, strict=True
            )
        },
        **values,
    }


def kept_lines(job: str, until: str | None, cuts: Iterable[PlannedCut], shop: Shop) -> list[str]:
    """What is drawn of each piece for a job, and what comes of it."""
    lines = [f"kept for {words.code(job)} until {until}"] if until else []
    for one in cuts:
        panels = ", ".join(f"{number} {name}" for name, number in one.panels.items())
        lines.append(
            f"{words.code(one.piece)}  {show_length(one.length_nm, shop.system)}: {panels}"
        )
        lines += (
            f"  keeps an offcut of {show_size(across, along, shop.system)}"
            for across, along in one.offcuts
        )
    return lines


def cut_done_lines(done: CutAsPlanned, shop: Shop) -> list[str]:
    """What was cut of each piece, what was kept, and how the offcuts get their labels."""
    lines = []
    for move in done.cuts:
        length_nm = cast("int", move.facts["length_nm"])
        lines.append(
            f"{words.code(move.piece)}  cut {show_length(length_nm, shop.system)}: "
            f"{show_area(move.used_mm2, shop.system)} used, "
            f"{show_area(move.wasted_mm2, shop.system)} waste"
        )
    for move in done.offcuts:
        across_nm = cast("int", move.sets["width_nm"])
        size = show_size(across_nm, move.balance, shop.system)
        lines.append(f"kept {words.code(move.piece)}, {size}: it needs a label")
    if done.offcuts:
        lines.append(label_command([move.piece for move in done.offcuts]))
    return lines


def planned_values(cuts: Iterable[PlannedCut]) -> list[dict[str, Any]]:
    """Planned cuts as keys; lengths in millimetres from the outer end."""
    return [
        {
            "code": one.piece,
            "length_mm": mm(one.length_nm),
            "panels": dict(one.panels),
            "offcuts": [
                {"across_mm": mm(across), "along_mm": mm(along)} for across, along in one.offcuts
            ],
            "placements": [
                {
                    "name": name,
                    "across_mm": mm(x),
                    "along_mm": mm(y),
                    "width_mm": mm(across),
                    "length_mm": mm(along),
                }
                for name, x, y, across, along in one.laid
            ],
        }
        for one in cuts
    ]
