"""The panels of a job, and how many of them are cut: as plain lines and as values."""

from collections.abc import Iterable
from typing import Any

from stockroom.books.job_entries import JobPanel
from stockroom.books.values import Material, Shop
from stockroom.lines import words
from stockroom.lines.answers import mm
from stockroom.lines.text_table import Columns, table
from stockroom.units import System
from stockroom.units.shown import show_size, show_width
from stockroom.work.panels import Covering

PANELS_OF = {"glass": "pane", "vehicle": "part", "graphic": "graphic"}
"""What a panel is called by the kind of job."""


def lines(found: Covering, materials: Iterable[Material], shop: Shop, width: int) -> list[str]:
    """The job's stage, and each of its panels."""
    said = PANELS_OF.get(found.job.kind, "panel")
    head = f"{words.code(found.job.code)}  {found.job.name}: {found.stage}"
    if not found.panels:
        return [head, f"No {said} is written down yet: `stockroom job panels {found.job.code}`."]
    named = {one.id: one.name for one in materials}
    columns = Columns(
        heads=(said, "size", "trim", "film", "cut", ""), right=frozenset({1, 2, 4}), flex=3
    )
    spare = dict(found.done)
    rows: list[tuple[str, ...]] = []
    for one in found.panels:
        wanted = one.number * one.layers
        cut = min(wanted, spare.get(one.name, 0))
        rows.append(
            (
                one.name,
                show_size(one.width_nm, one.height_nm, shop.system),
                trim(one, shop.system),
                named[one.material_id],
                f"{cut} of {wanted}",
                remarks(one),
            )
        )
    return [head, *table(columns, rows, width)]


def trim(one: JobPanel, system: System) -> str:
    """What is cut off at the edges; the house's, where nobody said."""
    if one.trims_nm is None:
        return "house"
    edges = [show_width(edge, system) for edge in one.trims_nm]
    return edges[0] if len(set(edges)) == 1 else "/".join(edges).replace(" mm", "", len(edges) - 1)


def remarks(one: JobPanel) -> str:
    """What else is to be minded of a panel."""
    said = [f"lot of {one.group}"] if one.group else []
    if one.turns is not None:
        said.append("may turn" if one.turns else "must not turn")
    if one.seams:
        said.append("seam")
    if one.layers > 1:
        said.append("two layers")
    return ", ".join(said)


def values(found: Covering, materials: Iterable[Material]) -> dict[str, Any]:
    """The panels as keys: lengths in millimetres; a trim that is null is the house's."""
    named = {one.id: one.name for one in materials}
    return {
        "job": found.job.code,
        "stage": found.stage,
        "panels": [
            {
                "name": one.name,
                "width_mm": mm(one.width_nm),
                "height_mm": mm(one.height_nm),
                "count": one.number,
                "layers": one.layers,
                "material": named[one.material_id],
                "trims_mm": None if one.trims_nm is None else [mm(edge) for edge in one.trims_nm],
                "turns": one.turns,
                "group": one.group or None,
                "seams": one.seams,
                "overlap_mm": mm(one.overlap_nm),
                "cut_count": found.done.get(one.name, 0),
            }
            for one in found.panels
        ],
    }
