"""What a job's panels take of film: each with its trim, a wide one in strips, less what is cut.

lines(…)       every Line: a panel or a strip of one as it is cut, and how many are still wanted
whole(done)    how many panels are cut, where strips of some are
panel_of(line) the panel of which a line is a strip
within(…)      where the panel lies in what is cut for it
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from stockroom.books.job_entries import JobPanel
from stockroom.books.values import Material
from stockroom.film.kinds import Finish
from stockroom.film.limits import House
from stockroom.plan.choosing import Wanted
from stockroom.plan.panels import Panel
from stockroom.plan.seams import strips

_STRIP = re.compile(r"(?P<of>.+) (?P<number>\d+)/(?P<strips>\d+)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """So many rectangles of one material, trims and all; sizes in nm."""

    name: str
    material_id: int
    across_nm: int
    along_nm: int
    number: int
    turns: bool
    group: str

    @property
    def wanted(self) -> Wanted:
        """The line as the plan sees it."""
        panel = Panel(
            name=self.name,
            across=self.across_nm,
            along=self.along_nm,
            number=self.number,
            turns=self.turns,
        )
        return Wanted(panel=panel, group=self.group)


def lines(
    panels: Iterable[JobPanel],
    materials: Mapping[int, Material],
    house: House,
    *,
    kind: str,
    done: Mapping[str, int],
) -> Iterator[Line]:
    """What is still to be cut for panels of a kind of job."""
    for panel in panels:
        for line in _lines(panel, materials[panel.material_id], house, kind):
            if (left := line.number - done.get(line.name, 0)) > 0:
                yield Line(
                    name=line.name,
                    material_id=line.material_id,
                    across_nm=line.across_nm,
                    along_nm=line.along_nm,
                    number=left,
                    turns=line.turns,
                    group=line.group,
                )


def whole(done: Mapping[str, int]) -> Mapping[str, int]:
    """How many panels of each name are cut; one in strips when all of its strips are."""
    found: dict[str, int] = {}
    of_strips: dict[tuple[str, int], dict[int, int]] = {}
    for name, number in done.items():
        if strip := _STRIP.fullmatch(name):
            key = strip["of"], int(strip["strips"])
            of_strips.setdefault(key, {})[int(strip["number"])] = number
        else:
            found[name] = found.get(name, 0) + number
    for (name, number), cut in of_strips.items():
        least = min(cut.get(place, 0) for place in range(1, number + 1))
        found[name] = found.get(name, 0) + least
    return found


def panel_of(line: str) -> str:
    """The name of the panel of which a line is a strip, or is the whole."""
    strip = _STRIP.fullmatch(line)
    return strip["of"] if strip else line


def usable_nm(width_nm: int, house: House) -> int:
    """How wide film is without its factory edges."""
    return width_nm - 2 * house.numbers["edge.unusable"]


def may_turn(panel: JobPanel, material: Material) -> bool:
    """Whether a panel may be turned by a quarter: never on film with a direction.

    Film to print on is taken to have one, unless somebody says that the panel may turn.
    """
    if material.finish is not None and Finish(material.finish).has_direction:
        return False
    if panel.turns is None:
        return not material.kind.is_printed_on
    return panel.turns


def must_match(material: Material) -> bool:
    """Whether adjoining panels must be of one lot; film nobody described must."""
    return material.finish is None or Finish(material.finish).shows_its_lot


def trims_of(panel: JobPanel, house: House, kind: str) -> tuple[int, int, int, int]:
    """What is cut off on the left, right, top and bottom; the house's, where nobody said."""
    edge = house.numbers[f"trim.{kind}"]
    return panel.trims_nm or (edge, edge, edge, edge)


def within(
    panel: JobPanel, line: str, size: tuple[int, int], trims: tuple[int, int, int, int]
) -> tuple[int, int, int, int]:
    """Where in a rectangle as it is cut the panel lies, and its size there: in it, trims are left out.

    Only the first and the last strip of a panel have a trim at a side. A panel that lies turned has
    its top and bottom at the sides.
    """
    left, right, top, bottom = trims
    if strip := _STRIP.fullmatch(line):
        left = left if int(strip["number"]) == 1 else 0
        right = right if strip["number"] == strip["strips"] else 0
    elif size != (panel.width_nm + left + right, panel.height_nm + top + bottom):
        left, right, top, bottom = top, bottom, left, right
    across_nm, along_nm = size
    return left, top, across_nm - left - right, along_nm - top - bottom


def _lines(panel: JobPanel, material: Material, house: House, kind: str) -> Iterator[Line]:
    left, right, top, bottom = trims_of(panel, house, kind)
    across_nm, along_nm = panel.width_nm + left + right, panel.height_nm + top + bottom
    number, turns = panel.number * panel.layers, may_turn(panel, material)
    group = panel.group if must_match(material) else ""
    usable = None if material.width_nm is None else usable_nm(material.width_nm, house)
    too_wide = usable is not None and across_nm > usable and not (turns and along_nm <= usable)
    if not (too_wide and panel.seams and usable is not None):
        yield Line(
            name=panel.name,
            material_id=material.id,
            across_nm=across_nm,
            along_nm=along_nm,
            number=number,
            turns=turns,
            group=group,
        )
        return
    overlap = house.numbers["seam.overlap"] if panel.overlap_nm is None else panel.overlap_nm
    several, each_nm = strips(across_nm, usable, overlap)
    for place in range(1, several + 1):
        yield Line(
            name=f"{panel.name} {place}/{several}",
            material_id=material.id,
            across_nm=each_nm,
            along_nm=along_nm,
            number=number,
            turns=False,
            group=group or (f"seam of {panel.name}" if must_match(material) else ""),
        )
