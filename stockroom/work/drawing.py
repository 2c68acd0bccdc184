"""What is drawn of the free stock of each material: the demand that an order has to cover.

Film leaves the free stock when it is cut, printed on or laminated; what is cut of a print later was
drawn before. A tool is drawn when it fails, for then another takes its place. Amounts are metres of full
width, or numbers of goods; discards and counts are no demand.
"""

from collections.abc import Iterable, Iterator
from itertools import groupby

from stockroom.books.use import Line
from stockroom.books.values import Material, Shop
from stockroom.plan.demand import Draw
from stockroom.work.back import CHARGING
from stockroom.work.begin import FAILED
from stockroom.work.charging import area_mm2
from stockroom.work.laminate import LAMINATE, LAMINATED
from stockroom.work.printing import PRINT, PRINTED
from stockroom.work.receive import OURS
from stockroom.work.use import full_width_m

_BORN = (PRINTED, LAMINATED)
DRAWING = (*CHARGING, *_BORN, FAILED)
"""The kinds of move that draws are read from."""


def drawn(found: Iterable[Line], known: dict[int, Material], shop: Shop) -> dict[int, list[Draw]]:
    """Every draw of each material that is ours, by the material's id; below zero it came back."""
    draws: dict[int, list[Draw]] = {}
    for line, taken in _taken(found):
        if not taken:
            continue
        amount = amount_of(taken, known[line.material_id])
        draw = Draw(shop.day_of(line.at), amount, line.job or "")
        draws.setdefault(line.material_id, []).append(draw)
    return draws


def amount_of(area_or_number: int, material: Material) -> float:
    """Metres of full width, or a number of goods; film of unknown width counts as nothing."""
    if not material.kind.comes_in_rolls:
        return float(area_or_number)
    return full_width_m(area_or_number, material) or 0.0


def _taken(found: Iterable[Line]) -> Iterator[tuple[Line, int]]:
    for _, act in groupby(found, key=lambda line: line.act):
        moves = tuple(act)
        made = sum(area_mm2(one.width_nm or 0, one.delta) for one in moves if one.kind in _BORN)
        for line in moves:
            if line.owner == OURS and not line.is_made and line.kind not in _BORN:
                yield line, _of(line, made)


def _of(line: Line, made_mm2: int) -> int:
    """The area or the number that left the free stock."""
    if line.form == "box":
        return -line.delta
    if line.kind in (PRINT, LAMINATE):
        return line.wasted_mm2 + made_mm2
    return line.used_mm2 + line.wasted_mm2
